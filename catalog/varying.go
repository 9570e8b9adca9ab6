package catalog

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Varying states one field over a part, as With does, at one value after another:
// what is the same for all of them is worked out once. A value must be one that the
// field by itself may hold; where it contradicts what else is stated, the error says
// so, and is source.Problems, as it is for a field that the kind has not.
func (p Part) Varying(field string) (func(v fact.Value) (Part, error), error) {
	var ps source.Problems
	n, err := source.FromGo("with "+p.Kind(), map[string]any{field: 0})
	if err != nil {
		return nil, err
	}
	r := reader{object: p.inner().kind, node: n, ps: &ps, also: overKeys, bases: own}
	base := r.joined([]Part{p})
	if err := ps.Err(); err != nil {
		return nil, err
	}
	table := r.object.Table()
	at, ok := table.Index(field)
	if !ok {
		ps.Add(n.Pos, field, fmt.Sprintf("there is no field %q", field), fact.SuggestNamed(field, table.Named())).Code = source.UnknownEntry
		return nil, ps.Err()
	}
	top := make([]bool, len(table.Fields()))
	top[at] = true
	r.relabel(base, r.basis(), top)
	below := base.under(table, top)
	return func(v fact.Value) (Part, error) {
		values := slices.Clone(below)
		values[at] = v
		values[at].Own = true
		var ps source.Problems
		together{object: r.object, values: values, stated: base.stated, node: n, ps: &ps}.check()
		if err := ps.Err(); err != nil {
			return Part{}, err
		}
		q := *base
		q.record = r.object.NewRecord(values, nil)
		return Part{&q}, nil
	}, nil
}
