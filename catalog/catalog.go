package catalog

import (
	"iter"
	"slices"
	"strings"
)

// Catalog is a set of parts, each under an id of its own. It is immutable and
// safe for many goroutines.
type Catalog struct {
	labels   []string
	currency string
	parts    []Part
	byID     map[string]Part
	bySKU    map[string][]Part
	byKind   map[string][]Part
}

// file finds the parts, whose ids are their own, by what they are asked for by: once all
// are there, so that nothing has to grow.
func (c *Catalog) file() {
	c.byID, c.bySKU, c.byKind = make(map[string]Part, len(c.parts)), map[string][]Part{}, map[string][]Part{}
	from := 0 // parts of one kind mostly stand together
	for i, p := range c.parts {
		c.byID[p.ID()] = p
		if p.SKU() != "" {
			c.bySKU[p.SKU()] = append(c.bySKU[p.SKU()], p)
		}
		if i+1 == len(c.parts) || c.parts[i+1].in.kind != p.in.kind {
			c.byKind[p.Kind()] = append(c.byKind[p.Kind()], c.parts[from:i+1]...)
			from = i + 1
		}
	}
}

// Name is what the files call the catalog; several labels are joined by a
// comma, and it is empty where no file states one.
func (c *Catalog) Name() string { return strings.Join(c.labels, ", ") }

// Currency is the currency of all prices, as the files write it, or empty.
func (c *Catalog) Currency() string { return c.currency }

// Len is the number of parts.
func (c *Catalog) Len() int { return len(c.parts) }

// Part finds a part by its id.
func (c *Catalog) Part(id string) (Part, bool) {
	p, ok := c.byID[id]
	return p, ok
}

// BySKU finds the parts with a seller's number, in the order of the files.
// More than one is no fault: a seller may sell a set under one number.
func (c *Catalog) BySKU(sku string) []Part { return slices.Clone(c.bySKU[sku]) }

// Parts gives all parts in the order of the files.
func (c *Catalog) Parts() []Part { return slices.Clone(c.parts) }

// OfKind gives the parts of one kind in the order of the files.
func (c *Catalog) OfKind(kind string) []Part { return slices.Clone(c.byKind[kind]) }

// All gives all parts in the order of Parts, without a copy of the list.
func (c *Catalog) All() iter.Seq[Part] { return slices.Values(c.parts) }

// AllOfKind gives the parts of one kind in the order of OfKind, without a copy.
func (c *Catalog) AllOfKind(kind string) iter.Seq[Part] { return slices.Values(c.byKind[kind]) }
