package source

import (
	"strings"
	"unicode/utf8"
)

// At gives the exact place in the file of the i-th code point of Text: of the
// character itself, of the escape that stands for it, or of the line break that
// was folded into it. At the length of Text and beyond it is the place just
// behind the last one. Nodes that came from no file have one place only.
//
// The parser tells where a scalar begins, no more. So the scalar is read again
// from the file, code point by code point, each time: places are wanted where
// something is wrong, and then the cost does not matter.
func (n *Node) At(i int) Pos {
	if n.from == nil {
		return n.Pos
	}
	gs := n.glyphs()
	switch {
	case len(gs) == 0:
		return n.from.pos(n.start())
	case i < 0:
		i = 0
	case i >= len(gs):
		return n.from.pos(int(gs[len(gs)-1].to))
	}
	return n.from.pos(int(gs[i].from))
}

// End gives the place just behind the last character of a name, number, flag or
// text, the quotes included; of a block text that of its last line. It is the zero
// Pos for what is not written out, for lists and maps, and where it is not known.
func (n *Node) End() Pos {
	if n == nil || n.from == nil || n.Kind == List || n.Kind == Map || n.Text == "" && n.Plain {
		return Pos{}
	}
	if end := n.tokenEnd(); end >= int(n.at) {
		return n.from.pos(end)
	}
	return Pos{}
}

// tokenEnd is the offset just behind a scalar, or -1.
func (n *Node) tokenEnd() int {
	if n.style == stylePlain {
		return n.end()
	}
	gs := n.glyphs()
	if len(gs) == 0 && n.Text != "" {
		return -1
	}
	if n.style == styleLiteral || n.style == styleFolded {
		for len(gs) > 0 && gs[len(gs)-1].r == '\n' {
			gs = gs[:len(gs)-1]
		}
		if len(gs) == 0 {
			return int(n.at) + 1
		}
		return int(gs[len(gs)-1].to)
	}
	end := n.start()
	if len(gs) > 0 {
		end = int(gs[len(gs)-1].to)
	}
	// An escaped line break in front of the closing quote is no part of the text.
	text := n.from.text
	for end < len(text) && strings.IndexByte(" \t\r\n\\", text[end]) >= 0 {
		end++
	}
	if end >= len(text) || text[end] != text[n.at] {
		return -1
	}
	return end + 1
}

// Refuse adds a problem with the node, from its begin to its end.
func (n *Node) Refuse(ps *Problems, path, text, hint string) *Problem {
	full := ps.Full()
	p := ps.Add(n.Pos, path, text, hint)
	if !full {
		p.End = n.End()
	}
	return p
}

// start is the offset at which the characters of a scalar begin, behind its quote.
func (n *Node) start() int {
	switch n.style {
	case styleSingle, styleDouble, styleJSON:
		return int(n.at) + 1
	}
	return int(n.at)
}

// end is the offset just behind a plain scalar.
func (n *Node) end() int {
	if end := int(n.at) + len(n.Text); strings.HasPrefix(n.from.text[n.at:], n.Text) {
		return end
	}
	if gs := n.glyphs(); len(gs) > 0 {
		return int(gs[len(gs)-1].to)
	}
	return int(n.at)
}

// glyph is one code point of a decoded text and the bytes of the file that gave it.
type glyph struct {
	r        rune
	from, to int32
}

// glyphs reads a scalar again. It gives nothing where that does not give Text,
// so that a place is exact or the scalar's own, never a wrong one.
func (n *Node) glyphs() []glyph {
	c := rescan{text: n.from.text, at: n.start(), left: utf8.RuneCountInString(n.Text)}
	switch n.style {
	case stylePlain:
		c.plain()
	case styleSingle:
		c.single()
	case styleDouble:
		c.double()
	case styleJSON:
		c.json()
	case styleLiteral, styleFolded:
		c.block(int(n.indent), n.style == styleLiteral)
	}
	i := 0
	for _, r := range n.Text {
		if i >= len(c.out) || c.out[i].r != r {
			return nil
		}
		i++
	}
	return c.out[:i]
}

// rescan reads the characters of one scalar.
type rescan struct {
	text string
	at   int
	left int // how many code points are still wanted
	out  []glyph
}

// emit gives one code point for the next size bytes.
func (c *rescan) emit(r rune, size int) {
	c.put(glyph{r, int32(c.at), int32(c.at + size)})
	c.at += size
}

func (c *rescan) put(g glyph) {
	if c.left > 0 {
		c.out = append(c.out, g)
		c.left--
	}
}

// copy gives the next character as it stands.
func (c *rescan) copy() {
	r, size := utf8.DecodeRuneInString(c.text[c.at:])
	c.emit(r, size)
}

// peek gives the byte at a distance, 0 behind the end of the text. A NUL byte
// cannot stand in the text itself.
func (c *rescan) peek(d int) byte {
	if c.at+d < len(c.text) {
		return c.text[c.at+d]
	}
	return 0
}

func (c *rescan) blank() bool { return c.peek(0) == ' ' || c.peek(0) == '\t' }

// breaks gives the length of the line break here, 0 where there is none.
func (c *rescan) breaks() int {
	switch {
	case c.peek(0) == '\r' && c.peek(1) == '\n':
		return 2
	case c.peek(0) == '\r' || c.peek(0) == '\n':
		return 1
	}
	return 0
}
