package expr

import (
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/interpreter"
)

// node is a place in the engine's plan where this package reads for it.
type node struct {
	interpreter.InterpretableV2 // what the engine planned: its id
	read                        func(*Frame) ref.Val
}

// Exec implements the engine's node.
func (n *node) Exec(fr *interpreter.ExecutionFrame) ref.Val {
	f, ok := fr.Activation.(*Frame)
	if !ok { // inside all() or exists()
		f = frameOf(fr.Activation)
	}
	if f == nil {
		return types.NewErr("no frame to read facts from")
	}
	return n.read(f)
}

// Eval implements the engine's older node, which it no longer calls.
func (n *node) Eval(a interpreter.Activation) ref.Val {
	return n.Exec(interpreter.AsFrame(a))
}

// decorator puts nodes of this package into a plan: for object.field, for
// let-names and for stated(object.field). A bare object is left alone, because
// the engine plans the field onto it.
func decorator(lang *Language, scope *Scope, tree *ast.AST) interpreter.InterpretableDecoratorV2 {
	facts := map[int64]Read{}
	stated := map[int64]Read{}
	lets := map[int64]*Let{}
	walk(tree.Expr(), func(e ast.Expr) {
		if r, ok := readOf(lang, e); ok {
			facts[e.ID()] = r
		}
		if e.Kind() == ast.CallKind && e.AsCall().FunctionName() == "stated" {
			if r, ok := readOf(lang, e.AsCall().Args()[0]); ok {
				stated[e.ID()] = r
			}
		}
		if e.Kind() == ast.IdentKind {
			if l := scope.lets[e.AsIdent()]; l != nil {
				lets[e.ID()] = l
			}
		}
	})
	return func(i interpreter.InterpretableV2) (interpreter.InterpretableV2, error) {
		if r, ok := stated[i.ID()]; ok {
			if _, call := i.(interpreter.InterpretableCall); call {
				return &node{i, func(f *Frame) ref.Val { return types.Bool(f.known(r)) }}, nil
			}
		}
		at, ok := i.(interpreter.InterpretableAttribute)
		if !ok {
			return i, nil
		}
		name, ok := at.Attr().(interpreter.NamespacedAttribute)
		if !ok {
			return i, nil
		}
		quals := name.Qualifiers()
		if len(quals) == 0 {
			if l := lets[i.ID()]; l != nil {
				return &node{i, func(f *Frame) ref.Val { return f.slowLet(l) }}, nil
			}
			return i, nil
		}
		if r, ok := facts[quals[0].ID()]; ok {
			return &node{i, func(f *Frame) ref.Val { return f.fact(lang, r) }}, nil
		}
		return i, nil
	}
}
