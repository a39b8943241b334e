package scenario

import (
	"strconv"
	"strings"

	"pivotbench/core/link"
	"pivotbench/core/unit"
)

const (
	version = "1"

	// LongestLink is more characters than the link of any scenario has. The rest of a
	// longer one is not read, so that junk costs a bounded time.
	LongestLink = 16 << 10

	// mostProblems is how many problems are reported one by one.
	mostProblems = 8
)

// Format returns the scenario as the text of a link's fragment, without the #.
func (s *Scenario) Format() string {
	def := Default()
	var text strings.Builder
	text.WriteString("v=" + version)
	for i := range keys {
		k := &keys[i]
		v := k.Value(s)
		if k.IsSpeed() && v == "" || v == k.Value(&def) {
			continue
		}
		text.WriteString("&" + k.Name + "=" + link.Escape(v))
	}
	return text.String()
}

// Parse reads a link: a fragment, with or without its #, or a whole address that has one.
// It never fails: a key that is unknown, out of range or unreadable keeps its default and
// is reported as a Problem. If a key is repeated, the first one counts.
func Parse(text string) (Scenario, []*Problem) {
	p := parser{s: Default(), seen: map[string]bool{}}
	text = link.Fragment(text)
	if len(text) > LongestLink {
		p.report(&Problem{Read: unit.Clip(text), Allowed: "only the first " + strconv.Itoa(LongestLink) + " characters of a link are read"})
		text = text[:LongestLink]
	}
	pairs := strings.Split(text, "&")
	for i, pair := range pairs {
		if pair != "" {
			p.pair(pair, i == len(pairs)-1)
		}
	}
	def := Default()
	for _, problem := range p.s.fit(&def) {
		p.report(problem)
	}
	if p.more > 0 {
		p.problems = append(p.problems, &Problem{Read: strconv.Itoa(p.more) + " more", Allowed: "the Reference lists what a link can hold"})
	}
	return p.s, p.problems
}

type parser struct {
	s        Scenario
	seen     map[string]bool
	problems []*Problem
	more     int // problems beyond mostProblems
}

func (p *parser) report(problem *Problem) {
	if len(p.problems) == mostProblems {
		p.more++
		return
	}
	p.problems = append(p.problems, problem)
}

// pair reads one key=value. The last pair of a link may end in a full stop or bracket
// that followed the link in a message.
func (p *parser) pair(pair string, last bool) {
	name, raw, _ := strings.Cut(pair, "=")
	value := link.Unescape(raw)
	if name == "v" {
		if strings.TrimRight(value, link.Trailing) != version {
			p.report(&Problem{Key: "v", Read: unit.Clip(value), Allowed: "this copy of Pivotbench reads links of version " + version + "; get a newer copy"})
		}
		return
	}
	k := Find(name)
	if k == nil || strings.Contains(name, ".") { // parts only travel within their list
		p.report(&Problem{Key: unit.Clip(name), Read: unit.Clip(value), Allowed: "no control has this name"})
		return
	}
	if p.seen[name] || k.IsSpeed() && (p.seen["speed"] || p.seen["stroke"]) {
		p.report(&Problem{Key: name, Read: unit.Clip(value), Allowed: "it stands there twice, and the first counts", Kept: k.Shown(&p.s)})
		return
	}
	p.seen[name] = true
	problem := k.Set(&p.s, value, "")
	if problem != nil && last && k.Set(&p.s, strings.TrimRight(value, link.Trailing), "") == nil {
		return
	}
	if problem != nil {
		p.report(problem)
	}
}

// IsSpeed reports whether the key is one of the two ways to give the speed.
func (k *Key) IsSpeed() bool { return k.Name == "speed" || k.Name == "stroke" }

// Fit moves whatever lies off the table back onto it, as far out as there is room, and
// reports what it moved. The target, the gate and the pocket must fit the table's length,
// the blockers its width.
func (s *Scenario) Fit() []*Problem { return s.fit(nil) }

// fit is Fit, except that a value off the table takes the value of instead, if that is
// given and has it on the table. A link uses its default there.
func (s *Scenario) fit(instead *Scenario) []*Problem {
	if instead == nil {
		instead = s
	}
	table, diam := s.GearTable(), 2*s.GearBall().Radius
	var moved []*Problem
	within := func(name string, field *unit.Length, fallback, most unit.Length) {
		if *field <= most {
			return
		}
		d := Find(name).Display(s.Units)
		read := d.Format(float64(*field))
		*field = min(most, fallback)
		moved = append(moved, &Problem{
			Key: name, Read: read, Kept: d.Format(float64(*field)),
			Allowed: "this table has room for " + d.Format(float64(most)),
		})
	}
	within("dist", &s.Dist, instead.Dist, table.Length-diam)
	within("gate", &s.Gate, instead.Gate, table.Length-diam)
	within("gap", &s.Gap, instead.Gap, table.Width-2*diam)
	within("object", &s.Object, instead.Object, table.Length-diam)
	return moved
}
