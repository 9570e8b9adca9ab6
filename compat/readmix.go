package compat

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// ReadMix reads a mix file, YAML or JSON by the ending of its name. Parts named
// by an id are looked up in from, which may be nil where every part is described
// in place. The error is source.Problems, with every fault of the file.
func ReadMix(file string, text []byte, from *catalog.Catalog) (Mix, error) {
	root, err := source.Parse(file, text)
	if err != nil {
		return Mix{}, err
	}
	r := mixReader{from: from, mix: emptyMix("", ScopeCart)}
	r.read(root)
	if err := r.ps.Err(); err != nil {
		return Mix{}, err
	}
	r.mix.loose = looseFacts(r.mix.records)
	return r.mix, nil
}

type mixReader struct {
	from *catalog.Catalog
	mix  Mix
	ps   source.Problems
}

func (r *mixReader) read(root *source.Node) {
	if !root.Keys("", &r.ps, "mix", "scope", "parts", "bench", "note") && root.Kind != source.Map {
		return
	}
	if n := root.Get("mix"); n != nil {
		r.mix.name, _ = n.ReadText("mix", &r.ps)
	} else {
		r.ps.Add(root.Pos, "", "the mix has no name", "begin with mix: and a name")
	}
	r.scope(root.Get("scope"))
	if n := root.Get("parts"); n != nil {
		r.parts(n)
	} else {
		r.ps.Add(root.Pos, "", "the mix has no parts", "write parts: with one part a kind")
	}
	// A block whose lines are all still comments says nothing, which is no fault.
	if n := root.Get("bench"); n != nil && n.Kind != source.Null {
		r.bench(n)
	}
}

func (r *mixReader) scope(n *source.Node) {
	text, ok := n.ReadText("scope", &r.ps)
	switch {
	case !ok || text == "cart":
	case text == "bike":
		r.mix.scope = ScopeBike
	default:
		r.ps.Add(n.Pos, "scope", fmt.Sprintf("there is no scope %q", text), fact.Suggest(text, []string{"cart", "bike"}))
	}
}

// parts reads one part a kind, by id or described in place.
func (r *mixReader) parts(n *source.Node) {
	if n.Kind != source.Map {
		r.ps.Add(n.Pos, "parts", "parts: holds one part a kind", "write the kind and the part's id, such as cassette: lake-12")
		return
	}
	for _, pair := range n.Pairs {
		kind := pair.Key.Text
		i, ok := catalog.KindIndex(kind)
		if !ok {
			r.ps.Add(pair.Key.Pos, "parts", fmt.Sprintf("there is no kind %q", kind), catalog.SuggestKind(kind))
			continue
		}
		if p, ok := r.part(kind, pair.Value); ok {
			r.mix.put(i, p)
		}
	}
}

func (r *mixReader) part(kind string, n *source.Node) (catalog.Part, bool) {
	path := "parts." + kind
	if n.Kind == source.Map {
		return catalog.Read(kind, n, &r.ps)
	}
	id, ok := n.ReadText(path, &r.ps)
	if !ok {
		return catalog.Part{}, false
	}
	if r.from == nil {
		r.ps.Add(n.Pos, path, fmt.Sprintf("there is no catalogue to find %q in", id), "describe the part in place: "+kind+": {...}")
		return catalog.Part{}, false
	}
	p, ok := r.from.Part(id)
	if !ok {
		r.ps.Add(n.Pos, path, fmt.Sprintf("no part is called %q", id), fact.Suggest(id, r.ids(kind)))
		return catalog.Part{}, false
	}
	if p.Kind() != kind {
		r.ps.Add(n.Pos, path, fmt.Sprintf("%s is of the kind %s", id, p.Kind()), "write "+p.Kind()+": "+id)
		return catalog.Part{}, false
	}
	r.mix.catalog = r.from.Name()
	return p, true
}

// ids lists the ids of a kind, for the nearest-name hint.
func (r *mixReader) ids(kind string) []string {
	var out []string
	for _, p := range r.from.OfKind(kind) {
		out = append(out, p.ID())
	}
	return out
}

// Measured gives the mix with what was measured on the bicycle, under the names
// of the bench's fields, in the place of all that was measured before. The error
// is source.Problems.
func (m Mix) Measured(facts map[string]any) (Mix, error) {
	n, err := source.FromGo("bench", facts)
	if err != nil {
		return Mix{}, err
	}
	r := mixReader{mix: m.clone()}
	r.bench(n)
	if err := r.ps.Err(); err != nil {
		return Mix{}, err
	}
	r.mix.loose = looseFacts(r.mix.records)
	return r.mix, nil
}

// bench reads what was measured, and holds it against the cogs.
func (r *mixReader) bench(n *source.Node) {
	before := r.ps.Count()
	values := n.ReadRecord(bench.Table(), "bench", nil, &r.ps)
	if r.ps.Count() > before {
		return
	}
	rec := bench.NewRecord(values, nil)
	if cassette := r.mix.records[cogs.place]; cassette != nil {
		have, want := rec.At(benchCogs.field), cassette.At(cogs.field)
		if have.Known && len(have.List) != len(want.List) {
			r.ps.Add(n.Get("cog_positions_mm").Pos, "bench.cog_positions_mm",
				fmt.Sprintf("%d positions for %d cogs", len(have.List), len(want.List)), "give one for each cog, the smallest first, as 0")
		}
	}
	for _, in := range []input{benchCogs, benchSteps} {
		if v := rec.At(in.field); v.Known && (len(v.List) == 0 || v.List[0] != 0) {
			r.ps.Add(n.Get(bench.Table().Fields()[in.field].Name).Pos, in.name, "the first position is not 0", "count from the smallest cog, whose place is 0")
		}
	}
	r.mix.records[benchPlace] = rec
}
