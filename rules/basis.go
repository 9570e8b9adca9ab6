package rules

import (
	"slices"
	"unicode"

	"example.org/cogcourt/rules/source"
)

// Basis says what a rule rests on: a source of the pack's list, practice,
// geometry, or memory, and a sentence or a source's id.
type Basis struct {
	Kind BasisKind
	Text string
}

// BasisKind is what sort of thing a rule rests on.
type BasisKind string

// The kinds of a basis.
const (
	BasisSource   BasisKind = "source"   // a source of the pack's list, by its id
	BasisPractice BasisKind = "practice" // what mechanics do
	BasisGeometry BasisKind = "geometry" // a formula
	BasisMemory   BasisKind = "memory"   // what is remembered and was not checked
)

// onMemory says whether nothing but memory backs the rule: such a one may not fail.
func (r *Rule) onMemory() bool {
	return !slices.ContainsFunc(r.Basis, func(b Basis) bool { return b.Kind != BasisMemory })
}

// basis reads what the rule rests on.
func (l *loader) basis(path string, n *source.Node) []Basis {
	b := n.Get("basis")
	if b == nil {
		l.missing(n, path, "basis", "say what the rule rests on: basis: {practice: ...}, or source, geometry or memory")
		return nil
	}
	path += ".basis"
	kinds := []string{"source", "practice", "geometry", "memory"}
	if b.Kind == source.Text {
		b.Refuse(l.ps, path, "must be a map, is a text", "write {practice: ...}, or source, geometry or memory").Code = source.WrongKind
		return nil
	}
	if !l.keys(b, path, kinds...) {
		return nil
	}
	var out []Basis
	for _, pair := range b.Pairs {
		kind := pair.Key.Text
		if !slices.Contains(kinds, kind) {
			continue
		}
		text := l.text(b, path, kind)
		if kind == "source" {
			out = append(out, l.sourceIDs(path+".source", pair.Value, text)...)
		} else {
			out = append(out, Basis{BasisKind(kind), text})
		}
	}
	if len(b.Pairs) == 0 {
		b.Refuse(l.ps, path, "this says nothing", "write {practice: ...}, or source, geometry or memory").Code = source.Empty
	}
	return out
}

// sourceIDs reads the ids of sources, with commas or spaces between them.
func (l *loader) sourceIDs(path string, n *source.Node, text string) []Basis {
	var out []Basis
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		begin := i
		for i < len(runes) && runes[i] != ',' && !unicode.IsSpace(runes[i]) {
			i++
		}
		if i > begin {
			id := string(runes[begin:i])
			l.bases = append(l.bases, reference{n.At(begin), n.At(i), path, id})
			out = append(out, Basis{BasisSource, id})
		}
	}
	return out
}
