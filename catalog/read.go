package catalog

import (
	"fmt"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// MaxText is the longest name, maker or seller's number, in code points.
const MaxText = 200

// New makes a part from Go values: numbers, flags, texts and lists of numbers
// under the names of the kind's fields, and with them id, name, maker, sku,
// price and basis where wanted. A number with a tolerance is a text, such as
// "3.65 ± 0.02". The error is source.Problems, its places name the kind only.
func New(kind string, fields map[string]any) (Part, error) {
	return NewAt(source.Pos{File: "new " + kind}, kind, fields)
}

// NewAt is New for a part that lies somewhere: faults name the place, and the part keeps
// it. Rows of a table have one in a table's name and a number,
// source.Pos{File: "parts", Line: 17}, or in a File such as "parts, id 4711".
func NewAt(at source.Pos, kind string, fields map[string]any) (Part, error) {
	var ps source.Problems
	object, ok := Kind(kind)
	if !ok {
		ps.Add(at, "", fmt.Sprintf("there is no kind %q", kind), SuggestKind(kind)).Code = source.NoSuchChoice
		return Part{}, ps.Err()
	}
	n, err := source.FromGoAt(at, fields)
	if err != nil {
		return Part{}, err
	}
	r := reader{object: object, node: n, heads: headsOf(n), ps: &ps, also: itemKeys[headID:], bases: allBases}
	p, _ := r.part()
	return p, ps.Err()
}

// Read makes a part from a description in place, such as one inside a mix: the
// kind is known from around it, and it has no id. It may still be given a name,
// maker, sku, price and basis, but for usual, which is for part files. Faults are
// added to ps; the Part is good only where the second result is true.
func Read(kind string, n *source.Node, ps *source.Problems) (Part, bool) {
	object, ok := Kind(kind)
	if !ok {
		ps.Add(posOf(n), "", fmt.Sprintf("there is no kind %q", kind), SuggestKind(kind)).Code = source.NoSuchChoice
		return Part{}, false
	}
	if !isMap(n, kind, ps) {
		return Part{}, false
	}
	good := true
	for _, key := range []string{"kind", "id"} {
		if v := n.Get(key); v != nil {
			v.Refuse(ps, kind+"."+key, "a part described in place has no "+key, "leave the line out").Code = source.Contradicts
			good = false
		}
	}
	r := reader{object: object, node: n, heads: headsOf(n), path: kind, ps: ps, also: itemKeys, bases: own}
	p, ok := r.part()
	return p, ok && good
}

// readItem makes a part from one item of a part file: of one that holds the usual
// classes, or of a seller's.
func (b *builder) readItem(n *source.Node, heads heads, path string) (Part, bool) {
	ps := &b.ps
	if !isMap(n, path, ps) {
		return Part{}, false
	}
	object, known := readKind(n, heads[headKind], path, ps)
	good := true
	for _, key := range []head{headID, headName} {
		if heads[key] == nil {
			ps.Add(n.Pos, path, "the part has no "+itemKeys[key], "every part of a file has kind, id and name").Code = source.Missing
			good = false
		}
	}
	if !known {
		return Part{}, false
	}
	r := reader{object: object, node: n, heads: heads, path: path, ps: ps, also: itemKeys, bases: allBases, classes: b.classes}
	p, ok := r.part()
	return p, ok && good
}

// head is one of the keys that an item may hold beside the fields of its kind.
type head int

const (
	headKind head = iota
	headID
	headName
	headMaker
	headSKU
	headPrice
	headBasis
	headCount
)

// itemKeys are these keys as they are written.
var itemKeys = []string{"kind", "id", "name", "maker", "sku", "price", "basis"}

// heads is what stands under these keys, nil for nothing.
type heads [headCount]*source.Node

// headsOf looks for all of them at once.
func headsOf(n *source.Node) (out heads) {
	if n == nil {
		return out
	}
	for i := len(n.Pairs) - 1; i >= 0; i-- { // of two, which are a fault, the first
		p := &n.Pairs[i]
		switch p.Key.Text {
		case "kind":
			out[headKind] = p.Value
		case "id":
			out[headID] = p.Value
		case "name":
			out[headName] = p.Value
		case "maker":
			out[headMaker] = p.Value
		case "sku":
			out[headSKU] = p.Value
		case "price":
			out[headPrice] = p.Value
		case "basis":
			out[headBasis] = p.Value
		}
	}
	return out
}

// readKind reads which kind an item is of.
func readKind(n, v *source.Node, path string, ps *source.Problems) (*rules.Object, bool) {
	if v == nil {
		ps.Add(n.Pos, path, "the part has no kind", "every part of a file has kind, id and name").Code = source.Missing
		return nil, false
	}
	word, ok := v.PlainText()
	if !ok {
		v.ReadText(path+".kind", ps)
		return nil, false
	}
	object, ok := Kind(word)
	if !ok {
		hint := ""
		if !ps.Full() {
			hint = SuggestKind(word)
		}
		v.Refuse(ps, path+".kind", fmt.Sprintf("there is no kind %q", word), hint).Code = source.NoSuchChoice
	}
	return object, ok
}

// reader makes one part from one node.
type reader struct {
	object *rules.Object
	node   *source.Node
	heads  heads // of the node
	path   string
	ps     *source.Problems
	also   []string // keys that are allowed beside the fields
	bases  []string // what the basis may be

	classes bool // it is one of the usual classes
}

// part reads it all. It returns no part where anything is wrong.
func (r *reader) part() (Part, bool) {
	before := r.ps.Count()
	p := &part{kind: r.object, pos: r.node.Pos, basis: r.basis()}
	values, stated := r.node.ReadStated(r.object.Table(), r.asked(p.basis == usual), r.ps)
	p.id, p.name, p.maker, p.sku, p.price = r.id(), r.text(headName), r.text(headMaker), r.sku(), r.price()
	if r.ps.Count() > before {
		return Part{}, false
	}
	p.stated = stated
	together{object: r.object, values: values, stated: p.stated, node: r.node, path: r.path, ps: r.ps}.check()
	if r.ps.Count() > before {
		return Part{}, false
	}
	p.mark(values)
	p.keep()
	p.record = r.object.NewRecord(values, nil)
	return Part{p}, true
}

// keep puts the part's texts into memory of their own: what was read are pieces of the
// file's text, all of which one part would keep.
func (p *part) keep() {
	texts := [...]*string{&p.id, &p.name, &p.maker, &p.sku, &p.price}
	all := strings.Join([]string{p.id, p.name, p.maker, p.sku, p.price}, "")
	for _, text := range texts {
		*text, all = all[:len(*text)], all[len(*text):]
	}
}

// asked says how the fields are read.
func (r *reader) asked(usual bool) source.Reading {
	return source.Reading{Path: r.path, Also: r.also, Usual: usual}
}

// mark marks the stated values by the part's basis; a default keeps its own
// standing. A usual value whose spread has no width is exact: what remains of the
// spread is who says so.
func (p *part) mark(values []fact.Value) {
	for i := range values {
		v := &values[i]
		if !v.Known || !p.stated[i] {
			continue
		}
		v.Assumed, v.Own = p.basis == assumed, p.basis == measured
		if v.Spread() == nil {
			continue
		}
		if p.sources == nil {
			p.sources = map[int]string{}
		}
		p.sources[i] = v.Spread().Source
		if v.Spread().Least == v.Spread().Most {
			v.More = nil // a number has nothing else there
		}
	}
}

// isMap makes sure that a description is a map of fields.
func isMap(n *source.Node, path string, ps *source.Problems) bool {
	if n != nil && n.Kind == source.Map {
		return true
	}
	found := source.Null
	if n != nil {
		found = n.Kind
	}
	ps.Add(posOf(n), path, fmt.Sprintf("a part is described by a map of its fields, not by %s", found), "").Code = source.WrongKind
	return false
}

func posOf(n *source.Node) source.Pos {
	if n == nil {
		return source.Pos{}
	}
	return n.Pos
}
