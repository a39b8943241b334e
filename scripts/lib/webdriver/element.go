package webdriver

import "encoding/json"

// elementKey identifies an element in the protocol's JSON; the standard defines it.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

// Element is one element of the page in which it was found. It becomes stale when that
// page is left or the element removed.
type Element struct {
	s  *Session
	id string
}

// MarshalJSON writes the element in the protocol's form, so that it can be an argument of
// a script.
func (e Element) MarshalJSON() ([]byte, error) {
	return json.Marshal(map[string]string{elementKey: e.id})
}

// Find returns the first element that matches a CSS selector now, or the error code "no
// such element".
func (s *Session) Find(css string) (Element, error) {
	var got map[string]string
	by := map[string]string{"using": "css selector", "value": css}
	if err := s.post("/element", by, &got); err != nil {
		return Element{}, err
	}
	return Element{s, got[elementKey]}, nil
}

func (e Element) endpoint(name string) string { return "/element/" + e.id + "/" + name }

// Click scrolls the element into view and clicks its middle with the mouse.
func (e Element) Click() error { return e.s.post(e.endpoint("click"), nil, nil) }

// SendKeys focuses the element and types text; see [Session.Keys] for the keys that are
// not characters.
func (e Element) SendKeys(text string) error {
	return e.s.post(e.endpoint("value"), map[string]string{"text": text}, nil)
}

// Clear empties an input.
func (e Element) Clear() error { return e.s.post(e.endpoint("clear"), nil, nil) }

// Text returns the element's text as it is rendered.
func (e Element) Text() (text string, err error) {
	err = e.s.get(e.endpoint("text"), &text)
	return text, err
}

// Attr returns an attribute of the element, or "" if it has none.
func (e Element) Attr(name string) (value string, err error) {
	err = e.s.Eval(`return arguments[0].getAttribute(arguments[1]) ?? ""`, &value, e, name)
	return value, err
}

// Rect is a rectangle in the viewport of the page it belongs to.
type Rect struct{ X, Y, Width, Height float64 }

// Center returns the middle of the rectangle.
func (r Rect) Center() (x, y float64) { return r.X + r.Width/2, r.Y + r.Height/2 }

// Rect returns the element's rectangle in its page's viewport as now scrolled, in the
// coordinates that pointers use.
func (e Element) Rect() (r Rect, err error) {
	err = e.s.Eval(`const r = arguments[0].getBoundingClientRect();
		return {X: r.x, Y: r.y, Width: r.width, Height: r.height}`, &r, e)
	return r, err
}
