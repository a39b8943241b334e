package wasm_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// doors are the only files in which a program's model may change.
var doors = []string{"page/door.go", "table/door.go"}

// The model changes only at the door: no other file of a program assigns to a field
// called model or to anything in it, takes its address in order to change it, or calls
// app.Update.
func TestTheModelChangesAtTheDoorAlone(t *testing.T) {
	for _, dir := range []string{"page", "section", "table", "pointer", "dom", "device"} {
		files, err := filepath.Glob(dir + "/*.go")
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, name := range files {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			for _, found := range changes(t, string(text)) {
				assert.Contains(t, doors, filepath.ToSlash(name), "%s: %s", name, found)
			}
		}
	}
}

// A program's door has exactly one statement that changes its model.
func TestEveryDoorIsUsed(t *testing.T) {
	for _, name := range doors {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Len(t, changes(t, string(text)), 1, name)
	}
}

// The test recognizes these changes.
func TestChangesAreFound(t *testing.T) {
	in := func(body string) int {
		return len(changes(t, "package p\nfunc (p *page) f() {\n"+body+"\n}\n"))
	}
	for _, body := range []string{
		"p.model = m", "p.model.Scene = s", "p.bench.model.Look.Stretch = 4", "p.model.Changes++", "p.model.Past[0] = x",
		"m, p.model = f()", "m = app.Update(m, e)",
	} {
		assert.Equal(t, 1, in(body), body)
	}
	for _, body := range []string{"m := p.model", "m := p.Model()\nm.Scene.Name = name", "x := &p.model.Scene", "model = 3"} {
		assert.Zero(t, in(body), body)
	}
}

// changes returns the statements of a file that change a model.
func changes(t *testing.T, text string) (found []string) {
	file, err := parser.ParseFile(token.NewFileSet(), "", text, 0)
	require.NoError(t, err)
	source := func(n ast.Node) string { return strings.TrimSpace(text[n.Pos()-1 : n.End()-1]) }
	ast.Inspect(file, func(n ast.Node) bool {
		var to []ast.Expr
		switch n := n.(type) {
		case *ast.AssignStmt:
			to = n.Lhs
			if len(n.Rhs) == 1 && !anyOf(to, inModel) && asks(n.Rhs[0]) {
				found = append(found, source(n))
			}
		case *ast.IncDecStmt:
			to = []ast.Expr{n.X}
		}
		if anyOf(to, inModel) {
			found = append(found, source(n))
		}
		return true
	})
	return found
}

func anyOf(all []ast.Expr, is func(ast.Expr) bool) bool {
	for _, e := range all {
		if is(e) {
			return true
		}
	}
	return false
}

// inModel reports whether an expression is a field called model or lies within one.
func inModel(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		return e.Sel.Name == "model" || inModel(e.X)
	case *ast.IndexExpr:
		return inModel(e.X)
	case *ast.ParenExpr:
		return inModel(e.X)
	case *ast.StarExpr:
		return inModel(e.X)
	}
	return false
}

// asks reports whether an expression is a call of app.Update.
func asks(e ast.Expr) bool {
	call, ok := e.(*ast.CallExpr)
	if !ok {
		return false
	}
	f, ok := call.Fun.(*ast.SelectorExpr)
	return ok && f.Sel.Name == "Update"
}
