package codec

import (
	"strconv"
	"strings"
)

// ReadCSV reads comma-separated values and calls record for each record, with the line on
// which it begins. fields is valid until the next call. It stops at an error, its own or
// that of record. Empty lines are skipped.
func ReadCSV(text string, record func(line int, fields []string) error) error {
	text, first := Trim(text)
	r := csvReader{text: text, line: first}
	for r.text != "" {
		line := r.line
		if r.lineEnd() {
			continue
		}
		fields, err := r.record()
		if err == nil {
			err = record(line, fields)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

type csvReader struct {
	text   string // the rest of the text
	line   int    // the line on which it begins
	fields []string
}

func (r *csvReader) record() ([]string, error) {
	// More than any of our tables has.
	const most = 100
	r.fields = r.fields[:0]
	for len(r.fields) < most {
		field, err := r.field()
		if err != nil {
			return nil, err
		}
		r.fields = append(r.fields, field)
		if r.text == "" || r.lineEnd() {
			return r.fields, nil
		}
		r.text = r.text[1:] // the comma
	}
	return nil, refusal(r.line, "more than "+strconv.Itoa(most)+" fields")
}

// field reads up to a comma or the end of a line.
func (r *csvReader) field() (string, error) {
	if strings.HasPrefix(r.text, `"`) {
		return r.quoted()
	}
	end := strings.IndexAny(r.text, ",\n")
	if end < 0 {
		end = len(r.text)
	} else if end > 0 && r.text[end-1:end+1] == "\r\n" {
		end--
	}
	field := r.text[:end]
	if strings.Contains(field, `"`) {
		return "", refusal(r.line, "a quote in a field without quotes around it: read “"+clip(field)+"”")
	}
	r.text = r.text[end:]
	return field, nil
}

// quoted reads a field in quotes. It may span several lines, and quotes within it are
// doubled.
func (r *csvReader) quoted() (string, error) {
	var whole strings.Builder
	for start := r.line; ; {
		part, rest, ok := strings.Cut(r.text[1:], `"`)
		if !ok {
			return "", refusal(start, "a field in quotes has no closing quote")
		}
		whole.WriteString(strings.ReplaceAll(part, "\r\n", "\n"))
		r.line += strings.Count(part, "\n")
		r.text = rest
		switch {
		case strings.HasPrefix(rest, `"`): // a doubled quote
			whole.WriteByte('"')
		case rest == "", rest[0] == ',', rest[0] == '\n', strings.HasPrefix(rest, "\r\n"):
			return whole.String(), nil
		default:
			return "", refusal(r.line, "read "+shown(rest)+" after the closing quote of a field, expected a comma or the end of the line")
		}
	}
}

// lineEnd skips the end of a line if it is next.
func (r *csvReader) lineEnd() bool {
	rest, ok := strings.CutPrefix(r.text, "\n")
	if !ok {
		rest, ok = strings.CutPrefix(r.text, "\r\n")
	}
	if ok {
		r.text = rest
		r.line++
	}
	return ok
}
