package view

import (
	"errors"
	"math"
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

// A Gauged is the result of an instrument, in words.
type Gauged struct {
	Head string         // the value and its interval; empty when there is no value
	Note string         // an explanation of the value, or why there is none
	Sets []app.Setting  // the settings of the shot that it can change; may be empty
	Sure []app.Sureness // how well it then knows the set-up; may be empty
}

// sure returns the result with its estimate as one of a quantity of the set-up. each is
// the unit of that quantity's error: 1 where the error is in SI units, and the estimate
// itself where it is a share. An interval that stops at a limit tells its error on the
// other side.
func sure[T ~float64](g Gauged, key string, e stat.Estimate[T], each T) Gauged {
	if len(g.Sets) > 0 {
		g.Sure = []app.Sureness{{Key: key, Error: float64(max(e.To-e.Median, e.Median-e.From)/each) / stat.Reach90}}
	}
	return g
}

// UsedWords says that a result was used in the shot, and what Measure then counts on.
// before is the model from before.
func UsedWords(before, after *app.Model) string {
	said := ReadingUsed
	was, now := before.SittingOn().SetUp, after.SittingOn().SetUp
	for i := range app.Sures {
		s := &app.Sures[i]
		v := s.Value(now)
		if v == s.Value(was) {
			continue
		}
		name, _, _ := strings.Cut(s.Label, ",")
		good := scenario.DisplayOf(unit.AngleKind, "").Format(v)
		switch s.Key {
		case "offset":
			good = unit.Round(v, unit.Ratio, "", 3) + " R"
		case "speed", "slide":
			good = phrase.Percent(v)
		}
		said += ". Measure now takes the " + strings.ToLower(name) + " as good to " + good
	}
	return said + ". Undo takes it back"
}

// answer returns an estimate from a number of readings in words, with its settings.
// When err is not nil, it returns the error in words instead.
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

// refused returns an error in words.
func refused(err error) Gauged {
	return Gauged{Note: phrase.Upper(strings.ReplaceAll(err.Error(), "\n", "; ")) + "."}
}

// setting returns the setting of a key to a value, rounded as the display shows it,
// so that the shot has exactly the value shown.
func setting[T ~float64](key string, v T, d scenario.Display) app.Setting {
	name := d.Unit
	if name == "°" {
		name = "deg"
	}
	u, _ := d.Quantity.Find(name)
	return app.Setting{Key: key, Text: strconv.FormatFloat(float64(v)/u.SI, 'f', d.Decimals, 64) + name}
}

// CardGap returns the setting of the gap for a ball and a number of cards or coins
// of one thickness between the blockers.
func CardGap(s *scenario.Scenario, many float64, thick unit.Length) app.Setting {
	gap := 2*s.GearBall().Radius + unit.Length(many)*thick
	return setting("gap", gap, scenario.Find("gap").Display(s.Units))
}

// A Hit is a kind of hit for a timing.
type Hit struct {
	Name, Label string
	topspin     float64
}

// Hits are the hits to choose from; bench is that of the current shot. For draw, the
// tip is 0.3 R below the centre, which gives Rω/v = −5/2 × 0.3.
var Hits = []Hit{
	{"stun", "Centre ball, no spin", 0},
	{"follow", "Follow, rolls at once", 1},
	{"draw", "Draw, 0.3 R below centre", -0.75},
	{"bench", "Same as the current shot", 0},
}

// Topspin returns Rω/v of a hit by its name, negative for backspin. It returns an
// error for an unknown name, or when the current shot does not launch the ball.
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
		return 0, errors.New("no hit is called “" + name + "”")
	}
	return Hits[i].topspin, nil
}

// quantity parses a field. A number without a unit is in the unit bare. what names
// the field in the error.
func quantity[T ~float64](what, text string, kind unit.Kind, bare string) (T, error) {
	v, err := unit.Parse(text, kind, bare)
	if err != nil {
		return 0, errors.New(what + ": " + err.Error())
	}
	return T(v), nil
}

// Elevation returns a cue's elevation from two heights of its underside. When the
// thicknesses are empty, the heights are taken as those of the cue's axis.
func Elevation(s *scenario.Scenario, tip, butt, apart, tipThick, buttThick string) Gauged {
	if tip == "" && butt == "" {
		return Gauged{Note: "Type the two heights."}
	}
	var h instrument.Heights
	var errs [5]error
	h.Tip, errs[0] = quantity[unit.Length]("height nearer the tip", tip, unit.LengthKind, s.Units)
	h.Butt, errs[1] = quantity[unit.Length]("height nearer the butt", butt, unit.LengthKind, s.Units)
	h.Apart, errs[2] = quantity[unit.Length]("distance between the two", apart, unit.LengthKind, s.Units)
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

// Level returns a cue's elevation from the tilt of a phone, flat on the cloth and
// then along the cue.
func Level(zero, along []instrument.Tilt) Gauged {
	e, err := instrument.Level(zero, along)
	return elevation(e, err)
}

// elevation returns an elevation in words. It is set, and shown, in whole steps of its key,
// which is as finely as anybody can hold a cue. Its error includes that rounding.
func elevation(e stat.Estimate[unit.Angle], err error) Gauged {
	k := scenario.Find("elev")
	text := k.StepText(float64(e.Median), "")
	e.Median = unit.Angle(k.Stepped(float64(e.Median), "", math.Round))
	return sure(answer(k.Display(""), e, 1, err, app.Setting{Key: k.Name, Text: text}), "elevation", e, 1)
}

// Ways are the labels of the ways to measure an offset, indexed by instrument.Way.
var Ways = []string{
	instrument.Across:   "the chalk mark, read from in front",
	instrument.Straight: "the chalk mark, straight across",
	instrument.Over:     "the chalk mark, around the ball",
	instrument.Axis:     "the middle of the tip",
	instrument.Edge:     "the edge of the tip",
}

// Offset returns where the tip touches the ball, from a ruler's reading. to is
// right, left, above or below.
func Offset(s *scenario.Scenario, way, reading, to string) Gauged {
	if reading == "" {
		return Gauged{Note: "Type what the ruler reads."}
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
		if key == "side" {
			g = sure(g, "offset", e, 1)
		}
		g.Head = strings.Replace(g.Head, " (", " R (", 1)
		axis := strike.AxisDistance(e.Median, sh.Ball, sh.Cue.Tip)
		g.Note = "R is the ball's radius; the offset is " + sideNames[to] + ". The tip touches " + phrase.Small(s, e.Median*float64(sh.Ball.Radius)) + " from the middle of the ball. The middle of the cue points " + phrase.Small(s, float64(axis)) + " from it."
	}
	return g
}

// Dome returns the radius of a tip's dome from its width and its rise.
func Dome(width, rise string) Gauged {
	if width == "" && rise == "" {
		return Gauged{Note: "Type the width and the rise."}
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
