package source

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/fact"
)

// The entries of a spread, in the order of their numbers.
var spreadKeys = [...]string{"least", "usual", "most"}

const spreadForm = "write {usual: ..., least: ..., most: ..., source: ...}"

// value reads the value of one field. Of usual values a number may go over a
// spread, and none has a tolerance: that is how exactly one thing was measured.
func (r *record) value(f *fact.Field, n *Node) fact.Value {
	if v, ok := quickly(f, n); ok && !r.usual {
		return v
	}
	path := sub(r.path, f.Name)
	if n.Kind == Map && r.usual && (f.Type == fact.Fraction || f.Type == fact.Whole) {
		return readSpread(f, n, path, r.ps)
	}
	if n.Kind == Map && n.isSpread() {
		text, hint := "only a usual value goes over a spread", "write the number alone, with ± and its tolerance where it has one"
		if r.usual {
			text, hint = "has no spread, for it is no single number", "write it as it is for the whole class, or leave it out"
		}
		n.Refuse(r.ps, path, text, hint).Code = WrongKind
		return fact.Value{}
	}
	v := readField(f, n, path, r.ps)
	switch {
	case !v.Known || !r.usual:
		return v
	case v.Tol != 0 || v.Tols() != nil:
		n.Refuse(r.ps, path, "a usual value has a spread and no tolerance", spreadForm).Code = BadTolerance
		return fact.Value{}
	}
	v.Usual = fact.ByClass
	return v
}

// isSpread reports whether a map was meant to be a spread.
func (n *Node) isSpread() bool {
	return slices.ContainsFunc(spreadKeys[:], func(key string) bool { return n.Get(key) != nil })
}

// readSpread reads a usual number with its spread and who says so.
func readSpread(f *fact.Field, n *Node, path string, ps *Problems) fact.Value {
	before := ps.Count()
	n.Keys(path, ps, "usual", "least", "most", "source")
	var numbers [len(spreadKeys)]float64
	for i, key := range spreadKeys {
		numbers[i] = n.spreadEnd(f, sub(path, key), key, ps)
	}
	from := ""
	if s := n.Get("source"); s != nil {
		if _, ok := s.readName(sub(path, "source"), ps); ok {
			from = s.own()
		}
	} else {
		n.Refuse(ps, path, "the spread has no source", "name one, or write source: memory").Code = Missing
	}
	if ps.Count() == before {
		inOrder(n, path, numbers, ps)
	}
	if ps.Count() > before {
		return fact.Value{}
	}
	return fact.Value{Known: true, Num: numbers[1], Usual: fact.ByClass,
		More: &fact.More{Spread: &fact.Spread{Least: numbers[0], Most: numbers[2], Source: from}}}
}

// spreadEnd reads one of the numbers of a spread.
func (n *Node) spreadEnd(f *fact.Field, path, key string, ps *Problems) float64 {
	v := n.Get(key)
	if v == nil {
		n.Refuse(ps, path, "the spread has no "+key, spreadForm+"; where they are one, write it three times").Code = Missing
		return 0
	}
	num, tol, _ := v.number(path, spanOf(f), ps)
	if tol != 0 {
		v.Refuse(ps, path, "a usual value has a spread and no tolerance", "take the tolerance into least and most").Code = BadTolerance
	}
	return num
}

// inOrder wants the usual number within its spread.
func inOrder(n *Node, path string, numbers [len(spreadKeys)]float64, ps *Problems) {
	for _, end := range []struct {
		key   string
		wrong bool
		is    string
	}{
		{"least", numbers[0] > numbers[1], "above"},
		{"most", numbers[2] < numbers[1], "below"},
	} {
		if end.wrong {
			v := n.Get(end.key)
			text := fmt.Sprintf("%s is %s the usual value, %s", v.Text, end.is, spell(numbers[1]))
			v.Refuse(ps, sub(path, end.key), text, "one of the two is wrong, or least and most are swapped").Code = BadOrder
		}
	}
}
