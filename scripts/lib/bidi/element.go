package bidi

import (
	"encoding/json"
	"strings"
)

func (d *Driver) find(c call, in struct{ Value string }) (any, error) {
	var got struct{ Nodes []struct{ SharedID string } }
	err := d.conn.send(c, "browsingContext.locateNodes", object{
		"context": d.frame, "maxNodeCount": 1,
		"locator":              object{"type": "css", "value": in.Value},
		"serializationOptions": object{"maxDomDepth": 0},
	}, &got)
	if err == nil && len(got.Nodes) == 0 {
		err = &failure{"no such element", in.Value}
	}
	if err != nil {
		return nil, err
	}
	return reference{elementKey: got.Nodes[0].SharedID}, nil
}

// of runs a function on the call's element. The result is plain JSON.
func (d *Driver) of(c call, function string, out any) error {
	return d.run(c, d.frame, function, out, reference{elementKey: c.element}.remote())
}

// reach returns where to click an element, in its frame's viewport: the middle of its
// visible part. If something else is there, it first scrolls the element to the middle,
// away from bars along an edge. If that does not help, it says what covers the element.
const reach = `(el) => {
	const page = document.documentElement;
	const look = () => {
		const r = el.getClientRects()[0];
		if (!r) return {Instead: "nothing: it is not shown"};
		const between = (a, b, end) => Math.floor((Math.max(0, a) + Math.min(end, b)) / 2);
		const at = [between(r.left, r.right, page.clientWidth), between(r.top, r.bottom, page.clientHeight)];
		const hit = document.elementFromPoint(...at);
		return el.contains(hit) ? {At: at} : {Instead: hit ? hit.outerHTML.slice(0, 200) : "nothing: it is out of view"};
	};
	const first = look();
	if (first.At) return first;
	el.scrollIntoView({behavior: "instant", block: "center", inline: "nearest"});
	return look();
}`

func (d *Driver) click(c call, _ none) (any, error) {
	var got struct {
		At      *[2]int
		Instead string
	}
	if err := d.of(c, reach, &got); err != nil {
		return nil, err
	}
	if got.At == nil {
		return nil, &failure{"element click intercepted", "in its place is " + got.Instead}
	}
	return nil, d.act(c, object{
		"type": "pointer", "id": "click", "parameters": object{"pointerType": "mouse"},
		"actions": []object{
			{"type": "pointerMove", "x": got.At[0], "y": got.At[1], "origin": "viewport"},
			{"type": "pointerDown", "button": 0},
			{"type": "pointerUp", "button": 0},
		},
	})
}

// sendKeys types into an element, after its present text. An input for files gets those
// whose paths are in the text, one on each line.
func (d *Driver) sendKeys(c call, in struct{ Text string }) (any, error) {
	var files bool
	err := d.of(c, `(el) => {
		if (el.type === "file") return true;
		if (document.activeElement !== el) {
			el.focus();
			try { el.setSelectionRange(el.value.length, el.value.length); } catch {} // a number input has no caret to set
		}
		return false;
	}`, &files)
	if err != nil {
		return nil, err
	}
	if files {
		return nil, d.conn.send(c, "input.setFiles", object{
			"context": d.frame, "element": object{"sharedId": c.element}, "files": strings.Split(in.Text, "\n"),
		}, nil)
	}
	var keys []object
	for _, key := range in.Text {
		keys = append(keys, object{"type": "keyDown", "value": string(key)}, object{"type": "keyUp", "value": string(key)})
	}
	return nil, d.act(c, object{"type": "key", "id": "keyboard", "actions": keys})
}

func (d *Driver) clear(c call, _ none) (any, error) {
	return nil, d.of(c, `(el) => {
		el.focus();
		el.value = "";
		for (const type of ["input", "change"]) el.dispatchEvent(new Event(type, {bubbles: true}));
		el.blur();
	}`, new(any))
}

func (d *Driver) text(c call, _ none) (any, error) {
	var text string
	err := d.of(c, "(el) => el.innerText.trim()", &text)
	return text, err
}

// perform performs actions, which have the same form in both protocols.
func (d *Driver) perform(c call, in struct{ Actions []json.RawMessage }) (any, error) {
	return nil, d.conn.send(c, "input.performActions", object{"context": d.frame, "actions": in.Actions}, nil)
}

func (d *Driver) act(c call, source object) error {
	return d.conn.send(c, "input.performActions", object{"context": d.frame, "actions": []object{source}}, nil)
}
