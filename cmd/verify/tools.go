package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// tool is a program or library the tests need and the Debian package that
// brings it.
type tool struct {
	names []string // programs, or files by their whole path; any of these will do
	pkg   string
	why   string
}

var needed = []tool{
	{[]string{"gcc", "cc"}, "gcc", "the race detector"},
	{[]string{"node"}, "nodejs", "running WebAssembly tests"},
	{[]string{"chromium", "chromium-browser", "google-chrome"}, "chromium", "the browser tests"},
	{[]string{"g++"}, "g++", "building the program that gaps are held against"},
	{[]string{"/usr/include/eigen3/Eigen/Core"}, "libeigen3-dev", "that program"},
	{[]string{"/usr/include/ccd/ccd.h"}, "libccd-dev", "that program"},
	{[]string{"/usr/include/fcl/fcl.h"}, "libfcl-dev", "that program"},
}

// tools makes sure that every needed program and library is there, and installs what is
// missing from the machine's own Debian packages.
func tools() (passed, failed int) {
	fresh := false
	for _, t := range needed {
		if t.found() {
			passed++
			continue
		}
		fmt.Printf("   %s is missing (%s): installing the package %s with apt-get\n", t.names[0], t.why, t.pkg)
		if !fresh {
			apt("update")
			fresh = true
		}
		apt("install", "-y", "--no-install-recommends", t.pkg)
		if !t.found() {
			fmt.Printf("   FAILED: %s is not to be had; install it by hand: %s\n", t.names[0], t.why)
			failed++
			continue
		}
		passed++
	}
	return passed, failed
}

func (t *tool) found() bool {
	for _, n := range t.names {
		if _, err := exec.LookPath(n); err == nil {
			return true
		}
		if _, err := os.Stat(n); filepath.IsAbs(n) && err == nil { // a header is no program
			return true
		}
	}
	return false
}

// apt runs apt-get, through sudo when not root. Its output is shown only when
// it fails.
func apt(args ...string) {
	name := "apt-get"
	if os.Geteuid() != 0 {
		name, args = "sudo", append([]string{"apt-get"}, args...)
	}
	c := exec.Command(name, args...)
	c.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	if out, err := c.CombinedOutput(); err != nil {
		fmt.Printf("   %s %v: %v\n%s", name, args, err, out)
	}
}
