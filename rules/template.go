package rules

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// template is a text with expressions in braces: {expr} or {expr:.1}. Of several
// sentences one that lacks facts is left out; where all do, or there is but one,
// the text says "(not stated)" in their place. An expression between blanks that
// chooses among whole sentences, as in {wet ? 'Dry it.' : 'Go on.'}, is one of its own.
type template struct {
	pieces func() []piece
}

// piece is a stretch of plain text, or an expression to print. Plain text is cut
// behind the end of a sentence.
type piece struct {
	text     string
	prog     *expr.Program // nil for plain text
	decimals int
	whole    bool // it chooses among whole sentences
	ends     bool // it is plain text that ends a sentence
	fixed    bool // it is the whole text, as it is printed
}

// rawPiece is a piece before it is compiled, with its place in the text.
type rawPiece struct {
	text     string
	at       int // in code points
	isExpr   bool
	decimals int
}

// cut takes a text apart. Doubled braces stand for themselves. The error names
// the place, in code points.
func cut(text string) (pieces []rawPiece, at int, err error) {
	runes := []rune(text)
	var plain strings.Builder
	flush := func() {
		if plain.Len() > 0 {
			pieces = append(pieces, rawPiece{text: plain.String()})
			plain.Reset()
		}
	}
	for i := 0; i < len(runes); i++ {
		c := runes[i]
		doubled := i+1 < len(runes) && runes[i+1] == c
		switch {
		case (c == '{' || c == '}') && doubled:
			plain.WriteRune(c)
			i++
		case c == '}':
			return nil, i, fmt.Errorf("a } without a { before it; write }} for the brace itself")
		case c == '{' && i > 0 && runes[i-1] == '$':
			return nil, i - 1, fmt.Errorf("a $ would be printed in front of the value; write {name} without it, or a blank between")
		case c == '{':
			end := closing(runes, i)
			if end < 0 {
				return nil, i, fmt.Errorf("a { without its }; write {{ for the brace itself")
			}
			flush()
			pieces = append(pieces, exprPiece(runes, i+1, end))
			i = end
		default:
			plain.WriteRune(c)
		}
	}
	flush()
	return pieces, 0, nil
}

// closing finds the } of the { at i, stepping over quoted texts.
func closing(runes []rune, i int) int {
	var quote rune
	for j := i + 1; j < len(runes); j++ {
		switch c := runes[j]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '\'' || c == '"':
			quote = c
		case c == '}':
			return j
		}
	}
	return -1
}

// exprPiece splits "expr:.1" into the expression and its decimals.
func exprPiece(runes []rune, from, to int) rawPiece {
	body := string(runes[from:to])
	p := rawPiece{text: body, at: from, isExpr: true, decimals: expr.Shortest}
	if i := strings.LastIndex(body, ":."); i >= 0 {
		if n, err := strconv.Atoi(body[i+2:]); err == nil && n >= 0 && n <= 6 {
			p.text, p.decimals = body[:i], n
		}
	}
	return p
}

// sentenceEnd is what ends a sentence within a text.
const sentenceEnd = ". "

// wholeSentences says whether an expression has a whole sentence in it, to be chosen
// or left out.
func wholeSentences(text string) bool {
	return strings.Contains(text, ".'") || strings.Contains(text, `."`)
}

// render fills the template in.
func (t *template) render(f *expr.Frame) string {
	text, _ := t.said(f)
	return text
}

// said fills the template in, and is not ok where no sentence has all of its facts.
func (t *template) said(f *expr.Frame) (text string, ok bool) {
	if t == nil {
		return "", true
	}
	if pieces := t.pieces(); len(pieces) == 1 && pieces[0].fixed {
		return pieces[0].text, true
	}
	out, ok := t.append(nil, f)
	return string(out), ok
}

// append is said behind what stands in dst.
func (t *template) append(dst []byte, f *expr.Frame) (out []byte, ok bool) {
	if t == nil {
		return dst, true
	}
	pieces := t.pieces()
	if len(pieces) == 1 && pieces[0].fixed {
		return append(dst, pieces[0].text...), true
	}
	return fill(dst, pieces, f)
}

// fill fills pieces in behind what stands in dst.
func fill(dst []byte, pieces []piece, f *expr.Frame) (out []byte, ok bool) {
	w := filling{out: dst, begin: len(dst), from: len(dst)}
	for i := range pieces {
		w.add(&pieces[i], f)
	}
	w.end()
	ok = w.left()
	return w.out[:w.begin+len(bytes.TrimRight(w.out[w.begin:], " "))], ok
}

// settled makes one piece of a text in which nothing is to be filled in.
func settled(pieces []piece) []piece {
	if slices.ContainsFunc(pieces, func(p piece) bool { return p.prog != nil }) {
		return pieces
	}
	text, _ := fill(nil, pieces, nil)
	return []piece{{text: string(text), fixed: true}}
}

