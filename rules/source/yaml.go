package source

import (
	"fmt"
	"io"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/cogcourt/rules/source/internal/fault"
)

// The YAML parser is only asked for its tree of nodes, never to decode into Go
// values: decoding follows aliases and merge keys, truncates 2.7 to 2, reads
// 0777 as 511, and panics on some merge keys.

// parseYAML reads one document.
func parseYAML(l *layout) (*Node, Problems) {
	if ps := outline(l); ps != nil {
		return nil, ps
	}
	dec := yaml.NewDecoder(strings.NewReader(l.text))
	var doc, second yaml.Node
	switch err := dec.Decode(&doc); {
	case err == io.EOF:
		return nil, Problems{{Pos: l.pos(0), Code: Empty, Text: "the file is empty"}}
	case err != nil:
		return nil, Problems{misread(l)}
	}
	t := yamlTree{l: l}
	n := t.node(doc.Content[0], trail{}, -1)
	switch err := dec.Decode(&second); {
	case err == io.EOF:
	case err != nil:
		t.ps.Join(Problems{misread(l)})
	default:
		t.ps.Add(t.place(&second, -1).Pos, "", "a second document begins here",
			"one file holds one document; take out the line of dashes or dots").Code = Syntax
	}
	return n, t.ps
}

// yamlTree turns the parser's nodes into a tree.
type yamlTree struct {
	l     *layout
	ps    Problems
	count int
}

// trail leads from a node to the top, to name it where there is a problem.
type trail struct {
	up    *trail
	key   string
	index int
	depth int
}

func (t *trail) String() string {
	switch {
	case t.up == nil:
		return ""
	case t.key != "":
		return sub(t.up.String(), t.key)
	}
	return entry(t.up.String(), t.index)
}

// refuse adds a problem of a node.
func (t *yamlTree) refuse(n *Node, at *trail, text, hint string) *Problem {
	p := n.Refuse(&t.ps, at.String(), text, hint)
	p.Code = Syntax
	return p
}

// node makes the node of y, whose block begins at the column indent.
func (t *yamlTree) node(y *yaml.Node, at trail, indent int) *Node {
	if t.ps.Full() { // no tree comes of it
		t.ps.Unread(Pos{t.l.name, y.Line, y.Column})
		return &Node{}
	}
	n := t.place(y, indent)
	if t.count++; t.count > t.l.limits.Values {
		if t.count == t.l.limits.Values+1 {
			t.ps.Join(Problems{t.l.limits.tooMany(n.Pos)})
		}
		return n
	}
	t.property(y, n, &at)
	switch y.Kind {
	case yaml.ScalarNode:
		t.scalar(y, n, &at)
	case yaml.SequenceNode:
		n.Kind = List
		t.children(y, n, &at)
	case yaml.MappingNode:
		n.Kind = Map
		t.children(y, n, &at)
	}
	return n
}

// place makes a node where y begins. The parser puts an absent value at the end
// of a file without a line break on a line that is not there.
func (t *yamlTree) place(y *yaml.Node, indent int) *Node {
	n := &Node{Pos: Pos{t.l.name, y.Line, y.Column}, from: t.l, indent: int32(indent)}
	n.at = int32(t.l.offset(y.Line, y.Column))
	if t.l.index(); y.Line > len(t.l.lines) {
		n.Pos = t.l.pos(len(t.l.text))
	}
	return n
}

// property refuses anchors, aliases and tags. They are looked for in the text
// as well: the parser does not tell of a lone !.
func (t *yamlTree) property(y *yaml.Node, n *Node, at *trail) {
	first := byte(0)
	if int(n.at) < len(t.l.text) && !t.keyFirst(y) {
		first = t.l.text[n.at]
	}
	switch {
	case y.Kind == yaml.AliasNode:
		t.refuse(n, at, "aliases are not allowed: *"+y.Value, "write the value out, or put a text that begins with * in quotes")
	case y.Anchor != "" || first == '&':
		t.refuse(n, at, "anchors are not allowed: &"+y.Anchor, "take it out, or put a text that begins with & in quotes")
	case y.Style&yaml.TaggedStyle != 0 || first == '!':
		t.refuse(n, at, "tags are not allowed", "take it out, or put a text that begins with ! in quotes")
	}
}

// keyFirst reports whether a block map begins where its first key does, so that
// what stands there is the key's.
func (t *yamlTree) keyFirst(y *yaml.Node) bool {
	return y.Kind == yaml.MappingNode && len(y.Content) > 0 &&
		y.Content[0].Line == y.Line && y.Content[0].Column == y.Column
}

