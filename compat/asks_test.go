package compat

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// TestNothingIsAskedInVain holds over every pair and many triples of kinds that a
// rule is left open only where measuring what it asks for can decide it: the facts
// that it misses are stated at random, as often as it takes, until it says
// something. Frame and hub are no question of the chain.
func TestNothingIsAskedInVain(t *testing.T) {
	c, r := standardChecker(t), random.Seeded(77)
	kinds := catalog.KindNames()
	asked := 0
	for i, a := range kinds {
		for k := i; k < len(kinds); k++ {
			for range fewer(30) {
				third := kinds[r.IntN(len(kinds))]
				asked += askAll(t, c, r, map[string]bool{a: true, kinds[k]: true})
				asked += askAll(t, c, r, map[string]bool{a: true, kinds[k]: true, third: true})
			}
		}
	}
	if asked < fewer(700) {
		t.Errorf("only %d findings asked for anything", asked)
	}
}

// askAll draws a mix of just these kinds, takes most fields away, and follows each
// open finding. It counts them.
func askAll(t *testing.T, c *Checker, r *rand.Rand, kinds map[string]bool) int {
	t.Helper()
	whole := drawOf(r, kinds)
	d := whole
	for _, ref := range whole.Stated() {
		if r.IntN(4) > 0 && ref.Field().Name != "cog_count" { // which stands for the teeth
			d = d.Without(ref.Object.Name(), ref.Field().Name)
		}
	}
	asked := 0
	for _, f := range c.Check(mixOf(d)).Findings() {
		if f.Verdict != rules.Unknown || f.Error != "" {
			continue
		}
		asked++
		if trail, ok := decidable(c, r, d, f); !ok {
			t.Errorf("%s asks for %v of %v, and nothing that is stated decides it: %s\n%v", f.Rule, f.Missing, sorted(kinds), trail, d.Fields)
		}
	}
	return asked
}

// tries is how often the missing facts are drawn before a question counts as vain.
const tries = 30

// decidable states what a finding misses until it is decided.
func decidable(c *Checker, r *rand.Rand, d random.Draw, f Finding) (trail string, ok bool) {
	for range tries {
		now, missing := d, f.Missing
		for range 6 { // an answer may bring the next question
			now = stating(r, now, missing)
			verdict, names := saidNow(c.Check(mixOf(now)), f.Rule)
			if verdict != "unknown" {
				trail = verdict
				if isDefinite(verdict) || !strings.HasPrefix(verdict, "not applied, absent") {
					return verdict, true
				}
				break
			}
			missing = names
		}
		if trail == "" {
			trail = fmt.Sprint("still open, asks for ", missing)
		}
	}
	return trail, false
}

// saidNow gives what a rule comes to, and what it misses where it is open.
func saidNow(rep Report, id string) (string, []string) {
	for _, f := range rep.Findings() {
		if f.Rule == id {
			return f.Verdict.String(), f.Missing
		}
	}
	return stateOf(rep.result, id), nil
}

// stating gives the draw with these facts stated, as other draws state them.
func stating(r *rand.Rand, d random.Draw, names []string) random.Draw {
	for _, name := range names {
		object, field, _ := strings.Cut(name, ".")
		if field == "ring_thickness_mm" {
			d = d.Without(object, "wide_tooth_mm") // whoever measures one tooth measures the other
		}
		if v, ok := drawnValue(r, d, object, field); ok {
			d = d.With(object, field, v)
		}
	}
	return d
}

// drawnValue draws until a mix states the fact, with cogs as many as there are.
func drawnValue(r *rand.Rand, d random.Draw, object, field string) (any, bool) {
	cogs := d.Fields["cassette"]["cogs_t"]
	for range 400 {
		other := random.New(r)
		v, ok := other.Fields[object][field]
		if !ok || cogs != nil && !sameCount(other.Fields["cassette"]["cogs_t"], cogs) {
			continue
		}
		if object != "bench" { // it must not contradict what is stated
			if _, err := catalog.New(object, d.With(object, field, v).Fields[object]); err != nil {
				continue
			}
		}
		return v, true
	}
	return nil, false
}

func sameCount(a, b any) bool {
	x, ok := a.([]int)
	y, also := b.([]int)
	return ok && also && len(x) == len(y)
}

// drawOf draws until all these kinds are there, and keeps them alone.
func drawOf(r *rand.Rand, kinds map[string]bool) random.Draw {
	for {
		d := random.New(r)
		out := random.Draw{Fields: map[string]map[string]any{}}
		for kind := range kinds {
			if fields, ok := d.Fields[kind]; ok {
				out.Fields[kind] = fields
			}
		}
		if len(out.Fields) == len(kinds) {
			return out
		}
	}
}

func sorted(set map[string]bool) []string {
	var out []string
	for x := range set {
		out = append(out, x)
	}
	slices.Sort(out)
	return out
}

// TestFrameAndHubAreNoChainQuestion is the plainest of these.
func TestFrameAndHubAreNoChainQuestion(t *testing.T) {
	c := standardChecker(t)
	m := mixOf(random.Draw{Fields: map[string]map[string]any{
		"frame": {"over_locknut_mm": 135.0, "chainstay_mm": 430.0}, "hub": {"over_locknut_mm": 135.0},
	}})
	for _, f := range c.Check(m).Findings() {
		if strings.HasPrefix(f.Rule, "chain/") {
			t.Errorf("%s says %s", f.Rule, f.Text)
		}
	}
	for _, name := range []string{"big_big_pitches", "chain_pitches", "chain_margin_pitches", "neighbour_gap_mm", "chain_angles_deg"} {
		if _, lack := Measure(m).Value(name); len(lack.Missing) > 0 || len(lack.Absent) == 0 {
			t.Errorf("%s lacks %+v, and should lack parts alone", name, lack)
		}
	}
	if _, ok := figures.Object.Table().Index("chain_margin_pitches"); !ok {
		t.Error("there is no margin")
	}
}
