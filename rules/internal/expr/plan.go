package expr

import (
	"strings"
	"sync"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/interpreter"
)

// bare compiles an expression that is nothing but a fact or a let-name, as most
// of those in texts are: there is nothing to parse, check or plan.
func (s *Scope) bare(text string, role Role) *Program {
	if role != Value {
		return nil
	}
	name := strings.TrimSpace(text)
	object, field, dotted := strings.Cut(name, ".")
	p := &Program{lang: s.lang, cost: 1}
	expr := factory.NewIdent(1, name)
	if o, ok := s.lang.index[object]; ok && dotted {
		i, ok := s.lang.objects[o].Table.Index(field)
		if !ok {
			return nil
		}
		r := Read{o, i}
		p.typ = celType(s.lang.Field(r).Type)
		p.engine = func(f *Frame) ref.Val { return f.fact(s.lang, r) }
		expr = factory.NewSelect(1, factory.NewIdent(2, object), field)
	} else if l := s.lets[name]; l != nil {
		p.typ = l.prog.typ
		p.engine = func(f *Frame) ref.Val { return f.slowLet(l) }
	} else {
		return nil
	}
	tree := ast.NewCheckedAST(ast.NewAST(expr, ast.NewSourceInfo(nil)), map[int64]*types.Type{1: p.typ}, nil)
	p.size = s.size(tree, expr)
	p.collect(s, tree)
	q := quickener{lang: s.lang, scope: s, tree: tree}
	p.quick, p.lacking = q.build(expr), q.lackings(expr)
	return p
}

// planned lets the engine plan an expression when it is first asked: most are
// answered by their closures and never are.
func planned(env func() (*cel.Env, error), tree *ast.AST, decorate func() interpreter.InterpretableDecoratorV2) func(*Frame) ref.Val {
	plan := sync.OnceValues(func() (cel.Program, error) {
		e, err := env()
		if err != nil {
			return nil, err
		}
		return e.PlanProgram(tree, cel.CustomDecoratorV2(decorate()))
	})
	return func(f *Frame) ref.Val {
		prog, err := plan()
		if err != nil {
			return types.WrapErr(err)
		}
		v, _, err := prog.Eval(f.exec())
		if v == nil && err != nil { // a panic in a function, which the engine caught
			return types.WrapErr(err)
		}
		return v
	}
}

// exec has the engine evaluate the whole expression: the closures could not answer.
func (p *Program) exec(f *Frame) ref.Val { return p.engine(f) }