// children makes the nodes within a list or map.
func (t *yamlTree) children(y *yaml.Node, n *Node, at *trail) {
	if at.depth >= maxDepth {
		t.refuse(n, at, fmt.Sprintf("lies more than %d deep", maxDepth), "").Code = TooMany
		return
	}
	indent := y.Column - 1
	if n.Kind == List {
		n.Items = make([]*Node, 0, len(y.Content))
		for i, c := range y.Content {
			n.Items = append(n.Items, t.node(c, trail{up: at, index: i, depth: at.depth + 1}, indent))
		}
		return
	}
	n.Pairs = make([]Pair, 0, len(y.Content)/2)
	seen := make(map[string]*Node, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		key := t.key(y.Content[i], at, indent)
		value := t.node(y.Content[i+1], trail{up: at, key: key.Text, depth: at.depth + 1}, indent)
		if first := seen[key.Text]; first != nil && key.Text != "" {
			t.refuse(key, at, twice(key, first), "take one out").Code = Twice
			continue
		}
		seen[key.Text] = key
		n.Pairs = append(n.Pairs, Pair{key, value})
	}
}

// key makes the node of a name.
func (t *yamlTree) key(y *yaml.Node, at *trail, indent int) *Node {
	n := t.place(y, indent)
	n.Kind = Text
	t.count++
	t.property(y, n, at)
	switch {
	case y.Kind == yaml.AliasNode:
	case y.Kind != yaml.ScalarNode:
		t.refuse(n, at, "a list or map cannot be a name", "put a text that holds { or [ in quotes")
	case y.Value == "<<" && y.Style == 0:
		t.refuse(n, at, "merge keys are not allowed: <<", "write the entries out")
	case y.Value == "":
		t.refuse(n, at, "an entry has no name", "write its name in front of the colon").Code = Empty
	}
	n.Text, n.Plain, n.style = y.Value, plain(y), styleOf(y)
	if space := fault.Space(n.Text); n.Plain && space.Text != "" {
		t.refuse(n, at, space.Text, space.Hint)
	}
	return n
}

func plain(y *yaml.Node) bool { return y.Style&^yaml.TaggedStyle == 0 }

func styleOf(y *yaml.Node) style {
	switch {
	case y.Style&yaml.SingleQuotedStyle != 0:
		return styleSingle
	case y.Style&yaml.DoubleQuotedStyle != 0:
		return styleDouble
	case y.Style&yaml.LiteralStyle != 0:
		return styleLiteral
	case y.Style&yaml.FoldedStyle != 0:
		return styleFolded
	}
	return stylePlain
}

// scalar finds out what a scalar holds.
func (t *yamlTree) scalar(y *yaml.Node, n *Node, at *trail) {
	n.Text, n.Plain, n.style, n.Kind = y.Value, plain(y), styleOf(y), Text
	if !n.Plain {
		return
	}
	n.Comment, n.TightComment = n.comment()
	t.swallowed(n, at)
	switch n.Text {
	case "", "~", "null", "Null", "NULL":
		n.Kind = Null
	case "true", "True", "TRUE", "false", "False", "FALSE":
		n.Kind = Bool
	default:
		if text, hint := odd(n.Text); text != "" {
			t.refuse(n, at, text, hint).Code = NoNumber
		} else if shaped(n.Text) {
			n.Kind = Number
		}
	}
}

// comment reports whether one follows a plain scalar on its last line, and
// whether it looks like the rest of the scalar instead.
func (n *Node) comment() (follows, tight bool) {
	rest := strings.TrimLeft(n.from.text[n.end():], " \t")
	if !strings.HasPrefix(rest, "#") {
		return false, false
	}
	return true, len(rest) > 1 && !strings.ContainsRune(" \t\r\n#", rune(rest[1]))
}

// swallowed refuses a text over several lines of which one begins with a dash:
// it was meant for a list, and stands under a text instead.
func (t *yamlTree) swallowed(n *Node, at *trail) {
	text := t.l.text[n.at:n.end()]
	for i := 0; i < len(text); i++ {
		if text[i] != '\n' && text[i] != '\r' {
			continue
		}
		i += len(text[i+1:]) - len(strings.TrimLeft(text[i+1:], " \t"))
		if strings.HasPrefix(text[i+1:], "- ") {
			t.ps.Add(t.l.pos(int(n.at)+i+1), at.String(), fault.ListUnder, fault.ListUnderHint).Code = Syntax
			return
		}
	}
}
