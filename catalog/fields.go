package catalog

import (
	"strconv"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Fields gives what the part states, as New takes it: its fields and id, name, maker,
// sku, price and basis, but nothing that is a default. New makes an equal part of it. A
// number with a tolerance is a text, a usual one with its spread a map, and the map is
// the caller's own.
//
// Of a part of which some is stated over a class or another part (Part.With) it gives
// all that holds, under the basis of what lies below; that is no longer told apart.
func (p Part) Fields() map[string]any {
	out := map[string]any{}
	if p.in == nil {
		return out
	}
	for key, text := range map[string]string{
		"id": p.in.id, "name": p.in.name, "maker": p.in.maker, "sku": p.in.sku, "price": p.in.price, "basis": p.in.basis,
	} {
		if text != "" {
			out[key] = text
		}
	}
	for i, f := range p.in.kind.Table().Fields() {
		if p.in.stated[i] {
			out[f.Name] = written(f.Type, p.in.record.At(i), p.in.sources[i])
		}
	}
	return out
}

// written is a value as New and files take it.
func written(t fact.Type, v *fact.Value, from string) any {
	switch {
	case from != "":
		spread := fact.Spread{Least: v.Num, Most: v.Num}
		if v.Spread() != nil {
			spread = *v.Spread()
		}
		return map[string]any{"usual": v.Num, "least": spread.Least, "most": spread.Most, "source": from}
	case v.Tol > 0:
		return withTolerance(v.Num, v.Tol)
	case v.Tols() != nil:
		out := make([]any, len(v.List))
		for i, x := range v.List {
			if out[i] = x; v.Tols()[i] > 0 {
				out[i] = withTolerance(x, v.Tols()[i])
			}
		}
		return out
	}
	return v.Plain(t)
}

func withTolerance(x, tolerance float64) string {
	return strconv.FormatFloat(x, 'f', -1, 64) + " ± " + strconv.FormatFloat(tolerance, 'f', -1, 64)
}

// Priced gives the part at another price, a decimal text such as 41.50, or empty for
// none. All else is shared with the part, its record too, so that the prices of a whole
// catalogue are changed in little time: see Catalog.With. The error is source.Problems,
// at the place of the part.
func (p Part) Priced(price string) (Part, error) {
	var ps source.Problems
	if p.in == nil {
		ps.Add(source.Pos{}, "price", "there is no part that could have a price", "make parts by catalog.Load, Read or New").Code = source.Missing
		return Part{}, ps.Err()
	}
	if _, ok := cents(price); !ok && price != "" {
		ps.Add(p.in.pos, "price", noPrice, "write 41.50").Code = source.NoNumber
		return Part{}, ps.Err()
	}
	priced := *p.in
	priced.price = price
	return Part{&priced}, nil
}
