package catalog

import (
	"fmt"
	"maps"
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// With gives a catalog with these parts: one whose id is there already takes the place
// of the part that has it, others come behind all. The catalog itself stays as it is,
// and what does not change is shared, so that a few parts cost next to nothing beside
// loading. The error is that of Of, of the given parts alone.
func (c *Catalog) With(parts ...Part) (*Catalog, error) {
	b := newBuilder()
	b.catalog = c.copied()
	for i, p := range parts {
		pos := p.placed(i + 1)
		if fault, hint, code := b.unfit(p); fault != "" {
			b.ps.Add(pos, "", fault, hint).Code = code
			continue
		}
		b.taken[p.ID()] = pos
	}
	if err := b.ps.Err(); err != nil {
		return nil, err
	}
	b.catalog.exchange(parts)
	return b.catalog, nil
}

// Without gives a catalog without the parts of these ids; the catalog itself stays as it
// is. That there is no such part is a fault, and the error is source.Problems.
func (c *Catalog) Without(ids ...string) (*Catalog, error) {
	var ps source.Problems
	gone := map[string]bool{}
	for _, id := range ids {
		if _, ok := c.byID[id]; !ok && !ps.Full() {
			text := fmt.Sprintf("there is no part %q to take out", id)
			ps.Add(source.Pos{File: "catalog"}, "", text, fact.Suggest(id, slices.Collect(maps.Keys(c.byID)))).Code = source.UnknownID
		}
		gone[id] = true
	}
	if err := ps.Err(); err != nil {
		return nil, err
	}
	out := c.copied()
	out.parts = left(c.parts, gone)
	for id := range gone {
		old := c.byID[id]
		delete(out.byID, id)
		out.byKind[old.Kind()], out.bySKU[old.SKU()] = nil, nil // found anew below
	}
	out.mend()
	return out, nil
}

// copied is a catalog that may be changed, but for the lists below its maps.
func (c *Catalog) copied() *Catalog {
	out := &Catalog{labels: c.labels, currency: c.currency, parts: slices.Clone(c.parts),
		byID: map[string]Part{}, bySKU: map[string][]Part{}, byKind: map[string][]Part{}}
	maps.Copy(out.byID, c.byID)
	maps.Copy(out.bySKU, c.bySKU)
	maps.Copy(out.byKind, c.byKind)
	return out
}

// left gives the parts whose ids are not gone.
func left(parts []Part, gone map[string]bool) []Part {
	out := make([]Part, 0, len(parts))
	for _, p := range parts {
		if !gone[p.ID()] {
			out = append(out, p)
		}
	}
	return out
}

// exchange puts parts in the places of those that have their ids, or behind all. Lists
// of kinds and seller's numbers that see a change are found anew.
func (c *Catalog) exchange(parts []Part) {
	anew := map[string]Part{}
	for _, p := range parts {
		old, had := c.byID[p.ID()]
		if !had {
			c.parts = append(c.parts, p)
		} else {
			anew[p.ID()] = p
		}
		c.byID[p.ID()] = p
		for _, q := range []Part{old, p} {
			c.byKind[q.Kind()], c.bySKU[q.SKU()] = nil, nil
		}
	}
	for i, p := range c.parts {
		if now, ok := anew[p.ID()]; ok {
			c.parts[i] = now
		}
	}
	c.mend()
}

// mend finds the lists anew that were emptied, in the order of the parts.
func (c *Catalog) mend() {
	kinds, skus := empty(c.byKind), empty(c.bySKU)
	for _, p := range c.parts {
		if kinds[p.Kind()] {
			c.byKind[p.Kind()] = append(c.byKind[p.Kind()], p)
		}
		if skus[p.SKU()] {
			c.bySKU[p.SKU()] = append(c.bySKU[p.SKU()], p)
		}
	}
}

// empty gives the keys of lists that were emptied, and takes them out of the map. No
// kind and no seller's number is the empty text.
func empty(lists map[string][]Part) map[string]bool {
	out := map[string]bool{}
	for key, list := range lists {
		if list == nil {
			out[key] = key != ""
			delete(lists, key)
		}
	}
	return out
}
