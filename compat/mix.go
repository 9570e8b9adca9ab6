package compat

import (
	"fmt"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Scope says how much of a bicycle a mix is.
type Scope uint8

// The scopes. A cart is judged by what is in it; a bike lacks what is not there.
const (
	ScopeCart Scope = iota
	ScopeBike
)

// String gives the word that files use.
func (s Scope) String() string {
	if s == ScopeBike {
		return "bike"
	}
	return "cart"
}

// Words lists the words of all scopes.
func (s Scope) Words() []string { return []string{ScopeCart.String(), ScopeBike.String()} }

// Mix is the parts that are to work together, at most one of each kind, and what
// was measured on the bicycle. It is immutable; With and Without give new ones.
// The zero Mix is an empty cart.
type Mix struct {
	name    string
	catalog string
	scope   Scope
	parts   []catalog.Part  // by the place of their kind; the zero Part is none
	records []*rules.Record // by the place of their object; the figures' is nil
	loose   []loose         // the facts stated with a tolerance
}

// NewMix makes a mix. Two parts of one kind are an error that names both, and so
// is the zero Part.
func NewMix(name string, scope Scope, parts ...catalog.Part) (Mix, error) {
	m := emptyMix(name, scope)
	var ps source.Problems
	for _, p := range parts {
		i, ok := catalog.KindIndex(p.Kind())
		switch {
		case !ok:
			ps.Add(source.Pos{File: name}, "", "one of the parts is no part at all", "make parts by catalog.Load, Read or New, and look at their error")
		case m.records[i] != nil:
			ps.Add(source.Pos{File: name}, "", fmt.Sprintf("two parts of the kind %s: %s and %s", p.Kind(), label(m.parts[i]), label(p)), "a mix has one of each kind; make a mix for each bicycle")
		default:
			m.put(i, p)
		}
	}
	if err := ps.Err(); err != nil {
		return Mix{}, err
	}
	m.loose = looseFacts(m.records)
	return m, nil
}

// emptyMix has room for everything and nothing in it.
func emptyMix(name string, scope Scope) Mix {
	m := Mix{name: name, scope: scope, parts: make([]catalog.Part, kindCount), records: make([]*rules.Record, objectCount)}
	m.records[benchPlace] = emptyBench
	return m
}

// label names a part for people: its name, else its id, else its kind.
func label(p catalog.Part) string {
	switch {
	case p.Name() != "":
		return p.Name()
	case p.ID() != "":
		return p.ID()
	}
	return "the " + p.Kind() + " described in place"
}

func (m *Mix) put(i int, p catalog.Part) {
	m.parts[i], m.records[i] = p, p.Record()
}

// clone copies a mix, so that it can be changed.
func (m Mix) clone() Mix {
	if m.records == nil {
		return emptyMix(m.name, m.scope)
	}
	m.parts, m.records = slices.Clone(m.parts), slices.Clone(m.records)
	return m
}

// With gives the mix with a part in the place of whatever was of its kind.
func (m Mix) With(p catalog.Part) Mix {
	m = m.clone()
	if i, ok := catalog.KindIndex(p.Kind()); ok {
		m.put(i, p)
	}
	m.loose = looseFacts(m.records)
	return m
}

// Without gives the mix without its part of a kind.
func (m Mix) Without(kind string) Mix {
	m = m.clone()
	if i, ok := catalog.KindIndex(kind); ok {
		m.parts[i], m.records[i] = catalog.Part{}, nil
	}
	m.loose = looseFacts(m.records)
	return m
}

// Name is what the mix is called.
func (m Mix) Name() string { return m.name }

// Scope says how much of a bicycle it is.
func (m Mix) Scope() Scope { return m.scope }

// Part gives the part of a kind.
func (m Mix) Part(kind string) (catalog.Part, bool) {
	i, ok := catalog.KindIndex(kind)
	if !ok || m.records == nil || m.records[i] == nil {
		return catalog.Part{}, false
	}
	return m.parts[i], true
}

// Parts gives the parts in the order of the kinds.
func (m Mix) Parts() []catalog.Part {
	var out []catalog.Part
	for i, p := range m.parts {
		if m.records[i] != nil {
			out = append(out, p)
		}
	}
	return out
}

// facts copies the records, with an empty place for the figures.
func (m Mix) facts() []*rules.Record {
	if m.records == nil {
		m = emptyMix(m.name, m.scope)
	}
	return slices.Clone(m.records)
}

// Measure works out the figures of a mix.
func Measure(m Mix) Figures { return Figures{measureAll(m.facts(), nil)} }
