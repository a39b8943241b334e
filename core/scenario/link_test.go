package scenario_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

const mostProblems = 9 // eight, and the number of the rest

func TestParse(t *testing.T) {
	def := scenario.Default()
	for _, c := range []struct {
		text string
		want func(*scenario.Scenario)
	}{
		{"v=1", func(*scenario.Scenario) {}},
		{"#v=1&side=0.3", func(s *scenario.Scenario) { s.Side = 0.3 }},
		{"https://example.org/bench/?from=mail#v=1&side=0.3", func(s *scenario.Scenario) { s.Side = 0.3 }},
		{"  v=1&side=0.3\n", func(s *scenario.Scenario) { s.Side = 0.3 }},
		{"&&side=0.3&&", func(s *scenario.Scenario) { s.Side = 0.3 }},
		{"side=%30.3&elev=5%C2%B0", func(s *scenario.Scenario) { s.Side, s.Elev = 0.3, 5*unit.Degree }},
		{"bridge=9%201/2%20in", func(s *scenario.Scenario) { s.Bridge = 9.5 * unit.Inch }},
		{"bridge=24cm&speed=3m/s&cuemass=19oz", func(s *scenario.Scenario) {
			s.Bridge, s.Speed, s.CueMass = 24*unit.Centimetre, 3, 19*unit.Ounce
		}},
		{"name=Caf%C3%A9%20%26%20more", func(s *scenario.Scenario) { s.Name = "Café & more" }},
		{"name=100%", func(s *scenario.Scenario) { s.Name = "100%" }},
		{"name=a=b", func(s *scenario.Scenario) { s.Name = "a=b" }},
		{"table=snooker&dist=130in", func(s *scenario.Scenario) { s.Table, s.Dist = "snooker", 130*unit.Inch }},
		{"scatter=1mm,0.05,0.5in,1deg,0.2deg", func(s *scenario.Scenario) {
			s.Scatter = margin.Scatter{Tip: unit.Millimetre, Speed: 0.05, Bridge: 0.5 * unit.Inch, Elev: unit.Degree, Aim: 0.2 * unit.Degree}
		}},
		{"scatter=1mm,0.05,0.5in,1deg,0.2deg,0.5mm", func(s *scenario.Scenario) {
			s.Scatter = margin.Scatter{Tip: unit.Millimetre, Dial: 0.5 * unit.Millimetre, Speed: 0.05, Bridge: 0.5 * unit.Inch, Elev: unit.Degree, Aim: 0.2 * unit.Degree}
		}},
		{"cue3=19in,0.5,530g,9mm,0.8,low, and light", func(s *scenario.Scenario) {
			s.More[1] = scenario.CueSpec{Pivot: 19 * unit.Inch, PivotSpin: 0.5, Mass: 530 * unit.Gram, Tip: 9 * unit.Millimetre, Bounce: 0.8, Name: "low, and light"}
		}},
		{"cue2=", func(*scenario.Scenario) {}},
		{"elev=85deg&cut=-80deg&side=-0.8", func(s *scenario.Scenario) {
			s.Elev, s.Cut, s.Side = 85*unit.Degree, -80*unit.Degree, -0.8
		}},
	} {
		want := def
		c.want(&want)
		got, problems := scenario.Parse(c.text)
		assert.Empty(t, problems, c.text)
		assert.Equal(t, want, got, c.text)
		sane(t, &got)
	}
}

// Messengers and prose leave a full stop or a bracket after a link.
func TestTrailingPunctuation(t *testing.T) {
	for _, end := range []string{".", ")", ",", ";", ":", "!", "?", "]", "}", ">", "'", `"`, "’", "”", "»", ").", " "} {
		for _, pair := range []string{"side=0.25", "gap=2.6in", "cloth=worn", "scatter=1mm,0.05,0.5in,1deg,0.2deg", "v=1", "elev=5deg"} {
			want, problems := scenario.Parse("bridge=9in&" + pair)
			require.Empty(t, problems)
			got, problems := scenario.Parse("bridge=9in&" + pair + end)
			assert.Empty(t, problems, pair+end)
			assert.Equal(t, want, got, pair+end)
		}
	}
	_, problems := scenario.Parse("side=0.25)&bridge=9in")
	assert.Len(t, problems, 1, "only at the end")
}

