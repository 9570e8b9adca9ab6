package rules

import (
	"fmt"
	"strconv"
	"strings"

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
	var whole, said, sentence strings.Builder
	gap := false   // the sentence lacks facts
	alone := false // it is one expression so far, which chooses among whole sentences
	end := func() {
		if strings.TrimSpace(sentence.String()) != "" {
			whole.WriteString(sentence.String())
			if !gap {
				said.WriteString(sentence.String())
			}
		}
		sentence.Reset()
		gap, alone = false, false
	}
	for _, p := range t.pieces() {
		text := p.text
		if p.prog != nil {
			text = p.prog.Render(f, p.decimals)
			gap = gap || text == expr.NotStated || text == expr.NotComputed
			alone = sentence.Len() == 0 && p.whole
		}
		if rest, blank := strings.CutPrefix(text, " "); alone && p.prog == nil && blank {
			sentence.WriteString(" ")
			end()
			text = rest
		}
		sentence.WriteString(text)
		if strings.HasSuffix(text, sentenceEnd) {
			end()
		}
		alone = alone && p.prog != nil
	}
	end()
	if said.Len() > 0 || whole.Len() == 0 {
		return strings.TrimRight(said.String(), " "), true
	}
	return strings.TrimRight(whole.String(), " "), false
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

func (c *compiler) templateOf(key string, n *source.Node, text string) *template {
	path := c.path + "." + key
	return &template{later(c, func(c *compiler) []piece {
		raw, at, err := cut(text)
		if err != nil {
			c.issues(n, path, at, []expr.Issue{{End: 1, Code: source.Expression, Text: err.Error()}})
		}
		var pieces []piece
		for _, p := range raw {
			if !p.isExpr {
				for chunk := range strings.SplitAfterSeq(p.text, sentenceEnd) {
					pieces = append(pieces, piece{text: chunk})
				}
				continue
			}
			prog, issues := c.scope.Compile(p.text, expr.Value)
			c.issues(n, path, p.at, issues)
			pieces = append(pieces, piece{prog: prog, decimals: p.decimals, whole: wholeSentences(p.text)})
		}
		return pieces
	})}
}
