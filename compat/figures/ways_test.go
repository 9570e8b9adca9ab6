package figures_test

import (
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// What a figure declares of how it goes with a fact holds: as that rises and all others
// stay, it never falls, or never rises, or does not move at all.
func TestWaysHold(t *testing.T) {
	rng := random.Seeded(23)
	tried := map[string]int{}
	for range fewer(6000) {
		f := random.New(rng).Facts()
		if rng.IntN(2) == 0 {
			f = byCount(f)
		}
		before := f.Measure().Records()
		for _, w := range figures.DeclaredWays() {
			if w.Turns {
				continue
			}
			rec := before[figures.PlaceOf(w.Fact)]
			if rec == nil || !rec.Value(w.Fact.Index).Known {
				continue
			}
			v := rec.Value(w.Fact.Index)
			v.Num *= 1 + 0.2*rng.Float64()
			moved := rec.Clone()
			moved.Put(w.Fact.Index, v)
			was, is := before[figures.Place()].Value(w.Figure.Index), f.With(moved).Measure().Record().Value(w.Figure.Index)
			if !was.Known || !is.Known {
				continue
			}
			name := w.Figure.String() + " by " + w.Fact.String()
			tried[name]++
			if d := is.Num - was.Num; w.Way == rules.Still && (d != 0 || is.Text != was.Text) || w.Way == 1 && d < -1e-6 || w.Way == -1 && d > 1e-6 {
				t.Errorf("%s goes %d, and %v becomes %v as %v rises to %v", name, w.Way, was.Num, is.Num, rec.Value(w.Fact.Index).Num, v.Num)
			}
		}
	}
	for _, w := range figures.DeclaredWays() {
		if name := w.Figure.String() + " by " + w.Fact.String(); !w.Turns && tried[name] < 5 && !testing.Short() {
			t.Errorf("%s was tried %d times", name, tried[name])
		}
	}
}

// byCount takes widths and spacing as nobody's statement, but as what is usual for the
// count: some figures mean something only then.
func byCount(f figures.Facts) figures.Facts {
	for _, name := range []string{"chain.outer_width_mm", "cassette.pitch_mm", "cassette.cog_thickness_mm"} {
		ref := figures.FactNamed(name)
		if rec := f.Part(figures.PlaceOf(ref)); rec != nil && rec.At(ref.Index).Known {
			v := rec.Value(ref.Index)
			v.Usual = fact.ByCount
			rec = rec.Clone()
			rec.Put(ref.Index, v)
			f = f.With(rec)
		}
	}
	return f
}

// A figure that turns hangs on its facts through one quantity: how wide the steps are
// against the cogs. What makes both wider by the same part leaves it as it is, and so
// does a pull that is as much larger as the ratio is smaller.
func TestTurningFiguresHangOnOneQuantity(t *testing.T) {
	rng := random.Seeded(29)
	tried := 0
	for range fewer(3000) {
		d := random.New(rng)
		if d.Fields["rear_derailleur"]["actuation"] != "cable" {
			continue // the steps of a motor are its own
		}
		for kind, fields := range map[string][]string{
			"cassette": {"pitches_mm", "stack_height_mm"}, "rear_shifter": {"first_pull_take_up_mm"},
			"bench": {"step_positions_mm", "cog_positions_mm", "guide_travel_mm"},
		} {
			for _, field := range fields {
				if d.Fields[kind] != nil {
					d = d.Without(kind, field)
				}
			}
		}
		f := d.Facts()
		was := f.Measure().Record()
		by := 0.8 + 0.4*rng.Float64()
		scaled := func(refs map[string]float64) *rules.Record {
			out := f
			for name, factor := range refs {
				ref := figures.FactNamed(name)
				rec := out.Part(figures.PlaceOf(ref))
				if rec == nil || !rec.Value(ref.Index).Known {
					return nil
				}
				v := rec.Value(ref.Index)
				v.Num *= factor
				moved := rec.Clone()
				moved.Put(ref.Index, v)
				out = out.With(moved)
			}
			return out.Measure().Record()
		}
		for _, refs := range []map[string]float64{
			{"rear_shifter.pull_mm": by, "rear_derailleur.ratio": 1 / by},
			{"rear_shifter.pull_mm": by, "cassette.pitch_mm": by},
			{"rear_derailleur.ratio": by, "cassette.pitch_mm": by},
		} {
			is := scaled(refs)
			if is == nil {
				continue
			}
			i := slices.IndexFunc(figures.Object.Table().Fields(), func(f fact.Field) bool { return f.Name == "index_residual_share" })
			a, b := was.Value(i), is.Value(i)
			if !a.Known || !b.Known {
				continue
			}
			if tried++; math.Abs(a.Num-b.Num) > 2e-5*(1+math.Abs(a.Num)) {
				t.Errorf("%v: %v becomes %v", refs, a.Num, b.Num)
			}
		}
	}
	if tried < fewer(300) {
		t.Errorf("only %d were tried", tried)
	}
}
