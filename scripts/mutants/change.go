package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// A change replaces a text in a file by another.
type change struct {
	file         string
	at           int // byte offset
	old, new     string
	line, column int
}

func (c change) String() string {
	return fmt.Sprintf("%s:%d:%d: %q becomes %q", filepath.Base(c.file), c.line, c.column, c.old, c.new)
}

func (c change) apply(source []byte) []byte {
	return slices.Concat(source[:c.at], []byte(c.new), source[c.at+len(c.old):])
}

// instead lists the operators that replace each other.
var instead = map[token.Token][]token.Token{
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL}, token.REM: {token.QUO},
	token.LSS: {token.LEQ, token.GTR}, token.LEQ: {token.LSS, token.GEQ}, token.GTR: {token.GEQ, token.LSS}, token.GEQ: {token.GTR, token.LEQ},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN}, token.MUL_ASSIGN: {token.QUO_ASSIGN}, token.QUO_ASSIGN: {token.MUL_ASSIGN},
	token.INC: {token.DEC}, token.DEC: {token.INC},
}

// changesOf lists the changes of a package's files, without tests and messages. A number
// returned beside an error, or beside false, has no meaning and is not changed.
func changesOf(dir string) ([]change, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []change
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		source, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		fset := token.NewFileSet()
		tree, err := parser.ParseFile(fset, file, source, 0)
		if err != nil {
			return nil, err
		}
		put := func(at token.Pos, old string, new ...string) {
			p := fset.Position(at)
			for _, n := range new {
				out = append(out, change{file, p.Offset, old, n, p.Line, p.Column})
			}
		}
		swap := func(at token.Pos, op token.Token) {
			for _, other := range instead[op] {
				put(at, op.String(), other.String())
			}
		}
		stays := map[ast.Expr]bool{}
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				swap(n.OpPos, n.Op)
			case *ast.AssignStmt:
				swap(n.TokPos, n.Tok)
			case *ast.IncDecStmt:
				swap(n.TokPos, n.Tok)
			case *ast.UnaryExpr:
				if n.Op == token.NOT || n.Op == token.SUB {
					put(n.OpPos, n.Op.String(), "")
				}
			case *ast.IfStmt:
				switch n.Cond.(type) {
				case *ast.Ident, *ast.CallExpr, *ast.SelectorExpr:
					put(n.Cond.Pos(), "", "!")
				}
			case *ast.ReturnStmt:
				if refuses(n) {
					for _, r := range n.Results {
						stays[r] = true
					}
				}
			case *ast.BasicLit:
				if other, ok := another(n); ok && !stays[n] {
					put(n.Pos(), n.Value, other)
				}
			}
			return true
		})
	}
	return out, nil
}

// refuses reports whether the last of several values returned says that the others have
// no meaning.
func refuses(n *ast.ReturnStmt) bool {
	if len(n.Results) < 2 {
		return false
	}
	switch last := n.Results[len(n.Results)-1].(type) {
	case *ast.Ident:
		return last.Name == "false" || strings.HasPrefix(strings.ToLower(last.Name), "err")
	case *ast.SelectorExpr:
		return strings.HasPrefix(last.Sel.Name, "Err")
	}
	return false
}

// another returns a number to replace a literal: the next integer, or about a fifth more.
func another(n *ast.BasicLit) (string, bool) {
	switch n.Kind {
	case token.INT:
		if v, err := strconv.ParseInt(n.Value, 0, 64); err == nil {
			return strconv.FormatInt(v+1, 10), true
		}
	case token.FLOAT:
		if v, err := strconv.ParseFloat(n.Value, 64); err == nil {
			return strconv.FormatFloat(1.2*v+1e-3, 'g', -1, 64), true
		}
	}
	return "", false
}
