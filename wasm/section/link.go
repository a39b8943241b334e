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
			hand(link{Host: h, title: title, fragment: settled(h).Format(), otherwise: view.CopyAddress})
		}
	}
	dom.On("share", shot(view.LinkTitle, link.share))
	dom.On("copy", shot(view.LinkTitle, link.copy))
	dom.On("code", shot(view.CodeTitle, link.code))
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
	note            string // what else there is to say about it
}

// address returns the link's address. ok is false if nobody else could open it.
func (l link) address() (string, bool) {
	return device.Address(l.fragment, dom.Data(dom.ByID("loader"), "public"))
}

// share opens the system's share sheet, if there is one.
func (l link) share() {
	address, public := l.address()
	switch {
	case !device.CanShare():
		l.copy()
	case !public:
		l.Say(view.OnlyHere)
	default:
		device.Share(l.title, address, func(err error) { l.Say(view.ShareFailed(err)) })
	}
}

// copy copies the link to the clipboard.
func (l link) copy() {
	address, public := l.address()
	device.Copy(address, func(err error) {
		switch {
		case errors.Is(err, device.ErrMissing):
			l.Say(view.NoClipboard(l.otherwise))
		case err != nil:
			l.Say(view.ClipboardRefused(l.otherwise))
		case !public:
			l.Say(view.AlsoSaid(view.LinkPrivate, l.note))
		default:
			l.Say(view.AlsoSaid(view.LinkCopied, l.note))
		}
	})
}

// code shows the link as a QR code, for phones across the table without signal. The
// dialog takes the focus and returns it when it is closed.
func (l link) code() {
	address, public := l.address()
	showCode(l.Host, l.title, address, l.note, public)
}

// showCode shows a text as a QR code in the dialog, with a note. public is whether everybody
// can use it.
func showCode(h Host, title, text, note string, public bool) {
	svg, err := view.Code(text)
	dom.Say("code-title", title)
	dom.ByID("code-picture").Set("innerHTML", svg) // made of digits
	dom.Say("code-note", view.AlsoSaid(view.CodeNote(err, public), note))
	dom.Say("code-link", text)
	dialog := dom.ByID("code")
	if dialog.Get("showModal").IsUndefined() {
		h.Say(view.NoCodes)
		return
	}
	dialog.Call("showModal")
}
