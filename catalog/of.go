package catalog

import (
	"fmt"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Of makes a catalog of parts, in their order, as they come from New, from a database
// or from another catalog. The error is source.Problems with a fault for each part
// that is no part, has no id or one that is taken.
func Of(parts ...Part) (*Catalog, error) {
	b := newBuilder()
	for i, p := range parts {
		if fault, hint, code := b.unfit(p); fault != "" {
			pos := p.Pos()
			if pos.Line == 0 { // it was made by a program, whose rows it counts
				pos.File = fmt.Sprintf("part %d", i+1)
			}
			b.ps.Add(pos, "", fault, hint).Code = code
			continue
		}
		b.taken[p.ID()] = p.Pos()
		b.catalog.add(p)
	}
	return b.done()
}

// unfit says why a part cannot be filed.
func (b *builder) unfit(p Part) (fault, hint string, code source.Code) {
	other, twice := b.taken[p.ID()]
	switch {
	case p.Record() == nil:
		return "it is no part at all", "make parts by Load, Read or New, and look at their error", source.Missing
	case p.ID() == "":
		return "the " + p.Kind() + " has no id", "give each part an id of its own", source.Missing
	case twice && other.Line > 0:
		return fmt.Sprintf("the id %q is taken already, at %s", p.ID(), other), "give each part an id of its own", source.Twice
	case twice:
		return fmt.Sprintf("the id %q is taken already", p.ID()), "give each part an id of its own", source.Twice
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
