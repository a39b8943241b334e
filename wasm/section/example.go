//go:build js && wasm

package section

import (
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// Example marks the page while the example is shown.
type Example struct{}

// Listen has nothing to handle.
func (Example) Listen(Host) {}

// Show shows the mark or hides it. The style sheet hides what is only for one's own records.
func (Example) Show(m app.Model) {
	dom.Hide("example", !m.InExample())
	dom.Root.Call("toggleAttribute", "data-example", m.InExample())
}
