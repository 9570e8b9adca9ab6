package expr

import (
	"fmt"
	"slices"
	"unicode/utf8"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types/ref"
)

// Role says where in a rule an expression stands.
type Role uint8

// The roles. A condition must be true or false; stated() may stand in a When
// only.
const (
	Value Role = iota
	Condition
	When
)

// Program is a compiled expression. It is immutable.
type Program struct {
	lang   *Language
	typ    *cel.Type
	engine func(*Frame) ref.Val // asks the engine
	quick  quick
	reads  []Read
	begins []Sense // of the reads, see Begins
	ends   []Sense
	stated []Read
	fact   *Read // where the expression is nothing but a fact
	cost   uint64
	size   int // the longest text or list that it can give

	lacking func() lacking // its finder is nil where only the engine tells what is missing
}

// Compile checks and compiles one expression. Where it cannot, it returns every
// issue that it finds and no program. Neither program nor issue means that only
// a let-name is at fault, which has been reported where it stands.
func (s *Scope) Compile(text string, role Role) (p *Program, issues []Issue) {
	// Some inputs make the engine panic while it parses or checks.
	defer func() {
		if r := recover(); r != nil {
			p, issues = nil, []Issue{{End: utf8.RuneCountInString(text), Text: fmt.Sprintf("the expression cannot be compiled: %v", r)}}
		}
		issues = located(text, issues)
	}()
	if p := s.bare(text, role); p != nil {
		return p, nil
	}
	if p := s.recall(text, role); p != nil {
		return p, nil
	}
	env, checked, issues := s.check(text, role)
	if len(issues) > 0 || checked == nil {
		return nil, issues
	}
	rep := checked.NativeRep()
	p = &Program{lang: s.lang, typ: checked.OutputType(), size: s.size(rep, rep.Expr())}
	at := newPositions(text, rep)
	if p.size > maxGrown {
		return nil, at.costly(fmt.Sprintf("this text could grow to %d characters, and %d are allowed", p.size, maxGrown), "")
	}
	if p.cost, issues = s.bound(env, checked, at); len(issues) > 0 {
		return nil, issues
	}
	s.now().finish(p, rep, func() (*cel.Env, error) { return env, nil })
	s.kept(text, role, p, rep)
	return p, nil
}

// check parses and checks one expression, and gives the environment it did so in.
func (s *Scope) check(text string, role Role) (*cel.Env, *cel.Ast, []Issue) {
	if is, found := remark(text); found {
		return nil, nil, []Issue{is}
	}
	tree, iss := s.lang.base.Parse(text)
	if iss.Err() != nil {
		return nil, nil, s.parseIssues(text, iss)
	}
	at := newPositions(text, tree.NativeRep())
	found := s.lintParsed(at, tree.NativeRep(), role)
	env, err := s.env(tree.NativeRep())
	if err != nil {
		return nil, nil, append(found, Issue{At: at.whole(), Text: err.Error()})
	}
	checked, iss := env.Check(tree)
	if iss.Err() != nil {
		for _, is := range s.checkIssues(at, iss) {
			if !slices.ContainsFunc(found, func(other Issue) bool { return other.At == is.At }) {
				found = append(found, is)
			}
		}
	}
	if len(found) > 0 || s.readsBroken(tree.NativeRep()) {
		return nil, nil, found
	}
	if found = s.lintChecked(at, checked.NativeRep(), role); len(found) > 0 {
		return nil, nil, found
	}
	return env, checked, nil
}

// readsBroken says whether the expression reads a let-name that is at fault.
func (s *Scope) readsBroken(tree *ast.AST) bool {
	broken := false
	walk(tree.Expr(), func(e ast.Expr) {
		broken = broken || e.Kind() == ast.IdentKind && s.broken[e.AsIdent()]
	})
	return broken
}

// collect gathers what the expression reads: facts in the order of the text,
// through let-names, and the arguments of stated() apart.
func (p *Program) collect(s *Scope, tree *ast.AST) {
	add := func(r Read) {
		if !slices.Contains(p.reads, r) {
			p.reads = append(p.reads, r)
		}
	}
	if r, ok := readOf(s.lang, tree.Expr()); ok {
		p.fact = &r
	}
	asked := map[int64]bool{}
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.CallKind && e.AsCall().FunctionName() == "stated" {
			arg := e.AsCall().Args()[0]
			r, _ := readOf(s.lang, arg)
			p.stated = append(p.stated, r)
			asked[arg.ID()] = true
		}
		if r, ok := readOf(s.lang, e); ok && !asked[e.ID()] {
			add(r)
		}
		if e.Kind() == ast.IdentKind {
			if l := s.lets[e.AsIdent()]; l != nil {
				for _, r := range l.prog.reads {
					add(r)
				}
			}
		}
	})
	s.senses(p, tree.Expr())
}

// Reads gives the facts that the expression reads, in the order of its text,
// through let-names, but for the arguments of stated().
func (p *Program) Reads() []Read { return p.reads }

// Stated gives the arguments of stated().
func (p *Program) Stated() []Read { return p.stated }

// Cost is the proven bound of one evaluation, in the engine's units.
func (p *Program) Cost() uint64 { return p.cost }

// IsNumber says whether the expression gives a number.
func (p *Program) IsNumber() bool { return isNumber(p.typ) }
