package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

// untestedRefusals returns an error that names the statements that return or record an
// error in blocks that no test reaches. module has the files of the module, whose name
// precedes theirs in the profile.
func untestedRefusals(module fs.FS, blocks map[string]block) error {
	var errs []error
	parsed := map[string]*refusals{}
	for _, where := range slices.Sorted(maps.Keys(blocks)) {
		if blocks[where].reached {
			continue
		}
		full, span, _ := strings.Cut(where, ":")
		_, file, _ := strings.Cut(full, "/")
		if parsed[file] == nil {
			var err error
			if parsed[file], err = readRefusals(module, file); err != nil {
				return err
			}
		}
		var from, to place
		if _, err := fmt.Sscanf(span, "%d.%d,%d.%d", &from.line, &from.column, &to.line, &to.column); err != nil {
			return fmt.Errorf("not a block of a coverage profile: %q", where)
		}
		for _, at := range parsed[file].at {
			if !at.before(from) && at.before(to) {
				errs = append(errs, fmt.Errorf("%s:%d: no test sees this error", file, at.line))
			}
		}
	}
	return errors.Join(errs...)
}

// A place is a position in a file, counted from one.
type place struct{ line, column int }

func (p place) before(q place) bool {
	return p.line < q.line || p.line == q.line && p.column < q.column
}

// refusals finds where a file's statements return an error or record one: a return whose
// last value is not nil, in a function that returns an error; and a return or an
// assignment that names an error.
type refusals struct {
	set *token.FileSet
	at  []place
}

func readRefusals(module fs.FS, file string) (*refusals, error) {
	source, err := fs.ReadFile(module, file)
	if err != nil {
		return nil, err
	}
	r := &refusals{set: token.NewFileSet()}
	tree, err := parser.ParseFile(r.set, file, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	r.look(tree, nil)
	return r, nil
}

// look searches the body of a function of a given type.
func (r *refusals) look(in ast.Node, of *ast.FuncType) {
	ast.Inspect(in, func(n ast.Node) bool {
		refuses := false
		switch n := n.(type) {
		case *ast.FuncDecl:
			if n.Body != nil {
				r.look(n.Body, n.Type)
			}
			return false
		case *ast.FuncLit:
			r.look(n.Body, n.Type)
			return false
		case *ast.ReturnStmt:
			refuses = namesError(n) || givesError(of) && !endsInNil(n)
		case *ast.AssignStmt:
			refuses = namesError(n)
		}
		if refuses {
			p := r.set.Position(n.Pos())
			r.at = append(r.at, place{p.Line, p.Column})
		}
		return true
	})
}

// givesError reports whether a function's last result is an error.
func givesError(f *ast.FuncType) bool {
	if f.Results.NumFields() == 0 {
		return false
	}
	last, ok := f.Results.List[len(f.Results.List)-1].Type.(*ast.Ident)
	return ok && last.Name == "error"
}

// endsInNil reports whether the last value of a return is nil.
func endsInNil(r *ast.ReturnStmt) bool {
	if len(r.Results) == 0 {
		return false
	}
	last, ok := r.Results[len(r.Results)-1].(*ast.Ident)
	return ok && last.Name == "nil"
}

// namesError reports whether a statement, without the functions in it, contains the name
// of an error: err, errOther, kErr, ErrThing or Err.
func namesError(in ast.Node) (found bool) {
	ast.Inspect(in, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			found = found || strings.HasPrefix(id.Name, "err") || strings.Contains(id.Name, "Err")
		}
		_, inner := n.(*ast.FuncLit)
		return !inner
	})
	return found
}
