package expr

import (
	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/decls"
)

// Scope is a language with the let-names of one rule, each usable by those
// behind it. It is used while a rule is compiled, by one goroutine.
type Scope struct {
	lang   *Language
	lets   map[string]*Let
	broken map[string]bool // let-names that are at fault
	coming map[string]bool // let-names that stand below what is compiled now

	prepared string              // lines of Recall
	keep     func(string, error) // of Prepare
}

// Let is a let-name of a rule.
type Let struct {
	slot int
	prog *Program
}

// Number gives the value of a let-name that is a number, as its Program does; a frame
// knows it that was asked for it before.
func (l *Let) Number(f *Frame) (x float64, ok bool) {
	if v := f.named(l); v != nil {
		return v.num, true
	}
	return l.prog.Number(f)
}

// Flag gives the value of one that is true or false, as 1 or 0.
func (l *Let) Flag(f *Frame) (x float64, ok bool) {
	if v := f.named(l); v != nil {
		return v.num, true
	}
	state := l.prog.Decide(f).State
	return truthNumber(state == True), state == True || state == False
}

// Text gives the value of one that is a text.
func (l *Let) Text(f *Frame) (text string, ok bool) {
	if v := f.named(l); v != nil {
		return v.text, true
	}
	return l.prog.Text(f)
}

// NewScope makes a scope without let-names.
func (l *Language) NewScope() *Scope {
	return &Scope{lang: l, lets: map[string]*Let{}, broken: map[string]bool{}}
}

// Let adds a name for a compiled expression. slot is where a frame keeps its
// value: each let of a set of rules has its own, counted from 0.
func (s *Scope) Let(name string, slot int, p *Program) *Let {
	s.lets[name] = &Let{slot: slot, prog: p}
	return s.lets[name]
}

// Coming says which let-names will be added, for the hint of who reads one too
// early.
func (s *Scope) Coming(names []string) {
	s.coming = map[string]bool{}
	for _, n := range names {
		s.coming[n] = true
	}
}

// LetBroken adds a name whose expression is at fault, so that the expressions
// that read it are not reported for it as well.
func (s *Scope) LetBroken(name string) { s.broken[name] = true }

// env is the engine's environment for one expression: with the let-names that it
// reads and no others. Each environment is kept as long as its program, so one
// that grew with every name would take memory by the square of their number.
func (s *Scope) env(tree *ast.AST) (*cel.Env, error) {
	var vars []*decls.VariableDecl
	seen := map[string]bool{}
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() != ast.IdentKind || seen[e.AsIdent()] {
			return
		}
		name := e.AsIdent()
		seen[name] = true
		if l := s.lets[name]; l != nil {
			vars = append(vars, decls.NewVariable(name, l.prog.typ))
		} else if s.broken[name] {
			vars = append(vars, decls.NewVariable(name, cel.DynType))
		}
	})
	if len(vars) == 0 {
		return s.lang.base, nil
	}
	return s.lang.base.Extend(cel.VariableDecls(vars...))
}

// Taken says whether a name already stands for an object, a function, a let or
// a word of the engine.
func (s *Scope) Taken(name string) bool {
	_, object := s.lang.index[name]
	_, known := s.lets[name]
	return object || known || s.broken[name] || s.lang.taken[name]
}
