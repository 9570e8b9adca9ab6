package expr

import (
	"slices"
	"strings"

	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// Issue is one fault of an expression. At is its place, in code points from the
// start of the text: the first character of the name, operator or value that is
// at fault.
type Issue struct {
	At   int
	Text string
	Hint string
}

// places finds the code points of an expression's text that its nodes stand at.
type places struct {
	text  []rune
	info  *ast.SourceInfo
	nodes map[int64]ast.Expr
}

func newPlaces(text string, tree *ast.AST) places {
	p := places{text: []rune(text), info: tree.SourceInfo(), nodes: map[int64]ast.Expr{}}
	walk(tree.Expr(), func(e ast.Expr) { p.nodes[e.ID()] = e })
	return p
}

// whole is the place of the expression as such: its first visible character.
func (p places) whole() int {
	return max(0, slices.IndexFunc(p.text, func(r rune) bool { return !isBlank(r) }))
}

// offset turns the engine's place into a number of code points. Lines count
// from 1, columns from 0; what has no place is at the start.
func (p places) offset(at common.Location) int { return runeOffset(p.text, at.Line(), at.Column()) }

func runeOffset(runes []rune, line, col int) int {
	at := 0
	for ; at < len(runes) && line > 1; at++ {
		if runes[at] == '\n' {
			line--
		}
	}
	return min(at+max(col, 0), len(runes))
}

// of gives the place of a node's own word: its name, operator or value. The
// parser keeps the parenthesis of a call and the dot of a field; the word is
// beside them.
func (p places) of(e ast.Expr) int {
	at := p.offset(p.info.GetStartLocation(e.ID()))
	switch {
	case at >= len(p.text):
	case e.Kind() == ast.SelectKind && p.text[at] == '.':
		at = p.skip(at + 1)
	case p.text[at] == '(' && (e.Kind() == ast.CallKind || e.Kind() == ast.ComprehensionKind):
		at = p.wordBefore(at)
	}
	return at
}

// start gives the place of the first character of a node with all its parts.
func (p places) start(e ast.Expr) int {
	switch e.Kind() {
	case ast.SelectKind:
		return p.start(e.AsSelect().Operand())
	case ast.ComprehensionKind:
		return p.start(e.AsComprehension().IterRange())
	case ast.CallKind:
		c := e.AsCall()
		switch name := c.FunctionName(); {
		case c.IsMemberFunction():
			return p.start(c.Target())
		case name == operators.LogicalNot || name == operators.Negate:
		case strings.HasPrefix(name, "_") || name == operators.In:
			return p.start(c.Args()[0])
		}
	}
	return p.of(e)
}

// inside gives the place of the first word within the parenthesis of a loop.
func (p places) inside(e ast.Expr) int {
	at := p.offset(p.info.GetStartLocation(e.ID()))
	if at < len(p.text) && p.text[at] == '(' {
		at++
	}
	return p.skip(at)
}

// skip passes blanks.
func (p places) skip(at int) int {
	for at < len(p.text) && isBlank(p.text[at]) {
		at++
	}
	return at
}

// wordBefore gives the start of the name in front of a place.
func (p places) wordBefore(at int) int {
	end := at
	for end > 0 && isBlank(p.text[end-1]) {
		end--
	}
	start := end
	for start > 0 && isWord(p.text[start-1]) {
		start--
	}
	if start == end {
		return at
	}
	return start
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\f' }

func isWord(r rune) bool {
	return r == '_' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
}
