package app

import (
	"slices"
	"strconv"
	"strings"
)

// A Look holds the display settings of the sheet. The device keeps Stretch, Theme and
// Left. No setting is ever part of a link.
type Look struct {
	Stretch int    // sideways magnification: one of Stretches
	Theme   string // system, dark or light
	Left    bool   // whether the layout is for the left hand
	Object  bool   // whether the object ball and its pocket are shown
	Band    bool   // whether the area that nine strokes in ten reach is shown
	Side    bool   // whether the side view is shown, even for a ball that stays on the cloth
}

// Stretches lists the sideways magnifications that the user can choose.
var Stretches = []int{1, 4, 10}

// Format returns the look as the device keeps it.
func (l Look) Format() string {
	return strconv.Itoa(l.Stretch) + " " + l.Theme + " " + strconv.FormatBool(l.Left)
}

// Show changes the look. It changes nothing if the stretch or the theme is not one of
// the choices.
type Show struct{ Look Look }

func (e Show) update(m Model) Model {
	if slices.Contains(Stretches, e.Look.Stretch) && slices.Contains([]string{"system", "dark", "light"}, e.Look.Theme) {
		m.Look = e.Look
	}
	return m
}

// Recall takes over the settings that the device and the tab have saved, when the page
// starts. A look that cannot be read leaves the look unchanged.
type Recall struct {
	Look      string
	SetUp     string
	Gear      string
	Cautioned bool
	Known     bool // whether the device has seen a visit before
}

func (e Recall) update(m Model) Model {
	m.Cautioned, m.Known, m.SetUp, m.Gear = e.Cautioned, e.Known, parseSetUp(e.SetUp), parseGear(e.Gear)
	parts := strings.Fields(e.Look)
	if len(parts) != 3 {
		return m
	}
	look := m.Look
	look.Stretch, _ = strconv.Atoi(parts[0])
	look.Theme, look.Left = parts[1], parts[2] == "true"
	return Show{look}.update(m)
}
