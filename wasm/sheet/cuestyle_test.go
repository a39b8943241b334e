package sheet

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each compared cue has a dash of its own, for whoever sees no colour.
func TestCueDashesDiffer(t *testing.T) {
	for i := range cueDashes {
		for j := range i {
			assert.NotEqual(t, cueDashes[i], cueDashes[j])
			assert.NotEqual(t, cueInks[i], cueInks[j])
		}
	}
	assert.Equal(t, CueStroke(1, 2), CueStroke(1+len(cueInks), 2), "the styles start over")
}

// The kinds of colour vision: what each makes of red, green and blue light (linear).
// From memory: Machado, Oliveira & Fernandes, "A physiologically-based model for
// simulation of color vision deficiency", IEEE Trans. Vis. Comput. Graph. 15 (2009)
// 1291, table 1, full severity.
var visions = map[string][3][3]float64{
	"usual":        {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// A light is red, green and blue light, each linear from 0 to 1.
type light [3]float64

// lightOf reads a colour like #0a6a83 (sRGB, IEC 61966-2-1).
func lightOf(t *testing.T, hex string) (l light) {
	for i := range l {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		require.NoError(t, err, hex)
		if c := float64(v) / 255; c <= 0.04045 {
			l[i] = c / 12.92
		} else {
			l[i] = math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return l
}

// luminance is the relative luminance of WCAG 2.1.
func (l light) luminance() float64 { return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2] }

// contrast is the contrast ratio of WCAG 2.1.
func contrast(a, b light) float64 {
	high, low := max(a.luminance(), b.luminance()), min(a.luminance(), b.luminance())
	return (high + 0.05) / (low + 0.05)
}

// seen returns the colour as it is seen, in CIELAB under D65.
func (l light) seen(vision [3][3]float64) (lab [3]float64) {
	var s light
	for i, row := range vision {
		s[i] = min(max(row[0]*l[0]+row[1]*l[1]+row[2]*l[2], 0), 1)
	}
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	x := f((0.4124*s[0] + 0.3576*s[1] + 0.1805*s[2]) / 0.95047)
	y := f(s.luminance())
	z := f((0.0193*s[0] + 0.1192*s[1] + 0.9505*s[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// inks reads the colours of each theme from the style sheet, the light one first.
func inks(t *testing.T) (themes []map[string]light) {
	style, err := os.ReadFile("../../site/style.css")
	require.NoError(t, err)
	colour := regexp.MustCompile(`--([a-z0-9]+): (#[0-9a-f]{6});`)
	for _, block := range regexp.MustCompile(`\n\s*color-scheme:`).Split(string(style), -1)[1:] {
		block, _, _ = strings.Cut(block, "}")
		theme := map[string]light{}
		for _, m := range colour.FindAllStringSubmatch(block, -1) {
			theme[m[1]] = lightOf(t, m[2])
		}
		themes = append(themes, theme)
	}
	return themes
}

// On screens every ink of a cue can be read on the paper, by WCAG 2.1's contrast for
// text, and no two look alike with any colour vision. A difference of 2.3 in CIELAB is
// just noticeable (Mahy, Van Eycken & Oosterlinck, Color Res. Appl. 19 (1994) 105, from
// memory); lines as thin as these need ten times as much.
func TestCueInksDiffer(t *testing.T) {
	themes := inks(t)
	require.GreaterOrEqual(t, len(themes), 3, "light, the device's dark, the chosen dark")
	for i, theme := range themes[:3] {
		for _, ink := range cueInks {
			require.Contains(t, theme, string(ink), "theme %d", i)
			assert.GreaterOrEqual(t, contrast(theme[string(ink)], theme["ground"]), 4.5, "theme %d: %s", i, ink)
		}
		for name, vision := range visions {
			for j, a := range cueInks {
				for _, b := range cueInks[:j] {
					p, q := theme[string(a)].seen(vision), theme[string(b)].seen(vision)
					apart := math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
					assert.Greater(t, apart, 23.0, "theme %d: %s and %s with %s", i, a, b, name)
				}
			}
		}
	}
}
