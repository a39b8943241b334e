package main

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// renderers returns the processes that run pages in the browsers that we started, without
// the browsers' own panels. Only Linux provides them; elsewhere there are none.
func renderers() (pids []int) {
	parents := map[int]int{}
	statuses, _ := filepath.Glob("/proc/[0-9]*/stat")
	for _, file := range statuses {
		pid, _ := strconv.Atoi(filepath.Base(filepath.Dir(file)))
		text, _ := os.ReadFile(file)                          // it may have ended meanwhile
		_, after, _ := strings.Cut(string(text), ") ")        // its name may contain anything
		if fields := strings.Fields(after); len(fields) > 1 { // its state, its parent
			parents[pid], _ = strconv.Atoi(fields[1])
		}
	}
	for pid := range parents {
		words, _ := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "cmdline"))
		args := strings.FieldsFunc(string(words), func(r rune) bool { return r == 0 || r == ' ' }) // a forked process separates its arguments by spaces
		if slices.Contains(args, "--type=renderer") && !slices.Contains(args, "--top-chrome-webui") && descends(parents, pid) {
			pids = append(pids, pid)
		}
	}
	return pids
}

// descends reports whether a process is ours.
func descends(parents map[int]int, pid int) bool {
	for pid > 1 && pid != os.Getpid() {
		pid = parents[pid]
	}
	return pid > 1
}

// processorTime returns the processor time that all threads of some processes have used
// so far.
func processorTime(pids []int) (used time.Duration) {
	for _, pid := range pids {
		threads, _ := filepath.Glob(filepath.Join("/proc", strconv.Itoa(pid), "task/*/schedstat"))
		for _, file := range threads {
			text, _ := os.ReadFile(file)
			on, _, _ := strings.Cut(string(text), " ") // time on a processor in ns
			ns, _ := strconv.ParseInt(on, 10, 64)
			used += time.Duration(ns)
		}
	}
	return used
}
