package view

import (
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// geared is a mix of rings, cogs and a wheel; of no wheel where its tyre is 0.
func geared(t *testing.T, rings, cogs []int, tyre float64) compat.Mix {
	t.Helper()
	var parts []catalog.Part
	add := func(kind string, fields map[string]any) {
		p, err := catalog.New(kind, fields)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, p)
	}
	add("crankset", map[string]any{"rings_t": rings})
	add("cassette", map[string]any{"cogs_t": cogs})
	if tyre > 0 {
		add("wheel", map[string]any{"bead_seat_mm": 622, "tyre_width_mm": tyre})
	}
	m, err := compat.NewMix("Geared", compat.ScopeCart, parts...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// The numbers are worked out by hand: a wheel of 622 + 2 x 40 mm goes 2.2054 m a turn.
func TestGears(t *testing.T) {
	m := geared(t, []int{30, 46}, []int{11, 13, 17, 34}, 40)
	g, there := gearsOf(m, compat.Measure(m).Value)
	if !there {
		t.Fatal("there are no gears")
	}
	const want = `  cog       11   13   17   34
  step %       18   31  100
ring 46   4.18 3.54 2.71 1.35
  metres  9.22 7.80 5.97 2.98
ring 30   2.73 2.31 1.76 0.88
  metres  6.01 5.09 3.89 1.95`
	if got := strings.Join(g.table(), "\n"); got != want {
		t.Errorf("want\n%s\ngot\n%s", want, got)
	}
	const span = "For one turn of the crank the wheel turns 0.88 to 4.18 times and goes 1.95 to 9.22 m; " +
		"the highest gear is 474 % of the lowest, the largest step 100 %."
	if got := g.span(); got != span {
		t.Errorf("want %s\ngot  %s", span, got)
	}
}

// One gear has no range, and without a wheel nothing is said of metres.
func TestGearsOfFew(t *testing.T) {
	m := geared(t, []int{44}, []int{17}, 0)
	g, there := gearsOf(m, compat.Measure(m).Value)
	const want = "For one turn of the crank the wheel turns 2.59 times. Metres want a wheel with its bead seat and tyre."
	if got := g.span(); !there || got != want {
		t.Errorf("want %s\ngot  %s", want, got)
	}
	if got := strings.Join(g.table(), "\n"); got != "  cog       17\nring 44   2.59" {
		t.Errorf("got\n%s", got)
	}
	if _, there := gearsOf(m.Without("cassette"), compat.Measure(m.Without("cassette")).Value); there {
		t.Error("there are gears without cogs")
	}
	if _, there := gearsOf(m, func(string) (fact.Value, fact.Lack) { return fact.Value{}, fact.Lack{} }); there {
		t.Error("there are gears without ratios")
	}
}

// More cogs than a line holds go on below, and every step is shown once.
func TestGearsOfMany(t *testing.T) {
	cogs := []int{10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23}
	m := geared(t, []int{80}, cogs, 40)
	g, there := gearsOf(m, compat.Measure(m).Value)
	lines := g.table()
	if !there || len(lines) != 7 || lines[4] != "  cog       23" || !strings.HasPrefix(lines[5], "ring 80") {
		t.Errorf("%q", lines)
	}
	steps := 0
	for _, line := range lines {
		if columns(line) > width {
			t.Errorf("%d columns: %s", columns(line), line)
		}
		if rest, is := strings.CutPrefix(line, "  step %"); is {
			steps += len(strings.Fields(rest))
		}
	}
	if steps != len(cogs)-1 {
		t.Errorf("%d steps between %d cogs", steps, len(cogs))
	}
}

// A change of a ring tells which way the gears go, and one of nothing is not told.
func TestGearsChanged(t *testing.T) {
	before, after := geared(t, []int{40}, []int{10, 20, 50}, 40), geared(t, []int{32}, []int{10, 20, 50}, 40)
	tell := func(a, b compat.Mix) string {
		var out strings.Builder
		p := printer{w: &out}
		p.gearsChanged(compat.Change{Before: compat.Report{Mix: a, Figures: compat.Measure(a)}, After: compat.Report{Mix: b, Figures: compat.Measure(b)}})
		return strings.Join(strings.Fields(out.String()), " ")
	}
	for _, c := range []struct {
		before, after compat.Mix
		want          string
	}{
		{before, after, "gears The lowest gear becomes 20 % lower, the highest becomes 20 % lower. before Ring 40; cogs 10, 20, 50. For one turn"},
		{after, before, "gears The lowest gear becomes 25 % higher, the highest becomes 25 % higher. before Ring 32;"},
		{before, geared(t, []int{40}, []int{10, 25, 50}, 40), "gears The lowest gear stays, the highest stays. before"},
		{before, after.Without("crankset"), "gears before Ring 40; cogs 10, 20, 50."},
	} {
		if got := tell(c.before, c.after); !strings.HasPrefix(got, c.want) || strings.Count(got, " after ") != 1 {
			t.Errorf("want %s\ngot  %s", c.want, got)
		}
	}
	if got := tell(before, before); got != "" {
		t.Errorf("nothing changes, and it says %s", got)
	}
}
