package compat

import (
	"fmt"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
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

// MarshalText writes the word that files use.
func (s Scope) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads that word.
func (s *Scope) UnmarshalText(text []byte) error {
	for _, scope := range []Scope{ScopeCart, ScopeBike} {
		if scope.String() == string(text) {
			*s = scope
			return nil
		}
	}
	return fmt.Errorf("there is no scope %q; known are %s and %s", text, ScopeCart, ScopeBike)
}

// Words lists the words of all scopes.
func (s Scope) Words() []string { return []string{ScopeCart.String(), ScopeBike.String()} }

// Mix is the parts that are to work together, at most one of each kind, and what
// was measured on the bicycle. It is immutable; With and Without give new ones.
// The zero Mix is an empty cart without a name.
type Mix struct {
	name    string
	catalog string
	scope   Scope
	parts   []catalog.Part // by the place of their kind, the zero Part is none; nil while there is none
	facts   figures.Facts
}

// NewMix makes a mix. Two parts of one kind are an error that names both, and so
// is the zero Part.
func NewMix(name string, scope Scope, parts ...catalog.Part) (Mix, error) {
	m := Mix{name: name, scope: scope}
	var ps source.Problems
	for _, p := range parts {
		other, taken := m.Part(p.Kind())
		switch {
		case p.Record() == nil:
			ps.Add(source.Pos{File: name}, "", "one of the parts is no part at all", "make parts by catalog.Load, Read or New, "+
				"and look at their error").Code = source.Missing
		case taken:
			ps.Add(source.Pos{File: name}, "", fmt.Sprintf("two parts of the kind %s: %s and %s", p.Kind(), label(other), label(p)),
				"a mix has one of each kind; make a mix for each bicycle").Code = source.Twice
		default:
			m = m.With(p)
		}
	}
	if err := ps.Err(); err != nil {
		return Mix{}, err
	}
	return m, nil
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

// With gives the mix with parts in the places of whatever was of their kinds. What
// was measured stays; Refit forgets what was measured on the parts that go.
func (m Mix) With(parts ...catalog.Part) Mix {
	m.facts = m.facts.With(recordsOf(parts)...)
	m.put(parts)
	return m
}

// Refit gives the mix with parts fitted in the place of those of their kinds, as
// With does, and forgets what was measured on the parts that they replace: the
// count of the old chain, the places of the old cassette's cogs. What is stated
// of the new parts would otherwise lose against measurements of others.
func (m Mix) Refit(parts ...catalog.Part) Mix {
	m.facts = m.facts.Refit(recordsOf(parts)...)
	m.put(parts)
	return m
}

// Forget gives the mix without what was measured on its parts of these kinds, as
// Refit does where others are fitted.
func (m Mix) Forget(kinds ...string) Mix {
	var set uint64
	for _, kind := range kinds {
		if i, ok := catalog.KindIndex(kind); ok {
			set |= 1 << i
		}
	}
	m.facts = m.facts.Forget(set)
	return m
}

// recordsOf gives the records of parts; the zero Part has none.
func recordsOf(parts []catalog.Part) []*rules.Record {
	var out []*rules.Record
	for _, p := range parts {
		if r := p.Record(); r != nil {
			out = append(out, r)
		}
	}
	return out
}

// put keeps parts in their places, in memory of their own.
func (m *Mix) put(parts []catalog.Part) {
	if m.parts = slices.Clone(m.parts); m.parts == nil {
		m.parts = make([]catalog.Part, len(catalog.KindNames()))
	}
	for _, p := range parts {
		if i, ok := catalog.KindIndex(p.Kind()); ok {
			m.parts[i] = p
		}
	}
}

// Without gives the mix without its part of a kind.
func (m Mix) Without(kind string) Mix {
	if i, ok := catalog.KindIndex(kind); ok {
		m.put(nil)
		m.parts[i], m.facts = catalog.Part{}, m.facts.Without(i)
	}
	return m
}

// Named gives the mix under another name.
func (m Mix) Named(name string) Mix {
	m.name = name
	return m
}

// Facts gives what is known of the bicycle, as figures are worked out from it.
func (m Mix) Facts() figures.Facts { return m.facts }

// Name is what the mix is called.
func (m Mix) Name() string { return m.name }

// Scope says how much of a bicycle it is.
func (m Mix) Scope() Scope { return m.scope }

// Part gives the part of a kind.
func (m Mix) Part(kind string) (catalog.Part, bool) {
	i, ok := catalog.KindIndex(kind)
	if !ok || m.facts.Part(i) == nil {
		return catalog.Part{}, false
	}
	return m.parts[i], true
}

// Parts gives the parts in the order of the kinds.
func (m Mix) Parts() []catalog.Part {
	var out []catalog.Part
	for i, p := range m.parts {
		if m.facts.Part(i) != nil {
			out = append(out, p)
		}
	}
	return out
}

// Measure works out the figures of a mix.
func Measure(m Mix) figures.Figures { return m.facts.MeasureFilled(fill) }
