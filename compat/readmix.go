package compat

import (
	"fmt"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// MixLimits are those of a mix, in a file or on a line: every field of every kind of part
// comes to a fifth of them.
func MixLimits() source.Limits {
	return source.Limits{Bytes: 1 << 20, Values: 20_000, Hint: "a mix is one bicycle, with one part a kind"}
}

// ReadMix reads a mix file, YAML or JSON by the ending of its name. Parts named
// by an id are looked up in from, which may be nil where every part is described
// in place or is a usual class (see Usual). The error is source.Problems, with every fault of the file.
func ReadMix(file string, text []byte, from *catalog.Catalog) (Mix, error) {
	memory := MixLimits().Borrow()
	defer memory.Free()
	root, err := memory.Parse(file, text)
	if err != nil {
		return Mix{}, err
	}
	return problemsOr(func(ps *source.Problems) Mix { return ReadMixNode(root, from, ps) })
}

// unnamed is what a line that is a map of parts alone calls its mix.
const unnamed = "unnamed"

// ReadMixLine reads a mix that stands on one line of a file, counted from 1, as
// JSON: a mix file, or the map from kinds to parts alone. The error is
// source.Problems, every place on that line.
func ReadMixLine(file string, line int, text []byte, from *catalog.Catalog) (Mix, error) {
	memory := MixLimits().Borrow()
	defer memory.Free()
	root, err := memory.ParseLine(file, line, text)
	if err != nil {
		return Mix{}, err
	}
	return problemsOr(func(ps *source.Problems) Mix {
		if root.Kind != source.Map || len(root.Pairs) == 0 || !isKind(root.Pairs[0].Key.Text) {
			return ReadMixNode(root, from, ps)
		}
		r := mixReader{from: from, ps: ps, mix: Mix{name: unnamed}}
		r.all(root)
		return r.mix.With(r.parts...)
	})
}

func isKind(name string) bool {
	_, known := catalog.KindIndex(name)
	return known
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

	beside *rules.Record // what was measured before and still holds; nil for nothing
}

func (r *mixReader) read(root *source.Node) {
	if !root.Keys("", r.ps, "mix", "scope", "parts", "bench", "note") && root.Kind != source.Map {
		return
	}
	if n := root.Get("mix"); n != nil {
		name, _ := n.ReadText("mix", r.ps)
		r.mix.name = strings.Clone(name) // the mix does not keep its file
	} else {
		root.Refuse(r.ps, "", "the mix has no name", "begin with mix: and a name").Code = source.Missing
	}
	r.scope(root.Get("scope"))
	if n := root.Get("parts"); n != nil {
		r.all(n)
	} else {
		root.Refuse(r.ps, "", "the mix has no parts", "write parts: with one part a kind").Code = source.Missing
	}
}

func (r *mixReader) scope(n *source.Node) {
	text, ok := n.ReadText("scope", r.ps)
	switch {
	case !ok || text == "cart":
	case text == "bike":
		r.mix.scope = ScopeBike
	default:
		n.Refuse(r.ps, "scope", fmt.Sprintf("there is no scope %q", text), r.ps.Suggest(text, r.mix.scope.Words())).Code = source.NoSuchChoice
	}
}

// all reads one part a kind, by id or described in place.
func (r *mixReader) all(n *source.Node) {
	if n.Kind != source.Map {
		n.Refuse(r.ps, "parts", "parts: holds one part a kind",
			"write the kind and the part's id, such as cassette: lake-12").Code = source.WrongKind
		return
	}
	r.parts = make([]catalog.Part, 0, min(len(n.Pairs), len(catalog.Kinds())))
	for _, pair := range n.Pairs {
		kind := pair.Key.Text
		if _, ok := catalog.KindIndex(kind); !ok {
			hint := ""
			if !r.ps.Full() {
				hint = catalog.SuggestKind(kind)
			}
			pair.Key.Refuse(r.ps, "parts", fmt.Sprintf("there is no kind %q", kind), hint).Code = source.NoSuchChoice
			continue
		}
		if p, ok := r.part(kind, pair.Value); ok {
			r.parts = append(r.parts, p)
		}
	}
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

// Stating gives the mix with one fact, such as chain.outer_width_mm, stated over its
// part as catalog.Part.With does, or, of the bench, measured beside what was measured
// before. The value is one that a file may hold. The error is source.Problems, also
// where the mix has no such part.
func (m Mix) Stating(name string, value any) (Mix, error) {
	ref, err := findFact(name)
	if err != nil {
		return Mix{}, err
	}
	kind, field := ref.Object.Name(), ref.Field().Name
	if ref.Object == figures.Bench {
		n, err := source.FromGo("bench", map[string]any{field: value})
		if err != nil {
			return Mix{}, err
		}
		return problemsOr(func(ps *source.Problems) Mix {
			r := mixReader{mix: m, ps: ps, beside: m.facts.Bench()}
			r.bench(n)
			return r.mix
		})
	}
	p, there := m.Part(kind)
	if !there {
		return Mix{}, noPart(name, kind)
	}
	if p, err = p.With(map[string]any{field: value}); err != nil {
		return Mix{}, err
	}
	return m.With(p), nil
}

// bench reads what was measured, and holds it against the cogs.
func (r *mixReader) bench(n *source.Node) {
	before := r.ps.Count()
	values := n.ReadRecord(figures.Bench.Table(), "bench", nil, r.ps)
	if r.ps.Count() > before {
		return
	}
	for i := range values {
		if r.beside != nil && !values[i].Known {
			values[i] = r.beside.Value(i)
		}
	}
	rec := figures.Bench.NewRecord(values, nil)
	have, want := benchCogs.In(rec), len(r.mix.facts.Value(cogs).List)
	if want == 0 {
		want = int(r.mix.facts.Value(cogCount).Num)
	}
	if have.Known && want > 0 && len(have.List) != want {
		n.Get("cog_positions_mm").Refuse(r.ps, "bench.cog_positions_mm", fmt.Sprintf("%d positions for %d cogs", len(have.List), want),
			"give one for each cog, the smallest first, as 0").Code = source.Contradicts
	}
	for _, ref := range []rules.Ref{benchCogs, benchSteps} {
		if v := ref.In(rec); v.Known && (len(v.List) == 0 || v.List[0] != 0) {
			n.Get(ref.Field().Name).Refuse(r.ps, ref.String(), "the first position is not 0", "count from the smallest cog, "+
				"whose place is 0").Code = source.OutOfRange
		}
	}
	r.mix.facts = r.mix.facts.With(rec)
}

var (
	cogs       = catalog.Cassette.Ref("cogs_t")
	cogCount   = catalog.Cassette.Ref("cog_count")
	benchCogs  = figures.Bench.Ref("cog_positions_mm")
	benchSteps = figures.Bench.Ref("step_positions_mm")
)