func TestProblems(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"nosuch=5", "nosuch: “5” can't be used; no control has this name"},
		{"Side=0.3", "Side: “0.3” can't be used; no control has this name"},
		{"hello", "hello: “” can't be used; no control has this name"},
		{"bridge=12", "bridge: “12” can't be used; allowed: 2.0 in to 40.0 in, with its unit; 12.0 in kept"},
		{"bridge=12kg", "bridge: “12kg” can't be used; allowed: 2.0 in to 40.0 in, with its unit; 12.0 in kept"},
		{"bridge=41in", "bridge: “41in” can't be used; allowed: 2.0 in to 40.0 in, with its unit; 12.0 in kept"},
		{"bridge=", "bridge: “” can't be used; allowed: 2.0 in to 40.0 in, with its unit; 12.0 in kept"},
		{"units=cm&bridge=41in", "bridge: “41in” can't be used; allowed: 5.1 cm to 101.6 cm, with its unit; 30.5 cm kept"},
		{"side=NaN", "side: “NaN” can't be used; allowed: −0.80 to 0.80; 0.40 kept"},
		{"side=Inf", "side: “Inf” can't be used; allowed: −0.80 to 0.80; 0.40 kept"},
		{"side=0.9", "side: “0.9” can't be used; allowed: −0.80 to 0.80; 0.40 kept"},
		{"side=0.1&side=0.2", "side: “0.2” can't be used; it stands there twice, and the first counts; 0.10 kept"},
		{"cloth=velvet", "cloth: “velvet” can't be used; allowed: new, normal, worn, damp; normal kept"},
		{"name=" + strings.Repeat("é", 61), "name: “" + strings.Repeat("é", 40) + "…” can't be used; allowed: up to 60 printable characters"},
		{"slide=3", "slide: “3” can't be used; allowed: 0.05 to 0.60; 0.20 kept"},
		{"elev=-1deg", "elev: “-1deg” can't be used; allowed: 0.0° to 85.0°, with its unit; 3.0° kept"},
		{"scatter=1mm,0.05", "scatter: “1mm,0.05” can't be used; allowed: tip 0 to 20 mm, speed 0 to 1, bridge 0 to 10 in, elevation 0 to 20 deg, aim 0 to 10 deg, dialling 0 to 20 mm or left out, joined by commas; 1.5mm,0.06,0.4in,0.7deg,0.15deg kept"},
		{"cue2=12in,0.5", "cue2: “12in,0.5” can't be used; allowed: what the keys pivot, pivotspin, cuemass, tip and bounce allow, and a name, joined by commas"},
		{"v=2", "v: “2” can't be used; this copy of Pivotbench reads links of version 1; get a newer copy"},
	} {
		got, problems := scenario.Parse(c.text)
		if assert.Len(t, problems, 1, c.text) {
			assert.EqualError(t, problems[0], c.want)
		}
		sane(t, &got)
	}
	for _, bad := range []string{
		"scatter=1mm,0.05,0.5in,1deg,1deg,1deg",
		"scatter=1mm,0.05,0.5in,1deg,11deg", "scatter=-1mm,0.05,0.5in,1deg,1deg", "scatter=1,0.05,0.5in,1deg,1deg", "scatter=",
		"cue2=4in,0.5,540g,10mm,0.8,short", "cue2=12in,0.5,540g,10mm,0.8", "cue2=12in,0.5,540g,10mm,x,a", "cue2=12in,0.5,540g,10mm,0.8," + strings.Repeat("a", 61),
	} {
		s, problems := scenario.Parse(bad)
		assert.Len(t, problems, 1, bad)
		assert.Equal(t, scenario.Default(), s, bad)
	}
}

