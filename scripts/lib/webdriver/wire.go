package webdriver

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"
)

// commandLimit ends a command whose driver has stopped answering. It is longer than the
// page-load and script limits given to the drivers, so that a slow page is reported by
// the driver, in its own words.
const commandLimit = 90 * time.Second

// Error is a driver's refusal of one command.
type Error struct {
	Endpoint string // the command, such as "POST /element"
	Code     string // the W3C error code, such as "no such element"
	Message  string // message of the driver
}

func (e *Error) Error() string {
	return fmt.Sprintf("webdriver: %s: %s: %s", e.Endpoint, e.Code, e.Message)
}

// HasCode reports whether err is, or wraps, a driver's [Error] with a W3C code.
func HasCode(err error, code string) bool {
	var e *Error
	return errors.As(err, &e) && e.Code == code
}

// wire sends commands to one driver. It holds a context, against the usual advice,
// because that ends all commands: a test's whole session with a browser has one lifetime.
type wire struct {
	ctx  context.Context
	base string // URL to which endpoints are appended
}

// call sends one command and decodes its value into out, unless out is nil. A nil in is
// sent as the empty object, which the drivers require.
func (w wire) call(method, endpoint string, in, out any) error {
	fail := func(err error) error {
		return fmt.Errorf("webdriver: %s %s: %w", method, endpoint, err)
	}
	var body io.Reader
	if method == http.MethodPost {
		if in == nil {
			in = struct{}{}
		}
		text, err := json.Marshal(in)
		if err != nil {
			return fail(err)
		}
		body = bytes.NewReader(text)
	}
	ctx, cancel := context.WithTimeout(w.ctx, commandLimit)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, method, w.base+endpoint, body)
	if err != nil {
		return fail(err)
	}
	req.Header.Set("Content-Type", "application/json; charset=utf-8")
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return fail(err)
	}
	defer resp.Body.Close()
	text, err := io.ReadAll(resp.Body)
	if err != nil {
		return fail(err)
	}
	var reply struct{ Value json.RawMessage }
	if err := json.Unmarshal(text, &reply); err != nil {
		return fail(fmt.Errorf("status %s, unreadable answer %.200q: %w", resp.Status, text, err))
	}
	if resp.StatusCode != http.StatusOK {
		var refusal struct{ Error, Message string }
		if err := json.Unmarshal(reply.Value, &refusal); err != nil {
			return fail(fmt.Errorf("status %s, unreadable error %.200q: %w", resp.Status, text, err))
		}
		return &Error{Endpoint: method + " " + endpoint, Code: refusal.Error, Message: refusal.Message}
	}
	if out == nil {
		return nil
	}
	if err := json.Unmarshal(reply.Value, out); err != nil {
		return fail(fmt.Errorf("value %.200s: %w", reply.Value, err))
	}
	return nil
}
