// Package bidi is a driver for a browser that comes without one. It implements the
// commands of W3C WebDriver (https://www.w3.org/TR/webdriver2/) that package webdriver
// sends by those of WebDriver BiDi (https://www.w3.org/TR/webdriver-bidi/), which Firefox
// understands by itself.
package bidi

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"sync"
	"time"
)

// Driver drives one browser. It is an [http.Handler].
type Driver struct {
	browser string // address of the browser's WebSocket
	mux     http.ServeMux

	mu    sync.Mutex // held during a command, since there is one at a time
	conn  *conn
	tab   string // browsing context of the current tab
	frame string // browsing context that commands act on: the tab's own, or that of a frame in it
	limit time.Duration

	log log
}

// New returns a driver for the browser that listens at a WebSocket's address.
func New(browser string) *Driver {
	d := &Driver{browser: browser, limit: time.Minute}
	on(d, "GET /status", func(call, none) (any, error) { return map[string]bool{"ready": true}, nil })
	on(d, "POST /session", d.open)
	const session = "/session/{session}"
	on(d, "DELETE "+session, d.close)
	on(d, "POST "+session+"/timeouts", d.setLimit)

	on(d, "POST "+session+"/url", d.navigate)
	on(d, "GET "+session+"/url", d.address)
	on(d, "GET "+session+"/title", d.title)
	on(d, "POST "+session+"/refresh", d.reload)
	on(d, "POST "+session+"/back", d.traverse(-1))
	on(d, "POST "+session+"/forward", d.traverse(+1))

	on(d, "GET "+session+"/window", d.currentTab)
	on(d, "GET "+session+"/window/handles", d.tabs)
	on(d, "POST "+session+"/window", d.switchTab)
	on(d, "POST "+session+"/window/new", d.newTab)
	on(d, "DELETE "+session+"/window", d.closeTab)
	on(d, "POST "+session+"/frame", d.switchFrame)
	on(d, "GET "+session+"/screenshot", d.screenshot)
	on(d, "POST "+session+"/print", d.print)

	on(d, "POST "+session+"/execute/sync", d.execute(false))
	on(d, "POST "+session+"/execute/async", d.execute(true))
	on(d, "POST "+session+"/actions", d.perform)

	on(d, "POST "+session+"/element", d.find)
	on(d, "POST "+session+"/element/{element}/click", d.click)
	on(d, "POST "+session+"/element/{element}/value", d.sendKeys)
	on(d, "POST "+session+"/element/{element}/clear", d.clear)
	on(d, "GET "+session+"/element/{element}/text", d.text)

	on(d, "POST "+session+"/se/log", d.takeLog)
	on(d, "POST "+session+"/moz/bidi/execute", d.passOn)
	return d
}

func (d *Driver) ServeHTTP(w http.ResponseWriter, r *http.Request) { d.mux.ServeHTTP(w, r) }

// call is one command in progress, with the element that its path names.
type call struct {
	context.Context
	element string
}

// none is the parameter of commands without parameters.
type none struct{}

// object is a JSON object.
type object = map[string]any

// on registers do for a command. do receives its body and returns its value.
func on[In any](d *Driver, pattern string, do func(call, In) (any, error)) {
	d.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		d.mu.Lock()
		defer d.mu.Unlock()
		ctx, cancel := context.WithTimeout(r.Context(), d.limit)
		defer cancel()
		value, err := func() (any, error) {
			var in In
			if err := json.NewDecoder(r.Body).Decode(&in); err != nil && !errors.Is(err, io.EOF) {
				return nil, &failure{"invalid argument", err.Error()}
			}
			return do(call{ctx, r.PathValue("element")}, in)
		}()
		answer(w, value, err)
	})
}

func answer(w http.ResponseWriter, value any, err error) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	if err != nil {
		f := &failure{"unknown error", err.Error()}
		if errors.Is(err, context.DeadlineExceeded) {
			f.Code = "timeout"
		}
		errors.As(err, &f)
		w.WriteHeader(http.StatusInternalServerError)
		value = map[string]string{"error": f.Code, "message": f.Message, "stacktrace": ""}
	}
	_ = json.NewEncoder(w).Encode(object{"value": value}) // to a client that may have gone
}

func (d *Driver) open(c call, in struct {
	Capabilities struct{ AlwaysMatch object }
}) (any, error) {
	var err error
	if d.conn, err = dial(c, d.browser, d.log.hear); err != nil {
		return nil, &failure{"session not created", err.Error()}
	}
	var got struct{ SessionID string }
	capabilities := object{"alwaysMatch": in.Capabilities.AlwaysMatch}
	if err := d.conn.send(c, "session.new", object{"capabilities": capabilities}, &got); err != nil {
		return nil, err
	}
	if err := d.conn.send(c, "session.subscribe", object{"events": []string{"log.entryAdded"}}, nil); err != nil {
		return nil, err
	}
	return map[string]string{"sessionId": got.SessionID}, d.leaveFirstTab(c)
}

// leaveFirstTab opens a new tab for the session, since in the one that the browser opens
// by itself the focus stays in the address bar.
func (d *Driver) leaveFirstTab(c call) error {
	first, err := d.contexts(c, "")
	if err != nil {
		return err
	}
	var made struct{ Context string }
	if err := d.conn.send(c, "browsingContext.create", object{"type": "tab"}, &made); err != nil {
		return err
	}
	d.tab, d.frame = made.Context, made.Context
	return d.conn.send(c, "browsingContext.close", object{"context": first[0].Context}, nil)
}

// close asks the browser to end, without waiting for it.
func (d *Driver) close(c call, _ none) (any, error) {
	err := d.conn.send(c, "browser.close", object{}, nil)
	d.conn.close()
	return nil, err
}

// setLimit uses the limit for scripts as that of all commands.
func (d *Driver) setLimit(_ call, in struct{ Script int }) (any, error) {
	d.limit = time.Duration(in.Script) * time.Millisecond
	return nil, nil
}

// passOn sends a command of the browser's own protocol.
func (d *Driver) passOn(c call, in struct {
	Method string
	Params object
}) (any, error) {
	var out json.RawMessage
	if in.Params == nil {
		in.Params = object{}
	}
	err := d.conn.send(c, in.Method, in.Params, &out)
	return out, err
}
