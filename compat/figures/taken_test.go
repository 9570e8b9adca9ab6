package figures_test

import (
	"fmt"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

// TestDoubtsForget has one memory tell of many mixes in a row: it says of each what memory
// that has told of none says.
func TestDoubtsForget(t *testing.T) {
	tell := func(d *figures.Doubts) (out string) {
		for place := range figures.Object.Table().Fields() {
			assumed, usual := d.Roots(place)
			out += fmt.Sprintln(place, assumed, usual, d.Taken(place))
		}
		return out
	}
	r := random.Seeded(31)
	var all []figures.Figures
	var fresh []*figures.Doubts
	for range fewer(300) {
		figs := random.New(r).Facts().Measure()
		all, fresh = append(all, figs), append(fresh, figs.Doubts()) // none is closed, so that each has its own
	}
	for i, figs := range all {
		again := figs.Doubts()
		if got, want := tell(again), tell(fresh[i]); got != want {
			t.Fatalf("the %d-th mix is told otherwise behind others:\n%s\nand by itself:\n%s", i+1, got, want)
		}
		again.Close()
	}
}

// A figure that is assumed says of what, asked for the first time as well; one of which all
// is stated rests on nothing.
func TestRootsOfWhatIsAssumed(t *testing.T) {
	r := random.Seeded(32)
	rooted, taken := 0, 0
	for range fewer(300) {
		figs := random.New(r).Facts().Measure()
		for place, name := range figures.Object.Table().Names() {
			v, _ := figs.Value(name)
			d := figs.Doubts()
			assumed, usual := d.Roots(place)
			if v.Assumed != (len(assumed) > 0) || v.Usual == fact.NotUsual && len(usual) > 0 {
				t.Errorf("%s is %v, assumed %t, by %v and %v", name, v, v.Assumed, assumed, usual)
			}
			rooted += len(assumed)
			behind := len(d.Taken(place))
			d.Close()
			first := figs.Doubts()
			if now := len(first.Taken(place)); now != behind {
				t.Errorf("%s takes %d things as usual, and %d where that is asked first", name, behind, now)
			}
			taken += behind
			first.Close()
		}
	}
	if rooted == 0 || taken == 0 {
		t.Errorf("%d things are assumed, %d of them usual", rooted, taken)
	}
}
