package source

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"example.org/cogcourt/rules/source/internal/fault"
)

// parseJSON reads one value, quickly where nothing in it is unusual.
func parseJSON(l *layout) (*Node, Problems) {
	l.json = true
	if n, ok := parseQuick(l); ok {
		return n, nil
	}
	return parseTokens(l)
}

// parseTokens reads one value. encoding/json decides what is JSON; it gives one
// token at a time, and where each ends.
func parseTokens(l *layout) (*Node, Problems) {
	if strings.Trim(l.text, " \t\r\n") == "" {
		return nil, Problems{{Pos: l.pos(0), Code: Empty, Text: "the " + l.what() + " is empty"}}
	}
	t := jsonTree{l: l, dec: json.NewDecoder(strings.NewReader(l.text))}
	t.dec.UseNumber()
	n, err := t.value(trail{})
	if err == nil {
		at := t.skip()
		if _, err = t.dec.Token(); err == io.EOF {
			err = nil
		} else if err != nil {
			err = t.broken(at, err)
		} else {
			err = t.stop(t.known().More(at))
		}
	}
	var s stop
	if errors.As(err, &s) {
		t.ps.Join(Problems{Problem(s)})
	}
	return n, t.ps
}

// errFull ends the reading of a text that has too many problems.
var errFull = errors.New("too many problems")

// stop is a problem behind which nothing can be read.
type stop Problem

func (s stop) Error() string { return Problem(s).String() }

// broken stops at a token that the decoder refuses, which begins at an offset.
func (t *jsonTree) broken(at int, err error) error { return t.stop(t.known().Explain(at, err)) }

func (t *jsonTree) stop(f fault.Fault) error {
	return stop{Pos: t.l.pos(f.At), Code: Syntax, Text: f.Text, Hint: f.Hint}
}

// known is what package fault is told of the text: it reads no JSON itself.
func (t *jsonTree) known() fault.JSON {
	j := fault.JSON{Text: t.l.text, Whole: t.l.what(), Number: odd}
	j.Place = func(at int) string { return t.l.pos(at).String() }
	for _, n := range t.open {
		j.Open = append(j.Open, int(n.at))
	}
	return j
}

// jsonTree turns tokens into a tree.
type jsonTree struct {
	l     *layout
	dec   *json.Decoder
	ps    Problems
	count int
	open  []*Node // the lists and maps around
}

// skip gives the offset at which the next token begins.
func (t *jsonTree) skip() int {
	at := int(t.dec.InputOffset())
	blank := func() {
		for at < len(t.l.text) && strings.IndexByte(" \t\r\n", t.l.text[at]) >= 0 {
			at++
		}
	}
	blank()
	if at < len(t.l.text) && (t.l.text[at] == ',' || t.l.text[at] == ':') {
		at++
		blank()
	}
	return at
}

// next reads one token into a new node. An error is a stop.
func (t *jsonTree) next() (*Node, json.Token, error) {
	at := t.skip()
	if t.ps.Full() { // no tree comes of it
		t.ps.Unread(t.l.pos(at))
		return nil, nil, errFull
	}
	tok, err := t.dec.Token()
	if err != nil {
		return nil, nil, t.broken(at, err)
	}
	n := &Node{from: t.l, at: int32(at), Pos: t.l.pos(at)}
	if t.count++; t.count > t.l.limits.Values {
		return nil, nil, stop(t.l.limits.tooMany(n.Pos))
	}
	return n, tok, nil
}

// value reads the next value with all that it holds.
func (t *jsonTree) value(at trail) (*Node, error) {
	n, tok, err := t.next()
	if err != nil {
		return nil, err
	}
	return n, t.fill(n, tok, &at)
}

// fill makes a node of a token that begins a value.
func (t *jsonTree) fill(n *Node, tok json.Token, at *trail) error {
	switch v := tok.(type) {
	case json.Delim:
		return t.children(n, v, at)
	case string:
		n.Kind, n.Text, n.style = Text, v, styleJSON
		t.pairs(n, at)
		return nil
	case json.Number:
		n.Kind = Number
		if _, bad := float(string(v)); bad != "" {
			n.Text = string(v)
			n.Refuse(&t.ps, at.String(), bad, heldHint).Code = NoNumber
		}
	case bool:
		n.Kind = Bool
	}
	n.Plain = true
	n.Text = t.l.text[n.at:t.dec.InputOffset()]
	return nil
}

// children reads a list or map to its end.
func (t *jsonTree) children(n *Node, open json.Delim, at *trail) error {
	if at.depth >= maxDepth {
		return stop{Pos: n.Pos, Code: TooMany, Path: at.String(), Text: fmt.Sprintf("lies more than %d deep", maxDepth)}
	}
	t.open = append(t.open, n)
	n.Kind = List
	read := t.item
	if open == '{' {
		n.Kind = Map
		seen := make(map[string]*Node)
		read = func(n *Node, at *trail) error { return t.pair(n, seen, at) }
	}
	for t.dec.More() {
		if err := read(n, at); err != nil {
			return err
		}
	}
	if _, _, err := t.next(); err != nil { // the closing bracket
		return err
	}
	t.open = t.open[:len(t.open)-1]
	return nil
}

func (t *jsonTree) item(n *Node, at *trail) error {
	v, err := t.value(trail{up: at, index: len(n.Items), depth: at.depth + 1})
	n.Items = append(n.Items, v)
	return err
}

func (t *jsonTree) pair(n *Node, seen map[string]*Node, at *trail) error {
	key, tok, err := t.next()
	if err != nil {
		return err
	}
	if err = t.fill(key, tok, at); err != nil {
		return err
	}
	value, err := t.value(trail{up: at, key: key.Text, depth: at.depth + 1})
	if err != nil {
		return err
	}
	switch first := seen[key.Text]; {
	case first != nil:
		key.Refuse(&t.ps, at.String(), twice(key, first), "take one out").Code = Twice
		return nil
	case key.Text == "":
		key.Refuse(&t.ps, at.String(), "an entry has no name", "write its name in front of the colon").Code = Empty
	}
	seen[key.Text] = key
	n.Pairs = append(n.Pairs, Pair{key, value})
	return nil
}

// twice is the text of the problem of a second entry of a name.
func twice(key, first *Node) string {
	return fmt.Sprintf("%s stands twice, first at %s", fault.Clip(key.Text), first.Pos)
}

// pairs refuses halves of surrogate pairs, which the decoder replaces silently.
func (t *jsonTree) pairs(n *Node, at *trail) {
	c := rescan{text: t.l.text[:t.dec.InputOffset()], at: int(n.at) + 1}
	if !strings.Contains(c.text[c.at:], `\u`) {
		return
	}
	for c.at < len(c.text) {
		size := 1
		if c.peek(0) == '\\' {
			size = 2
		}
		if size == 2 && c.peek(1) == 'u' {
			size = 6
		}
		if size == 6 && utf16.IsSurrogate(c.hex(2, 4)) {
			if utf16.DecodeRune(c.hex(2, 4), c.second()) == '\ufffd' {
				p := n.Refuse(&t.ps, at.String(), "half of a surrogate pair", "write the character itself, or both halves")
				p.Pos, p.Code = t.l.pos(c.at), Character
			} else {
				size = 12
			}
		}
		c.at += size
	}
}

// second is the second half of a surrogate pair, or -1.
func (c *rescan) second() rune {
	if c.peek(6) == '\\' && c.peek(7) == 'u' {
		return c.hex(8, 4)
	}
	return -1
}
