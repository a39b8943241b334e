package message

import (
	"strconv"
	"strings"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// The messages between the page and the worker that reads films. Lists of numbers travel
// as text, separated by spaces. The pixels of a picture travel beside the message that
// announces them; see Post.

// A FilmFirst is sent by the page with a film's file, or with its first picture. The worker
// answers with a FilmStand, or with FilmTimes if it can't decode the file.
type FilmFirst struct {
	Link          string         // the shot, which says where the balls lie
	Width, Height int            // of the picture, or of those that the worker is to read
	Scale         float64        // pixels of the film for one of the picture
	Marks         []app.FilmMark // of the film before
}

// Object returns the message as it is sent.
func (f FilmFirst) Object() Object {
	return Object{"first": f.Link, "width": float64(f.Width), "height": float64(f.Height), "scale": f.Scale, "marks": formatMarks(f.Marks)}
}

// ReadFilmFirst reads a FilmFirst; ok is false for any other message.
func ReadFilmFirst(o Object) (f FilmFirst, ok bool) {
	f.Link, ok = o["first"].(string)
	width, _ := o["width"].(float64)
	height, _ := o["height"].(float64)
	f.Scale, _ = o["scale"].(float64)
	f.Width, f.Height = int(width), int(height)
	marks, _ := o["marks"].(string)
	f.Marks = readMarks(marks)
	return f, ok && f.Width > 0 && f.Height > 0 && f.Scale > 0
}

// A FilmMarks is sent by the page when the user has moved marks. The worker answers with
// a FilmStand.
type FilmMarks struct {
	Link  string
	Marks []app.FilmMark
}

// Object returns the message as it is sent.
func (f FilmMarks) Object() Object { return Object{"moved": formatMarks(f.Marks), "link": f.Link} }

// ReadFilmMarks reads a FilmMarks; ok is false for any other message.
func ReadFilmMarks(o Object) (f FilmMarks, ok bool) {
	text, ok := o["moved"].(string)
	f.Link, _ = o["link"].(string)
	f.Marks = readMarks(text)
	return f, ok
}

// A FilmNext is sent by the page to have more of the file read. The worker answers with a
// FilmTook. Start begins a new reading.
type FilmNext struct{ Start bool }

// Object returns the message as it is sent.
func (n FilmNext) Object() Object { return Object{"next": n.Start} }

// ReadFilmNext reads a FilmNext; ok is false for any other message.
func ReadFilmNext(o Object) (n FilmNext, ok bool) {
	n.Start, ok = o["next"].(bool)
	return n, ok
}

// A FilmFrame is sent by the page with each picture of a film that the worker can't
// decode, the first one too. The worker answers with a FilmTook. Start begins a new
// reading.
type FilmFrame struct {
	Time          float64 // in seconds of the film
	Width, Height int
	Start         bool
}

// Object returns the message as it is sent.
func (f FilmFrame) Object() Object {
	return Object{"frame": f.Time, "width": float64(f.Width), "height": float64(f.Height), "start": f.Start}
}

// ReadFilmFrame reads a FilmFrame; ok is false for any other message.
func ReadFilmFrame(o Object) (f FilmFrame, ok bool) {
	f.Time, ok = o["frame"].(float64)
	width, _ := o["width"].(float64)
	height, _ := o["height"].(float64)
	f.Width, f.Height = int(width), int(height)
	f.Start, _ = o["start"].(bool)
	return f, ok && f.Width > 0 && f.Height > 0
}

// A FilmEnd is sent by the page after the last picture. The worker answers with a
// FilmStrokes.
type FilmEnd struct{}

// Object returns the message as it is sent.
func (FilmEnd) Object() Object { return Object{"end": true} }

// ReadFilmEnd reports whether a message is FilmEnd.
func ReadFilmEnd(o Object) (FilmEnd, bool) { return FilmEnd{}, o["end"] == true }

// A FilmFit is sent by the page to have a stroke fitted. The worker answers with a
// FilmTrack.
type FilmFit struct {
	Link   string
	Line   unit.Length // where the arrival is wanted
	Stroke int
	Struck []int // frames that do not count
}

// Object returns the message as it is sent.
func (f FilmFit) Object() Object {
	struck := make([]float64, len(f.Struck))
	for i, k := range f.Struck {
		struck[i] = float64(k)
	}
	return Object{"fit": float64(f.Stroke), "link": f.Link, "line": float64(f.Line), "struck": numbers(struck...)}
}

// ReadFilmFit reads a FilmFit; ok is false for any other message.
func ReadFilmFit(o Object) (f FilmFit, ok bool) {
	stroke, ok := o["fit"].(float64)
	f.Stroke = int(stroke)
	f.Link, _ = o["link"].(string)
	line, _ := o["line"].(float64)
	f.Line = unit.Length(line)
	for _, v := range readNumbers(o["struck"]) {
		f.Struck = append(f.Struck, int(v))
	}
	return f, ok
}

// A FilmStand is the worker's answer to FilmFirst and FilmMarks.
type FilmStand struct{ app.FilmStand }

// Object returns the message as it is sent.
func (s FilmStand) Object() Object {
	return Object{"stand": s.Why, "balls": formatMarks(s.Marks), "aim": formatPoints(s.Aim), "gate": formatPoints(s.Gate), "same": s.Same, "found": s.Found}
}

// ReadFilmStand reads a FilmStand; ok is false for any other message.
func ReadFilmStand(o Object) (s FilmStand, ok bool) {
	s.Why, ok = o["stand"].(string)
	balls, _ := o["balls"].(string)
	s.Marks = readMarks(balls)
	s.Aim, s.Gate = readPoints(o["aim"]), readPoints(o["gate"])
	s.Same, _ = o["same"].(bool)
	s.Found, _ = o["found"].(bool)
	return s, ok
}

// FilmTimes is the worker's answer to the file of a film that it can't decode: when each
// picture is shown, in seconds and in order, so that the page can hand them over; or why
// that is not known.
type FilmTimes struct {
	Times []float64
	Why   string
}

// Object returns the message as it is sent.
func (t FilmTimes) Object() Object { return Object{"times": numbers(t.Times...), "why": t.Why} }

// ReadFilmTimes reads FilmTimes; ok is false for any other message.
func ReadFilmTimes(o Object) (t FilmTimes, ok bool) {
	_, ok = o["times"].(string)
	t.Times = readNumbers(o["times"])
	t.Why, _ = o["why"].(string)
	return t, ok
}

// A FilmTook is the worker's answer to FilmNext and FilmFrame. Why says why it takes no
// more; it is empty if all is well.
type FilmTook struct {
	Why   string
	Share float64 // of the file that has been read
	More  bool    // there is more of it
}

// Object returns the message as it is sent.
func (t FilmTook) Object() Object { return Object{"took": t.Why, "share": t.Share, "more": t.More} }

// ReadFilmTook reads a FilmTook; ok is false for any other message.
func ReadFilmTook(o Object) (t FilmTook, ok bool) {
	t.Why, ok = o["took"].(string)
	t.Share, _ = o["share"].(float64)
	t.More, _ = o["more"].(bool)
	return t, ok
}

// A FilmStrokes is the worker's answer to FilmEnd: when each stroke begins, in seconds,
// or why there is none.
type FilmStrokes struct {
	Begins []float64
	Why    string
}

// Object returns the message as it is sent.
func (s FilmStrokes) Object() Object { return Object{"strokes": numbers(s.Begins...), "why": s.Why} }

// ReadFilmStrokes reads a FilmStrokes; ok is false for any other message.
func ReadFilmStrokes(o Object) (s FilmStrokes, ok bool) {
	_, ok = o["strokes"].(string)
	s.Begins = readNumbers(o["strokes"])
	s.Why, _ = o["why"].(string)
	return s, ok
}

// A FilmTrack is the worker's answer to FilmFit.
type FilmTrack struct{ app.FilmTrack }

// Object returns the message as it is sent.
func (t FilmTrack) Object() Object {
	var frames []float64
	for _, f := range t.Frames {
		used := 0.0
		if f.Used {
			used = 1
		}
		frames = append(frames, f.Time, f.At.X, f.At.Y, f.Off, used)
	}
	k := &t.Record
	return Object{
		"track": t.Why, "launch": formatEstimate(t.Launch), "speed": formatEstimate(t.Speed),
		"arrival": formatEstimate(t.Arrival), "roll": formatEstimate(t.Roll), "slide": formatEstimate(t.Slide), "line": float64(t.Line),
		"frames": numbers(frames...), "path": formatPoints(t.Path),
		"record": Object{"mark": k.Mark, "at": k.At, "read": k.Read, "launch": k.Film.Launch, "speed": k.Film.Speed, "cov": k.Film.Cov},
	}
}

// ReadFilmTrack reads a FilmTrack; ok is false for any other message.
func ReadFilmTrack(o Object) (t FilmTrack, ok bool) {
	t.Why, ok = o["track"].(string)
	readEstimate(o["launch"], &t.Launch)
	readEstimate(o["speed"], &t.Speed)
	readEstimate(o["arrival"], &t.Arrival)
	readEstimate(o["roll"], &t.Roll)
	readEstimate(o["slide"], &t.Slide)
	line, _ := o["line"].(float64)
	t.Line = unit.Length(line)
	for v := readNumbers(o["frames"]); len(v) >= 5; v = v[5:] {
		t.Frames = append(t.Frames, app.FilmFrame{Time: v[0], At: app.FilmPoint{X: v[1], Y: v[2]}, Off: v[3], Used: v[4] != 0})
	}
	t.Path = readPoints(o["path"])
	record, _ := o["record"].(Object)
	k := &t.Record
	for name, at := range map[string]*string{"mark": &k.Mark, "at": &k.At, "read": &k.Read, "launch": &k.Film.Launch, "speed": &k.Film.Speed, "cov": &k.Film.Cov} {
		*at, _ = record[name].(string)
	}
	return t, ok
}

// numbers returns numbers as text that reads back to them.
func numbers(list ...float64) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strings.Join(words, " ")
}

