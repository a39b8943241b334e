package words

import (
	"strings"
	"unicode"
)

// Grade returns the Flesch-Kincaid grade level of a text: the American school grade whose
// pupils read it without help. Source: Kincaid, Fishburne, Rogers and Chissom, Derivation
// of New Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75
// (1975); the coefficients are from memory. A text without words has grade 0.
func Grade(text string) float64 {
	words := strings.FieldsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’' && r != '.'
	})
	count, syllables, sentences := 0, 0, 0
	for _, word := range words {
		if strings.Trim(word, ".'’") == "" {
			continue
		}
		count++
		syllables += Syllables(strings.Trim(word, ".'’"))
	}
	if count == 0 {
		return 0
	}
	for i, r := range text {
		rest := text[i+len(string(r)):]
		ends := strings.ContainsRune(".!?", r) && (rest == "" || unicode.IsSpace(rune(rest[0])) || strings.ContainsRune("”\"", []rune(rest)[0]))
		if ends {
			sentences++
		}
	}
	if last := strings.TrimRightFunc(text, unicode.IsSpace); last != "" && !strings.ContainsRune(".!?”", []rune(last)[len([]rune(last))-1]) {
		sentences++
	}
	return 0.39*float64(count)/float64(max(sentences, 1)) + 11.8*float64(syllables)/float64(count) - 15.59
}

// Syllables estimates the syllables of an English word from its spelling: one for each
// group of vowels, less a silent e at the end. A number counts as one.
func Syllables(word string) int {
	word = strings.ToLower(word)
	n, before := 0, false
	for i, r := range word {
		vowel := strings.ContainsRune("aeiouyé", r)
		if next := word[i+len(string(r)):]; r == 'y' && next != "" && strings.ContainsRune("aeiou", rune(next[0])) {
			vowel = false // as in player and yes
		}
		if vowel && !before {
			n++
		}
		before = vowel
	}
	for _, silent := range []string{"e", "es", "ed", "ely"} {
		stem, ok := strings.CutSuffix(word, silent)
		if !ok || stem == "" {
			continue
		}
		last := stem[len(stem)-1]
		switch silent {
		case "e", "ely": // table, but not aide; safely
			if (last == 'l' && len(stem) > 1 && !strings.ContainsRune("aeiouy", rune(stem[len(stem)-2])) && silent == "e") || strings.ContainsRune("aeiouy", rune(last)) {
				continue
			}
		case "es": // edges, misses and boxes have it
			if strings.ContainsRune("aeiouyszxgc", rune(last)) || strings.HasSuffix(stem, "ch") || strings.HasSuffix(stem, "sh") || strings.HasSuffix(stem, "l") {
				continue
			}
		case "ed": // rounded and noted have it
			if strings.ContainsRune("aeioutd", rune(last)) || strings.HasSuffix(stem, "l") && len(stem) > 1 && !strings.ContainsRune("aeiouyl", rune(stem[len(stem)-2])) {
				continue
			}
		}
		n--
		break
	}
	return max(n, 1)
}
