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

// given leaves the figures out.
func given(records []figures.Record) []figures.Record {
	out := slices.Clone(records)
	out[figures.Place()] = nil
	return out
}
