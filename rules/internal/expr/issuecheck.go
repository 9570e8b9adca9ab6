package expr

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// What the checker says, by the beginning of its message.
var (
	undeclared = regexp.MustCompile(`^undeclared reference to '([^']*)'`)
	noField    = regexp.MustCompile(`^undefined field '([^']*)'`)
	noFields   = regexp.MustCompile(`^type '(.*)' does not support field selection$`)
	noOverload = regexp.MustCompile(`^found no matching overload for '([^']*)' applied to '(.*)'$`)
	noRange    = regexp.MustCompile(`^expression of type '(.*)' cannot be range of a comprehension`)
	noMatch    = regexp.MustCompile(`^expected type '(.*)' but found '(.*)'$`)
)

// checkIssues translates what the checker says, and moves each place to the
// name itself.
func (s *Scope) checkIssues(p positions, iss *cel.Issues) []Issue {
	var out []Issue
	follows := p.followers(iss)
	for _, e := range iss.Errors() {
		if node := p.nodes[e.ExprID]; node == nil {
			out = append(out, s.limitIssue(p, e))
		} else if is := s.checkIssue(p, node, e.Message); !follows[e.ExprID] && !p.partOfWord(is, out) {
			out = append(out, is)
		}
	}
	return out
}

// limitIssue is one that belongs to no node: a limit that the whole expression
// passes.
func (s *Scope) limitIssue(p positions, e *cel.Error) Issue {
	if strings.Contains(e.Message, "limit") {
		return p.tooLong()
	}
	at := p.whole()
	if e.Location != common.NoLocation {
		at = p.offset(e.Location)
	}
	return Issue{At: at, Text: e.Message}
}

func (s *Scope) checkIssue(p positions, node ast.Expr, msg string) Issue {
	match := func(re *regexp.Regexp) []string { return re.FindStringSubmatch(msg) }
	if m := match(undeclared); m != nil {
		return s.unknownName(p, node, m[1])
	}
	if m := match(noField); m != nil {
		return s.unknownField(p.of(node), node, m[1])
	}
	if m := match(noFields); m != nil {
		is := Issue{At: p.of(node), Text: words(m[1]) + " has no fields"}
		if strings.HasPrefix(m[1], "list") && node.Kind() == ast.SelectKind {
			is.Hint = calls[node.AsSelect().FieldName()]
		}
		return is
	}
	if m := match(noOverload); m != nil {
		return s.wrongTypes(p, node, m[1], m[2])
	}
	if m := match(noRange); m != nil {
		if is, ok := s.wholePart(p, node); ok {
			return is
		}
		return p.over(node, "a loop goes over a list, this gives "+words(m[1]))
	}
	if m := match(noMatch); m != nil {
		return p.over(node, words(m[1])+" is wanted here, this gives "+words(m[2]))
	}
	if strings.Contains(msg, "nesting limit") {
		return Issue{At: p.of(node), Text: "a loop cannot stand within a loop", Hint: "use max, min, sum or let: instead"}
	}
	return Issue{At: p.of(node), Text: msg}
}

// followers are the faults that follow from another one: where the word exists
// is misspelt, its loop name is unknown too, and a map suits no operator.
func (p positions) followers(iss *cel.Issues) map[int64]bool {
	out := map[int64]bool{}
	for _, e := range iss.Errors() {
		node := p.nodes[e.ExprID]
		if noOverload.MatchString(e.Message) && strings.Contains(e.Message, "map(") {
			out[e.ExprID] = true
		}
		if node == nil || node.Kind() != ast.CallKind || !undeclared.MatchString(e.Message) {
			continue
		}
		c := node.AsCall()
		if !c.IsMemberFunction() || len(c.Args()) < 2 || c.Args()[0].Kind() != ast.IdentKind {
			continue
		}
		loop := c.Args()[0].AsIdent()
		for _, arg := range c.Args() {
			walk(arg, func(e ast.Expr) {
				if e.Kind() == ast.IdentKind && e.AsIdent() == loop {
					out[e.ID()] = true
				}
			})
		}
	}
	return out
}

// unknownName explains a name that is no object, let-name or function, by what its
// author may have meant.
func (s *Scope) unknownName(p positions, node ast.Expr, name string) Issue {
	at := p.of(node)
	if node.Kind() == ast.CallKind {
		is := Issue{At: at, Text: fmt.Sprintf("unknown function %q", name), Hint: calls[name]}
		if is.Hint == "" {
			is.Hint = fact.Suggest(name, functionNames())
		}
		if is.Hint == "" {
			is.Hint = "known are " + strings.Join(functionNames(), ", ")
		}
		return is
	}
	is := Issue{At: at, Code: source.UnknownID, Text: fmt.Sprintf("unknown name %q", name)}
	var near bool
	if is.Hint, near = s.nameHint(name); !near {
		if hint, word := s.wordHint(p, at, name); hint != "" {
			is.Hint, is.End = hint, at+len(word)
		}
	}
	if s.coming[name] {
		is.Hint = "it stands further down in let:; move it up"
	}
	return is
}

