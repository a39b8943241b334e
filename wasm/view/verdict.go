package view

import (
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A Verdict is what becomes of the shot, in words, and by its name in the contract
// with tests.
type Verdict struct{ Head, Detail, Value, Why string }

// VerdictOf returns it for a model and what its shot comes to.
func VerdictOf(m *app.Model, res *shot.Result) Verdict {
	said := phrase.Verdict(&m.Scene, &res.Reading)
	v := Verdict{Head: said.Head, Detail: said.Detail, Value: string(res.Reading.Verdict.Value)}
	if m.Look.Object && res.Launched == nil {
		v.Detail = Potting(&m.Scene, res)
	}
	if err := res.Reading.Verdict.Err(); err != nil {
		v.Why = err.Error()
	}
	return v
}
