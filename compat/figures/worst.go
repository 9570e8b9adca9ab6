package figures

import (
	"maps"
	"slices"
	"sync"

	"example.org/cogcourt/rules"
)

// Worst gives the worst cases of the figures that hang on facts stated with a
// tolerance, least and most, by name: each such fact is moved to both its ends
// alone, and the shifts towards one side are added up. Lists are left out. It is
// empty where no tolerance is stated, and is worked out when asked for.
func (f Figures) Worst() map[string][2]float64 {
	out := map[string][2]float64{}
	f.EachWorst(func(name string, bounds [2]float64) { out[name] = bounds })
	return out
}

// EachWorst gives do what Worst gives, in the order of the names.
func (f Figures) EachWorst(do func(name string, bounds [2]float64)) {
	records := f.Records()
	if !slices.ContainsFunc(records, func(rec *rules.Record) bool { return rec != nil && rec.Toleranced() != nil }) {
		return
	}
	w := swings.Get().(*swing)
	defer swings.Put(w)
	w.low, w.high = [mostFigures]float64{}, [mostFigures]float64{}
	for i, rec := range records {
		if rec == nil || i == figuresPlace {
			continue
		}
		for _, field := range rec.Toleranced() {
			w.sway(f, rules.Ref{Object: rec.Object(), Index: field})
		}
	}
	for _, i := range byName {
		if low, high := w.low[i], w.high[i]; low != 0 || high != 0 {
			x := f.data.values[i].Num
			do(table[i].Name, [2]float64{round(x + low), round(x + high)})
		}
	}
}

// byName is the places of the figures in the order of their names.
var byName = func() []int {
	places := map[string]int{}
	for i, f := range table {
		places[f.Name] = i
	}
	var out []int
	for _, name := range slices.Sorted(maps.Keys(places)) {
		out = append(out, places[name])
	}
	return out
}()

// swing is how far figures go to both sides, by their places. Its memory serves again.
type swing struct {
	low, high [mostFigures]float64 // of all facts together
	down, up  [mostFigures]float64 // of the one in work
	records   []*rules.Record
	moved     rules.Record
}

var swings = sync.Pool{New: func() any { return new(swing) }}

// sway adds what one fact does at its ends to the least and most of every figure
// that has a value there.
func (w *swing) sway(f Figures, ref rules.Ref) {
	i, _ := place(ref.Object)
	w.down, w.up = [mostFigures]float64{}, [mostFigures]float64{}
	for _, sign := range []float64{-1, 1} {
		w.records = append(w.records[:0], f.Records()...)
		w.records[i] = w.records[i].MovedInto(&w.moved, ref.Index, sign)
		Again(w.records, []rules.Ref{ref}, nil, func(records []*rules.Record) {
			moved := records[figuresPlace]
			for k := range table {
				was, is := &f.data.values[k], moved.At(k)
				if was.Known && is.Known && is.List == nil {
					w.down[k], w.up[k] = min(w.down[k], is.Num-was.Num), max(w.up[k], is.Num-was.Num)
				}
			}
		})
	}
	clear(w.records)
	for k := range table {
		w.low[k], w.high[k] = w.low[k]+w.down[k], w.high[k]+w.up[k]
	}
}
