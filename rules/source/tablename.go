package source

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source/internal/fault"
)

// shape is how a name is written.
const shape = "lower-case letters, digits and -, with a . between digits only"

// readName reads a free identifier. A plain number is one where it is written like
// one, such as the 24 of a spindle: names are compared as they are written.
func (n *Node) readName(path string, ps *Problems) (string, bool) {
	if n.Kind != Text && n.Kind != Number {
		n.wrongKind(path, "a name", "write a name of "+shape, ps)
		return "", false
	}
	if bad := badInName(n.Text); bad >= 0 || n.Text == "" {
		hint := shape
		if s := slug(n.Text); s != "" {
			hint += ", such as " + s
		}
		p := n.Refuse(ps, path, fault.Clip(n.Text)+" is no name", hint)
		p.Pos, p.Code = n.At(utf8.RuneCountInString(n.Text[:max(bad, 0)])), BadName
		return "", false
	}
	if len(n.Text) > fact.MaxName {
		p := n.Refuse(ps, path, "is too long a name", fmt.Sprintf("at most %d characters", fact.MaxName))
		p.Pos, p.Code = n.At(fact.MaxName), TooLarge
		return "", false
	}
	return n.Text, true
}

// readKnown reads a name of a field that may know some: another spelling of a known
// one is read as that, and one that is a slip away from it is refused, so that
// nothing misspelt is compared, or ordered.
func readKnown(f *fact.Field, n *Node, path string, ps *Problems) (string, bool) {
	name, ok := n.readName(path, ps)
	if !ok {
		return "", false
	}
	if known, ok := f.KnownName(name); ok {
		return known, true
	}
	if near := f.Slip(name); near != "" {
		n.Refuse(ps, path, fault.Clip(name)+" is near a known name, and none", fmt.Sprintf("did you mean %q?", near)).Code = NoSuchChoice
		return "", false
	}
	return n.own(), true
}

// readNames reads a list of free identifiers, each once. A single name is a list of one.
func readNames(f *fact.Field, n *Node, path string, ps *Problems) fact.Value {
	if (n.Kind == Text || n.Kind == Number) && !strings.Contains(n.Text, ",") {
		if name, ok := readKnown(f, n, path, ps); ok {
			return fact.Texts(name)
		}
		return fact.Value{}
	}
	if n.Kind != List {
		n.wrongKind(path, "a list of names", n.namesHint(), ps)
		return fact.Value{}
	}
	if !n.fits(f, path, ps) {
		return fact.Value{}
	}
	all, taken := true, make(map[string]*Node, len(n.Items))
	words := make([]string, 0, len(n.Items))
	for i, item := range n.Items {
		name, ok := readKnown(f, item, entry(path, i), ps)
		if first := taken[name]; ok && first != nil {
			item.Refuse(ps, entry(path, i), twice(item, first), "take one out").Code = Twice
			ok = false
		}
		taken[name] = item
		words, all = append(words, name), all && ok
	}
	if !all {
		return fact.Value{}
	}
	return fact.Texts(words...)
}

// namesHint makes a list of what stands where one is wanted.
func (n *Node) namesHint() string {
	var words []string
	for word := range strings.SplitSeq(n.Text, ",") {
		if word = slug(word); word != "" && n.style == styleJSON {
			words = append(words, strconv.Quote(word))
		} else if word != "" {
			words = append(words, word)
		}
	}
	if len(words) == 0 || n.Kind != Text && n.Kind != Number {
		return "write a list of names in brackets, each of " + shape
	}
	return "write [" + strings.Join(words, ", ") + "]"
}

// badInName finds what a name cannot hold, in bytes; -1 for nothing. Threads are
// named by their diameter, so a . may stand between two digits.
func badInName(text string) int {
	digit := func(i int) bool { return i >= 0 && i < len(text) && '0' <= text[i] && text[i] <= '9' }
	for i, r := range text {
		if !nameRune(r) && !(r == '.' && digit(i-1) && digit(i+1)) {
			return i
		}
	}
	return -1
}

func nameRune(r rune) bool { return 'a' <= r && r <= 'z' || '0' <= r && r <= '9' || r == '-' }

// slug makes a name of a text.
func slug(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !nameRune(r) })
	return strings.Join(words, "-")
}
