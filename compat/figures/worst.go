package figures

import (
	"slices"

	"example.org/cogcourt/rules"
)

// Worst gives the worst cases of the figures that hang on facts stated with a
// tolerance, least and most, by name: each such fact is moved to both its ends
// alone, and the shifts towards one side are added up. Lists are left out. It is
// empty where no tolerance is stated, and is worked out when asked for.
func (f Figures) Worst() map[string][2]float64 {
	out := map[string][2]float64{}
	records := f.Records()
	if !slices.ContainsFunc(records, func(rec *rules.Record) bool { return rec != nil && rec.Toleranced() != nil }) {
		return out
	}
	low, high := make([]float64, len(table)), make([]float64, len(table))
	for i, rec := range records {
		if rec == nil || i == figuresPlace {
			continue
		}
		for _, field := range rec.Toleranced() {
			f.sway(rules.Ref{Object: rec.Object(), Index: field}, low, high)
		}
	}
	for i, fig := range table {
		if low[i] != 0 || high[i] != 0 {
			x := f.data.values[i].Num
			out[fig.Name] = [2]float64{round(x + low[i]), round(x + high[i])}
		}
	}
	return out
}

// sway adds what one fact does at its ends to the least and most of every figure
// that has a value there.
func (f Figures) sway(ref rules.Ref, low, high []float64) {
	i, _ := place(ref.Object)
	down, up := make([]float64, len(table)), make([]float64, len(table))
	for _, sign := range []float64{-1, 1} {
		records := slices.Clone(f.Records())
		records[i] = records[i].Moved(ref.Index, sign)
		Again(records, []rules.Ref{ref}, nil, func(records []*rules.Record) {
			moved := records[figuresPlace]
			for k := range table {
				was, is := &f.data.values[k], moved.At(k)
				if was.Known && is.Known && is.List == nil {
					down[k], up[k] = min(down[k], is.Num-was.Num), max(up[k], is.Num-was.Num)
				}
			}
		})
	}
	for k := range table {
		low[k], high[k] = low[k]+down[k], high[k]+up[k]
	}
}
