package codec

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// WriteCSV writes records as comma-separated values, one record a line.
func WriteCSV(records [][]string) string {
	var text strings.Builder
	for _, fields := range records {
		for i, field := range fields {
			if i > 0 {
				text.WriteByte(',')
			}
			if needsQuotes(field) {
				field = `"` + strings.ReplaceAll(field, `"`, `""`) + `"`
			}
			text.WriteString(field)
		}
		text.WriteByte('\n')
	}
	return text.String()
}

// needsQuotes reports whether a field would be read as something else without quotes, by
// readers that drop white space or take \. as the end of the data too.
func needsQuotes(field string) bool {
	first, _ := utf8.DecodeRuneInString(field)
	return strings.ContainsAny(field, ",\"\r\n") || unicode.IsSpace(first) || field == `\.`
}
