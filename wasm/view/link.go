package view

import "strings"

// The words about links: sharing, copying, and QR codes.

// LinkTitle is the title of a shared link, and CodeTitle that of a shot's QR code.
const (
	LinkTitle = "Pivotbench"
	CodeTitle = "QR code for this shot"
)

// What to do if pages have no access to the clipboard.
const (
	CopyAddress   = "Copy the address bar"
	ExportCues    = "Export your cues"
	ExportPlayers = "Export your records"
	SaveAsFile    = "Save the lesson as a file"
	OnlyHere      = "This copy of Pivotbench has no public address: the link opens on this device only."
	LinkCopied    = "Link copied"
	LinkPrivate   = LinkCopied + ". " + OnlyHere
	NoCodes       = "This browser can't show QR codes. Copy the link."
	codeTrouble   = "This link is "
	noClipboard   = "This browser does not let pages copy here. "
	clipboardShut = "The browser refused to copy. "
)

// NoClipboard says that pages can't use the clipboard here, and what to do.
func NoClipboard(otherwise string) string { return noClipboard + otherwise + " instead." }

// ClipboardRefused says that the browser refused, and what to do.
func ClipboardRefused(otherwise string) string { return clipboardShut + otherwise + " instead." }

// ShareFailed says why the device's share sheet did not take a link.
func ShareFailed(err error) string { return "Could not share: " + err.Error() + "." }

// CodeNote returns what a QR code's dialog says below the picture.
func CodeNote(err error, public bool) string {
	switch {
	case err != nil:
		return codeTrouble + err.Error() + "."
	case !public:
		return OnlyHere
	}
	return ""
}

// AlsoSaid returns one sentence after another; either may be empty.
func AlsoSaid(words, more string) string {
	switch {
	case words == "":
		return more
	case more == "":
		return words
	}
	return strings.TrimSuffix(words, ".") + ". " + more
}
