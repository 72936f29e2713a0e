// Command scrubline checks what will touch what on a lowered vehicle, and
// serves the sketcher to a tablet.
package main

import (
	"fmt"
	"io"
	"os"
)

// Exit statuses of every command.
const (
	exitClear = 0 // nothing falls short
	exitShort = 1 // something does
	exitBad   = 2 // the file or the arguments are bad
)

const usage = `scrubline finds out what will touch what, at every height, before the first cut.

  scrubline serve [-listen ADDR] [-cert FILE -key FILE] [-open]
                                         the sketcher, for the browser of this machine or a tablet
  scrubline export DIR                   the page as a folder for any host of plain files
  scrubline check [-json] [-variant ID] FILE
                                         what falls short; exit status 0 nothing, 1 something, 2 bad file;
                                         gap and ladder take -variant too
  scrubline compare [-json] FILE         the scene as drawn beside its variants
  scrubline gap FILE PART PART [-at FL,FR,RL,RR[,STEER]] [-move ID=BY,…] [-json]
                                         the gap of two parts in one state: corner heights in mm over ride
                                         (default 0,0,0,0), steer in degrees, positive to the right,
                                         movements in degrees or mm
  scrubline ladder [-up] [-end front|rear|both] [-without KEY]… [-json] FILE
                                         what happens in order on the way down from ride (or up), and how much
                                         further it goes when that is mended; -without supposes a KEY mended
  scrubline mend [-along x,y,z] [-within MM] [-noturn] [-json] FILE PART
                                         the smallest moves of a part that keep all its needs at every height;
                                         exit status 0 clear or a move found, 1 none
  scrubline room -view section|side|plan [-reach MM] [-cell MM] [-json|-svg] FILE PART
                                         where a part may be in a view's plane; exit status 0 it may be where it
                                         stands, 1 it may not
  scrubline new FILE                     a starter scene to fill in
`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(stderr, usage)
		return exitBad
	}
	switch args[0] {
	case "serve":
		return runServe(args[1:], stdout, stderr)
	case "export":
		return runExport(args[1:], stdout, stderr)
	case "check":
		return runCheck(args[1:], stdout, stderr)
	case "gap":
		return runGap(args[1:], stdout, stderr)
	case "ladder":
		return runLadder(args[1:], stdout, stderr)
	case "compare":
		return runCompare(args[1:], stdout, stderr)
	case "mend":
		return runMend(args[1:], stdout, stderr)
	case "room":
		return runRoom(args[1:], stdout, stderr)
	case "new":
		return runNew(args[1:], stdout, stderr)
	case "help", "-h", "-help", "--help":
		fmt.Fprint(stdout, usage)
		return exitClear
	}
	fmt.Fprintf(stderr, "scrubline: unknown command %q; there are serve, export, check, compare, gap, ladder, mend, room and new\n", args[0])
	return exitBad
}
