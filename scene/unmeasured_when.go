package scene

// onlyWith is a field that means something at one choice of another field alone.
func onlyWith(name, choice string, f Field) Field {
	f.When = func(s Size) bool { return s.Text(name) == choice }
	return f
}

// notWith is a field that means nothing at one choice of another field.
func notWith(name, choice string, f Field) Field {
	f.When = func(s Size) bool { return s.Text(name) != choice }
	return f
}

// withSome is a field that means something where a length is not left out.
func withSome(name string, f Field) Field {
	f.When = func(s Size) bool { return there(s.Num(name)) }
	return f
}
