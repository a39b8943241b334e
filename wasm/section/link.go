//go:build js && wasm

package section

import (
	"errors"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// Links shares the shot: through the system's share sheet, the clipboard, or a QR code.
type Links struct{}

// Listen handles its buttons.
func (Links) Listen(h Host) {
	shot := func(title string, hand func(link)) func(js.Value) {
		return func(js.Value) {
			h.Do(app.Settle{})
			hand(link{h, title, settled(h).Format(), "copy the address bar"})
		}
	}
	dom.On("share", shot("Pivotbench", link.share))
	dom.On("copy", shot("Pivotbench", link.copy))
	dom.On("code", shot("This shot", link.code))
	dom.On("code-close", func(js.Value) { dom.ByID("code").Call("close") }) // the browser itself handles Escape
}

// settled returns the shot that the address holds.
func settled(h Host) *scenario.Scenario {
	m := h.Model()
	return &m.Settled
}

// Show has nothing to write.
func (Links) Show(app.Model) {}

// A link is a fragment to be shared.
type link struct {
	Host
	title, fragment string
	otherwise       string // what else to do if pages have no access to the clipboard
}

// address returns the link's address. ok is false if nobody else could open it.
func (l link) address() (string, bool) {
	return device.Address(l.fragment, dom.Data(dom.ByID("loader"), "public"))
}

const onlyHere = "this copy has no public address: the link opens on this device only"

// share opens the system's share sheet, if there is one.
func (l link) share() {
	address, public := l.address()
	switch {
	case !device.CanShare():
		l.copy()
	case !public:
		l.Say(onlyHere)
	default:
		device.Share(l.title, address, func(err error) { l.Say("sharing failed: " + err.Error()) })
	}
}

// copy copies the link to the clipboard.
func (l link) copy() {
	address, public := l.address()
	device.Copy(address, func(err error) {
		switch {
		case errors.Is(err, device.ErrMissing):
			l.Say("this browser keeps the clipboard from pages here: " + l.otherwise)
		case err != nil:
			l.Say("the clipboard was refused: " + l.otherwise)
		case !public:
			l.Say("link copied; " + onlyHere)
		default:
			l.Say("link copied")
		}
	})
}

// code shows the link as a QR code, for phones across the table without signal. The
// dialog takes the focus and returns it when it is closed.
func (l link) code() {
	address, public := l.address()
	svg, err := view.Code(address)
	note := ""
	switch {
	case err != nil:
		note = "This link is " + err.Error() + "."
	case !public:
		note = "This copy has no public address: the link opens on this device only."
	}
	dom.Say("code-title", l.title)
	dom.ByID("code-picture").Set("innerHTML", svg) // made of digits
	dom.Say("code-note", note)
	dom.Say("code-link", address)
	dialog := dom.ByID("code")
	if dialog.Get("showModal").IsUndefined() {
		l.Say("this browser has no dialogs to show a code in")
		return
	}
	dialog.Call("showModal")
}
