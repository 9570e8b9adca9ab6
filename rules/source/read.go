package source

import (
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source/internal/fault"
)

// The readers take a tree apart. All of them give the zero value and false for
// a nil node, without a problem: whether an entry may be absent is the caller's
// to say. A node of another kind is a problem at its place. The path names the
// node in problems, such as rules[2].fail_if.

// Keys reports whether the node is a map with no other keys than these. An
// unknown one is a problem at the key; what is known can be read all the same.
func (n *Node) Keys(path string, ps *Problems, allowed ...string) bool {
	return n.keys(path, ps, allowed, func(word string) string { return fact.Suggest(word, allowed) })
}

// KeysNamed is Keys for entries that people also call otherwise: the hint says by
// which name they go here.
func (n *Node) KeysNamed(path string, ps *Problems, allowed []fact.Named) bool {
	names := make([]string, len(allowed))
	for i, a := range allowed {
		names[i] = a.Name
	}
	return n.keys(path, ps, names, func(word string) string { return fact.SuggestNamed(word, allowed) })
}

func (n *Node) keys(path string, ps *Problems, allowed []string, suggest func(word string) string) bool {
	if n == nil || n.Kind != Map {
		n.wrongKind(path, "a map", "", ps)
		return false
	}
	ok := true
	for _, p := range n.Pairs {
		if !slices.Contains(allowed, p.Key.Text) {
			p.Key.unknown(path, suggest, ps)
			ok = false
		}
	}
	return ok
}

// unknown refuses the name of an entry. The hint is not made where nobody would
// read it.
func (n *Node) unknown(path string, suggest func(word string) string, ps *Problems) {
	hint := ""
	if !ps.Full() {
		hint = suggest(n.Text)
	}
	n.Refuse(ps, path, "unknown entry "+fault.Clip(n.Text), hint).Code = UnknownEntry
}

// PlainText gives what ReadText reads, where it finds nothing wrong; it needs no path.
func (n *Node) PlainText() (string, bool) {
	if n == nil || n.Kind != Text || strings.TrimSpace(n.Text) == "" {
		return "", false
	}
	return n.Text, true
}

// ReadText reads a text that is not empty. A number or flag is not taken for a
// text: whether 10 and 10.0 are the same name is not for a reader to decide. It is a
// piece of the file's text: who keeps it beyond the tree clones it.
func (n *Node) ReadText(path string, ps *Problems) (string, bool) {
	if n == nil || n.Kind != Text {
		n.wrongKind(path, "a text", "", ps)
		return "", false
	}
	if strings.TrimSpace(n.Text) == "" {
		hint := "write a text, or leave the entry out"
		if n.style == styleFolded || n.style == styleLiteral {
			hint = "| and > begin a text on the lines below; put a text that begins with them in quotes"
		}
		n.Refuse(ps, path, "is an empty text", hint).Code = Empty
		return "", false
	}
	return n.Text, true
}

// ReadNumber reads a finite number and its tolerance either way, which is 0
// where none is written: 3.65, 3.65 ± 0.02 or 3.65 +/- 0.02.
func (n *Node) ReadNumber(path string, ps *Problems) (num, tol float64, ok bool) {
	return n.number(path, span{}, ps)
}

// ReadWhole reads a whole number of less than 2^53 either way. A fraction is
// refused, never truncated.
func (n *Node) ReadWhole(path string, ps *Problems) (int, bool) {
	x, _, ok := n.number(path, span{whole: true}, ps)
	return int(x), ok
}

// ReadFlag reads true or false.
func (n *Node) ReadFlag(path string, ps *Problems) (bool, bool) {
	if n == nil || n.Kind != Bool {
		n.wrongKind(path, "true or false", "", ps)
		return false, false
	}
	return strings.EqualFold(n.Text, "true"), true
}

// ReadList gives the nodes of a list.
func (n *Node) ReadList(path string, ps *Problems) []*Node {
	if n == nil || n.Kind != List {
		n.wrongKind(path, "a list", "", ps)
		return nil
	}
	return n.Items
}

