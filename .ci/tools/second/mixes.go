package second

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/tools/draw"
)

// Mixes draws mixes: with gaps everywhere, one in three with tolerances, most with parts
// of which only the class is named, or the count, with a few facts stated over it.
type Mixes struct {
	random  *rand.Rand
	exact   *draw.Mixes
	loose   *draw.Mixes
	classes *catalog.Catalog
}

// NewMixes begins a row of mixes.
func NewMixes(seed uint64) *Mixes {
	return &Mixes{rand.New(rand.NewPCG(seed, 31)), draw.New(seed, false), draw.New(seed+1e6, true), compat.Usual()}
}

// Next draws a mix, and gives it as a file too.
func (m *Mixes) Next() (compat.Mix, []byte, error) {
	source := m.exact
	if m.random.IntN(3) == 0 {
		source = m.loose
	}
	named := m.random.IntN(5) < 2
	for {
		doc, err := generic(source.Next())
		if err != nil {
			return compat.Mix{}, nil, err
		}
		if named {
			m.named(doc)
		} else {
			m.usual(doc)
		}
		if source == m.loose {
			m.loosen(doc["parts"].(map[string]any))
		}
		text, err := json.Marshal(doc)
		if err != nil {
			return compat.Mix{}, nil, err
		}
		// What is stated over a class may contradict it; then another is drawn.
		if mix, err := compat.ReadMix("drawn.json", text, nil); err == nil {
			return mix, text, nil
		}
	}
}

func generic(v any) (map[string]any, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	var out map[string]any
	return out, json.Unmarshal(text, &out)
}

// usual puts classes in the places of some parts, and counts in those of some facts.
func (m *Mixes) usual(doc map[string]any) {
	parts := doc["parts"].(map[string]any)
	for _, kind := range slices.Sorted(maps.Keys(parts)) {
		fields := parts[kind].(map[string]any)
		switch of := m.classes.OfKind(kind); {
		case len(of) > 0 && m.random.IntN(4) == 0:
			class := of[m.random.IntN(len(of))]
			over := map[string]any{"id": class.ID()}
			for _, name := range slices.Sorted(maps.Keys(fields)) {
				if name != "basis" && m.random.IntN(8) == 0 && !m.clash(kind, class, name) {
					over[name] = fields[name]
				}
			}
			if teeth, ok := fields["cogs_t"].([]any); ok && class.Record().Value(m.place(kind, "cog_count")).Num == float64(len(teeth)) {
				over["cogs_t"] = teeth
			}
			parts[kind] = over
		case m.random.IntN(4) == 0: // all that is usual by count
			for _, name := range []string{"pitch_mm", "pitches_mm", "stack_height_mm", "cog_thickness_mm", "outer_width_mm", "inner_width_mm", "ring_thickness_mm"} {
				if m.random.IntN(6) > 0 {
					delete(fields, name)
				}
			}
			if teeth, ok := fields["cogs_t"].([]any); ok && kind == "cassette" {
				if chain, ok := parts["chain"].(map[string]any); ok && m.random.IntN(2) == 0 && chain["id"] == nil && len(teeth) > 4 {
					chain["speeds"] = len(teeth)
				}
			}
		}
	}
}

