package expr

import (
	"fmt"
	"unicode/utf8"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/checker"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/source"
)

// sizes tells the engine's cost model how long lists and texts can be. Parts are
// made by checked doors only, so the caps of the tables hold and the estimate is
// a bound.
type sizes struct {
	scope *Scope
	tree  *ast.AST
}

// EstimateSize implements the engine's estimator.
func (s sizes) EstimateSize(element checker.AstNode) *checker.SizeEstimate {
	limit := 1
	switch {
	case element.Expr() != nil:
		limit = s.scope.size(s.tree, element.Expr())
	case element.Type().Kind() == types.ListKind:
		limit = s.scope.lang.maxList
	case element.Type().Kind() == types.StringKind:
		limit = maxText
	}
	return &checker.SizeEstimate{Max: uint64(limit)}
}

// EstimateCallCost implements the engine's estimator: a function of lists or
// texts may look at each entry once.
func (s sizes) EstimateCallCost(name, _ string, target *checker.AstNode, args []checker.AstNode) *checker.CallEstimate {
	if listFuncs[name] == nil && name != "startsWith" && name != "size" {
		return nil
	}
	steps := 1
	if target != nil {
		steps += s.scope.size(s.tree, (*target).Expr())
	}
	for _, a := range args {
		steps += s.scope.size(s.tree, a.Expr())
	}
	return &checker.CallEstimate{CostEstimate: checker.CostEstimate{Min: 1, Max: uint64(steps)}}
}

// size bounds the entries of a list or the characters of a text that a node
// gives; 1 for all else. Texts that let-names join would double with each
// name, so a let-name has the bound of its own expression.
func (s *Scope) size(tree *ast.AST, e ast.Expr) int {
	t := tree.GetType(e.ID())
	if t == nil || t.Kind() != types.ListKind && t.Kind() != types.StringKind {
		return 1
	}
	if r, ok := readOf(s.lang, e); ok {
		if t.Kind() == types.StringKind {
			return maxText
		}
		return s.lang.Field(r).Cap
	}
	switch e.Kind() {
	case ast.IdentKind:
		if l := s.lets[e.AsIdent()]; l != nil {
			return l.prog.size
		}
	case ast.LiteralKind:
		text, _ := literalText(e)
		return utf8.RuneCountInString(text)
	case ast.ListKind:
		return e.AsList().Size()
	case ast.CallKind:
		switch args := e.AsCall().Args(); e.AsCall().FunctionName() {
		case operators.Add:
			return s.size(tree, args[0]) + s.size(tree, args[1])
		case operators.Conditional:
			return max(s.size(tree, args[1]), s.size(tree, args[2]))
		}
	}
	if t.Kind() == types.ListKind {
		return s.lang.maxList
	}
	return s.longestWord(tree)
}

// longestWord bounds the texts that a loop or an index takes from a list: a name
// of a fact, or a text of a list that is written in this expression, where no
// entry is longer than all its words together.
func (s *Scope) longestWord(tree *ast.AST) int {
	total := 0
	walk(tree.Expr(), func(e ast.Expr) {
		if t := tree.GetType(e.ID()); isWords(t) && e.Kind() != ast.ListKind {
			total += maxText
			return
		} else if t == nil || t.Kind() != types.StringKind {
			return
		}
		text, literal := literalText(e)
		_, fact := readOf(s.lang, e)
		switch {
		case literal:
			total += utf8.RuneCountInString(text)
		case fact:
			total += maxText
		case e.Kind() == ast.IdentKind && s.lets[e.AsIdent()] != nil:
			total += s.lets[e.AsIdent()].prog.size
		}
	})
	return total
}

// bound proves what one evaluation can cost at most, let-names left out: they
// are worked out once a check and counted on their own.
func (s *Scope) bound(env *cel.Env, tree *cel.Ast, p positions) (uint64, []Issue) {
	est, err := env.EstimateCost(tree, sizes{s, tree.NativeRep()})
	if err != nil {
		return 0, p.costly("the cost cannot be bounded: "+err.Error(), "")
	}
	if est.Max > maxCost {
		text := fmt.Sprintf("this could take %d steps, and %d are allowed", est.Max, maxCost)
		return 0, p.costly(text, "use max, min, sum or let: instead of loops")
	}
	return est.Max, nil
}

// costly refuses an expression for what it could take.
func (p positions) costly(text, hint string) []Issue {
	is := p.entire(text, hint)
	is.Code = source.Cost
	return []Issue{is}
}
