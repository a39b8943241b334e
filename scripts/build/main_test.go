package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/scripts/lib/pack"
)

func TestPrintSizes(t *testing.T) {
	var b strings.Builder
	printSizes(&b, &pack.Report{Files: []pack.File{
		{Name: "icon.png", Raw: 500},
		{Name: "page.wasm", Raw: 2000, Gzip: 900, Brotli: 700},
		{Name: "pivotbench.html", Raw: 5000},
	}})
	var rows []string
	for line := range strings.Lines(b.String()) {
		rows = append(rows, strings.Join(strings.Fields(line), " "))
	}
	assert.Equal(t, []string{
		"raw gzip brotli file",
		"500 500 500 icon.png",
		"2000 900 700 page.wasm",
		"5000 5000 5000 pivotbench.html",
		"2500 1400 1200 in all",
	}, rows)
}
