package compat

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// usualMix is a cart of usual classes, each by the id that follows usual-, with what is
// stated over them.
func usualMix(t testing.TB, over map[string]map[string]any, ids ...string) Mix {
	t.Helper()
	m := Mix{name: strings.Join(ids, ", ")}
	for _, id := range ids {
		p, ok := Usual().Part("usual-" + id)
		if !ok {
			t.Fatalf("there is no class usual-%s", id)
		}
		if fields := over[p.Kind()]; fields != nil {
			stated, err := p.With(fields)
			if err != nil {
				t.Fatal(err)
			}
			p = stated
		}
		m = m.With(p)
	}
	for kind, fields := range over {
		if _, ok := m.Part(kind); ok || kind == "bench" {
			continue
		}
		p, err := catalog.New(kind, fields)
		if err != nil {
			t.Fatal(err)
		}
		m = m.With(p)
	}
	if bench := over["bench"]; bench != nil {
		measured, err := m.Measured(bench)
		if err != nil {
			t.Fatal(err)
		}
		return measured
	}
	return m
}

// said gives what a rule comes to, and its finding.
func said(r Report, rule string) (string, Finding) {
	for _, f := range r.Findings() {
		if f.Rule == rule {
			return f.Verdict.String(), f
		}
	}
	return stateOf(r.result, rule), Finding{}
}

// The room between chain and next cog over all that is published of a class of chains
// and one of cassettes: worst, usual and kind, in mm, and what is said of it. The
// widths are those of trade tables and pages, reckoned apart from the program.
func TestUsualChainOnCassette(t *testing.T) {
	cassettes := strings.Fields("cassette-7 cassette-8-480 cassette-9-434 cassette-9-455 cassette-10-395-thin cassette-10-412 " +
		"cassette-11-378-road cassette-11-385 cassette-12-range cassette-13-as-12")
	table := map[int]string{ // of chains sold for so many cogs, in the order of the cassettes
		6:  ".15/.43/.65:pass -.03/.25/.35:pass -.46/-.20/-.09:fail -.23/.02/.12:unknown fail fail fail fail fail fail",
		7:  ".40/.43/.65:pass .22/.25/.35:pass -.21/-.20/-.09:fail .02/.02/.12:warn fail fail fail fail fail fail",
		8:  "pass .22/.35/.40:pass -.21/-.10/-.04:unknown .02/.12/.17:pass -.52/-.40/-.35:fail fail fail fail fail fail",
		9:  "pass pass -.06/.15/.21:pass pass -.37/-.15/-.10:fail -.23/-.03/.10:unknown -.56/-.32/-.27:fail -.50/-.25/-.15:fail fail fail",
		10: "pass pass pass pass .03/.20/.23:pass pass -.16/.03/.06:unknown -.10/.10/.18:unknown -.40/-.10/.06:unknown -.60/-.35/-.17:fail",
		11: "pass pass pass pass pass pass pass pass -.17/.05/.24:unknown -.37/-.20/.02:unknown",
		12: "pass pass pass pass pass pass pass pass .05/.22/.40:pass -.15/-.03/.17:unknown",
	}
	c := standardChecker(t)
	for speeds, row := range table {
		for i, cell := range strings.Fields(row) {
			numbers, want, known := strings.Cut(cell, ":")
			if !known {
				numbers, want = "", cell
			}
			m := usualMix(t, nil, fmt.Sprintf("chain-%d", speeds), cassettes[i])
			got, f := said(c.Check(m), "chain/neighbour-gap")
			if got != want {
				t.Errorf("chain for %d on %s: %s, want %s: %s", speeds, cassettes[i], got, want, f.Text)
			}
			if numbers == "" {
				continue
			}
			for k, gap := range gapEnds(m) {
				var want float64
				if _, err := fmt.Sscan(strings.Split(numbers, "/")[k], &want); err != nil {
					t.Fatal(err)
				}
				if math.Abs(gap-want) > 0.0051 {
					t.Errorf("chain for %d on %s: gap %d is %.3f, want %.2f", speeds, cassettes[i], k, gap, want)
				}
			}
		}
	}
}

// speedsOf states the count of the one class of shifters that was sold for several.
func speedsOf(shifter, cassette string) map[string]map[string]any {
	if shifter != "6-8-p28" {
		return nil
	}
	return map[string]map[string]any{"rear_shifter": {"speeds": 8}}
}

// gapEnds gives the worst, the usual and the kindest gap of a mix of classes.
func gapEnds(m Mix) [3]float64 {
	records := Measure(m).Records()
	var out [3]float64
	for k, to := range []float64{-1, 0, 1} {
		at := func(ref rules.Ref, to float64) float64 {
			v := ref.In(records[kindPlace(ref.Object.Name())])
			if v.Spread() == nil {
				return v.Num
			}
			return v.Spread().At(v.Num, to, false)
		}
		out[k] = at(cogPitch, to) - at(chainOuter, -to)/2 - at(cogThickness, -to)/2
	}
	return out
}

