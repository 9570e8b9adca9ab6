package figures_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Every figure is described, reads something and names each of its reads once.
func TestFiguresAreComplete(t *testing.T) {
	for _, f := range figures.Declared() {
		if f.Doc == "" || !f.Measured {
			t.Errorf("%s has no function or no doc", f.Name)
		}
		if len(f.Reads) == 0 {
			t.Errorf("%s reads nothing", f.Name)
		}
		if names := slices.Clone(f.Reads); len(slices.Compact(names)) < len(f.Reads) {
			t.Errorf("%s declares a read twice: %v", f.Name, f.Reads)
		}
	}
}

// What a figure says that it reads is what reports name as the parts that a
// finding is about, and what a search may rely on: it must be neither less nor
// more than what the function asks for.
func TestFiguresAskForWhatTheyDeclare(t *testing.T) {
	asked := map[string]map[string]bool{}
	for _, f := range figures.Declared() {
		asked[f.Name] = map[string]bool{}
	}
	// Too few random bicycles have what these ask for last for a short run to meet one.
	seldom := []string{
		"hub_input_nm", "motor_input_nm", "hub_input_by", "hub_least_ratio", "trim_clicks", "trim_residual_mm", "clamp_axle", "fixed_cog", "fixed_drive",
		"cog_hold", "chain_pitches_reckoned", "chain_sold_for_cogs", "chain_cogs_over", "guide_bolt_to_cog_mm", "b_gap_measured_mm", "ring_thickness_mm",
		"index_spare_steps", "index_share_kind", "index_residual_stops_mm", "controller_judged",
	}
	r := random.Seeded(4)
	for range fewer(4000) {
		random.New(r).Facts().MeasureTraced(func(figure, read string) { asked[figure][read] = true })
	}
	for _, f := range figures.Declared() {
		for _, read := range f.Reads {
			if !asked[f.Name][read] && !(testing.Short() && slices.Contains(seldom, f.Name)) {
				t.Errorf("%s declares %s and never asks for it", f.Name, read)
			}
			delete(asked[f.Name], read)
		}
		for read := range asked[f.Name] {
			t.Errorf("%s asks for %s and does not declare it", f.Name, read)
		}
	}
}

// Again gives what working everything out anew would give, whatever moved.
func TestAgainIsAllAnew(t *testing.T) {
	r := random.Seeded(9)
	moved := 0
	for range fewer(1500) {
		d := random.New(r)
		for range 6 {
			d.Loosen(r)
		}
		f := d.Facts()
		records := f.Measure().Records()
		for i, rec := range records {
			if rec == nil {
				continue
			}
			for _, field := range rec.Toleranced() {
				moved++
				next := slices.Clone(records)
				next[i] = rec.Moved(field, 1)
				whole := f.With(next[i]).Measure().Records()
				figures.Again(next, figures.Refs(rec, field), nil, func(again []figures.Record) {
					same(t, again[figures.Place()], whole[figures.Place()])
				})
				one := rules.Ref{Object: figures.Object, Index: r.IntN(len(figures.Object.Table().Fields()))}
				figures.Again(next, figures.Refs(rec, field), []rules.Ref{one}, func(again []figures.Record) {
					got, want := one.In(again[figures.Place()]), one.In(whole[figures.Place()])
					if got.String() != want.String() || got.Assumed != want.Assumed {
						t.Errorf("%s alone: again gives %s, anew %s", one, got, want)
					}
				})
			}
		}
	}
	if moved < fewer(2000) {
		t.Errorf("only %d facts moved", moved)
	}
}

// same holds two records of figures against each other.
func same(t *testing.T, got, want figures.Record) {
	t.Helper()
	for i, f := range figures.Object.Table().Fields() {
		a, b := got.Value(i), want.Value(i)
		if a.Known != b.Known || a.Assumed != b.Assumed || a.Num != b.Num || a.Text != b.Text || !slices.Equal(a.List, b.List) {
			t.Fatalf("%s: again gives %s (assumed: %v), anew %s (assumed: %v)", f.Name, a, a.Assumed, b, b.Assumed)
		}
		if x, y := got.Lack(i), want.Lack(i); !slices.Equal(x.Missing, y.Missing) || !slices.Equal(x.Absent, y.Absent) || x.Reason != y.Reason || x.Fault != y.Fault {
			t.Fatalf("%s: again lacks %+v, anew %+v", f.Name, x, y)
		}
	}
}

// A name that is no figure is a fault, never a lack that somebody could measure.
func TestNoSuchFigure(t *testing.T) {
	v, lack := figures.Facts{}.Measure().Value("index_residaul_mm")
	want := fact.Lack{Fault: `there is no figure index_residaul_mm; did you mean "index_residual_mm"?`}
	if v.Known || lack.Fault != want.Fault {
		t.Errorf("%v, %+v", v, lack)
	}
	if v, lack := (figures.Figures{}).Value("index_residual_mm"); v.Known || lack.Reason == "" {
		t.Errorf("zero figures: %v, %+v", v, lack)
	}
}

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}
