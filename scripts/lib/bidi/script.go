package bidi

import "encoding/json"

// elementKey identifies an element in WebDriver's JSON.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

// reference is an element in WebDriver's JSON.
type reference map[string]string

// remote returns the element in BiDi's form.
func (r reference) remote() object { return object{"sharedId": r[elementKey]} }

// local converts a JSON value into BiDi's form, including elements.
func local(v any) object {
	switch v := v.(type) {
	case nil:
		return object{"type": "null"}
	case bool:
		return object{"type": "boolean", "value": v}
	case float64:
		return object{"type": "number", "value": v}
	case string:
		return object{"type": "string", "value": v}
	case []any:
		list := make([]object, len(v))
		for i := range v {
			list[i] = local(v[i])
		}
		return object{"type": "array", "value": list}
	}
	fields := v.(object)
	if id, ok := fields[elementKey].(string); ok {
		return object{"sharedId": id}
	}
	pairs := make([][2]any, 0, len(fields))
	for key, value := range fields {
		pairs = append(pairs, [2]any{key, local(value)})
	}
	return object{"type": "object", "value": pairs}
}

// apply calls a function in a browsing context, waits for it if it returns a promise, and
// returns the result in BiDi's form.
func (d *Driver) apply(c call, context, function string, args ...object) (json.RawMessage, error) {
	if args == nil {
		args = []object{}
	}
	var got struct {
		Type             string
		Result           json.RawMessage
		ExceptionDetails struct{ Text string }
	}
	err := d.conn.send(c, "script.callFunction", object{
		"functionDeclaration": function, "arguments": args,
		"target": object{"context": context}, "awaitPromise": true,
	}, &got)
	if err == nil && got.Type == "exception" {
		err = &failure{"javascript error", got.ExceptionDetails.Text}
	}
	return got.Result, err
}

// run is apply for a result in plain JSON, which it decodes into out. BiDi's own form of
// a result keeps more types, but leaves out deeply nested values.
func (d *Driver) run(c call, context, function string, out any, args ...object) error {
	got, err := d.apply(c, context, "async (...args) => JSON.stringify(await ("+function+")(...args)) ?? 'null'", args...)
	if err != nil {
		return err
	}
	var text struct{ Value string }
	if err := json.Unmarshal(got, &text); err != nil {
		return err
	}
	return json.Unmarshal([]byte(text.Value), out)
}

// script is the body of a function with its arguments.
type script struct {
	Script string
	Args   []any
}

// execute runs a script. An asynchronous one ends by calling its last argument.
func (d *Driver) execute(async bool) func(call, script) (any, error) {
	return func(c call, in script) (any, error) {
		function := "function() {" + in.Script + "\n}"
		if async {
			function = "(...args) => new Promise((done) => (" + function + ")(...args, done))"
		}
		args := make([]object, len(in.Args))
		for i, arg := range in.Args {
			args[i] = local(arg)
		}
		var value json.RawMessage
		err := d.run(c, d.frame, function, &value, args...)
		return value, err
	}
}