// Every refusal of a number names the key, what was read, what is allowed and the value
// kept, and changes nothing.
func TestEveryNumberRefusesJunk(t *testing.T) {
	for i := range scenario.Keys() {
		k := &scenario.Keys()[i]
		if !k.IsNumber() {
			continue
		}
		outside := unit.Exact(k.Max+(k.Max-k.Min)/1000, k.Quantity, k.Unit)
		below := unit.Exact(k.Min-(k.Max-k.Min)/1000, k.Quantity, k.Unit)
		for _, text := range []string{"junk", "NaN" + k.Unit, "Inf" + k.Unit, "1e999" + k.Unit, "1/0" + k.Unit, "1xyz", outside, below} {
			s := scenario.Default()
			p := k.Set(&s, text, "")
			require.NotNil(t, p, "%s=%s", k.Name, text)
			assert.Equal(t, scenario.Default(), s)
			for _, part := range []string{k.Name, "“" + text + "”", k.Allowed("in"), k.Shown(&s) + " kept"} {
				assert.Contains(t, p.Error(), part)
			}
		}
	}
}

// A limit may be reached in any unit, whatever the rounding.
func TestLimitsAreAllowed(t *testing.T) {
	for i := range scenario.Keys() {
		k := &scenario.Keys()[i]
		if !k.IsNumber() {
			continue
		}
		for _, u := range k.Quantity.Units() {
			for _, limit := range []float64{k.Min, k.Max} {
				s := scenario.Default()
				text := strconv.FormatFloat(limit/u.SI, 'g', 14, 64) + u.Name
				require.Nil(t, k.Set(&s, text, ""), "%s=%s", k.Name, text)
			}
		}
	}
}

func TestSetTakesTheFieldsUnit(t *testing.T) {
	s := scenario.Default()
	k := scenario.Find("bridge")
	require.Nil(t, k.Set(&s, "9 1/2", "in"))
	assert.Equal(t, 9.5*unit.Inch, s.Bridge)
	require.Nil(t, k.Set(&s, "24 cm", "in"))
	assert.Equal(t, 24*unit.Centimetre, s.Bridge)
	assert.NotNil(t, k.Set(&s, "24", ""))
	assert.Equal(t, 24*unit.Centimetre, s.Bridge)
	assert.Equal(t, "9ft", scenario.Find("table").Text(&s))
}

// full returns a link with every key in it.
func full(t *testing.T) string {
	t.Helper()
	s, problems := scenario.Parse("name=A%20shot%20%26%20more&table=snooker&ball=snooker&cloth=worn&diam=52mm&mass=150g&slide=0.25&roll=0.02" +
		"&spindown=9rad/s2&hop=0.3&pivot=9.5in&pivotspin=0.45&cuemass=19oz&tip=9mm&bounce=0.8&tipwidth=12mm&chalk=0.7&side=-0.3&height=0.2" +
		"&elev=5deg&stroke=8mph&bridge=9in&grip=28in&back=0.8&front=0.1&dist=50in&gate=40in&gap=3in&object=30in&cut=10deg&pocket=5in" +
		"&scatter=1mm,0.05,0.5in,1deg,0.2deg&units=cm&cue2=19in,0.5,530g,9mm,0.8,low&cue6=9in,0.5,540g,10mm,0.8,maple")
	require.Empty(t, problems)
	return s.Format()
}

func TestLinksCutAnywhere(t *testing.T) {
	link := full(t)
	for i := range link {
		s, problems := scenario.Parse(link[:i])
		require.LessOrEqual(t, len(problems), 1, link[:i])
		sane(t, &s)
	}
}

func TestLinksWithAByteWrong(t *testing.T) {
	link, rng := []byte(full(t)), rand.New(rand.NewPCG(45, 46))
	for range 3000 {
		i := rng.IntN(len(link))
		was := link[i]
		link[i] = byte(rng.IntN(256))
		s, problems := scenario.Parse(string(link))
		require.LessOrEqual(t, len(problems), mostProblems)
		sane(t, &s)
		link[i] = was
	}
}