// named makes a bicycle of which little more is known than the classes and counts of its
// parts, most of them of one count.
func (m *Mixes) named(doc map[string]any) {
	n := 6 + m.random.IntN(8)
	parts := doc["parts"].(map[string]any)
	for _, kind := range catalog.KindNames() {
		fields, there := parts[kind].(map[string]any)
		of := m.classes.OfKind(kind)
		if len(of) == 0 || there && m.random.IntN(4) == 0 || !there && m.random.IntN(8) == 0 {
			continue
		}
		count := fmt.Sprintf("-%d-", n)
		meant := slices.DeleteFunc(slices.Clone(of), func(p catalog.Part) bool { return !strings.Contains(p.ID()+"-", count) })
		if len(meant) > 0 && m.random.IntN(6) > 0 {
			of = meant
		}
		over := map[string]any{"id": of[m.random.IntN(len(of))].ID()}
		switch teeth := m.teeth(n); {
		case kind == "cassette" && m.random.IntN(2) == 0:
			over = map[string]any{"cogs_t": teeth}
		case kind == "cassette":
			over["cogs_t"] = teeth
		case kind == "chain" && m.random.IntN(2) == 0:
			over = map[string]any{"speeds": n}
		}
		for range m.random.IntN(4) {
			names := slices.Sorted(maps.Keys(fields))
			if len(names) == 0 {
				break
			}
			if name := names[m.random.IntN(len(names))]; name != "basis" && name != "id" {
				over[name] = fields[name]
			}
		}
		parts[kind] = over
	}
}

// loosen gives each entry of some lists a tolerance of its own, and in one mix of three half
// of all numbers one: a rule is tried at the corners of few, and of many it is not.
func (m *Mixes) loosen(parts map[string]any) {
	all := m.random.IntN(3) == 0
	for _, kind := range slices.Sorted(maps.Keys(parts)) {
		fields := parts[kind].(map[string]any)
		for _, name := range slices.Sorted(maps.Keys(fields)) {
			f := m.field(kind, name)
			switch v := fields[name].(type) {
			case float64:
				if all && f.Type == fact.Fraction && m.random.IntN(2) == 0 {
					fields[name] = m.about(f, v)
				}
			case []any:
				if f.Type != fact.Fractions || m.random.IntN(2) == 0 {
					continue
				}
				for i := range v {
					v[i] = m.about(f, v[i].(float64))
				}
			}
		}
	}
}

// about gives a number of a field a tolerance, where there is room for it.
func (m *Mixes) about(f fact.Field, x float64) any {
	if tol := 0.01 * float64(1+m.random.IntN(20)); f.Min <= x-tol && x+tol <= f.Max {
		return fmt.Sprintf("%v ± %v", x, tol)
	}
	return x
}

// teeth draws a cassette.
func (m *Mixes) teeth(n int) []int {
	out := []int{10 + m.random.IntN(3)}
	for len(out) < n {
		out = append(out, out[len(out)-1]+1+m.random.IntN(4))
	}
	return out
}

// clash says whether a fact cannot be stated over what a class says.
func (m *Mixes) clash(kind string, class catalog.Part, name string) bool {
	o, _ := catalog.Kind(kind)
	for i, f := range o.Table().Fields() {
		if (f.Name == name || f.Excludes == name || f.Name == m.field(kind, name).Excludes) && class.Record().Value(i).Known {
			return f.Type == fact.Fractions || f.Type == fact.Wholes || f.Name != name
		}
	}
	return false
}

func (m *Mixes) field(kind, name string) fact.Field {
	o, _ := catalog.Kind(kind)
	if i, ok := o.Table().Index(name); ok {
		return o.Table().Fields()[i]
	}
	return fact.Field{}
}

// place is where a field of a kind stands; 0 for one that it has not.
func (m *Mixes) place(kind, name string) int {
	o, _ := catalog.Kind(kind)
	i, _ := o.Table().Index(name)
	return i
}

// Run compares a number of pairs of random mixes and the rules of a checker, and gives up
// after some mixes on which the two differ.
func Run(j *Judge, c *compat.Checker, mixes *Mixes, pairs, most int) (Count, []string, error) {
	count := Count{Seen: map[string]int{}}
	var out []string
	for count.Pairs < pairs && count.Mixes < most {
		mix, text, err := mixes.Next()
		if err != nil {
			return count, out, err
		}
		report := c.Check(mix)
		records := report.Figures.Records()
		differ := j.Compare(c.Rules().Evaluate(records), records, mixes.random, &count)
		out = append(out, differ...)
		if len(differ) > 0 {
			out = append(out, fmt.Sprintf("the mix: %s", text))
			count.Mixes++
		}
	}
	return count, out, nil
}
