package rules

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/cogcourt/rules/internal/expr"
)

// template is a text with expressions in braces: {expr} or {expr:.1}. Of several
// sentences one that lacks facts is left out; where all do, or there is but one,
// the text says "(not stated)" in their place. An expression between blanks that
// chooses among whole sentences, as in {wet ? 'Dry it.' : ”}, is one of its own.
type template struct {
	parts func() []part
}

// part is a piece of plain text, or an expression to print. Plain text is cut
// behind the end of a sentence.
type part struct {
	text     string
	prog     *expr.Program // nil for plain text
	decimals int
	whole    bool // it chooses among whole sentences
}

// piece is a part before it is compiled, with its place in the text.
type piece struct {
	text     string
	at       int // in code points
	isExpr   bool
	decimals int
}

// cut takes a text apart. Doubled braces stand for themselves. The error names
// the place, in code points.
func cut(text string) (pieces []piece, at int, err error) {
	runes := []rune(text)
	var plain strings.Builder
	flush := func() {
		if plain.Len() > 0 {
			pieces = append(pieces, piece{text: plain.String()})
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
func exprPiece(runes []rune, from, to int) piece {
	body := string(runes[from:to])
	p := piece{text: body, at: from, isExpr: true, decimals: expr.Shortest}
	if i := strings.LastIndex(body, ":."); i >= 0 {
		if n, err := strconv.Atoi(body[i+2:]); err == nil && n >= 0 && n <= 6 {
			p.text, p.decimals = body[:i], n
		}
	}
	return p
}

// sentenceEnd is what ends a sentence within a text.
const sentenceEnd = ". "

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
	for _, p := range t.parts() {
		text := p.text
		if p.prog != nil {
			text = p.prog.Render(f, p.decimals)
			gap = gap || text == expr.NotStated || text == expr.NotComputed
			alone = sentence.Len() == 0 && p.whole
		}
		between := alone && p.prog == nil && strings.TrimSpace(text) == ""
		sentence.WriteString(text)
		if between || p.prog == nil && strings.HasSuffix(text, sentenceEnd) {
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
