package app

import (
	"slices"
	"strconv"
	"strings"
)

// A Look is how the sheet is shown. Stretch, Theme and Left are kept on the device;
// none of it is ever in a link.
type Look struct {
	Stretch int    // sideways: 1, 4 or 10
	Theme   string // system, dark or light
	Left    bool   // layout for the left hand
	Object  bool   // the object ball and its pocket are on the sheet
	Band    bool   // so is where nine strokes of ten go
	Side    bool   // so is the view from the side, even of a ball that keeps to the cloth
}

// Stretches are the sideways stretches on offer.
var Stretches = []int{1, 4, 10}

// Format returns the look as the device keeps it.
func (l Look) Format() string {
	return strconv.Itoa(l.Stretch) + " " + l.Theme + " " + strconv.FormatBool(l.Left)
}

// Show changes the look. A value that is not on offer changes nothing.
type Show struct{ Look Look }

func (e Show) update(m Model) Model {
	if slices.Contains(Stretches, e.Look.Stretch) && slices.Contains([]string{"system", "dark", "light"}, e.Look.Theme) {
		m.Look = e.Look
	}
	return m
}

// Recall is what the device and the tab remember having been read, at the start.
// A look that can't be read changes nothing.
type Recall struct {
	Look      string
	SetUp     string
	Cautioned bool
}

func (e Recall) update(m Model) Model {
	m.Cautioned, m.SetUp = e.Cautioned, parseSetUp(e.SetUp)
	parts := strings.Fields(e.Look)
	if len(parts) != 3 {
		return m
	}
	look := m.Look
	look.Stretch, _ = strconv.Atoi(parts[0])
	look.Theme, look.Left = parts[1], parts[2] == "true"
	return Show{look}.update(m)
}
