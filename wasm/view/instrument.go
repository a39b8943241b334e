package view

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A Gauged is what an instrument says, in words.
type Gauged struct {
	Head string        // the value and its interval; empty: there is none
	Note string        // what to make of it, or why there is none
	Sets []app.Setting // what it puts in the shot; empty: nothing
}

// answer puts an estimate from some readings into words, or the reason why there
// is none.
func answer[T ~float64](d scenario.Display, e stat.Estimate[T], readings int, err error, sets ...app.Setting) Gauged {
	if err != nil {
		return refused(err)
	}
	head := d.Format(float64(e.Median)) + " (90 %: " + d.Number(float64(e.From)) + " to " + d.Number(float64(e.To))
	if readings > 1 {
		head += ", " + strconv.Itoa(readings) + " readings"
	}
	return Gauged{Head: head + ")", Sets: sets}
}

// refused is why there is no answer.
func refused(err error) Gauged {
	return Gauged{Note: phrase.Upper(strings.ReplaceAll(err.Error(), "\n", "; ")) + "."}
}

// setting is a value for a key, exactly as it is shown: what is set is what was
// read.
func setting[T ~float64](key string, v T, d scenario.Display) app.Setting {
	name := d.Unit
	if name == "°" {
		name = "deg"
	}
	u, _ := d.Quantity.Find(name)
	return app.Setting{Key: key, Text: strconv.FormatFloat(float64(v)/u.SI, 'f', d.Decimals, 64) + name}
}

// CardGap sets the gap to a ball and so many cards or coins between the
// blockers.
func CardGap(s *scenario.Scenario, many float64, thick unit.Length) app.Setting {
	gap := 2*s.GearBall().Radius + unit.Length(many)*thick
	return setting("gap", gap, scenario.Find("gap").Display(s.Units))
}

// A Hit is a way to hit the ball for a timing.
type Hit struct {
	Name, Label string
	topspin     float64
}

// Hits are on offer; bench is the one on the bench. Draw is a tip three tenths
// of the radius below the middle, which makes 5/2 of that backspin.
var Hits = []Hit{
	{"stun", "Centre ball, no spin", 0},
	{"follow", "Follow, rolling at once", 1},
	{"draw", "Draw, 0.3 R below centre", -0.75},
	{"bench", "As on the bench", 0},
}

// Topspin is Rω/v of a hit by its name.
func Topspin(s *scenario.Scenario, name string) (float64, error) {
	if name == "bench" {
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		v, w := res.Launch.Vel.Plan(), res.Launch.Spin
		if res.Launched != nil {
			return 0, res.Launched
		}
		return float64(sh.Ball.Radius) * (w.Y*v.X - w.X*v.Y) / v.Dot(v), nil
	}
	i := slices.IndexFunc(Hits, func(h Hit) bool { return h.Name == name })
	if i < 0 {
		return 0, errors.New("there is no hit named “" + name + "”")
	}
	return Hits[i].topspin, nil
}

// quantity reads a field; what names it in a message.
func quantity[T ~float64](what, text string, kind unit.Kind, bare string) (T, error) {
	v, err := unit.Parse(text, kind, bare)
	if err != nil {
		return 0, errors.New(what + ": " + err.Error())
	}
	return T(v), nil
}

// Elevation is that of a cue by two heights of its underside. The thicknesses
// may be left empty: then the heights are those of its middle.
func Elevation(s *scenario.Scenario, tip, butt, apart, tipThick, buttThick string) Gauged {
	if tip == "" && butt == "" {
		return Gauged{Note: "Enter the two heights."}
	}
	var h instrument.Heights
	var errs [5]error
	h.Tip, errs[0] = quantity[unit.Length]("height nearer the tip", tip, unit.LengthKind, s.Units)
	h.Butt, errs[1] = quantity[unit.Length]("height nearer the butt", butt, unit.LengthKind, s.Units)
	h.Apart, errs[2] = quantity[unit.Length]("length between them", apart, unit.LengthKind, s.Units)
	if tipThick != "" || buttThick != "" {
		h.TipThick, errs[3] = quantity[unit.Length]("thickness nearer the tip", tipThick, unit.LengthKind, "mm")
		h.ButtThick, errs[4] = quantity[unit.Length]("thickness nearer the butt", buttThick, unit.LengthKind, "mm")
	}
	if err := errors.Join(errs[:]...); err != nil {
		return refused(err)
	}
	e, err := h.Estimate()
	return elevation(e, err)
}

// Level is the elevation of a cue by a phone laid along it.
func Level(zero, along []instrument.Tilt) Gauged {
	e, err := instrument.Level(zero, along)
	return elevation(e, err)
}

func elevation(e stat.Estimate[unit.Angle], err error) Gauged {
	d := scenario.DisplayOf(unit.AngleKind, "")
	return answer(d, e, 1, err, setting("elev", e.Median, d))
}

// Ways of reading an offset, by instrument.Way, for a menu.
var Ways = []string{
	instrument.Across:   "Chalk mark, seen square across",
	instrument.Straight: "Chalk mark, point to point",
	instrument.Over:     "Chalk mark, over the surface",
	instrument.Axis:     "Middle of the tip aimed there",
	instrument.Edge:     "Edge of the tip aimed there",
}

// Offset is where the tip touches, by a ruler; to is right, left, above or
// below.
func Offset(s *scenario.Scenario, way, reading, to string) Gauged {
	if reading == "" {
		return Gauged{Note: "Enter what the ruler reads."}
	}
	x, err := quantity[unit.Length]("reading", reading, unit.LengthKind, "mm")
	if err != nil {
		return refused(err)
	}
	sh := s.Shot()
	e, err := instrument.OffsetEstimate(instrument.Way(slices.Index(Ways, way)), x, sh.Ball, sh.Cue.Tip)
	d := scenario.Display{Quantity: unit.Ratio, Decimals: 2}
	key, v := "side", e.Median
	if to == "above" || to == "below" {
		key = "height"
	}
	if to == "left" || to == "below" {
		v = -v
	}
	g := answer(d, e, 1, err, setting(key, v, d))
	if err == nil {
		g.Head = strings.Replace(g.Head, " (", " R (", 1)
		axis := strike.AxisDistance(e.Median, sh.Ball, sh.Cue.Tip)
		g.Note = "Ball radii from the middle, " + to + ". The cue's axis passes " + phrase.Small(s, float64(axis)) + " from the middle, the tip touches " + phrase.Small(s, e.Median*float64(sh.Ball.Radius)) + " from it."
	}
	return g
}

// Dome is the radius of a tip's dome by its width and its rise.
func Dome(width, rise string) Gauged {
	if width == "" && rise == "" {
		return Gauged{Note: "Enter the tip's width and its rise."}
	}
	w, errW := quantity[unit.Length]("width", width, unit.LengthKind, "mm")
	r, errR := quantity[unit.Length]("rise", rise, unit.LengthKind, "mm")
	if err := errors.Join(errW, errR); err != nil {
		return refused(err)
	}
	e, err := instrument.Dome{Width: w, Rise: r}.Estimate()
	d := scenario.Find("tip").Display("")
	return answer(d, e, 1, err, setting("tip", e.Median, d), app.Setting{Key: "tipwidth", Text: unit.Exact(float64(w), unit.LengthKind, "mm")})
}