// filling is a template on its way to be a text.
type filling struct {
	out   []byte
	begin int    // where the text begins,
	from  int    // and the sentence in work
	gap   bool   // which lacks facts,
	alone bool   // or is one expression so far, which chooses among whole sentences
	said  bool   // a sentence has all of its facts
	gaps  []span // of the sentences that have not
}

// span is a stretch of a text.
type span struct{ from, to int }

// add fills in one piece.
func (w *filling) add(p *piece, f *expr.Frame) {
	at := len(w.out)
	if p.prog != nil {
		w.alone = at == w.from && p.whole
		w.out = p.prog.AppendRender(w.out, f, p.decimals)
		text := w.out[at:]
		w.gap = w.gap || string(text) == expr.NotStated || string(text) == expr.NotComputed
	} else {
		text := p.text
		if w.alone && strings.HasPrefix(text, " ") {
			w.out = append(w.out, ' ')
			w.end()
			text, at = text[1:], len(w.out)
		}
		w.out = append(w.out, text...)
	}
	if p.ends || p.prog != nil && bytes.HasSuffix(w.out[at:], []byte(sentenceEnd)) {
		w.end()
	}
	w.alone = w.alone && p.prog != nil
}

// end ends a sentence; one of blanks alone is none.
func (w *filling) end() {
	switch {
	case len(bytes.TrimSpace(w.out[w.from:])) == 0:
		w.out = w.out[:w.from]
	case w.gap:
		w.gaps = append(w.gaps, span{w.from, len(w.out)})
	default:
		w.said = true
	}
	w.from, w.gap, w.alone = len(w.out), false, false
}

// left leaves out the sentences that lack facts, where another is left; it is false
// where none is.
func (w *filling) left() bool {
	if !w.said {
		return len(w.out) == w.begin
	}
	for i := len(w.gaps) - 1; i >= 0; i-- {
		w.out = slices.Delete(w.out, w.gaps[i].from, w.gaps[i].to)
	}
	return true
}

// template compiles a text with expressions in braces. say and remedy are
// wanted; other texts are asked for only where they stand.
func (c *compiler) template(key string, n *source.Node) *template {
	child := n.Get(key)
	if child == nil {
		c.missing(n, c.path, key, "")
		return nil
	}
	if !child.TightComment { // which text refuses by itself
		c.remark(child, c.path+"."+key)
	}
	return c.templateOf(key, child, c.text(n, c.path, key))
}

// optional compiles a text where there is one.
func (c *compiler) optional(key string, n *source.Node) *template {
	if n.Get(key) == nil {
		return nil
	}
	return c.template(key, n)
}

// crowded says whether a text is not to be compiled: it has more expressions than a text
// or all texts of a file may have, or there are too many problems already.
func (c *compiler) crowded(n *source.Node, path string, raw []rawPiece) bool {
	count := 0
	for _, p := range raw {
		if !p.isExpr {
			continue
		}
		if count++; count > mostInText {
			text, hint := fmt.Sprintf("has more than %d expressions", mostInText), "say less, or put what belongs together into one"
			c.issues(n, path, p.at, []expr.Issue{{Code: source.TooMany, Text: text, Hint: hint, End: utf8.RuneCountInString(p.text)}})
			return true
		}
	}
	before := c.inTexts
	c.inTexts += count
	switch {
	case c.inTexts > mostAllInTexts && before <= mostAllInTexts:
		text := fmt.Sprintf("the texts of this file have more than %d expressions together", mostAllInTexts)
		n.Refuse(c.ps, path, text, "put some of the rules in another file").Code = source.TooMany
	case c.ps.Full():
		c.ps.Unread(n.Pos)
	}
	return c.inTexts > mostAllInTexts || c.ps.Full() || c.overspent()
}

func (c *compiler) templateOf(key string, n *source.Node, text string) *template {
	path := c.path + "." + key
	return &template{later(c, func(c *compiler) []piece {
		raw, at, err := cut(text)
		if err != nil {
			c.issues(n, path, at, []expr.Issue{{End: 1, Code: source.Expression, Text: err.Error()}})
		}
		if c.crowded(n, path, raw) {
			return nil
		}
		var pieces []piece
		for _, p := range raw {
			if !p.isExpr {
				for chunk := range strings.SplitAfterSeq(p.text, sentenceEnd) {
					pieces = append(pieces, piece{text: chunk, ends: strings.HasSuffix(chunk, sentenceEnd)})
				}
				continue
			}
			prog, issues := c.scope.Compile(p.text, expr.Value)
			c.issues(n, path, p.at, issues)
			pieces = append(pieces, piece{prog: prog, decimals: p.decimals, whole: wholeSentences(p.text)})
		}
		return settled(pieces)
	})}
}