// However long the junk is, only a bounded part is read and reported.
func TestJunkIsBounded(t *testing.T) {
	rng := rand.New(rand.NewPCG(47, 48))
	noise := make([]byte, 100<<10)
	for i := range noise {
		noise[i] = byte(rng.Uint32())
	}
	for name, text := range map[string]string{
		"noise":     string(noise),
		"pairs":     strings.Repeat("x=1&", 10<<20/4),
		"separator": strings.Repeat("&", 10<<20),
		"one key":   "side=" + strings.Repeat("9", 10<<20),
		"one name":  strings.Repeat("é", 5<<20),
		"percent":   "name=" + strings.Repeat("%C3%A9", 2<<20),
		"commas":    "scatter=" + strings.Repeat(",", 10<<20),
		"spaces":    strings.Repeat(" ", 10<<20) + "x",
	} {
		s, problems := scenario.Parse(text)
		assert.LessOrEqual(t, len(problems), mostProblems, name)
		for _, p := range problems {
			assert.Less(t, len(p.Error()), 500, name)
			assert.True(t, utf8.ValidString(p.Error()), name)
		}
		assert.Equal(t, scenario.Default(), s, name)
	}

	s, problems := scenario.Parse("side=0.1" + strings.Repeat("&", 16<<10) + "bridge=9in")
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Error(), "characters of a link are read")
	assert.Equal(t, 0.1, s.Side)
	assert.Equal(t, 12*unit.Inch, s.Bridge)

	_, problems = scenario.Parse(strings.Repeat("x=1&", 20))
	require.Len(t, problems, mostProblems)
	assert.EqualError(t, problems[8], "“12 more” can't be used; the Reference lists what a link can hold")
}

// A field may be given as much text as a link. The cost of a refusal does not depend on
// its length.
func TestFieldsRefuseJunkUnread(t *testing.T) {
	s := scenario.Default()
	for _, key := range scenario.Keys() {
		for _, junk := range []string{strings.Repeat(",", 1<<20), strings.Repeat("é1", 1<<20)} {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			problem := key.Set(&s, junk, "in")
			runtime.ReadMemStats(&after)
			require.NotNil(t, problem, key.Name)
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(64<<10), "bytes for %s", key.Name)
		}
	}
	assert.Equal(t, scenario.Default(), s)
}

func FuzzParse(f *testing.F) {
	for _, p := range scenario.Presets {
		f.Add(p.Link)
	}
	for _, seed := range []string{
		"", "#", "v=1", "v=2&side=0.3", "side=0.4).", "https://example.org/#v=1&dist=36in", "name=%zz&name=a", "table=7ft&dist=97in",
		"scatter=1mm,0.05,0.5in,1deg,0.2deg", "cue2=19in,0.5,530g,9mm,0.8,a,b", "speed=5mph&stroke=6mph", "diam=&mass=150g", "height=-0",
		"elev=1.4835298641951802rad", "side=5e-324", "&&=&==", "\xff\x00%00",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, problems := scenario.Parse(text)
		require.LessOrEqual(t, len(problems), mostProblems)
		for _, p := range problems {
			require.NotEmpty(t, p.Error())
			require.True(t, utf8.ValidString(p.Error()))
		}
		sane(t, &s)
	})
}

func ExampleParse() {
	s, problems := scenario.Parse("https://example.org/#v=1&bridge=9 1/2 in&side=0.3&gap=wide")
	fmt.Printf("bridge %.1f in, side %.1f\n", s.Bridge/unit.Inch, s.Side)
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// bridge 9.5 in, side 0.3
	// gap: “wide” can't be used; allowed: 0.00 in to 60.00 in, with its unit; 2.75 in kept
}

func ExampleScenario_Format() {
	s := scenario.Default()
	s.Bridge, s.Speed, s.ByStroke = 9*unit.Inch, 8*unit.MilePerHour, true
	fmt.Println(s.Format())
	// Output: v=1&stroke=8mph&bridge=9in
}

// A name is one line of printable text, however it was typed or sent.
func TestNamesAreCleaned(t *testing.T) {
	for raw, want := range map[string]string{"a%0Ab": "a b", "%FF": "", "House%C2%A04%E2%80%8D": "House 4\u200d", "a%00b%C2%AD": "ab"} {
		s, problems := scenario.Parse("v=1&name=" + raw + "&cue2=12in,0.5,540g,10mm,0.8," + raw)
		assert.Empty(t, problems, raw)
		assert.Equal(t, want, s.Name)
		assert.Equal(t, want, s.More[0].Name)
		again, problems := scenario.Parse(s.Format())
		assert.Empty(t, problems, raw)
		assert.Equal(t, s, again, raw)
	}
}
