package compat

import (
	"bytes"
	"testing"

	"example.org/cogcourt/compat/internal/random"
)

// sameBytes holds what is written against what encoding/json makes of the structs.
func sameBytes(t testing.TB, what string, got []byte, wired func() ([]byte, error)) {
	t.Helper()
	want, err := wired()
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if !bytes.Equal(got, want) {
		at := 0
		for at < min(len(got), len(want)) && got[at] == want[at] {
			at++
		}
		from := max(at-80, 0)
		t.Errorf("%s: from byte %d it is\n%.200s\nand not\n%.200s", what, at, got[from:], want[from:])
	}
}

// What is written by hand is what encoding/json writes of the structs that the JSON
// Schemas are made from, key by key; behind what is there already, which it leaves alone.
func TestWriteAsTheStructs(t *testing.T) {
	leans, margins, changes := 0, 0, 0
	eachReport(t, 300, func(t *testing.T, _ random.Draw, r Report) {
		sameBytes(t, "a report", r.AppendJSON(nil), func() ([]byte, error) { return r.wired(true) })
		sameBytes(t, "a brief report", r.AppendBrief([]byte("["))[1:], func() ([]byte, error) { return r.wired(false) })
		if changes++; changes%8 == 0 { // finding causes between two random mixes takes long
			m := r.Mix.Without("chain").Without("cassette")
			change := Compare(r, r.checker.Check(m))
			change.New = append(change.New, ChangedFinding{Causes: [][]string{{"a", "b"}, {"c"}}, Lines: [][]int{{1, 20}, {3}}})
			sameBytes(t, "a change", change.AppendJSON([]byte("["))[1:], change.wired)
		}
		sheet := r.checker.Sheet(r.Mix)
		sameBytes(t, "a sheet", sheet.AppendJSON([]byte("["))[1:], sheet.wired)
		for _, f := range r.findings {
			leans, margins = leans+count(f.Lean != nil), margins+count(f.Margin != nil)
		}
	})
	if leans == 0 || margins == 0 {
		t.Errorf("%d findings lean and %d are marginal: too few to compare", leans, margins)
	}
	sameBytes(t, "nothing", Report{}.AppendJSON(nil), func() ([]byte, error) { return Report{}.wired(true) })
	sameBytes(t, "no change", Change{}.AppendJSON(nil), Change{}.wired)
	sameBytes(t, "no sheet", Sheet{}.AppendJSON(nil), Sheet{}.wired)
}

func count(b bool) int {
	if b {
		return 1
	}
	return 0
}

// An adjusted finding says who decided, in the same bytes.
func TestWriteAdjusted(t *testing.T) {
	c, err := New(Config{Rules: ruleFiles("pack: shop\nadjust:\n" +
		"  - {rule: chain/length, to: warn, reason: \"we know\", by: the wharf, until: 2100-01-01}\n" +
		"  - {rule: index/residual, to: pass, reason: a \"try\", by: <us>, until: 2100-01-01}\n")})
	if err != nil {
		t.Fatal(err)
	}
	adjusted := 0
	rng := random.Seeded(7)
	for range 100 {
		r := c.Check(mixOf(random.New(rng)))
		for _, f := range r.findings {
			adjusted += count(r.set.Adjusted(f) != nil)
		}
		sameBytes(t, "a report", r.AppendJSON(nil), func() ([]byte, error) { return r.wired(true) })
	}
	if adjusted == 0 {
		t.Error("nothing was adjusted")
	}
}

// Each WriteTo writes what MarshalJSON gives, and says how much that was.
func TestWriteTo(t *testing.T) {
	c := standardChecker(t)
	before, after := c.Check(lakeBike(t)), c.Check(lakeBike(t, "pitch_mm"))
	var out bytes.Buffer
	change, sheet := Compare(before, after), c.Sheet(before.Mix)
	for _, each := range []struct {
		write func() (int64, error)
		text  func() ([]byte, error)
	}{
		{func() (int64, error) { return after.WriteTo(&out) }, after.MarshalJSON},
		{func() (int64, error) { return change.WriteTo(&out) }, change.MarshalJSON},
		{func() (int64, error) { return sheet.WriteTo(&out) }, sheet.MarshalJSON},
	} {
		out.Reset()
		n, err := each.write()
		want, _ := each.text()
		if err != nil || n != int64(len(want)) || !bytes.Equal(out.Bytes(), want) {
			t.Errorf("%d bytes of %d, %v", n, len(want), err)
		}
	}
}