// nameHint says what an unknown name was meant for, and whether it is near one
// that is known.
func (s *Scope) nameHint(name string) (hint string, near bool) {
	var known []fact.Named
	var names []string
	for _, o := range s.lang.objects {
		known = append(known, fact.Named{Name: o.Name, Also: o.Also})
		names = append(names, o.Name)
	}
	for _, own := range append(sortedKeys(s.lets), sortedKeys(s.broken)...) {
		known, names = append(known, fact.Named{Name: own}), append(names, own)
	}
	hint = fact.SuggestNamed(name, known)
	switch near = fact.Nearest(name, names) != ""; {
	case near, isOther(name, known):
		return hint, near
	}
	return cmp.Or(s.fieldElsewhere(name), hint), near
}

// isOther says whether a name is another name of something.
func isOther(name string, known []fact.Named) bool {
	found := fact.Find(name, known)
	return len(found) > 0 && found[0].Fit == fact.IsOther
}

// fieldElsewhere helps who wrote a field without its part, or with another's, by
// its own name or by one that the trade has for it.
func (s *Scope) fieldElsewhere(name string) string {
	for _, o := range s.lang.objects {
		if _, ok := o.Table.Index(name); ok {
			return fmt.Sprintf("did you mean %q?", o.Name+"."+name)
		}
	}
	return s.lang.others().Suggest(name)
}

func (s *Scope) unknownField(at int, node ast.Expr, field string) Issue {
	is := Issue{At: at, Code: source.UnknownID, Text: fmt.Sprintf("unknown field %q", field)}
	if operand := node.AsSelect().Operand(); operand.Kind() == ast.IdentKind {
		if o, ok := s.lang.index[operand.AsIdent()]; ok {
			table := s.lang.objects[o].Table
			is.Text = fmt.Sprintf("%s has no field %q", operand.AsIdent(), field)
			is.Hint = fact.SuggestNamed(field, table.Named())
			if fact.Nearest(field, table.Names()) == "" && !isOther(field, table.Named()) {
				is.Hint = cmp.Or(s.fieldElsewhere(field), is.Hint)
			}
		}
	}
	return is
}

// wrongTypes says in the author's words what cannot be done with what.
func (s *Scope) wrongTypes(p positions, node ast.Expr, function, args string) Issue {
	at := p.of(node)
	if node.Kind() == ast.CallKind {
		for _, a := range node.AsCall().Args() {
			if is, ok := s.wholePart(p, a); ok {
				return is
			}
		}
	}
	fraction := strings.Contains(args, "double") && !strings.Contains(args, "string") && !strings.Contains(args, "bool")
	if fraction && (function == "_==_" || function == "_!=_" || function == "@in") {
		return unequal(at)
	}
	if function == "_?_:_" && strings.HasPrefix(args, "(bool, ") {
		return Issue{At: at, Text: "both sides of the : must be of one kind",
			Hint: "write a whole number as a fraction where the other is one, such as 1.0"}
	}
	is := Issue{At: at}
	if is.Hint = s.typeHint(p, node, args); is.Hint == "" && usage[function] != "" {
		is.Hint = "write " + usage[function]
	}
	name := strings.TrimPrefix(strings.Join(strings.Fields(strings.ReplaceAll(function, "_", " ")), " "), "@")
	if of, with, member := strings.Cut(args, ".("); member {
		is.Text = name + " cannot be asked of " + words(of)
		if with != ")" {
			is.Text += " with " + words(strings.TrimSuffix(with, ")"))
		}
		return is
	}
	is.Text = name + " cannot take " + words(strings.TrimSuffix(strings.TrimPrefix(args, "("), ")"))
	return is
}

// wholePart refuses the name of an object that stands alone.
func (s *Scope) wholePart(p positions, e ast.Expr) (Issue, bool) {
	if e.Kind() != ast.IdentKind {
		return Issue{}, false
	}
	o, object := s.lang.index[e.AsIdent()]
	if !object {
		return Issue{}, false
	}
	return Issue{At: p.of(e), Text: e.AsIdent() + " stands for the whole part",
		Hint: "name one of its fields, such as " + s.lang.Name(Read{o, 0})}, true
}

// unequal refuses == on fractions, which are never equal by luck.
func unequal(at int) Issue {
	return Issue{At: at, Text: "fractions and lists are not compared for equality", Hint: "write near(a, b, tolerance)"}
}
