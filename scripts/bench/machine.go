package main

import (
	"fmt"
	"os"
	"runtime"
	"strings"
)

// machine describes the machine of the figures, and how busy it is: load beyond that of
// the bench itself spoils them.
func machine() string {
	text := fmt.Sprintf("%s, %s/%s, %d processors", runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	// Only Linux has this file; elsewhere the load is left out.
	if load, err := os.ReadFile("/proc/loadavg"); err == nil {
		text += ", load " + strings.Join(strings.Fields(string(load))[:3], " ")
	}
	return text
}
