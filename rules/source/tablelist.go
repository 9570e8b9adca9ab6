package source

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/cogcourt/rules/fact"
)

// readList reads a list of numbers.
func readList(f *fact.Field, n *Node, path string, ps *Problems) fact.Value {
	if n.Kind != List {
		hint := fmt.Sprintf("write a list, each %s", spanOf(f))
		if n.Kind == Number {
			hint = "write [" + n.Text + "]"
		}
		n.wrongKind(path, "a list of numbers", hint, ps)
		return fact.Value{}
	}
	if !n.fits(f, path, ps) {
		return fact.Value{}
	}
	v, ok := readNumbers(f, n, path, ps)
	if !ok {
		return fact.Value{}
	}
	if f.Sorted {
		largestFirst(&v)
	}
	return v
}

// fits reports whether a list has entries, and not too many.
func (n *Node) fits(f *fact.Field, path string, ps *Problems) bool {
	switch {
	case len(n.Items) == 0:
		ps.Add(n.Pos, path, "is an empty list", "write its entries, or leave it out").Code = Empty
		return false
	case f.Cap > 0 && len(n.Items) > f.Cap:
		n.Items[f.Cap].Refuse(ps, path, "has "+entries(len(n.Items)), fmt.Sprintf("at most %d", f.Cap)).Code = TooMany
		return false
	}
	return true
}

// readNumbers reads the entries of a list and checks that they rise where they must.
func readNumbers(f *fact.Field, n *Node, path string, ps *Problems) (fact.Value, bool) {
	v := fact.Value{Known: true, List: make([]float64, len(n.Items))}
	all := true
	var tols []float64
	for i, item := range n.Items {
		num, tol, ok := item.number(entry(path, i), spanOf(f), ps)
		if tol != 0 && tols == nil {
			tols = make([]float64, len(n.Items))
		}
		if tol != 0 {
			tols[i] = tol
		}
		v.List[i] = num
		all = all && ok
	}
	if tols != nil {
		v = v.WithTols(tols)
	}
	if !all || !f.Rising {
		return v, all
	}
	for i := 1; i < len(v.List); i++ {
		if v.List[i] <= v.List[i-1] {
			text := fmt.Sprintf("%s does not rise from %s before it", spell(v.List[i]), spell(v.List[i-1]))
			n.Items[i].Refuse(ps, entry(path, i), text, "write the entries in rising order, each once").Code = BadOrder
			all = false
		}
	}
	return v, all
}

// largestFirst sorts the list and its tolerances alike.
func largestFirst(v *fact.Value) {
	order := make([]int, len(v.List))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(v.List[b], v.List[a]) })
	v.List = pick(v.List, order)
	if v.Tols() != nil {
		*v = v.WithTols(pick(v.Tols(), order))
	}
}

func pick(xs []float64, order []int) []float64 {
	sorted := make([]float64, len(xs))
	for i, from := range order {
		sorted[i] = xs[from]
	}
	return sorted
}
