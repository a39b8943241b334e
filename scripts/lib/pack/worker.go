package pack

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// release is what the worker is told about the build that it belongs to.
type release struct {
	Version string            `json:"version"`
	Files   map[string]string `json:"files"` // name -> integrity
}

// addWorker writes the offline worker, with the list of every file made so far at its
// top, and returns the version of that list. The worker keeps its plain name, since a
// browser finds a new version by asking for the same address again.
func (s *Site) addWorker() (string, error) {
	script, err := os.ReadFile(filepath.Join(s.root, "site", "sw.js"))
	if err != nil {
		return "", err
	}
	r := release{Files: map[string]string{}}
	for name, content := range s.files {
		r.Files[name] = integrity(content)
	}
	list, err := json.Marshal(r.Files) // sorted by name
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(list)
	r.Version = hex.EncodeToString(sum[:])[:hashDigits]
	constant, err := json.Marshal(r)
	if err != nil {
		return "", err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "const RELEASE = %s;\n%s", constant, script)
	s.files["sw.js"] = out.Bytes()
	return r.Version, nil
}