// Chains on the teeth of usual cogs and rings.
func TestUsualChainOnTeeth(t *testing.T) {
	c := standardChecker(t)
	for _, row := range []struct{ chain, other, rule, want string }{
		{"chain-8", "cassette-10-395-thin", "chain/on-cog", "pass"},
		{"chain-8", "cassette-9-434", "chain/on-cog", "pass"},
		{"chain-8", "cassette-8-480", "chain/on-cog", "pass"},
		{"chain-8", "ring-332-9to12", "chain/on-ring", "pass"},
		{"chain-8", "ring-332-5to8", "chain/on-ring", "pass"},
		{"chain-8", "ring-18", "chain/on-ring", "fail"},
		{"chain-11", "cassette-10-395-thin", "chain/on-cog", "pass"},
		{"chain-11", "cassette-8-480", "chain/on-cog", "pass"},
		{"chain-11", "ring-332-9to12", "chain/on-ring", "pass"},
		{"chain-11", "ring-332-5to8", "chain/on-ring", "warn"},
		{"chain-11", "ring-18", "chain/on-ring", "fail"},
		{"chain-1-18", "cassette-10-395-thin", "chain/on-cog", "warn"},
		{"chain-1-18", "ring-332-9to12", "chain/on-ring", "warn"},
		{"chain-1-18", "ring-18", "chain/on-ring", "pass"},
		{"chain-1-18", "sprocket-1-332", "chain/on-cog", "pass"},
		{"chain-8", "sprocket-1-18", "chain/on-cog", "fail"},
		{"chain-11", "sprocket-1-18", "chain/on-cog", "fail"},
	} {
		if got, f := said(c.Check(usualMix(t, nil, row.chain, row.other)), row.rule); got != row.want {
			t.Errorf("%s on %s: %s, want %s: %s", row.chain, row.other, got, row.want, f.Text)
		}
	}
}

// Shifters, derailleurs and cassettes that no set names: what fails over all that is
// usual of them, and what hangs on a measure. Of each is the residual at the kind end,
// in percent of the spacing, reckoned apart from the program.
func TestUsualIndexNo(t *testing.T) {
	c := standardChecker(t)
	for _, row := range []struct{ shifter, rear, cassette, want string }{
		{"10-p23", "r12", "10-395-thin", "fail"},
		{"9-p25", "r12", "9-434", "fail"},
		{"9-p25", "r14", "9-434", "fail"},
		{"10-p23", "r14", "10-395-thin", "fail"},
		{"11-p27", "r17", "11-378-road", "fail"},
		{"10-p34", "r17", "10-395-thin", "fail"},
		{"10-p34", "r13", "10-395-thin", "fail"},
		{"11-p27", "r11", "11-378-road", "fail"},
		{"11-p27", "r112", "11-385", "fail"},
		{"10-p31", "r17", "10-395-thin", "fail"},
		{"11-p348", "r14", "11-378-road", "fail"},
		{"6-8-p28", "r19", "8-480", "fail"},
		{"10-p34", "r11", "10-395-thin", "unknown"},
		{"10-p31", "r12", "10-395-thin", "unknown"},
		{"6-8-p28", "r17", "9-434", "unknown"},
		{"9-p25", "r17", "8-480", "unknown"},
	} {
		m := usualMix(t, speedsOf(row.shifter, row.cassette), "shifter-"+row.shifter, "rd-"+row.rear, "cassette-"+row.cassette)
		if got, f := said(c.Check(m), "index/residual"); got != row.want {
			t.Errorf("%s with %s on %s: %s, want %s: %s", row.shifter, row.rear, row.cassette, got, row.want, f.Text)
		}
	}
}

// Published sets give the verdict of their row by name, and the number that their own
// classes come to is pinned: share is in percent of the spacing at the usual values,
// 0 where nobody publishes enough to reckon one.
func TestPublishedSets(t *testing.T) {
	c := standardChecker(t)
	for _, row := range []struct {
		shifter, rear, cassette, want string
		share                         float64
	}{
		{"6-8-p28", "r17", "cassette-8-480", "pass", 2.9},
		{"6-8-p28", "r17", "cassette-7", "pass", 14.4},
		{"6-8-p28", "r17", "freewheel-7", "pass", 14.4},
		{"9-p25", "r17", "cassette-9-434", "pass", 8.3},
		{"10-p23", "r17", "cassette-10-395-thin", "pass", 4.6},
		{"10-p23", "r17", "cassette-10-395-flat", "pass", 4.6},
		{"11-p27", "r14", "cassette-11-378-road", "pass", 0},
		{"11-p27", "r14", "cassette-11-385", "warn", 9.1},
		{"10-p27", "r14", "cassette-10-395-thin", "pass", 19.4},
		{"10-p34", "r12", "cassette-10-395-thin", "pass", 14.8},
		{"10-p31", "r13", "cassette-10-395-thin", "pass", 9.1},
		{"11-p36", "r11", "cassette-11-range", "pass", 0},
		{"8-p35", "s8-old", "cassette-8-500", "pass", 7},
		{"10-s8", "s8-new", "cassette-10-412", "pass", 0},
		{"11-s8-early", "s8-new", "cassette-11-385", "pass", 0},
		{"11-s8-late", "s8-new", "cassette-11-385", "pass", 0},
		{"10-s8", "r17", "cassette-8-480", "warn", 0},
		{"11-s8-early", "r17", "cassette-9-434", "warn", 0},
		{"11-p348", "r112", "cassette-11-range", "pass", 0},
	} {
		m := usualMix(t, speedsOf(row.shifter, row.cassette), "shifter-"+row.shifter, "rd-"+row.rear, row.cassette)
		r := c.Check(m)
		if got, f := said(r, "index/residual"); got != row.want {
			t.Errorf("%s with %s on %s: %s, want %s: %s", row.shifter, row.rear, row.cassette, got, row.want, f.Text)
		}
		share, _ := r.Figures.Value("index_residual_share")
		t.Logf("%s with %s on %s: %.1f percent", row.shifter, row.rear, row.cassette, share.Num*100)
		if row.share > 0 && math.Abs(share.Num*100-row.share) > 0.06 {
			t.Errorf("%s with %s on %s comes to %.2f percent, want %.1f", row.shifter, row.rear, row.cassette, share.Num*100, row.share)
		}
	}
}
