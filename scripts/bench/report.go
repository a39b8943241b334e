package main

import (
	"fmt"
	"io"
	"text/tabwriter"
)

// A report is a table of figures, each with its aim if it has one.
type report struct{ rows []row }

type row struct{ what, figure, aim, verdict string }

// note adds a figure without an aim.
func (r *report) note(what, figure string) {
	r.rows = append(r.rows, row{what: what, figure: figure})
}

// atMost adds a figure whose value should be at most aim.
func (r *report) atMost(what, figure string, value, aim float64, unit string) {
	verdict := "ok"
	if value > aim {
		verdict = "OFF"
	}
	r.rows = append(r.rows, row{what, figure, fmt.Sprintf("≤ %g%s", aim, unit), verdict})
}

// within adds a share that should lie between two others.
func (r *report) within(what string, share float64, aim [2]float64) {
	verdict := "ok"
	if share < aim[0] || share > aim[1] {
		verdict = "OFF"
	}
	r.rows = append(r.rows, row{what, fmt.Sprintf("%.1f %%", 100*share), fmt.Sprintf("%.0f-%.0f %%", 100*aim[0], 100*aim[1]), verdict})
}

func (r *report) print(out io.Writer) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, row := range r.rows {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", row.what, row.figure, row.aim, row.verdict)
	}
	t.Flush()
}
