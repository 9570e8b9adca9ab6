package source

import (
	"fmt"
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
	if n == nil || n.Kind != Map {
		n.refuse(path, "a map", "", ps)
		return false
	}
	ok := true
	for _, p := range n.Pairs {
		if !slices.Contains(allowed, p.Key.Text) {
			p.Key.unknown(path, allowed, ps)
			ok = false
		}
	}
	return ok
}

// unknown refuses the name of an entry.
func (n *Node) unknown(path string, known []string, ps *Problems) {
	hint := ""
	if len(*ps) < mostProblems {
		hint = fact.Suggest(n.Text, known)
	}
	ps.Add(n.Pos, path, fmt.Sprintf("unknown entry %s", fault.Clip(n.Text)), hint)
}

// ReadText reads a text that is not empty. A number or flag is not taken for a
// text: whether 10 and 10.0 are the same name is not for a reader to decide.
func (n *Node) ReadText(path string, ps *Problems) (string, bool) {
	if n == nil || n.Kind != Text {
		n.refuse(path, "a text", "", ps)
		return "", false
	}
	if strings.TrimSpace(n.Text) == "" {
		hint := "write a text, or leave the entry out"
		if n.style == styleFolded || n.style == styleLiteral {
			hint = "| and > begin a text on the lines below; put a text that begins with them in quotes"
		}
		ps.Add(n.Pos, path, "is an empty text", hint)
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
		n.refuse(path, "true or false", "", ps)
		return false, false
	}
	return strings.EqualFold(n.Text, "true"), true
}

// ReadList gives the nodes of a list.
func (n *Node) ReadList(path string, ps *Problems) []*Node {
	if n == nil || n.Kind != List {
		n.refuse(path, "a list", "", ps)
		return nil
	}
	return n.Items
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

// refuse says that a node is of the wrong kind; nil is not refused. The hint is
// made from what stands there where none is given.
func (n *Node) refuse(path, want, hint string, ps *Problems) {
	switch {
	case n == nil:
		return
	case n.Kind == Null:
		ps.Add(n.Pos, path, "has no value", n.emptyHint(want))
		return
	case hint == "":
		hint = n.hint(want)
	}
	ps.Add(n.Pos, path, fmt.Sprintf("must be %s, is %s", want, n.Kind), hint)
}

// emptyHint explains a value that is missing.
func (n *Node) emptyHint(want string) string {
	if n.Remark {
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
