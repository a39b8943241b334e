package lesson

import (
	"errors"
	"strconv"
	"strings"

	"pivotbench/core/link"
	"pivotbench/core/scenario"
	"pivotbench/core/typed"
)

const (
	// Kind is the first key of a lesson's link.
	Kind = "lesson"

	version = "1"

	// longest is more characters than any lesson's link has. A character of a caption
	// has up to 4 bytes, which are 12 characters when percent-encoded. The rest of a
	// longer link is not read, so that junk costs a bounded time.
	longest = (MostSteps + 1) * (scenario.LongestLink + 12*LongestWords)
)

// A Link is a lesson in the form in which it travels in an address:
//
//	lesson&v=1&title=Short_and_long&steps=2&step=v:1;bridge:8in&say=Too_short.&step=…&say=…&ask=…&drag=bridge&goal=arrives&end
//	lesson&v=1&shipped=squirt&units=cm&at=3
//
// In a step, ; stands for the & of a scenario's text and : for its =; in texts, _ stands
// for a space. The keys steps and end reveal when a messenger has cut the link.
type Link struct {
	Lesson  Lesson
	Shipped string // name of a lesson that comes with the bench; the steps then need not travel
	Units   string // in or cm for the reader's own choice; empty for each step's own
	At      int    // the stop to open at, counted from 0
}

var (
	packed   = strings.NewReplacer("&", ";", "=", ":")
	unpacked = strings.NewReplacer(";", "&", ":", "=")
	spaced   = strings.NewReplacer("_", "%5F", "%20", "_")
	unspaced = strings.NewReplacer("_", "%20")
)

// Format returns the link as the fragment of an address, without the #.
func (l Link) Format() string {
	var text strings.Builder
	write := func(key, value string) { text.WriteString("&" + key + "=" + value) }
	say := func(key, words string) { write(key, spaced.Replace(link.Escape(words))) }
	text.WriteString(Kind)
	write("v", version)
	if l.Units != "" {
		write("units", l.Units)
	}
	if l.At > 0 {
		write("at", strconv.Itoa(l.At+1))
	}
	if l.Shipped != "" {
		write("shipped", l.Shipped)
		return text.String()
	}
	say("title", l.Lesson.Title)
	write("steps", strconv.Itoa(len(l.Lesson.Steps)))
	for _, s := range l.Lesson.Steps {
		scene := s.Scene("")
		write("step", packed.Replace(scene.Format()))
		say("say", s.Caption)
	}
	if q := l.Lesson.Question; q != (Question{}) {
		say("ask", q.Text)
		write("drag", q.Key)
		write("goal", string(q.Goal))
	}
	text.WriteString("&end")
	return text.String()
}

// ParseLink reads a lesson's link: its fragment, or an address that has one. It keeps the
// complete steps of a link that was cut, and whatever can be read of a step. The errors
// say what was lost. A lesson without steps could not be read at all.
func ParseLink(text string) (Link, []error) {
	p := reader{}
	text = link.Fragment(text)
	if len(text) > longest {
		p.fault("the link is too long: only the first " + strconv.Itoa(longest) + " characters were read")
		text = text[:longest]
	}
	pairs := strings.Split(text, "&")
	last := len(pairs) - 1
	pairs[last] = strings.TrimRight(pairs[last], link.Trailing)
	p.whole = pairs[last] == "end"
	if p.whole || !strings.Contains(text, "&shipped=") {
		pairs = pairs[:last] // its end, or what may be half of a pair
	}
	for i, pair := range pairs {
		name, value, _ := strings.Cut(pair, "=")
		if name == "v" && value != version {
			return Link{}, []error{errors.New("this lesson is of version " + clip(value) + ", but this copy of Pivotbench reads version " + version + ": get a newer copy")}
		}
		if i > 0 {
			p.pair(name, value)
		}
	}
	p.repair()
	return p.link, p.faults
}

// A reader reads a link.
type reader struct {
	link   Link
	whole  bool // the end of the link was seen
	steps  int  // number of steps that were sent
	said   int  // number of steps that have their caption
	faults []error
}

func (p *reader) fault(words string) { p.faults = append(p.faults, errors.New(words)) }

func (p *reader) pair(name, value string) {
	l := &p.link.Lesson
	switch name {
	case "v":
	case "units":
		p.link.Units = value
	case "at":
		n, _ := strconv.Atoi(value)
		p.link.At = n - 1
	case "shipped":
		p.link.Shipped = value
	case "title":
		l.Title = words(value)
	case "steps":
		p.steps, _ = strconv.Atoi(value)
	case "step":
		l.Steps = append(l.Steps, Step{Link: unpacked.Replace(value)})
	case "say":
		if n := len(l.Steps); n > 0 {
			l.Steps[n-1].Caption = words(value)
			p.said = n
		}
	case "ask":
		l.Question.Text = words(value)
	case "drag":
		l.Question.Key = value
	case "goal":
		l.Question.Goal = Goal(value)
	default:
		p.fault("the link has a part named “" + clip(name) + "”, which no lesson has: it was left out")
	}
}

func words(raw string) string { return link.Unescape(unspaced.Replace(raw)) }

// repair makes what was read fit to be shown, and reports what was lost.
func (p *reader) repair() {
	l := &p.link.Lesson
	if p.link.Shipped != "" {
		p.shipped()
	} else if !p.whole {
		p.cut()
	}
	if len(l.Steps) > MostSteps {
		p.fault(strconv.Itoa(len(l.Steps)) + " steps, but a lesson has at most " + strconv.Itoa(MostSteps) + ": the rest were left out")
		l.Steps = l.Steps[:MostSteps]
	}
	l.Title = p.clipped("title", l.Title, LongestTitle)
	for i := range l.Steps {
		where := "step " + strconv.Itoa(i+1)
		s := &l.Steps[i]
		s.Caption = p.clipped(where, s.Caption, LongestWords)
		scene, problems := scenario.Parse(s.Link)
		s.Link = scene.Format()
		for _, problem := range problems {
			p.fault(where + ", " + problem.Error())
		}
	}
	l.Question.Text = p.clipped("question", l.Question.Text, LongestWords)
	if l.Question != (Question{}) {
		if err := l.Question.check(); err != nil {
			p.fault("the question was left out: " + err.Error())
			l.Question = Question{}
		}
	}
	if u := p.link.Units; u != "" && u != "in" && u != "cm" {
		p.fault("units: “" + clip(u) + "” can't be used; allowed: in, cm")
		p.link.Units = ""
	}
	p.link.At = max(0, min(p.link.At, l.Stops()-1))
}

// shipped inserts a lesson that comes with the bench.
func (p *reader) shipped() {
	for _, s := range Shipped {
		if s.Name == p.link.Shipped {
			p.link.Lesson = s.Lesson
			return
		}
	}
	p.fault("this copy of Pivotbench has no lesson called “" + clip(p.link.Shipped) + "”")
	p.link.Shipped, p.link.Lesson = "", Lesson{}
}

// cut drops the half-read end of a link that was cut.
func (p *reader) cut() {
	l := &p.link.Lesson
	l.Steps = l.Steps[:p.said]
	lost := "the link was cut short: "
	if p.steps > 0 && len(l.Steps) >= p.steps {
		p.fault(lost + "all steps are here, but the question may be lost")
	} else if p.steps > 0 {
		p.fault(lost + strconv.Itoa(len(l.Steps)) + " of " + strconv.Itoa(p.steps) + " steps are here")
	} else {
		p.fault(lost + "no step is here. Copy the whole link")
		l.Steps = nil // without their number, it is not known which steps these are
	}
	l.Question = Question{}
}

// clipped returns the part of a text that may be shown.
func (p *reader) clipped(where, text string, most int) string {
	kept, cut := typed.Line(text, most)
	if kept == text {
		return text
	}
	what := ": characters that can't be shown were left out"
	if cut {
		what = ": more than " + strconv.Itoa(most) + " characters; the rest was left out"
	}
	p.fault(where + what)
	return kept
}

// clip shortens a text for a message.
func clip(text string) string {
	kept, cut := typed.Line(text, 40)
	if cut {
		kept += "…"
	}
	return kept
}
