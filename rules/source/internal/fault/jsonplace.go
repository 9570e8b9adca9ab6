package fault

import "strings"

// jsonPlace is what the decoder was about to read, or within, when it gave up.
type jsonPlace uint8

const (
	unknownPlace jsonPlace = iota // a sentence that is new
	atValue                       // a value, a number or a word of JSON's own
	atName
	behindName
	behindEntry
	inText
	inEscape
)

// jsonSays is a part of the decoder's sentence and what it means.
type jsonSays struct {
	says  string
	place jsonPlace
}

// jsonSentences are what the decoder of the standard library says, the longer of
// two that begin alike first.
func jsonSentences() []jsonSays {
	return []jsonSays{
		{"in string literal", inText},
		{"in string escape code", inEscape},
		{`in \u hexadecimal character escape`, inEscape},
		{"after object key:value pair", behindEntry},
		{"after array element", behindEntry},
		{"after object key", behindName},
		{"looking for beginning of object key string", atName},
		{"looking for beginning of value", atValue},
		{"in literal ", atValue},
		{"in numeric literal", atValue},
		{"in exponent of numeric literal", atValue},
		{"after decimal point in numeric literal", atValue},
	}
}

// whereOf finds what a sentence of the decoder is about. Where it wants a name it
// says no more than which character it met.
func whereOf(says string) jsonPlace {
	if strings.HasPrefix(says, "invalid character '") && strings.HasSuffix(says, "'") {
		return atName
	}
	for _, s := range jsonSentences() {
		if strings.Contains(says, s.says) {
			return s.place
		}
	}
	return unknownPlace
}

// JSONSentences gives the parts of the decoder's sentences that are understood, for
// the test that holds them against what it says today.
func JSONSentences() []string {
	var out []string
	for _, s := range jsonSentences() {
		out = append(out, s.says)
	}
	return out
}
