package expr

import (
	"regexp"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/source"
)

// Issue is one fault of an expression. Line counts from 1 and Col from 0, in
// code points of the expression's text; Line 0 is the expression as a whole.
type Issue struct {
	Line, Col int
	Text      string
	Hint      string
}

// Offset gives the place as a number of code points from the start of text.
func (i Issue) Offset(text string) int {
	runes := []rune(text)
	line, at := 1, 0
	for at < len(runes) && line < i.Line {
		if runes[at] == '\n' {
			line++
		}
		at++
	}
	return min(at+i.Col, len(runes))
}

// parseIssues translates what the parser says. It says the same fault many
// times; the first is the one that an author can use.
func parseIssues(text string, iss *cel.Issues) []Issue {
	e := iss.Errors()[0]
	out := Issue{Line: max(e.Location.Line(), 0), Col: e.Location.Column(), Text: "the expression cannot be read here"}
	switch msg := e.Message; {
	case strings.Contains(msg, "recursion"), strings.Contains(msg, "nesting"), strings.Contains(msg, "limit"), strings.Contains(msg, "size"):
		out.Text = "the expression is too long or too deeply nested"
		out.Hint = "split it with let:"
	case strings.TrimSpace(text) == "":
		out.Text = "the expression is empty"
	default:
		out.Hint = parseHint(text, out.Offset(text))
	}
	return []Issue{out}
}

var (
	wordOperator = regexp.MustCompile(`(?i)^\W*(and|or|not)\b`)
	loneEquals   = regexp.MustCompile(`(^|[^=!<>])=([^=]|$)`)
)

func parseHint(text string, at int) string {
	rest := string([]rune(text)[at:])
	if m := wordOperator.FindStringSubmatch(rest); m != nil {
		return map[string]string{"and": "write &&", "or": "write ||", "not": "write !"}[strings.ToLower(m[1])]
	}
	switch {
	case loneEquals.MatchString(text):
		return "write == to compare"
	case strings.HasPrefix(strings.TrimSpace(text), ">"), strings.HasPrefix(strings.TrimSpace(text), "<"):
		return "something must stand before the comparison"
	case strings.TrimSpace(rest) == "":
		return "something is missing at the end"
	}
	return ""
}

var (
	undeclared = regexp.MustCompile(`^undeclared reference to '([^']*)'`)
	noField    = regexp.MustCompile(`^undefined field '([^']*)'`)
	noOverload = regexp.MustCompile(`^found no matching overload for '([^']*)' applied to '(.*)'$`)
)

// checkIssues translates what the checker says, and moves each place to the
// name itself: the checker points at the dot or the parenthesis beside it.
func (s *Scope) checkIssues(text string, tree *ast.AST, iss *cel.Issues) []Issue {
	var out []Issue
	for _, e := range iss.Errors() {
		is := Issue{Line: max(e.Location.Line(), 0), Col: e.Location.Column(), Text: e.Message}
		if m := undeclared.FindStringSubmatch(e.Message); m != nil {
			is = s.unknownName(text, is, m[1])
		} else if m := noField.FindStringSubmatch(e.Message); m != nil {
			is = s.unknownField(text, tree, is, m[1])
		} else if m := noOverload.FindStringSubmatch(e.Message); m != nil {
			is = wrongTypes(is, m[1], m[2])
		}
		out = append(out, is)
	}
	return out
}

// unknownName serves objects, let-names and functions. A function is reported at
// its parenthesis, so the name is looked for backwards from there.
func (s *Scope) unknownName(text string, is Issue, name string) Issue {
	runes := []rune(text)
	at := is.Offset(text)
	call := at < len(runes) && runes[at] == '('
	if call {

		end := len([]rune(strings.TrimRight(string(runes[:at]), " \t\n")))
		is.Line, is.Col = lineCol(runes, max(end-len([]rune(name)), 0))

	}
	if name == "has" {
		is.Text, is.Hint = "has() is not part of the language", "an unstated fact makes a rule unknown by itself; write stated(kind.field) in when:"
		return is
	}
	known := functionNames()
	what := "function"
	if !call {
		what = "name"
		known = nil
		for _, o := range s.lang.objects {
			known = append(known, o.Name)
		}
		known = append(known, sortedKeys(s.lets)...)
	}
	is.Text = "unknown " + what + " \"" + name + "\""
	is.Hint = source.Suggest(name, known)
	if is.Hint == "" && !call {
		is.Hint = s.fieldElsewhere(name)
	}
	return is
}

// fieldElsewhere helps who wrote a field without its part.
func (s *Scope) fieldElsewhere(name string) string {
	for _, o := range s.lang.objects {
		if _, ok := o.Table.Index(name); ok {
			return "did you mean \"" + o.Name + "." + name + "\"?"
		}
	}
	return ""
}

func (s *Scope) unknownField(text string, tree *ast.AST, is Issue, field string) Issue {
	runes := []rune(text)
	at := is.Offset(text)
	for at < len(runes) && (runes[at] == '.' || runes[at] == ' ' || runes[at] == '\n' || runes[at] == '\t') {
		at++
	}
	is.Line, is.Col = lineCol(runes, at)
	var object string
	walk(tree.Expr(), func(e ast.Expr) {
		if object != "" || e.Kind() != ast.SelectKind || e.AsSelect().FieldName() != field {
			return
		}
		if op := e.AsSelect().Operand(); op.Kind() == ast.IdentKind {
			if o, ok := s.lang.places[op.AsIdent()]; ok {
				if _, known := s.lang.objects[o].Table.Index(field); !known {
					object = op.AsIdent()
				}
			}
		}
	})
	is.Text = "unknown field \"" + field + "\""
	if object == "" {
		return is
	}
	is.Text = object + " has no field \"" + field + "\""
	is.Hint = source.Suggest(field, s.lang.objects[s.lang.places[object]].Table.Names())
	if is.Hint == "" {
		is.Hint = s.fieldElsewhere(field)
	}
	return is
}

func lineCol(runes []rune, at int) (line, col int) {
	line = 1
	for _, r := range runes[:at] {
		col++
		if r == '\n' {
			line, col = line+1, 0
		}
	}
	return line, col
}

// wrongTypes says in the author's words what cannot be done with what.
func wrongTypes(is Issue, function, args string) Issue {
	words := args
	for _, pair := range [][2]string{
		{"list(double)", "a list of fractions"}, {"list(int)", "a list of whole numbers"},
		{"double", "a fraction"}, {"int", "a whole number"}, {"string", "a text"}, {"bool", "true or false"},
	} {
		words = strings.ReplaceAll(words, pair[0], pair[1])
	}
	name := strings.Trim(strings.ReplaceAll(function, "_", " "), " @")
	is.Text = name + " cannot take " + strings.Trim(words, "()")
	fraction := strings.Contains(args, "double") && !strings.Contains(args, "string") && !strings.Contains(args, "bool")
	if fraction && (function == "_==_" || function == "_!=_" || function == "@in") {
		is.Text = "fractions are not compared for equality"
		is.Hint = "write near(a, b, tolerance)"
	}
	return is
}

func typeWords(t *cel.Type) string {
	switch {
	case t.IsExactType(cel.BoolType):
		return "true or false"
	case t.IsExactType(cel.IntType):
		return "a whole number"
	case t.IsExactType(cel.DoubleType):
		return "a fraction"
	case t.IsExactType(cel.StringType):
		return "a text"
	case t.Kind() == types.ListKind:
		return "a list"
	}
	return "a whole part"
}
