package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// clockTick is the unit of processor time in /proc; it is 1/100 s on every
// Linux that Go runs on (man 5 proc, sysconf _SC_CLK_TCK).
const clockTick = 10 * time.Millisecond

// descendantsCPU is the processor time used so far by every process that this
// one started, their children included.
func descendantsCPU() (time.Duration, error) {
	stats, err := filepath.Glob("/proc/[0-9]*/stat")
	if err != nil || len(stats) == 0 {
		return 0, fmt.Errorf("processor time is read from /proc, which this system does not have")
	}
	parent := map[int]int{}
	used := map[int]time.Duration{}
	for _, path := range stats {
		pid, ppid, cpu, ok := readStat(path)
		if ok {
			parent[pid], used[pid] = ppid, cpu
		}
	}
	var sum time.Duration
	for pid := range parent {
		if descends(parent, pid, os.Getpid()) {
			sum += used[pid]
		}
	}
	return sum, nil
}

// readStat reads one /proc/PID/stat (man 5 proc: field 4 is the parent, 14 and
// 15 the user and system time). A process that has just gone is not an error.
func readStat(path string) (pid, ppid int, cpu time.Duration, ok bool) {
	data, err := os.ReadFile(path)
	if err != nil {
		return 0, 0, 0, false
	}
	text := string(data)
	end := strings.LastIndexByte(text, ')') // the name may hold anything
	if end < 0 {
		return 0, 0, 0, false
	}
	pid, err = strconv.Atoi(strings.Fields(text)[0])
	f := strings.Fields(text[end+1:])
	if err != nil || len(f) < 13 {
		return 0, 0, 0, false
	}
	ppid, err1 := strconv.Atoi(f[1])
	user, err2 := strconv.Atoi(f[11])
	system, err3 := strconv.Atoi(f[12])
	return pid, ppid, time.Duration(user+system) * clockTick, err1 == nil && err2 == nil && err3 == nil
}

func descends(parent map[int]int, pid, from int) bool {
	for n := 0; n < 64 && pid > 1; n++ {
		if pid = parent[pid]; pid == from {
			return true
		}
	}
	return false
}
