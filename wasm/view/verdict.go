package view

import (
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A Verdict is the outcome of the shot. Head and Detail are for the page, Value is
// the outcome's name for tests, and Why says why there is no outcome.
type Verdict struct{ Head, Detail, Value, Why string }

// VerdictOf returns the verdict for a model and the result of its shot.
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
