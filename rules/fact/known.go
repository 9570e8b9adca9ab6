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
	if s := f.ready(); s != nil {
		name, ok := s.names[text]
		return name, ok
	}
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
	spelt := f.ready()
	if spelt == nil {
		spelt = spellings(f)
	}
	letters, digits := apart(text)
	best, least := "", len(letters)+1
	for i := range spelt.all {
		s := &spelt.all[i]
		if s.digits != digits {
			continue
		}
		if far := distance(letters, s.letters, min(slips(s.letters), least-1)); far <= slips(s.letters) && far < least {
			best, least = s.name, far
		}
	}
	return best
}

// spelt is every spelling of the words that a field knows, ready to be looked up.
type spelt struct {
	of    []Known
	names map[string]string // the known word of each spelling
	all   []spelling        // in the order of the words
}

// spelling is one of them, in its letters and its digits.
type spelling struct {
	name    string // of the known word
	letters []rune
	digits  string
}

// ready gives the spellings of a field of a table; nil for others, and for a copy of one
// that was given other words.
func (f *Field) ready() *spelt {
	s := f.spelt
	if s == nil || len(s.of) != len(f.Known) || &s.of[0] != &f.Known[0] {
		return nil
	}
	return s
}

func spellings(f *Field) *spelt {
	out := &spelt{of: f.Known, names: map[string]string{}}
	for _, k := range f.Known {
		for _, text := range append([]string{k.Name}, k.Also...) {
			letters, digits := apart(text)
			out.names[text] = k.Name
			out.all = append(out.all, spelling{k.Name, letters, digits})
		}
	}
	return out
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
