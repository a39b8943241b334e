// Command mutants measures how thorough the tests are: it changes one token of a
// package's code at a time, and checks whether the tests notice.
//
//	go run ./scripts/mutants [-each 12] [-seed 1] [-short] [packages, such as ./core/...]
//
// It never modifies the tree: each change goes to the compiler as an overlay. A change
// that a package's own tests miss is tried with those of the packages in core that import
// it, unless they are slow. A change that does not compile is not counted. If the tests
// run longer than five times their usual time, the change counts as noticed. These
// changes and those that survive are printed, for a person to judge: an equivalent change
// needs no test, and a busy machine may make tests seem endless. The same seed chooses
// the same changes of the same code.
package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

func main() {
	each := flag.Int("each", 12, "number of changes to try in each package")
	seed := flag.Uint64("seed", 1, "seed for choosing the changes")
	short := flag.Bool("short", false, "run only the short tests")
	users := flag.String("users", "./core/...", "where to look for packages that import the changed one; empty for its own tests alone")
	slow := flag.Duration("slow", 20*time.Second, "skip tests of importing packages that take longer")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	patterns := flag.Args()
	if len(patterns) == 0 {
		patterns = []string{"./core/..."}
	}
	if err := run(ctx, patterns, *users, runner{*short, 5 * time.Second, map[string]time.Duration{}}, *each, *seed, *slow); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, patterns []string, users string, r runner, each int, seed uint64, slow time.Duration) error {
	packages, err := list(ctx, patterns...)
	if err != nil {
		return err
	}
	var around []pkg
	if users != "" {
		if around, err = list(ctx, users); err != nil {
			return err
		}
	}
	var noticed, all int
	for _, p := range packages {
		changes, err := changesOf(p.dir)
		if err != nil {
			return err
		}
		rng := rand.New(rand.NewPCG(seed, 1))
		rng.Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
		askers, err := r.askers(ctx, p, around, slow)
		if err != nil {
			return err
		}
		n, of := 0, 0
		for _, c := range changes {
			if of == each || ctx.Err() != nil {
				break
			}
			result, err := r.try(ctx, askers, c)
			switch {
			case err != nil:
				return err
			case result == refused:
				continue
			case result == alive:
				fmt.Printf("  alive: %s\n", c)
			case result == endless:
				fmt.Printf("  never ends: %s\n", c)
				n++
			default:
				n++
			}
			of++
		}
		fmt.Printf("%-28s %3d of %3d caught, of %d possible\n", filepath.Base(filepath.Dir(p.dir))+"/"+filepath.Base(p.dir), n, of, len(changes))
		noticed, all = noticed+n, all+of
	}
	fmt.Printf("%-28s %3d of %3d noticed\n", "all", noticed, all)
	return ctx.Err()
}

// A pkg is a package's path and folder, and what it and its tests import.
type pkg struct {
	path, dir string
	imports   []string
}

// list returns the packages that patterns match.
func list(ctx context.Context, patterns ...string) ([]pkg, error) {
	form := `{{.ImportPath}} {{.Dir}}{{range .Imports}} {{.}}{{end}}{{range .TestImports}} {{.}}{{end}}{{range .XTestImports}} {{.}}{{end}}`
	out, err := exec.CommandContext(ctx, "go", append([]string{"list", "-f", form}, patterns...)...).Output()
	if err != nil {
		return nil, fmt.Errorf("listing packages %q: %w", patterns, err)
	}
	var packages []pkg
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		packages = append(packages, pkg{f[0], f[1], f[2:]})
	}
	return packages, nil
}

// askers returns the folders whose tests are run for p: its own, then those of the
// packages around that import it and are not slow, the quickest first.
func (r runner) askers(ctx context.Context, p pkg, around []pkg, slow time.Duration) ([]string, error) {
	if err := r.time(ctx, p.dir); err != nil {
		return nil, err
	}
	var users []string
	for _, u := range around {
		if u.path == p.path || !slices.Contains(u.imports, p.path) {
			continue
		}
		if err := r.time(ctx, u.dir); err != nil {
			return nil, err
		}
		if r.took[u.dir] <= slow {
			users = append(users, u.dir)
		}
	}
	slices.SortFunc(users, func(a, b string) int { return int(r.took[a] - r.took[b]) })
	return append([]string{p.dir}, users...), nil
}
