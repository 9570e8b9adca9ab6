package demo_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

func Example() {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	text, ok := demo.Mix("ferry-motor")
	if !ok {
		fmt.Println("the mixes are", demo.Mixes())
		return
	}
	mix, err := compat.ReadMix("demo:ferry-motor", text, parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	wider, _ := compat.Measure(mix).Value("stack_difference_mm")
	fmt.Printf("%s, from %s: the cassette is %.1f mm wider than the steps\n", mix.Name(), parts.Name(), wider.Num)
	// Output:
	// Ferry fleet, bicycle 7, from demo (invented): the cassette is 1.1 mm wider than the steps
}

func load(t *testing.T) *catalog.Catalog {
	t.Helper()
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

func checker(t *testing.T) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// wanted says what is to be found in a mix, by rule. Every other rule passes or
// is not applied.
type wanted struct {
	verdict              rules.Verdict
	fail, unknown, warn  []string
	missing              []string // the facts that would decide the unknown rules
	passes               []string // rules that the mix is there to show at their best
	complete             bool
	parts, fewestPassing int
}

func demoMixes() map[string]wanted {
	return map[string]wanted{
		"cart-chain-cassette": {verdict: rules.Pass, complete: true, parts: 2, fewestPassing: 2,
			passes: []string{"chain/neighbour-gap"}},
		"club-nine-spacer": {verdict: rules.Pass, complete: true, parts: 13, fewestPassing: 8,
			passes: []string{"index/residual", "chain/length", "hub/lockring-margin"}},
		"club-two-ring": {verdict: rules.Pass, complete: true, parts: 13, fewestPassing: 8,
			passes: []string{"index/residual", "cassette/capacity", "front/difference"}},
		"donated-classes": {verdict: rules.Pass, complete: true, parts: 4, fewestPassing: 8,
			passes: []string{"index/residual", "chain/neighbour-gap", "cassette/largest-cog"}},
		"donated-undecided": {verdict: rules.Unknown, parts: 13, fewestPassing: 7,
			unknown: []string{"index/steps"}, missing: []string{"rear_derailleur.made_for_cogs"}},
		"ferry-motor": {verdict: rules.Warn, complete: true, parts: 15, fewestPassing: 8,
			warn:   []string{"b-gap/gauge", "index/residual"},
			passes: []string{"chain/length", "line/angle-largest", "index/trim-range"}},
		"fleet-three-faults": {verdict: rules.Fail, complete: true, parts: 14, fewestPassing: 7,
			fail: []string{"chain/length", "drive/radio", "hub/freehub"}},
		"phone-question": {verdict: rules.Unknown, parts: 2, fewestPassing: 2,
			unknown: []string{"chain/neighbour-gap"}, missing: []string{"chain.outer_width_mm"}},
	}
}

// TestMixes holds each mix to its verdict, and every rule that does not pass to
// the reason for which the mix is there.
func TestMixes(t *testing.T) {
	parts, c, want := load(t), checker(t), demoMixes()
	if got := slices.Sorted(maps.Keys(want)); !slices.Equal(got, demo.Mixes()) {
		t.Fatalf("the mixes are %v, tested are %v", demo.Mixes(), got)
	}
	for _, name := range demo.Mixes() {
		t.Run(name, func(t *testing.T) {
			text, ok := demo.Mix(name)
			if !ok {
				t.Fatal("the mix is listed and not there")
			}
			mix, err := compat.ReadMix("demo:"+name, text, parts)
			if err != nil {
				t.Fatal(err)
			}
			checkMix(t, c, mix, want[name])
		})
	}
}

func checkMix(t *testing.T, c *compat.Checker, mix compat.Mix, want wanted) {
	t.Helper()
	report := c.Check(mix)
	if report.Verdict != want.verdict || report.Complete != want.complete {
		t.Errorf("verdict %v, complete %v; want %v, %v", report.Verdict, report.Complete, want.verdict, want.complete)
	}
	if n := len(mix.Parts()); n != want.parts {
		t.Errorf("%d parts, want %d", n, want.parts)
	}
	by, missing := map[rules.Verdict][]string{}, map[string]bool{}
	for _, f := range report.Findings() {
		by[f.Verdict] = append(by[f.Verdict], f.Rule)
		for _, name := range f.Missing {
			missing[name] = true
		}
		if f.Error != "" {
			t.Errorf("%s: %s", f.Rule, f.Error)
		}
	}
	for verdict, names := range map[rules.Verdict][]string{rules.Fail: want.fail, rules.Unknown: want.unknown, rules.Warn: want.warn} {
		if diff := cmp.Diff(present(c, names), sorted(by[verdict])); diff != "" {
			t.Errorf("rules that give %v (-want +got):\n%s", verdict, diff)
		}
	}
	if got := slices.Sorted(maps.Keys(missing)); !slices.Equal(got, want.missing) {
		t.Errorf("missing facts %v, want %v", got, want.missing)
	}
	if n := len(by[rules.Pass]); n < want.fewestPassing {
		t.Errorf("%d rules pass, want %d or more", n, want.fewestPassing)
	}
	for _, name := range present(c, want.passes) {
		if !slices.Contains(by[rules.Pass], name) {
			t.Errorf("%s does not pass", name)
		}
	}
}

// present keeps those rules that the standard pack has.
func present(c *compat.Checker, names []string) []string {
	var out []string
	for _, r := range c.Rules().Rules() {
		if slices.Contains(names, r.ID) {
			out = append(out, r.ID)
		}
	}
	return sorted(out)
}

func sorted(names []string) []string {
	if len(names) == 0 {
		return nil
	}
	names = slices.Clone(names)
	slices.Sort(names)
	return names
}

// TestMixFigures holds the numbers for which the mixes are there. They are worked
// out by hand, or common practice where it says so.
func TestMixFigures(t *testing.T) {
	rows := []struct {
		mix, figure string
		want, off   float64
		because     string
	}{
		{"ferry-motor", "stack_difference_mm", 1.1, 1e-6, "11 x (3.75 - 3.65)"},
		{"ferry-motor", "index_residual_mm", 0.55, 1e-6, "half of it"},
		{"ferry-motor", "trim_clicks", 3, 0, "0.55 / 0.2 is 2.75"},
		{"ferry-motor", "guide_bolt_to_cog_mm", 40.4, 0.05, "common practice: 40 to 41 with a cog of 51"},
		{"ferry-motor", "cog_step_mm", 12.1, 0.05, "six teeth, where the gauge wants ten"},
		{"ferry-motor", "backpedal_entry_mm", 0.784, 0.001, "12.7 x (52 - 25.45) / 430; the known working bicycle stays below 0.82"},
		{"ferry-motor", "chain_pitches", 116, 0, "109.49 + 5 at rest, 112.62 + 2 at the longest"},
		{"ferry-motor", "hanger_limit_mm", 3.0, 0.05, "what the index leaves"},
		{"club-nine-spacer", "lockring_margin_mm", 0.60, 1e-6, "35.5 + 1.85 - 36.75"},
		{"club-nine-spacer", "index_residual_mm", 0.36, 1e-6, "8 x (4.34 - 2.5 x 1.7) / 2"},
		{"club-two-ring", "index_residual_mm", 0.18, 1e-6, "9 x (3.95 - 2.3 x 1.7) / 2"},
		{"club-two-ring", "lockring_margin_mm", 0.55, 1e-6, "34.5 + 1.0 - 34.95"},
		{"club-two-ring", "chain_wrap_t", 33, 0, "50 - 34 + 28 - 11"},
		{"fleet-three-faults", "chain_margin_pitches", 0.59, 0.005, "114 - 113.41"},
		{"fleet-three-faults", "index_residual_mm", 0, 1e-6, "the index is none of the faults"},
		{"phone-question", "neighbour_gap_mm", 0.03, 1e-6, "usual values: 3.78 - 5.9 / 2 - 1.6 / 2"},
		{"donated-classes", "neighbour_gap_mm", 0.2, 1e-6, "usual values: 3.95 - 5.9 / 2 - 1.6 / 2"},
		{"cart-chain-cassette", "neighbour_gap_mm", 0.225, 1e-6, "3.65 - 5.25 / 2 - 1.6 / 2"},
	}
	parts := load(t)
	for _, row := range rows {
		text, _ := demo.Mix(row.mix)
		mix, err := compat.ReadMix(row.mix, text, parts)
		if err != nil {
			t.Fatal(err)
		}
		v, lack := compat.Measure(mix).Value(row.figure)
		if !v.Known {
			t.Errorf("%s: %s has no value: %+v", row.mix, row.figure, lack)
			continue
		}
		if d := v.Num - row.want; d > row.off || d < -row.off {
			t.Errorf("%s: %s is %v, want %v: %s", row.mix, row.figure, v.Num, row.want, row.because)
		}
	}
}

// TestOneFactDecides states in place what the undecided mix lacks: then it is
// decided, and nothing but its absence made it unknown.
func TestOneFactDecides(t *testing.T) {
	parts, c := load(t), checker(t)
	text, _ := demo.Mix("donated-undecided")
	mix, err := compat.ReadMix("donated-undecided", text, parts)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"lantern-rd-52", "donated-rd-lantern-measured"} {
		known, ok := parts.Part(id)
		if !ok {
			t.Fatalf("%s is gone", id)
		}
		for _, f := range c.Check(mix.With(known)).Findings() {
			if strings.HasPrefix(f.Rule, "index/") && f.Verdict != rules.Pass {
				t.Errorf("with %s, %s is %v: %s", id, f.Rule, f.Verdict, f.Text)
			}
		}
	}
}

func TestMixByName(t *testing.T) {
	for _, name := range []string{"", "nothing", "ferry-motor.yaml", "../parts/frames", "./ferry-motor", "Ferry-Motor"} {
		if text, ok := demo.Mix(name); ok || text != nil {
			t.Errorf("there is a mix %q", name)
		}
		if text, ok := demo.Order(name); ok || text != nil {
			t.Errorf("there is an order %q", name)
		}
	}
	first, _ := demo.Mix("ferry-motor")
	clear(first)
	if again, _ := demo.Mix("ferry-motor"); !strings.Contains(string(again), "mix:") {
		t.Error("a caller can change a mix")
	}
	if !slices.IsSorted(demo.Mixes()) {
		t.Errorf("the mixes are not in order: %v", demo.Mixes())
	}
}

// TestOrders holds each order to what its note says, and that no name stands for
// both a mix and an order.
func TestOrders(t *testing.T) {
	parts, c := load(t), checker(t)
	if diff := cmp.Diff([]string{"order"}, demo.Orders()); diff != "" {
		t.Fatal(diff)
	}
	if slices.ContainsFunc(demo.Orders(), func(name string) bool { return slices.Contains(demo.Mixes(), name) }) {
		t.Errorf("%v and %v share a name", demo.Mixes(), demo.Orders())
	}
	text, ok := demo.Order("order")
	if !ok || !strings.Contains(string(text), "Invented") {
		t.Fatalf("the order is not marked as invented: %s", text)
	}
	order, err := cart.Read("demo:order", text, parts)
	if err != nil {
		t.Fatal(err)
	}
	report, err := order.Check(context.Background(), c, parts)
	if err != nil {
		t.Fatal(err)
	}
	var uses, verdicts []string
	for _, l := range report.Lines {
		uses = append(uses, l.Use.String())
	}
	for _, b := range report.Bikes {
		verdicts = append(verdicts, b.Before.Verdict.String()+" to "+b.After.Verdict.String())
	}
	if diff := cmp.Diff([]string{"fitted", "fitted", "fitted", "fitted", "ignored", "fitted", "ambiguous"}, uses); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"warn to warn", "pass to fail"}, verdicts); diff != "" || report.Verdict != rules.Fail {
		t.Errorf("%v %s", report.Verdict, diff)
	}
}