// ReadMaps goes over a list of maps, each with its index. What is no
// map is a problem and left out. The keys are those that an entry is wanted to
// have: a hint shows them.
func (n *Node) ReadMaps(path string, ps *Problems, keys ...string) iter.Seq2[int, *Node] {
	return func(yield func(int, *Node) bool) {
		if n == nil || n.Kind != List {
			n.wrongKind(path, "a list", n.mapsHint(keys), ps)
			return
		}
		for i, item := range n.Items {
			if item.Kind != Map {
				item.wrongKind(entry(path, i), "a map", item.mapHint(keys), ps)
			} else if !yield(i, item) {
				return
			}
		}
	}
}

// mapsHint shows what a list of maps looks like in the file.
func (n *Node) mapsHint(keys []string) string {
	switch {
	case n == nil:
		return ""
	case n.style == styleJSON || n.from != nil && n.from.json:
		return "write [" + form(keys, true) + "], or leave the entry out"
	}
	return "write its entries on the lines below, each as - " + form(keys, false) + ", or leave it out"
}

// mapHint shows what an entry of such a list looks like.
func (n *Node) mapHint(keys []string) string {
	if hint := n.hint("a map"); hint != "" || len(keys) == 0 {
		return hint
	}
	if n.from != nil && n.from.json {
		return "write " + form(keys, true)
	}
	return "write - " + form(keys, false)
}

// form is a map with these keys and nothing said yet.
func form(keys []string, quoted bool) string {
	if len(keys) == 0 {
		return "{...}"
	}
	entries := make([]string, len(keys))
	for i, key := range keys {
		if quoted {
			key = strconv.Quote(key)
		}
		entries[i] = key + ": ..."
	}
	return "{" + strings.Join(entries, ", ") + "}"
}

// ReadTexts reads a list of texts. Entries that are none are problems and left out.
func (n *Node) ReadTexts(path string, ps *Problems) []string {
	var texts []string
	for i, item := range n.ReadList(path, ps) {
		if s, ok := item.ReadText(entry(path, i), ps); ok {
			texts = append(texts, s)
		}
	}
	return texts
}

// wrongKind says that a node is of the wrong kind; nil is not refused. The hint is
// made from what stands there where none is given.
func (n *Node) wrongKind(path, want, hint string, ps *Problems) {
	switch {
	case n == nil:
		return
	case n.Kind == Null:
		n.Refuse(ps, path, "has no value", n.emptyHint(want)).Code = Empty
		return
	case hint == "":
		hint = n.hint(want)
	}
	n.Refuse(ps, path, fmt.Sprintf("must be %s, is %s", want, n.Kind), hint).Code = WrongKind
}

// emptyHint explains a value that is missing.
func (n *Node) emptyHint(want string) string {
	if n.Comment {
		return "what follows a # is a comment; put a text that holds one in quotes"
	}
	return "write " + want + ", or leave the entry out"
}

// hint explains the usual mistakes behind a value of the wrong kind.
func (n *Node) hint(want string) string {
	switch {
	case want == "a text" && (n.Kind == Number || n.Kind == Bool):
		return "put it in quotes: " + strconv.Quote(n.Text)
	case want == "a text" && n.opens("{["):
		return "put a text that begins with { or [ in quotes"
	case want == "true or false" && slices.Contains([]string{"yes", "on", "y"}, strings.ToLower(n.Text)):
		return "write true"
	case want == "true or false" && slices.Contains([]string{"no", "off", "n"}, strings.ToLower(n.Text)):
		return "write false"
	case want == "true or false" && n.Kind == Text && slices.Contains([]string{"true", "false"}, n.Text):
		return "write it without quotes"
	case want == "a list" && (n.Kind == Number || n.Kind == Text && n.Plain):
		return "write [" + n.Text + "]"
	case want == "a map" && n.Kind == Text && n.Plain && strings.Contains(n.Text, ":"):
		return "write a blank behind the colon"
	case want == "a map" && n.opens("-"):
		return "a line that begins with - is an entry of a list; leave the - out"
	}
	return ""
}

// opens reports whether the value begins with one of these characters in the file.
func (n *Node) opens(chars string) bool {
	return n.from != nil && int(n.at) < len(n.from.text) && strings.IndexByte(chars, n.from.text[n.at]) >= 0
}

// sub and entry give the path of a value within a map or list.
func sub(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func entry(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }
