package figures_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

// Figures that are asked for one by one, while parts come and go, are those that are
// worked out of the whole bicycle.
func TestOnDemandIsAllAnew(t *testing.T) {
	r := random.Seeded(21)
	names := figures.Object.Table().Names()
	compared := 0
	for range fewer(150) {
		now := random.New(r).Facts()
		d := figures.NewDemand(now.Measure().Records())
		for range 12 {
			other := random.New(r).Facts().Measure().Records()
			for place := range other {
				if place != figures.Place() && r.IntN(4) == 0 {
					d.Put(place, other[place])
				}
			}
			want := figures.Complete(given(d.Records()))
			for range 6 {
				of := figures.Object.Ref(names[r.IntN(len(names))])
				d.Want(figures.Wanted([]figures.FieldRef{of}))
				got, all := d.Records()[figures.Place()], want[figures.Place()]
				if g, w := *got.At(of.Index), *all.At(of.Index); !slices.Equal(g.AppendKey(nil), w.AppendKey(nil)) {
					t.Fatalf("%s is %v on demand, %v anew", of, g, w)
				}
				if g, w := got.Lack(of.Index), all.Lack(of.Index); g.Reason != w.Reason || g.Fault != w.Fault || g.Quiet != w.Quiet ||
					!slices.Equal(g.Missing, w.Missing) || !slices.Equal(g.Absent, w.Absent) {
					t.Fatalf("%s lacks %+v on demand, %+v anew", of, g, w)
				}
				compared++
			}
		}
	}
	if compared < fewer(10000) {
		t.Errorf("only %d figures were compared", compared)
	}
}

// Records without a bench stand for one on which nothing was measured, which figures read.
// What facts are worked out from is given lowest first, each once: no figure is worked out
// before one that it is made from.
func TestOnDemandWithoutABench(t *testing.T) {
	records := figures.Facts{}.Measure().Records()
	bench := figures.PlaceOf(figures.FactNamed("bench.half_link"))
	records[bench] = nil
	d := figures.NewDemand(records)
	want := figures.Wanted([]figures.FieldRef{figures.Object.Ref("chain_pitches"), figures.Object.Ref("cog_count"), figures.Object.Ref("chain_pitches")})
	if !slices.IsSorted(want) || len(slices.Compact(slices.Clone(want))) < len(want) || len(want) < 4 {
		t.Errorf("worked out in the order %v", want)
	}
	d.Want(want)
	if d.Records()[bench] == nil {
		t.Error("there is no bench")
	}
	if l := d.Records()[figures.Place()].Lack(figures.Object.Ref("chain_pitches").Index); len(l.Absent) == 0 {
		t.Errorf("without parts a chain lacks %+v", l)
	}
}

// A figure has no mark of its own: it hangs on stated numbers, which have.
func TestFiguresHaveNoMark(t *testing.T) {
	for _, name := range figures.Object.Table().Names() {
		if m := figures.Mark(figures.Object.Ref(name)); !m.None() {
			t.Fatalf("%s is marked %v", name, m)
		}
	}
	if m := figures.Mark(figures.FactNamed("chain.speeds")); m.None() {
		t.Error("how many cogs a chain is for is not marked")
	}
}

// A kind of parts under other names is the same kind.
func TestKindOfAnotherName(t *testing.T) {
	speeds := figures.FactNamed("chain.speeds")
	strap := figures.FieldRef{Object: speeds.Object.Called("strap"), Index: speeds.Index}
	if got, want := figures.PlaceOf(strap), figures.PlaceOf(speeds); got != want || want == 0 {
		t.Errorf("its place is %d, want %d", got, want)
	}
}

// Facts hold parts and what was measured: a record of figures has no place among them.
func TestFiguresAreNoFacts(t *testing.T) {
	f := random.New(random.Seeded(65)).Facts()
	if got, want := f.With(f.Measure().Record()).Records(), f.Records(); !slices.Equal(got, want) {
		t.Errorf("with figures the facts are %v, without %v", got, want)
	}
}

// given leaves the figures out.
func given(records []figures.Record) []figures.Record {
	out := slices.Clone(records)
	out[figures.Place()] = nil
	return out
}
