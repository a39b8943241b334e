package view

import "pivotbench/wasm/app"

// FilmSight returns the ids of what the user should see now that the work on a film has come
// a step further, the most important last. It is empty between steps: while marks are
// moved, frames are looked at or the film is read, nothing scrolls.
func FilmSight(before, after *app.Film) []string {
	const words, screen = "film-words", "film-screen"
	step := before.Step != after.Step
	switch {
	case after.Track.Read() && !before.Track.Read():
		return []string{"film-use", "film-result"}
	case step && after.Why != "", after.Step == app.FilmShut && after.Why != before.Why:
		return []string{words}
	case step && after.Step == app.FilmReading:
		return []string{"film-reading", words}
	case step && (after.Step == app.FilmMarking || after.Step == app.FilmTaking):
		return []string{words, screen}
	}
	return nil
}
