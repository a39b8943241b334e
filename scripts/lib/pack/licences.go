package pack

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
)

// Licences returns a Make for the text of every licence that the site has to carry: its
// own, Go's and that of each module with a package in one of the programs. A module
// without a licence file fails the build.
func Licences(programs ...string) func(context.Context, *Site) ([]byte, error) {
	return func(ctx context.Context, s *Site) ([]byte, error) {
		modules, err := modulesOf(ctx, s.root, programs)
		if err != nil {
			return nil, err
		}
		goroot, err := goTool(ctx, s.root, "env", "GOROOT")
		if err != nil {
			return nil, err
		}
		sources := append([]module{{"Pivotbench", "", s.root}, {"Go", strings.TrimPrefix(runtime.Version(), "go"), strings.TrimSpace(goroot)}}, modules...)
		var out bytes.Buffer
		for i, m := range sources {
			if i > 0 {
				out.WriteString("\n" + strings.Repeat("-", 72) + "\n\n")
			}
			if err := m.writeLicence(&out); err != nil {
				return nil, err
			}
		}
		return out.Bytes(), nil
	}
}

// A module is a Go module with a package in a program.
type module struct{ path, version, dir string }

// modulesOf returns the modules of the packages in programs, except this one.
func modulesOf(ctx context.Context, root string, programs []string) ([]module, error) {
	const each = `{{with .Module}}{{if not .Main}}{{.Path}}{{"\t"}}{{.Version}}{{"\t"}}{{.Dir}}{{end}}{{end}}`
	list, err := goTool(ctx, root, append([]string{"list", "-deps", "-f", each}, programs...)...)
	if err != nil {
		return nil, err
	}
	lines := strings.FieldsFunc(list, func(r rune) bool { return r == '\n' || r == '\r' })
	slices.Sort(lines)
	var out []module
	for _, line := range slices.Compact(lines) {
		parts := strings.Split(line, "\t")
		if len(parts) != 3 || parts[2] == "" {
			return nil, fmt.Errorf("module %s is not on this machine", parts[0])
		}
		out = append(out, module{parts[0], parts[1], parts[2]})
	}
	return out, nil
}

var (
	// licenceFile matches the name of a licence file.
	licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)([-.].*)?$`)
	// licenceFolder matches the name of a folder with the licences of code that a module
	// took from elsewhere. Every file there is a licence.
	licenceFolder = regexp.MustCompile(`(?i)^(third[-_]?party[-_]?)?(licen[cs]es|notices)$`)
)

// writeLicence writes a module's name and its licences.
func (m module) writeLicence(out io.Writer) error {
	fmt.Fprintln(out, strings.TrimSpace(m.path+" "+m.version))
	found := false
	write := func(file string, name bool) error {
		text, err := os.ReadFile(file)
		if err != nil {
			return fmt.Errorf("licence of %s: %w", m.path, err)
		}
		if name {
			fmt.Fprintf(out, "\n%s:\n", filepath.Base(file))
		}
		fmt.Fprintf(out, "\n%s\n", bytes.TrimSpace(text))
		return nil
	}
	entries, err := os.ReadDir(m.dir)
	if err != nil {
		return fmt.Errorf("licence of %s: %w", m.path, err)
	}
	for _, e := range entries {
		file := filepath.Join(m.dir, e.Name())
		switch {
		case !e.IsDir() && licenceFile.MatchString(e.Name()):
			found = found || !strings.HasPrefix(strings.ToLower(e.Name()), "patents")
			if err := write(file, false); err != nil {
				return err
			}
		case e.IsDir() && licenceFolder.MatchString(e.Name()):
			files, err := os.ReadDir(file)
			if err != nil {
				return fmt.Errorf("licence of %s: %w", m.path, err)
			}
			for _, f := range files {
				if err := write(filepath.Join(file, f.Name()), true); err != nil {
					return err
				}
			}
		}
	}
	if !found {
		return errors.New("module " + m.path + " has no licence file in " + m.dir)
	}
	return nil
}
