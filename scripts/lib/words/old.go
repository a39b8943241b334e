// Package words checks the texts that people read: whether they use words that
// Pivotbench has given up, and how hard they are to read. The tests of the page and of
// the views use it.
package words

import (
	"regexp"
	"strings"
)

// old matches words and phrases that have a plainer name now. Case is ignored.
var old = regexp.MustCompile(`(?i)` + strings.Join([]string{
	`\baim it\b`, `keep it beside`, `clear the faint line`,
	`for this shot;`, `sends it to the target`, `runs to the target`,
	`cue turned`, `contact and hands`, `\bsheets?\b`, `shots to start from`, `\bbench\b`,
	`\btip [\d.]+ R (right|left)`, `\b9 of 10\b`, `under margin`, `\bscatter`,
	`\bbits?\b`, `posterior`, `\bsigma\b`, `tells? most`,
	`\bset (it|that)$`, `met first`, `\btouch(ed|es) [LR]\b`, `as likely as not`, `aim error`,
	`\btries\b`, `\banew\b`, `leave it as it is`, `\bgive back-hand`, `how it was got`, `type one in`,
	`records of one name`, `\bdeflects\b`, `gives back`, `off by, at worst`, `way of the ball`, `send to the shot`,
	`rolls to rest`, `comes? to rest`, `(first|later) flight`, `than people do`, `hide it`, `is forgiven`, `take this shot`,
	`in braces`, `the class drags`, `it hangs on`, `more than nothing`, `of which`, `given to\b`, `what is told`,
}, `|`))

// pivots matches the word pivot with the word on either side of it.
var pivots = regexp.MustCompile(`(?i)(\bnatural )?\bpivot\b( length)?`)

// Old returns the first word or phrase in a text that has a plainer name now, or "" if
// there is none. Pivot alone is one: it may be the cue's pivot length or the natural
// pivot at an offset.
func Old(text string) string {
	if found := old.FindString(text); found != "" {
		return found
	}
	for _, found := range pivots.FindAllString(text, -1) {
		if strings.EqualFold(found, "pivot") {
			return found
		}
	}
	return ""
}
