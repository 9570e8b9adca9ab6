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
	lets   map[string]*let
	broken map[string]bool // let-names that are at fault
	coming map[string]bool // let-names that stand below what is compiled now

	prepared string              // lines of Recall
	keep     func(string, error) // of Prepare
}

type let struct {
	slot int
	prog *Program
}

// NewScope makes a scope without let-names.
func (l *Language) NewScope() *Scope {
	return &Scope{lang: l, lets: map[string]*let{}, broken: map[string]bool{}}
}

// Let adds a name for a compiled expression. slot is where a frame keeps its
// value: each let of a set of rules has its own, counted from 0.
func (s *Scope) Let(name string, slot int, p *Program) { s.lets[name] = &let{slot: slot, prog: p} }

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
