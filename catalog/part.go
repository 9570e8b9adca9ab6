package catalog

import (
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Part is the description of one part. It is immutable and small: copy it. Two
// Parts are equal under == where they are the same part of the same reading.
// The zero Part is no part; its texts are empty and its record is nil.
type Part struct {
	in *part
}

// part is what a Part points at; it is never written after it is made.
type part struct {
	kind   *rules.Object
	record *rules.Record
	pos    source.Pos

	id, name, maker, sku string
	price, basis         string

	stated  []bool         // by the fields of the kind: what is no default
	sources map[int]string // of usual values, by their fields: who says so
}

// nothing is what the zero Part points at.
var nothing = &part{}

func (p Part) inner() *part {
	if p.in == nil {
		return nothing
	}
	return p.in
}

// Kind is the word for the kind, such as cassette.
func (p Part) Kind() string {
	if p.in == nil {
		return ""
	}
	return p.in.kind.Name()
}

// ID is the word that mixes refer to; empty for a part described in place.
func (p Part) ID() string { return p.inner().id }

// Name is what people call the part; it may be empty for one described in place.
func (p Part) Name() string { return p.inner().name }

// Maker is who makes the part, or empty.
func (p Part) Maker() string { return p.inner().maker }

// SKU is the seller's number of the part, or empty.
func (p Part) SKU() string { return p.inner().sku }

// Price is a decimal text with at most two decimals, such as 41.50, in the
// currency of the catalog; empty where no price is stated.
func (p Part) Price() string { return p.inner().price }

// Cents is the price in hundredths, for sums; false where no price is stated.
func (p Part) Cents() (int64, bool) { return cents(p.inner().price) }

// Basis says where the part's values come from: stated, measured, assumed, or
// usual of a class. What was stated over the part has a basis of its own.
func (p Part) Basis() string { return p.inner().basis }

// Record gives the part's values, by the field table of its kind.
func (p Part) Record() *rules.Record { return p.inner().record }

// States reports whether a field is stated; what holds a default is not.
func (p Part) States(field string) bool {
	if p.in == nil {
		return false
	}
	i, ok := p.in.kind.Table().Index(field)
	return ok && p.in.stated[i]
}

// Source says who published the usual value of a field: an id of the sources, or
// memory. It is empty for any other value, and for one by which the class is told.
func (p Part) Source(field string) string {
	if p.in == nil {
		return ""
	}
	i, _ := p.in.kind.Table().Index(field)
	return p.in.sources[i]
}

// Pos is where the part's description begins.
func (p Part) Pos() source.Pos { return p.inner().pos }
