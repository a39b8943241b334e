package main

import (
	"fmt"
	"os"
	"runtime"
	"strings"
)

// machine says where the figures come from, and how busy it is there: a load
// beyond what the bench itself makes spoils them.
func machine() string {
	text := fmt.Sprintf("%s, %s/%s, %d processors", runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	// Only Linux has this file; elsewhere the line does without.
	if load, err := os.ReadFile("/proc/loadavg"); err == nil {
		text += ", load " + strings.Join(strings.Fields(string(load))[:3], " ")
	}
	return text
}
