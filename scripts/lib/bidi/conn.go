package bidi

import (
	"context"
	"encoding/json"
	"fmt"
	"sync"

	"github.com/coder/websocket"
)

// failure is a browser's refusal of one command. Its code also exists in the older
// protocol.
type failure struct{ Code, Message string }

func (f *failure) Error() string { return f.Code + ": " + f.Message }

// reply is anything that the browser sends: the answer to a command, with its id, or an
// event, which has none.
type reply struct {
	ID      *int64
	Result  json.RawMessage
	Error   string
	Message string
	Method  string
	Params  json.RawMessage
}

// conn is the connection to a browser. Commands may be sent from several goroutines.
type conn struct {
	socket *websocket.Conn
	hear   func(event string, params json.RawMessage)

	mu      sync.Mutex
	last    int64
	waiting map[int64]chan reply
	dead    error
}

// dial connects to a browser. It passes each event to hear, in order.
func dial(ctx context.Context, url string, hear func(event string, params json.RawMessage)) (*conn, error) {
	socket, _, err := websocket.Dial(ctx, url, nil)
	if err != nil {
		return nil, err
	}
	socket.SetReadLimit(-1) // a screenshot is one message
	c := &conn{socket: socket, hear: hear, waiting: map[int64]chan reply{}}
	go c.listen()
	return c, nil
}

func (c *conn) listen() {
	for {
		// A context that ends would close the socket for everyone else.
		_, text, err := c.socket.Read(context.Background())
		var r reply
		if err == nil {
			err = json.Unmarshal(text, &r)
		}
		if err != nil {
			c.end(err)
			return
		}
		if r.ID == nil {
			c.hear(r.Method, r.Params)
			continue
		}
		c.mu.Lock()
		answer := c.waiting[*r.ID]
		delete(c.waiting, *r.ID)
		c.mu.Unlock()
		if answer != nil { // otherwise nobody waits for it any more
			answer <- r
		}
	}
}

// end fails every command that waits for an answer, and all later ones.
func (c *conn) end(err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.dead = fmt.Errorf("the browser is gone: %w", err)
	for _, answer := range c.waiting {
		close(answer)
	}
	c.waiting = nil
}

// send sends one command and decodes its result into out, unless out is nil.
func (c *conn) send(ctx context.Context, method string, params map[string]any, out any) error {
	answer := make(chan reply, 1)
	c.mu.Lock()
	if c.dead != nil {
		c.mu.Unlock()
		return c.dead
	}
	c.last++
	id := c.last
	c.waiting[id] = answer
	c.mu.Unlock()

	text, err := json.Marshal(map[string]any{"id": id, "method": method, "params": params})
	if err != nil {
		return err
	}
	if err := c.socket.Write(context.WithoutCancel(ctx), websocket.MessageText, text); err != nil {
		return err
	}
	select {
	case <-ctx.Done():
		c.mu.Lock()
		delete(c.waiting, id)
		c.mu.Unlock()
		return ctx.Err()
	case r, alive := <-answer:
		switch {
		case !alive:
			return c.dead
		case r.Error != "":
			return &failure{r.Error, method + ": " + r.Message}
		case out == nil:
			return nil
		}
		return json.Unmarshal(r.Result, out)
	}
}

// close ends the connection, and with it the browser's session.
func (c *conn) close() { _ = c.socket.CloseNow() }
