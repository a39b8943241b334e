package bidi

import "encoding/json"

// browsing is a browsing context: a tab, or a frame in one.
type browsing struct{ Context, URL string }

// contexts returns the tabs, or only root if that is not empty.
func (d *Driver) contexts(c call, root string) ([]browsing, error) {
	params := object{"maxDepth": 0}
	if root != "" {
		params["root"] = root
	}
	var got struct{ Contexts []browsing }
	err := d.conn.send(c, "browsingContext.getTree", params, &got)
	return got.Contexts, err
}

func (d *Driver) navigate(c call, in struct{ URL string }) (any, error) {
	d.frame = d.tab
	return nil, d.conn.send(c, "browsingContext.navigate", object{"context": d.tab, "url": in.URL, "wait": "complete"}, nil)
}

func (d *Driver) reload(c call, _ none) (any, error) {
	d.frame = d.tab
	return nil, d.conn.send(c, "browsingContext.reload", object{"context": d.tab, "wait": "complete"}, nil)
}

func (d *Driver) traverse(delta int) func(call, none) (any, error) {
	return func(c call, _ none) (any, error) {
		d.frame = d.tab
		return nil, d.conn.send(c, "browsingContext.traverseHistory", object{"context": d.tab, "delta": delta}, nil)
	}
}

func (d *Driver) address(c call, _ none) (any, error) {
	at, err := d.contexts(c, d.tab)
	if err != nil {
		return nil, err
	}
	return at[0].URL, nil
}

func (d *Driver) title(c call, _ none) (any, error) {
	var title string
	err := d.run(c, d.tab, "() => document.title", &title)
	return title, err
}

func (d *Driver) currentTab(call, none) (any, error) { return d.tab, nil }

func (d *Driver) tabs(c call, _ none) (any, error) {
	open, err := d.contexts(c, "")
	var tabs []string
	for _, o := range open {
		tabs = append(tabs, o.Context)
	}
	return tabs, err
}

// switchTab brings a tab to the front. Only there does a page have the focus and draw
// frames.
func (d *Driver) switchTab(c call, in struct{ Handle string }) (any, error) {
	if err := d.conn.send(c, "browsingContext.activate", object{"context": in.Handle}, nil); err != nil {
		return nil, err
	}
	d.tab, d.frame = in.Handle, in.Handle
	return nil, nil
}

func (d *Driver) newTab(c call, _ none) (any, error) {
	var got struct{ Context string }
	err := d.conn.send(c, "browsingContext.create", object{"type": "tab"}, &got)
	return map[string]string{"handle": got.Context, "type": "tab"}, err
}

func (d *Driver) closeTab(c call, _ none) (any, error) {
	return nil, d.conn.send(c, "browsingContext.close", object{"context": d.tab}, nil)
}

// switchFrame enters the frame of an iframe element, or returns to the top without one.
func (d *Driver) switchFrame(c call, in struct{ ID reference }) (any, error) {
	if in.ID == nil {
		d.frame = d.tab
		return nil, nil
	}
	got, err := d.apply(c, d.frame, "(frame) => frame.contentWindow", in.ID.remote())
	if err != nil {
		return nil, err
	}
	var window struct{ Value struct{ Context string } }
	if err := json.Unmarshal(got, &window); err != nil || window.Value.Context == "" {
		return nil, &failure{"no such frame", string(got)}
	}
	d.frame = window.Value.Context
	return nil, nil
}

func (d *Driver) screenshot(c call, _ none) (any, error) {
	var got struct{ Data string }
	err := d.conn.send(c, "browsingContext.captureScreenshot", object{"context": d.tab, "origin": "viewport"}, &got)
	return got.Data, err
}

func (d *Driver) print(c call, _ none) (any, error) {
	var got struct{ Data string }
	err := d.conn.send(c, "browsingContext.print", object{"context": d.tab}, &got)
	return got.Data, err
}
