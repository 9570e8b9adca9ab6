package second

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// countLine is a line of what is usual of a cassette by its count, as the file has it.
type countLine struct {
	Kind         string
	Of           []float64
	Told         []string
	Ask          string
	LargestFrom  float64   `yaml:"largest_from"`
	LargestBelow float64   `yaml:"largest_below"`
	Pitch        []float64 `yaml:"pitch_mm"`
	Thickness    []float64 `yaml:"cog_thickness_mm"`
}

func readCounts() ([]countLine, error) {
	name, text := usual.Counts()
	var file struct{ Counts []countLine }
	if err := yaml.Unmarshal(text, &file); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return slices.DeleteFunc(file.Counts, func(l countLine) bool { return l.Kind != "cassette" }), nil
}

// other is another kind of cassettes with the same count.
type other struct {
	records []*rules.Record
	moved   []string
	ask     string
}

// others gives the other kinds that a cassette known by its count may be of.
func (j *Judge) others(records []*rules.Record) []other {
	at := j.places["cassette.pitch_mm"].object
	rec := records[at]
	if rec == nil {
		return nil
	}
	get := func(name string) *fact.Value { return rec.At(j.places["cassette."+name].field) }
	if v := get("pitch_mm"); v.Usual != fact.ByCount || v.Spread() == nil {
		return nil
	}
	count, largest := get("cog_count").Num, 0.0
	if list := get("cogs_t").List; len(list) > 0 {
		count, largest = float64(len(list)), list[len(list)-1]
	}
	fits := slices.DeleteFunc(slices.Clone(j.counts), func(l countLine) bool {
		return !slices.Contains(l.Of, count) || largest < l.LargestFrom || l.LargestBelow > 0 && largest >= l.LargestBelow
	})
	// A word that tells one kind shuts the others out.
	has := func(l countLine) bool {
		return slices.ContainsFunc(l.Told, func(w string) bool { return slices.Contains(get("freehub").Words(), w) })
	}
	if slices.ContainsFunc(fits, has) {
		fits = slices.DeleteFunc(fits, func(l countLine) bool { return l.Told != nil && !has(l) })
	}
	var out []other
	for i, l := range fits {
		if i > 0 {
			out = append(out, j.other(records, at, l))
		}
	}
	return out
}

// other gives the records with the values of a line.
func (j *Judge) other(records []*rules.Record, at int, l countLine) other {
	o := other{records: slices.Clone(records), ask: l.Ask}
	rec := records[at].Clone()
	if p := j.places[l.Ask]; rec.At(p.field).Known {
		o.ask = "cassette.pitch_mm"
	}
	for name, three := range map[string][]float64{"cassette.pitch_mm": l.Pitch, "cassette.cog_thickness_mm": l.Thickness} {
		p := j.places[name]
		if len(three) != 3 || records[at].At(p.field).Usual != fact.ByCount {
			continue
		}
		v := fact.Num(three[0])
		v.Usual = fact.ByCount
		v = v.WithSpread(&fact.Spread{Least: three[1], Most: three[2]})
		rec.Put(p.field, v)
		o.moved = append(o.moved, name)
	}
	o.records[at], o.records[j.figures] = rec, nil
	o.records = figures.Complete(o.records)
	return o
}
