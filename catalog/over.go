package catalog

import (
	"fmt"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// With gives the part with these fields stated over it, by the same names, types
// and checks as New: the teeth of a class that gives only their number, a pitch
// that was measured on a part of the catalogue. A field that says the same as one
// of the part, such as pitch_mm for pitches_mm, takes its place. What is stated
// over a part goes before what a name stands for (fact.Value.Own); a basis among
// the fields is theirs alone, and so may be name, maker, sku and price. The error is
// source.Problems.
func (p Part) With(fields map[string]any) (Part, error) {
	n, err := source.FromGo("with "+p.Kind(), fields)
	if err != nil {
		return Part{}, err
	}
	var ps source.Problems
	r := reader{object: p.inner().kind, node: n, heads: headsOf(n), ps: &ps, also: overKeys, bases: own}
	out, _ := r.over([]Part{p})
	return out, ps.Err()
}

// ReadOver reads what is stated over a part, in place, as With does; an id is left
// to the caller, who has found the part by it. Of several parts, such as the class
// of a derailleur's mechanism and that of its cage, each gives what the others do
// not say: a fact that two give is a fault. The Part is good only where the second
// result is true.
func ReadOver(below []Part, n *source.Node, ps *source.Problems) (Part, bool) {
	if len(below) == 0 || !isMap(n, below[0].Kind(), ps) {
		return Part{}, false
	}
	also := append([]string{itemKeys[headID]}, overKeys...)
	r := reader{object: below[0].inner().kind, node: n, heads: headsOf(n), path: below[0].Kind(), ps: ps, also: also, bases: own}
	return r.over(below)
}

// overKeys are the keys beside the fields of what is stated over a part.
var overKeys = []string{"name", "maker", "sku", "price", "basis"}

// over reads fields over parts of one kind.
func (r *reader) over(below []Part) (Part, bool) {
	before := r.ps.Count()
	p := r.joined(below)
	switch {
	case p == nothing:
		return Part{}, false
	case len(below) == 1 && len(r.node.Pairs) == 0:
		return below[0], true
	}
	table := r.object.Table()
	read, top := r.node.ReadStated(table.Partial(), r.asked(false), r.ps)
	basis := r.basis()
	r.relabel(p, basis, top)
	if r.ps.Count() > before {
		return Part{}, false
	}
	values := p.under(table, top)
	for i := range values {
		if top[i] {
			values[i] = read[i]
			values[i].Own, values[i].Assumed = true, basis == assumed
		}
	}
	together{object: r.object, values: values, stated: p.stated, node: r.node, path: r.path, ps: r.ps}.check()
	if r.ps.Count() > before {
		return Part{}, false
	}
	p.keep()
	p.record = r.object.NewRecord(values, nil)
	return Part{p}, true
}

// under gives the values that remain where fields are stated over a part, marks
// these as stated, and forgets what they take the place of: the fields themselves
// and other ways to say the same.
func (p *part) under(table *fact.Table, top []bool) []fact.Value {
	gone := make([]bool, len(top))
	for i, f := range table.Fields() {
		other, ok := table.Index(f.Excludes)
		gone[i] = gone[i] || top[i]
		if ok && top[i] {
			gone[other] = true
		} else if ok && top[other] {
			gone[i] = true
		}
	}
	values := make([]fact.Value, len(top))
	sources := map[int]string{}
	for i, f := range table.Fields() {
		switch {
		case p.stated[i] && !gone[i]:
			values[i], sources[i] = p.record.Value(i), p.sources[i]
		case f.Default != nil && !gone[i]:
			values[i] = *f.Default
		}
		p.stated[i] = top[i] || p.stated[i] && !gone[i]
	}
	p.sources = sources
	return values
}

// relabel reads what else is said over a part. Without a name of its own it is
// called by the part and by what is stated over it.
func (r *reader) relabel(p *part, basis string, top []bool) {
	p.pos = r.node.Pos
	for key, text := range map[head]*string{headName: &p.name, headMaker: &p.maker} {
		if n, _ := r.at(key); n != nil {
			*text = r.text(key)
		}
	}
	if n, _ := r.at(headSKU); n != nil {
		p.sku = r.sku()
	}
	if n, _ := r.at(headPrice); n != nil {
		p.price = r.price()
	}
	var over []string
	for i, f := range r.object.Table().Fields() {
		if top[i] {
			over = append(over, f.Name)
		}
	}
	if n, _ := r.at(headName); n != nil || len(over) == 0 {
		return
	}
	if most := 3; len(over) > most {
		over = append(over[:most-1], fmt.Sprintf("%d more", len(over)-most+1))
	}
	p.name += ", " + list(over) + " " + basis
}

// list joins words as a sentence does.
func list(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// joined makes one part of several of a kind, which must not say the same twice.
// It is a copy that may be written to.
func (r *reader) joined(below []Part) *part {
	if r.object == nil {
		r.ps.Add(r.node.Pos, r.path, "there is no part to state this of", "make parts by catalog.Load, Read or New").Code = source.Missing
		return nothing
	}
	first := below[0].inner()
	p := &part{}
	*p = *first
	p.stated = append([]bool{}, first.stated...)
	if len(below) == 1 {
		return p
	}
	values := make([]fact.Value, len(first.stated))
	for i := range values {
		values[i] = first.record.Value(i)
	}
	p.sources = map[int]string{}
	for i, s := range first.sources {
		p.sources[i] = s
	}
	for k, q := range below[1:] {
		if q.Kind() != r.object.Name() {
			r.clash(k+1, fmt.Sprintf("%s is of the kind %s", q.ID(), q.Kind()), "join parts of one kind")
			continue
		}
		r.join(p, values, below[:k+1], q)
		p.id, p.name = p.id+"+"+q.ID(), p.name+"; "+q.Name()
	}
	p.record = r.object.NewRecord(values, nil)
	return p
}

// join takes the stated values of one more part over.
func (r *reader) join(p *part, values []fact.Value, before []Part, q Part) {
	for _, other := range before {
		if both := q.both(other); len(both) > 0 {
			r.clash(len(before), fmt.Sprintf("%s and %s both give %s", other.ID(), q.ID(), list(both)), "take one of the two out")
		}
	}
	for i := range values {
		if q.in.stated[i] {
			values[i], p.stated[i], p.sources[i] = q.in.record.Value(i), true, q.in.sources[i]
		}
	}
}

// both lists the facts that another part of the kind states as well, in the same way
// or in one that says the same.
func (p Part) both(other Part) []string {
	var out []string
	table := p.in.kind.Table()
	for i, f := range table.Fields() {
		twin, ok := table.Index(f.Excludes)
		ours, theirs := p.in.stated[i], other.in.stated[i]
		if ours && theirs || ok && (ours && other.in.stated[twin] || p.in.stated[twin] && theirs) {
			out = append(out, f.Name)
		}
	}
	return out
}

// clash reports a fault of the k-th part of several, at its id where there is one.
func (r *reader) clash(k int, text, hint string) {
	at, where := r.at(headID)
	path := where.String()
	switch {
	case at == nil:
		at, path = r.node, r.path
	case k < len(at.Items):
		at, path = at.Items[k], fmt.Sprintf("%s[%d]", path, k)
	}
	at.Refuse(r.ps, path, text, hint).Code = source.Contradicts
}
