package expr

import (
	"fmt"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/checker"
	"github.com/google/cel-go/common/types"
)

// sizes tells the engine's cost model how long lists and texts can be. Parts are
// made by checked doors only, so the caps of the tables hold and the estimate is
// a bound.
type sizes struct{ lang *Language }

// EstimateSize implements the engine's estimator.
func (s sizes) EstimateSize(element checker.AstNode) *checker.SizeEstimate {
	switch element.Type().Kind() {
	case types.ListKind:
		limit := s.lang.maxList
		if path := element.Path(); len(path) == 2 {
			if o, ok := s.lang.places[path[0]]; ok {
				if i, ok := s.lang.objects[o].Table.Index(path[1]); ok {
					limit = s.lang.objects[o].Table.Fields()[i].Cap
				}
			}
		}
		return &checker.SizeEstimate{Max: uint64(limit)}
	case types.StringKind:
		return &checker.SizeEstimate{Max: maxText}
	}
	one := checker.FixedSizeEstimate(1)
	return &one
}

// EstimateCallCost implements the engine's estimator: a function of a list may
// look at each entry once.
func (s sizes) EstimateCallCost(name, _ string, _ *checker.AstNode, _ []checker.AstNode) *checker.CallEstimate {
	if listFuncs[name] == nil && name != "startsWith" {
		return nil
	}
	return &checker.CallEstimate{CostEstimate: checker.CostEstimate{Min: 1, Max: uint64(max(s.lang.maxList, maxText))}}
}

// bound proves what one evaluation can cost at most, let-names left out: they
// are worked out once a check and counted on their own.
func (s *Scope) bound(tree *cel.Ast) (uint64, []Issue) {
	est, err := s.env.EstimateCost(tree, sizes{s.lang})
	if err != nil {
		return 0, []Issue{{Text: "the cost cannot be bounded: " + err.Error()}}
	}
	if est.Max > MaxCost {
		return 0, []Issue{{
			Text: fmt.Sprintf("this could take %d steps, and %d are allowed", est.Max, MaxCost),
			Hint: "use max, min, sum or let: instead of loops in loops",
		}}
	}
	return est.Max, nil
}
