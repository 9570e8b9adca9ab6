package compat

import (
	"example.org/cogcourt/compat/internal/random"
)

// mixOf makes the mix of a draw.
func mixOf(d random.Draw) Mix {
	m := Mix{name: "random"}.With(d.Parts()...)
	if d.Bike {
		m.scope = ScopeBike
	}
	return m.withBench(d.Fields["bench"])
}

// withBench is the mix with nothing measured but this.
func (m Mix) withBench(fields map[string]any) Mix {
	if fields == nil {
		fields = map[string]any{}
	}
	m.facts = m.facts.With(random.Bench(fields))
	return m
}

// drawWith is a mix of these fields, which are not changed, and one more.
func drawWith(fields map[string]map[string]any, kind, field string, value any) random.Draw {
	return random.Draw{Fields: fields}.With(kind, field, value)
}
