package bidi

import (
	"encoding/json"
	"fmt"
	"sync"
)

// logEntry is a line of the console in chromedriver's form.
type logEntry struct {
	Level   string `json:"level"`
	Source  string `json:"source"`
	Message string `json:"message"`
}

// log is what the console has received since it was last read.
type log struct {
	mu      sync.Mutex
	entries []logEntry
}

var levels = map[string]string{"error": "SEVERE", "warn": "WARNING", "info": "INFO", "debug": "DEBUG"}

// hear handles an event of the browser.
func (l *log) hear(event string, params json.RawMessage) {
	var e struct {
		Type, Level, Text string
		StackTrace        struct {
			CallFrames []struct {
				URL        string
				LineNumber int
			}
		}
	}
	if event != "log.entryAdded" || json.Unmarshal(params, &e) != nil {
		return
	}
	source, where := "console-api", ""
	if e.Type == "javascript" {
		source = e.Type
	}
	if len(e.StackTrace.CallFrames) > 0 {
		f := e.StackTrace.CallFrames[0]
		where = fmt.Sprintf("%s %d ", f.URL, f.LineNumber+1)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.entries = append(l.entries, logEntry{levels[e.Level], source, where + e.Text})
}

func (d *Driver) takeLog(call, none) (any, error) {
	d.log.mu.Lock()
	defer d.log.mu.Unlock()
	entries := d.log.entries
	d.log.entries = nil
	if entries == nil {
		entries = []logEntry{}
	}
	return entries, nil
}
