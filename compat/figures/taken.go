package figures

import (
	"slices"

	"example.org/cogcourt/rules/fact"
)

// Taking is what one figure of a mix takes as usual because nobody stated it.
type Taking struct {
	Field   fact.Field // of the figure
	Value   fact.Value
	What    string // what is taken, in words
	ByValue bool   // the figure is that value itself, such as a usual width
}

// Taken tells what the figures take as usual in this mix, in the order of the table.
// It works all figures out anew: only who prints a report asks.
func (f Figures) Taken() []Taking {
	records := slices.Clone(f.Records())
	m := measuring{records: records, out: &measured{records: records, values: make([]fact.Value, len(table))}}
	taken := make([][]int, len(table))
	m.supposed = func(place int) {
		if at := m.now.place; suppositions[place].counts && !slices.Contains(taken[at], place) {
			taken[at] = append(taken[at], place)
		}
	}
	for _, fig := range table {
		m.one(fig)
	}
	var out []Taking
	for i, places := range taken {
		if v := m.out.values[i]; v.Known && v.Assumed {
			for _, place := range places {
				out = append(out, m.taking(table[i], place))
			}
		}
	}
	return out
}

func (m *measuring) taking(f *figure, place int) Taking {
	return Taking{Field: f.Field, Value: m.out.values[f.place], What: suppositions[place].what, ByValue: place == takesMadeFor}
}