// readNumbers reads the text of numbers. It returns nil for anything else.
func readNumbers(text any) (list []float64) {
	s, _ := text.(string)
	for _, word := range strings.Fields(s) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return nil
		}
		list = append(list, v)
	}
	return list
}

func formatPoints(points []app.FilmPoint) string {
	var list []float64
	for _, p := range points {
		list = append(list, p.X, p.Y)
	}
	return numbers(list...)
}

func readPoints(text any) (points []app.FilmPoint) {
	for v := readNumbers(text); len(v) >= 2; v = v[2:] {
		points = append(points, app.FilmPoint{X: v[0], Y: v[1]})
	}
	return points
}

// formatMarks returns marks as text: each as its ball's name and three numbers.
func formatMarks(marks []app.FilmMark) string {
	var parts []string
	for _, k := range marks {
		parts = append(parts, k.Ball+" "+numbers(k.At.X, k.At.Y, k.Radius))
	}
	return strings.Join(parts, ";")
}

func readMarks(text string) (marks []app.FilmMark) {
	for part := range strings.SplitSeq(text, ";") {
		ball, rest, _ := strings.Cut(part, " ")
		if v := readNumbers(rest); len(v) == 3 {
			marks = append(marks, app.FilmMark{Ball: ball, At: app.FilmPoint{X: v[0], Y: v[1]}, Radius: v[2]})
		}
	}
	return marks
}

func formatEstimate[T ~float64](e stat.Estimate[T]) string {
	return numbers(float64(e.Median), float64(e.From), float64(e.To))
}

func readEstimate[T ~float64](text any, e *stat.Estimate[T]) {
	if v := readNumbers(text); len(v) == 3 {
		e.Median, e.From, e.To = T(v[0]), T(v[1]), T(v[2])
	}
}
