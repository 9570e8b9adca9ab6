package compat

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
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
	return problemsOr(func(ps *source.Problems) Mix { return ReadMixNode(root, from, ps) })
}

// problemsOr gives what a reader reads, or the problems that it finds.
func problemsOr(read func(ps *source.Problems) Mix) (Mix, error) {
	var ps source.Problems
	m := read(&ps)
	if err := ps.Err(); err != nil {
		return Mix{}, err
	}
	return m, nil
}

// ReadMixNode reads a mix out of a larger file, such as a cart. What is wrong is
// added to the problems, and the mix is then as far as it could be read.
func ReadMixNode(root *source.Node, from *catalog.Catalog, ps *source.Problems) Mix {
	r := mixReader{from: from, ps: ps}
	r.read(root)
	r.mix = r.mix.With(r.parts...)
	// A block whose lines are all still comments says nothing, which is no fault.
	if n := root.Get("bench"); n != nil && n.Kind != source.Null {
		r.bench(n)
	}
	return r.mix
}

type mixReader struct {
	from  *catalog.Catalog
	ps    *source.Problems
	mix   Mix
	parts []catalog.Part
}

func (r *mixReader) read(root *source.Node) {
	if !root.Keys("", r.ps, "mix", "scope", "parts", "bench", "note") && root.Kind != source.Map {
		return
	}
	if n := root.Get("mix"); n != nil {
		r.mix.name, _ = n.ReadText("mix", r.ps)
	} else {
		r.ps.Add(root.Pos, "", "the mix has no name", "begin with mix: and a name")
	}
	r.scope(root.Get("scope"))
	if n := root.Get("parts"); n != nil {
		r.all(n)
	} else {
		r.ps.Add(root.Pos, "", "the mix has no parts", "write parts: with one part a kind")
	}
}

func (r *mixReader) scope(n *source.Node) {
	text, ok := n.ReadText("scope", r.ps)
	switch {
	case !ok || text == "cart":
	case text == "bike":
		r.mix.scope = ScopeBike
	default:
		r.ps.Add(n.Pos, "scope", fmt.Sprintf("there is no scope %q", text), fact.Suggest(text, r.mix.scope.Words()))
	}
}

// all reads one part a kind, by id or described in place.
func (r *mixReader) all(n *source.Node) {
	if n.Kind != source.Map {
		r.ps.Add(n.Pos, "parts", "parts: holds one part a kind", "write the kind and the part's id, such as cassette: lake-12")
		return
	}
	for _, pair := range n.Pairs {
		kind := pair.Key.Text
		if _, ok := catalog.KindIndex(kind); !ok {
			r.ps.Add(pair.Key.Pos, "parts", fmt.Sprintf("there is no kind %q", kind), catalog.SuggestKind(kind))
			continue
		}
		if p, ok := r.part(kind, pair.Value); ok {
			r.parts = append(r.parts, p)
		}
	}
}

func (r *mixReader) part(kind string, n *source.Node) (catalog.Part, bool) {
	path := "parts." + kind
	if n.Kind == source.Map {
		return catalog.Read(kind, n, r.ps)
	}
	id, ok := n.ReadText(path, r.ps)
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
	return problemsOr(func(ps *source.Problems) Mix {
		r := mixReader{mix: m, ps: ps}
		r.bench(n)
		return r.mix
	})
}

// bench reads what was measured, and holds it against the cogs.
func (r *mixReader) bench(n *source.Node) {
	before := len(*r.ps)
	values := n.ReadRecord(figures.Bench.Table(), "bench", nil, r.ps)
	if len(*r.ps) > before {
		return
	}
	rec := figures.Bench.NewRecord(values, nil)
	have, want := benchCogs.In(rec), r.mix.facts.Value(cogs)
	if have.Known && want.Known && len(have.List) != len(want.List) {
		r.ps.Add(n.Get("cog_positions_mm").Pos, "bench.cog_positions_mm",
			fmt.Sprintf("%d positions for %d cogs", len(have.List), len(want.List)), "give one for each cog, the smallest first, as 0")
	}
	for _, ref := range []rules.Ref{benchCogs, benchSteps} {
		if v := ref.In(rec); v.Known && (len(v.List) == 0 || v.List[0] != 0) {
			r.ps.Add(n.Get(ref.Field().Name).Pos, ref.String(), "the first position is not 0", "count from the smallest cog, whose place is 0")
		}
	}
	r.mix.facts = r.mix.facts.With(rec)
}

var (
	cogs       = catalog.Cassette.Ref("cogs_t")
	benchCogs  = figures.Bench.Ref("cog_positions_mm")
	benchSteps = figures.Bench.Ref("step_positions_mm")
)
