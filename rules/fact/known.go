package fact

import (
	"slices"
	"strings"
)

// Known is a word that the trade knows for a field of names. It is read from any
// of its spellings, and kept as Name.
type Known struct {
	Name string
	Also []string // other spellings that are in use
	Doc  string   // what it is, in one line
}

// KnownName gives the known word that a text stands for, spelt exactly or in
// another way that is in use; false for a word that the field does not know.
func (f *Field) KnownName(text string) (string, bool) {
	for i := range f.Known {
		if k := &f.Known[i]; k.Name == text || slices.Contains(k.Also, text) {
			return k.Name, true
		}
	}
	return "", false
}

// Slip gives the known word that an unknown one was probably meant to be: letters
// and hyphens differ a little, and the digits not at all, for another digit is
// another name. It is empty for a word that is known, or like none.
func (f *Field) Slip(text string) string {
	if _, ok := f.KnownName(text); ok || len(f.Known) == 0 || len(text) > MaxName {
		return ""
	}
	letters, digits := apart(text)
	best, least := "", len(letters)+1
	for i := range f.Known {
		known := &f.Known[i]
		for _, spelling := range append([]string{known.Name}, known.Also...) {
			l, d := apart(spelling)
			if d != digits {
				continue
			}
			if far := distance(letters, l, min(slips(l), least-1)); far <= slips(l) && far < least {
				best, least = known.Name, far
			}
		}
	}
	return best
}

// KnownNames lists the known words in their order.
func (f *Field) KnownNames() []string {
	names := make([]string, len(f.Known))
	for i, k := range f.Known {
		names[i] = k.Name
	}
	return names
}

// apart parts a word into its letters and its digits; what joins them does not
// count.
func apart(word string) (letters []rune, digits string) {
	for _, r := range strings.ToLower(word) {
		switch {
		case '0' <= r && r <= '9':
			digits += string(r)
		case 'a' <= r && r <= 'z':
			letters = append(letters, r)
		}
	}
	return letters, digits
}

// slips is how many letters of a known word may be wrong. A short one stands for
// itself: br and cr are two cells.
func slips(letters []rune) int {
	switch {
	case len(letters) <= 3:
		return 0
	case len(letters) <= 6:
		return 1
	}
	return 2
}
