// Command mutants tells how well tests bite: it changes one token of a package's
// code at a time, and sees whether the tests notice.
//
//	go run ./scripts/mutants [-each 12] [-seed 1] [-short] [packages, such as ./core/...]
//
// It never touches the tree: each change goes to the compiler as an overlay. A
// change that does not compile is not counted; one after which the tests never end
// counts as noticed. What stays alive is printed, for a person to judge: a change
// that makes no difference needs no test. The same seed picks the same changes of
// the same code.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"time"
)

func main() {
	each := flag.Int("each", 12, "how many changes to try in each package")
	seed := flag.Uint64("seed", 1, "picks the changes")
	short := flag.Bool("short", false, "run the short tests alone")
	patience := flag.Duration("timeout", 2*time.Minute, "after which tests count as never ending")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	patterns := flag.Args()
	if len(patterns) == 0 {
		patterns = []string{"./core/..."}
	}
	if err := run(ctx, patterns, *each, *seed, *short, *patience); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, patterns []string, each int, seed uint64, short bool, patience time.Duration) error {
	dirs, err := exec.CommandContext(ctx, "go", append([]string{"list", "-f", "{{.Dir}}"}, patterns...)...).Output()
	if err != nil {
		return fmt.Errorf("listing packages: %w", err)
	}
	var noticed, all int
	for _, dir := range strings.Fields(string(dirs)) {
		changes, err := changesOf(dir)
		if err != nil {
			return err
		}
		rng := rand.New(rand.NewPCG(seed, 1))
		rng.Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
		n, of := 0, 0
		for _, c := range changes {
			if of == each || ctx.Err() != nil {
				break
			}
			result, err := try(ctx, dir, c, short, patience)
			switch {
			case err != nil:
				return err
			case result == refused:
				continue
			case result == alive:
				fmt.Printf("  alive: %s\n", c)
			default:
				n++
			}
			of++
		}
		fmt.Printf("%-28s %3d of %3d noticed\n", filepath.Base(filepath.Dir(dir))+"/"+filepath.Base(dir), n, of)
		noticed, all = noticed+n, all+of
	}
	fmt.Printf("%-28s %3d of %3d noticed\n", "all", noticed, all)
	return ctx.Err()
}

// What becomes of a change.
type result int

const (
	killed  result = iota // the tests fail, or never end
	alive                 // they pass
	refused               // it does not compile
)

// try runs a package's tests with a change.
func try(ctx context.Context, dir string, c change, short bool, patience time.Duration) (result, error) {
	work, err := os.MkdirTemp("", "mutants-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(work)
	source, err := os.ReadFile(c.file)
	if err != nil {
		return 0, err
	}
	mutant, overlay, binary := filepath.Join(work, "mutant.go"), filepath.Join(work, "overlay.json"), filepath.Join(work, "tests")
	if err := os.WriteFile(mutant, c.apply(source), 0o600); err != nil {
		return 0, err
	}
	text, err := json.Marshal(map[string]map[string]string{"Replace": {c.file: mutant}})
	if err != nil {
		return 0, err
	}
	if err := os.WriteFile(overlay, text, 0o600); err != nil {
		return 0, err
	}
	build := exec.CommandContext(ctx, "go", "test", "-c", "-vet=off", "-overlay", overlay, "-o", binary, dir)
	build.Dir = dir
	if build.Run() != nil {
		return refused, ctx.Err()
	}
	if _, err := os.Stat(binary); err != nil {
		return alive, nil // there are no tests
	}
	limited, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	args := []string{}
	if short {
		args = append(args, "-test.short")
	}
	tests := exec.CommandContext(limited, binary, args...)
	tests.Dir = dir
	if tests.Run() != nil {
		return killed, ctx.Err()
	}
	return alive, nil
}
