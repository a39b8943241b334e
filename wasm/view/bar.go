package view

// The words of the bar above the sections.

// OfflineWords says how the offline copy stands. state is what site/offline.js writes in
// data-offline.
func OfflineWords(state string) string {
	return map[string]string{
		"installing": "saving for offline use…", "ready": "works offline", "failed": "not saved for offline use",
		"unsupported": "needs a connection here", "update": "new version ready",
		"stuck":  "new version did not start",
		"inside": "all in one file",
	}[state]
}

// UpdateButton returns the label of the button that starts a newer version, or "" if
// there is nothing to start.
func UpdateButton(state string) string {
	return map[string]string{"update": "Use new version", "stuck": "Try again"}[state]
}

// What the bar says of a newer version of the page.
const (
	Updating    = "starting the new version…"
	UpdateStuck = "The new version did not start; this one still works. Close the other tabs of this page, then press “Try again” at the top. Or close all tabs and open the page again."
)
