package compat_test

import (
	"encoding/json"
	"io/fs"
	"math"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// TestOutlineOfTheDemo holds the numbers of an outline against the figures that they
// are, and those that an outline works out itself against what they should be.
func TestOutlineOfTheDemo(t *testing.T) {
	r := checker(t).Check(demoMix(t, "ferry-motor"))
	o := r.Outline()
	list := func(name string, i int) float64 {
		v, lack := r.Figures.Value(name)
		if !v.Known {
			t.Fatalf("%s: %v", name, lack)
		}
		if v.List == nil {
			return v.Num
		}
		return v.List[i]
	}
	if len(o.Cogs) != 12 || len(o.Rings) != 1 || len(o.Lacks) != 0 || o.Mix != "Ferry fleet, bicycle 7" {
		t.Fatalf("%d cogs, %d rings, %v lacks, %q", len(o.Cogs), len(o.Rings), o.Lacks, o.Mix)
	}
	for i, c := range o.Cogs {
		same(t, "position", c.Position, list("cog_positions_mm", i))
		same(t, "line", c.Line, list("cog_lines_mm", i))
		same(t, "error", c.Error, list("index_errors_mm", i))
		same(t, "rub", c.Rub, list("rub_margins_mm", i))
		same(t, "warn", c.Warn, 0.125*3.75)
		same(t, "fail", c.Fail, 0.2*3.75)
		if i < 11 {
			same(t, "gap", c.Gap, 3.75-5.25/2-1.6/2)
		} else if c.Gap.Known {
			t.Error("the largest cog has a gap to the next")
		}
		if want := map[bool]rules.Verdict{true: rules.Warn, false: rules.Pass}[i == 0 || i == 11]; c.Verdict != want {
			t.Errorf("cog %d: %v, want %v", i, c.Verdict, want)
		}
	}
	same(t, "pitch radius", o.Cogs[0].PitchRadius, 12.7/math.Sin(math.Pi/10)/2)
	same(t, "tip radius", o.Cogs[0].TipRadius, (12.7/math.Sin(math.Pi/10)+12.7*(1.125-0.08)-7.75)/2)
	same(t, "ring", o.Rings[0].Teeth, 32)
	same(t, "line of the ring", o.Rings[0].Line, 52)
	same(t, "chainstay", o.Chainstay, 430)
	same(t, "hub", o.OverLocknut, 148)
	same(t, "angle", o.Chain.AngleLargest, list("chain_angle_largest_deg", 0))
	same(t, "length", o.Chain.Longest, list("big_big_pitches", 0))
	same(t, "bolt", o.Guide.Bolt, list("guide_bolt_to_cog_mm", 0))
	same(t, "tip of the pulley", o.Guide.TipRadius, list("guide_bolt_to_cog_mm", 0)-13)
	same(t, "links that warn", o.Chain.SpareWarn, 1.95)
	same(t, "links that fail", o.Chain.SpareFail, 1)
	first := o.Cogs[0]
	if !first.Error.Assumed || first.Position.Assumed || !o.Guide.Bolt.Assumed || len(o.Index.Taken) == 0 || o.Rings[0].Ratios[0] != 3.2 {
		t.Errorf("what is assumed: %+v, taken %q, ratios %v", first, o.Index.Taken, o.Rings[0].Ratios)
	}
}

// same holds a number of an outline, to within its rounding.
func same(t *testing.T, what string, n compat.Number, want float64) {
	t.Helper()
	if !n.Known || math.Abs(n.Value-want) > 1e-6 {
		t.Errorf("%s: %+v, want %v", what, n, want)
	}
}

// shopOf loads rules beside the shipped ones.
func shopOf(t *testing.T, text string) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{Rules: []fs.FS{fstest.MapFS{"shop.yaml": {Data: []byte(text)}}}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestOutlineDrawsTheShopsLimits holds that of several limits the strictest is drawn and
// judged by, and that a limit of a rule which was not applied is not drawn.
func TestOutlineDrawsTheShopsLimits(t *testing.T) {
	const shop = `
pack: shop
rules:
  - {id: shop/index, title: T, why: W, when: "WHEN", fail_if: figures.index_residual_share > 0.14,
     warn_if: figures.index_residual_share > 0.5,
     say: S, remedy: R, basis: {practice: P}, draw: {error: {warn: 0.5, fail: 0.14}}}
  - {id: shop/gap, title: T, why: W, fail_if: figures.neighbour_gap_mm < 0.4,
     say: S, remedy: R, basis: {practice: P}, draw: {gap: {fail: 0.4}}}
`
	motor := demoMix(t, "fleet-three-faults")
	o := shopOf(t, strings.Replace(shop, "WHEN", "cassette.cogs_t.exists(z, z > 1)", 1)).Check(motor).Outline()
	plain := checker(t).Check(motor).Outline()
	pitch := plain.Cogs[0].Warn.Value / 0.125
	same(t, "warn of the shipped rule", o.Cogs[0].Warn, 0.125*pitch)
	same(t, "fail of the shop's", o.Cogs[0].Fail, 0.14*pitch)
	same(t, "fail of the shipped rule alone", plain.Cogs[0].Fail, 0.2*pitch)
	same(t, "gap that fails", o.Chain.GapFail, 0.4)
	same(t, "gap that warns", o.Chain.GapWarn, 0.05)
	o = shopOf(t, strings.Replace(shop, "WHEN", "cassette.cogs_t.exists(z, z > 100)", 1)).Check(motor).Outline()
	same(t, "fail where the shop's rule has nothing to say", o.Cogs[0].Fail, 0.2*pitch)
}

// TestOutlineIsNoWorseThanItsRule holds what hangs on a value that nobody stated: a cog
// does not fail where the rule only warns for it, and is open where the rule is.
func TestOutlineIsNoWorseThanItsRule(t *testing.T) {
	const head = `{mix: M, parts: {cassette: {cogs_t: [11, 13, 15, 17, 19, 21]`
	for doc, want := range map[string]rules.Verdict{
		head + `, pitch_mm: 4.5}, rear_derailleur: {actuation: motor, steps_mm: [3.65, 3.65, 3.65, 3.65, 3.65]}}}`:  rules.Fail,
		head + `, pitch_mm: 4.0}, rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.65, made_for_cogs: 6}}}`: rules.Warn,
	} {
		m, err := compat.ReadMix("m.yaml", []byte(doc), nil)
		if err != nil {
			t.Fatal(err)
		}
		r := checker(t).Check(m)
		o := r.Outline()
		if c := o.Cogs[0]; c.Verdict != want || math.Abs(c.Error.Value) <= c.Fail.Value {
			t.Errorf("%s: %v, want %v; error %v of %v", doc, c.Verdict, want, c.Error, c.Fail)
		}
	}
}

// TestOutlinesAreWhole holds that every outline marshals with the keys of its fields,
// without null, and that each key is explained.
func TestOutlinesAreWhole(t *testing.T) {
	outlines := []compat.Outline{(compat.Report{}).Outline()}
	for _, name := range demo.Mixes() {
		outlines = append(outlines, checker(t).Check(demoMix(t, name)).Outline())
	}
	for _, o := range outlines {
		text, err := json.Marshal(o)
		if err != nil || strings.Contains(string(text), "null") {
			t.Errorf("%s: %v\n%s", o.Mix, err, text)
		}
		for _, l := range o.Lacks {
			if again, ok := o.Lack(l.Of); !ok || again.Text != l.Text || !strings.HasSuffix(l.Text, ".") {
				t.Errorf("%s: %+v", o.Mix, l)
			}
		}
		if _, ok := o.Lack("no such drawing"); ok {
			t.Error("something lacks of a drawing that there is not")
		}
	}
	if zero := outlines[0]; len(zero.Lacks) != 8 {
		t.Errorf("the zero report: %v", zero.Lacks)
	}
	explained(t, reflect.TypeFor[compat.Outline]())
}

// explained looks for the tags of a struct and of those in it.
func explained(t *testing.T, typ reflect.Type) {
	t.Helper()
	for i := range typ.NumField() {
		f := typ.Field(i)
		if key := f.Tag.Get("json"); key == "" || key != strings.ToLower(key) || f.Tag.Get("doc") == "" {
			t.Errorf("%s.%s has the key %q and says %q", typ.Name(), f.Name, key, f.Tag.Get("doc"))
		}
		inner := f.Type
		if inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct {
			explained(t, inner)
		}
	}
}

// TestSheetsHaveTheirReport holds that what is drawn beside a sheet is of the same mix.
func TestSheetsHaveTheirReport(t *testing.T) {
	m := demoMix(t, "ferry-motor")
	if got := checker(t).Sheet(m).Report(); got.Verdict != checker(t).Check(m).Verdict || !got.Outline().Guide.Bolt.Known {
		t.Errorf("the sheet's report: %v", got.Verdict)
	}
}
