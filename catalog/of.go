package catalog

import (
	"fmt"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Of makes a catalog of parts, in their order, as they come from New, from a database
// or from another catalog. The error is source.Problems with a fault for each part
// that is no part, has no id or one that is taken. From also names a currency.
func Of(parts ...Part) (*Catalog, error) {
	b := newBuilder()
	for i, p := range parts {
		b.take(p, i+1)
	}
	return b.done()
}

// take files a part that is the n-th of those that a program gives.
func (b *builder) take(p Part, n int) {
	pos := p.placed(n)
	if fault, hint, code := b.unfit(p); fault != "" {
		b.ps.Add(pos, "", fault, hint).Code = code
		return
	}
	b.taken[p.ID()] = pos
	b.catalog.parts = append(b.catalog.parts, p)
}

// placed is where a part lies. One that a program made without saying so has its number
// among the parts that the program gives.
func (p Part) placed(n int) source.Pos {
	pos := p.Pos()
	if pos == (source.Pos{}) || pos == (source.Pos{File: "new " + p.Kind()}) || pos == (source.Pos{File: "with " + p.Kind()}) {
		pos.File = fmt.Sprintf("part %d", n)
	}
	return pos
}

// unfit says why a part cannot be filed.
func (b *builder) unfit(p Part) (fault, hint string, code source.Code) {
	other, twice := b.taken[p.ID()]
	switch {
	case p.Record() == nil:
		return "it is no part at all", "make parts by Load, Read or New, and look at their error", source.Missing
	case p.ID() == "":
		return "the " + p.Kind() + " has no id", "give each part an id of its own", source.Missing
	case twice:
		return fmt.Sprintf("the id %q is taken already, at %s", p.ID(), other), "give each part an id of its own", source.Twice
	}
	return "", "", ""
}

// share gives a part that was just read the record of one that states the same. A
// large catalog has few different records, and a search tells them apart by them.
func (b *builder) share(p Part) {
	b.key = p.in.record.AppendKey(b.key[:0])
	of := b.records[p.in.kind]
	if of == nil {
		of = map[string]*rules.Record{}
		b.records[p.in.kind] = of
	}
	if rec, ok := of[string(b.key)]; ok {
		p.in.record = rec
		return
	}
	of[string(b.key)] = p.in.record
}
