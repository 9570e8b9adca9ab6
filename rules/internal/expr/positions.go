package expr

import (
	"slices"
	"strings"

	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// positions finds the code points of an expression's text that its nodes stand at.
type positions struct {
	text  []rune
	info  *ast.SourceInfo
	nodes map[int64]ast.Expr
}

func newPositions(text string, tree *ast.AST) positions {
	p := positions{text: []rune(text), info: tree.SourceInfo(), nodes: map[int64]ast.Expr{}}
	walk(tree.Expr(), func(e ast.Expr) { p.nodes[e.ID()] = e })
	return p
}

// whole is the place of the expression as such: its first visible character.
func (p positions) whole() int {
	return max(0, slices.IndexFunc(p.text, func(r rune) bool { return !isBlank(r) }))
}

// offset turns the engine's place into a number of code points. Lines count
// from 1, columns from 0; what has no place is at the start.
func (p positions) offset(at common.Location) int { return runeOffset(p.text, at.Line(), at.Column()) }

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
func (p positions) of(e ast.Expr) int {
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
func (p positions) start(e ast.Expr) int {
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

// stop gives the place just behind the last character of a node with all its parts.
func (p positions) stop(e ast.Expr) int {
	end := 0
	walk(e, func(part ast.Expr) { end = max(end, p.tokenEnd(p.of(part))) })
	// The parser keeps no place of a bracket that closes.
	open := 0
	for at := p.start(e); at < len(p.text) && (at < end || open > 0); at = p.tokenEnd(at) {
		switch c := p.text[at]; {
		case c == '(' || c == '[':
			open++
		case (c == ')' || c == ']') && open > 0: // one that opens in front of the node is not its own
			open--
			end = max(end, at+1)
		}
	}
	return end
}

// inside gives the place of the first word within the parenthesis of a loop.
func (p positions) inside(e ast.Expr) int {
	at := p.offset(p.info.GetStartLocation(e.ID()))
	if at < len(p.text) && p.text[at] == '(' {
		at++
	}
	return p.skip(at)
}

// skip passes blanks.
func (p positions) skip(at int) int {
	for at < len(p.text) && isBlank(p.text[at]) {
		at++
	}
	return at
}

// wordBefore gives the start of the name in front of a place.
func (p positions) wordBefore(at int) int {
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

// tokenEnd gives the place just behind the word or sign that begins at a place,
// also where it is one of those that people mistake for the language's.
func (p positions) tokenEnd(at int) int {
	end := at + 1
	beside := func(chars string) bool { return end < len(p.text) && strings.ContainsRune(chars, p.text[end]) }
	switch {
	case at >= len(p.text):
		return len(p.text)
	case isWord(p.text[at]):
		return p.wordEnd(at)
	case p.text[at] == '\'' || p.text[at] == '"':
		return p.textEnd(at)
	case p.text[at] == '.' && end < len(p.text) && isWord(p.text[end]):
		return p.wordEnd(end)
	case strings.ContainsRune("=!<>&|*/", p.text[at]):
		for beside("=<>&|*/") {
			end++
		}
	case p.text[at] == '\\' && end < len(p.text):
		end++
	}
	return end
}

// wordEnd gives the place just behind a name, or a number with its point.
func (p positions) wordEnd(at int) int {
	number := '0' <= p.text[at] && p.text[at] <= '9'
	for at++; at < len(p.text) && (isWord(p.text[at]) || number && p.text[at] == '.'); at++ {
	}
	return at
}

// textEnd gives the place just behind a text in quotes, or behind its quote alone
// where nothing closes it.
func (p positions) textEnd(at int) int {
	for end := at + 1; end < len(p.text); end++ {
		switch p.text[end] {
		case '\\':
			end++
		case p.text[at]:
			return end + 1
		}
	}
	return at + 1
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\f' }

func isWord(r rune) bool {
	return r == '_' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
}
