module scrubline

go 1.26
