package cart_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// shelf is what the shop sells: the demo, and two lines of sets (invented).
func shelf(t testing.TB) *catalog.Catalog {
	t.Helper()
	sets := `parts:
  - {kind: cassette, id: set-cassette, name: Set cassette, sku: SET-9, cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34], pitch_mm: 4.34, cog_thickness_mm: 1.78}
  - {kind: chain, id: set-chain, name: Set chain, sku: SET-9, speeds: 9, outer_width_mm: 6.6}
  - {kind: cassette, id: either-28, name: Either, sku: EITHER, cogs_t: [11, 28], pitch_mm: 4.34}
  - {kind: cassette, id: either-30, name: Or, sku: EITHER, cogs_t: [11, 30], pitch_mm: 4.34}
`
	c, err := catalog.Load(demo.Files(), filesOf(map[string]string{"sets.yaml": sets}))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The two bicycles of the order, as the customer has them.
const twoBikes = `bikes:
  - {mix: Ferry 7, scope: bike, parts: {cassette: reedbed-12-10-51, chain: lantern-chain-12, rear_derailleur: lantern-rd-52, rear_shifter: lantern-pod,
      crankset: capstan-32, hub: slipway-148-s23, frame: gangway-s-430}, bench: {chain_pitches: 118, spacer_behind_mm: 0}}
  - {mix: Club tourer, scope: bike, parts: {cassette: reedbed-9-11-34, chain: towrope-9, rear_derailleur: landing-rd-9-long, rear_shifter: landing-sh-9,
      crankset: windlass-46-30, front_derailleur: landing-fd-tour, hub: slipway-135-s9, frame: shoreline-tour-445}}
`

// What becomes of lines: each is fitted, spare, ambiguous or ignored, and says so.
func TestCartLines(t *testing.T) {
	one := twoBikes[:strings.Index(twoBikes, "  - {mix: Club tourer")]
	tests := []struct {
		name, bikes, lines string
		want               []string
	}{
		{"by id and by number", one, "{id: lantern-12-10-51}\n{sku: WC-2012}", []string{
			"lantern-12-10-51: fitted to Ferry 7", "WC-2012: fitted to Ferry 7"}},
		{"an id goes before a number", one, "{id: lantern-12-10-51, sku: WC-2012}", []string{"lantern-12-10-51: fitted to Ferry 7"}},
		{"a number where the id is the shop's own", one, "{id: article-77, sku: WC-2012}", []string{"article-77: fitted to Ferry 7"}},
		{"no drivetrain part", one, "{sku: BELL, name: Bell}\n{id: lantern-12-10-15}", []string{
			"BELL: ignored (the catalogue has no such part)", "lantern-12-10-15: ignored (the catalogue has no such part; is lantern-12-10-51 meant?)"}},
		{"quantity", one, "{sku: WC-2012, quantity: 3}", []string{"WC-2012: fitted to Ferry 7, 2 spare"}},
		{"the same twice", one, "{sku: WC-2012}\n{id: towrope-12}", []string{"WC-2012: fitted to Ferry 7", "towrope-12: spare"}},
		{"two of a kind for one bicycle", one, "{id: lantern-12-10-51}\n{id: reedbed-12-10-51}", []string{
			"lantern-12-10-51: ambiguous (line 2 brings another part of the same kind for Ferry 7)",
			"reedbed-12-10-51: ambiguous (line 1 brings another part of the same kind for Ferry 7)"}},
		{"two of a kind, each for its bicycle", twoBikes, "{id: lantern-12-10-51, bike: Ferry 7}\n{id: hauler-9-11-40, bike: Club tourer}", []string{
			"lantern-12-10-51: fitted to Ferry 7", "hauler-9-11-40: fitted to Club tourer"}},
		{"paired by fit", twoBikes, "{id: hauler-9-11-40}\n{id: lantern-12-10-51}", []string{
			"hauler-9-11-40: fitted to Club tourer (paired by trying: elsewhere it brings a fault)",
			"lantern-12-10-51: fitted to Ferry 7 (paired by trying: elsewhere it brings a fault)"}},
		{"paired, since the other has one", twoBikes, "{sku: WC-2012, bike: Ferry 7}\n{sku: WC-2009}", []string{
			"WC-2012: fitted to Ferry 7", "WC-2009: fitted to Club tourer (paired by trying: elsewhere it brings a fault)"}},
		{"fits either", twoBikes, "{id: tiller-bar-flat}", []string{
			"tiller-bar-flat: ambiguous (it goes as well with Ferry 7 as with Club tourer; say for which one it is)"}},
		{"one for each", twoBikes, "{id: tiller-bar-flat, quantity: 3}", []string{"tiller-bar-flat: fitted to Ferry 7, Club tourer, 1 spare"}},
		{"one for each on two lines", twoBikes, "{id: tiller-bar-flat}\n{sku: GF-8722, quantity: 2}", []string{
			"tiller-bar-flat: fitted to Ferry 7", "GF-8722: fitted to Club tourer, 1 spare"}},
		{"wrong everywhere", twoBikes, "{id: donated-hub-130-deep}", []string{"donated-hub-130-deep: ambiguous (it brings a fault on every bicycle; say for which one it is)"}},
		{"more than bicycles", twoBikes, "{id: tiller-bar-flat}\n{id: tiller-bar-drop}\n{id: barge-bar-short}", []string{
			"tiller-bar-flat: ambiguous (3 of the kind cockpit for 2 bicycles without one yet; say for which one this is)",
			"tiller-bar-drop: ambiguous (3 of the kind cockpit for 2 bicycles without one yet; say for which one this is)",
			"barge-bar-short: ambiguous (3 of the kind cockpit for 2 bicycles without one yet; say for which one this is)"}},
		{"a bicycle that is not there", twoBikes, "{id: tiller-bar-flat, bike: Ferry 8}", []string{`tiller-bar-flat: ambiguous (no bicycle is called "Ferry 8")`}},
		{"a set", one, "{sku: SET-9}", []string{"SET-9: fitted to Ferry 7"}},
		{"a part of a set twice", one, "{sku: SET-9}\n{id: set-chain}", []string{"SET-9: fitted to Ferry 7", "set-chain: spare"}},
		{"a number for two of a kind", one, "{sku: EITHER}", []string{"EITHER: ambiguous (the number stands for either-28 and for either-30, say which by id)"}},
		{"no bicycle known", "", "{id: lantern-12-10-51}\n{sku: WC-2012}", []string{"lantern-12-10-51: fitted to Order", "WC-2012: fitted to Order"}},
		{"bicycles of names alone", "", "{id: lantern-12-10-51, bike: his}\n{id: hauler-9-11-40, bike: hers}\n{sku: WC-2012, bike: his}", []string{
			"lantern-12-10-51: fitted to his", "hauler-9-11-40: fitted to hers", "WC-2012: fitted to his"}},
	}
	parts, c := shelf(t), checker(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := judged(t, c, parts, cartFile(test.bikes, test.lines))
			var got []string
			ambiguous := false
			for _, l := range r.Lines {
				got = append(got, l.String())
				ambiguous = ambiguous || l.Use == cart.Ambiguous
			}
			if !slices.Equal(got, test.want) {
				t.Errorf("got  %q\nwant %q", got, test.want)
			}
			if ambiguous && (r.Complete || r.Verdict == rules.Pass || r.Verdict == rules.Warn) {
				t.Errorf("an ambiguous line, and %s, complete %v", r.Verdict, r.Complete)
			}
		})
	}
}

func cartFile(bikes, lines string) string {
	return "cart: Order\n" + bikes + "lines:\n  - " + strings.ReplaceAll(lines, "\n", "\n  - ") + "\n"
}

// judged reads a cart and judges it.
func judged(t testing.TB, c *compat.Checker, parts *catalog.Catalog, file string) cart.Report {
	t.Helper()
	basket, err := cart.Read("cart.yaml", []byte(file), parts)
	if err != nil {
		t.Fatal(err)
	}
	r, err := basket.Check(context.Background(), c, parts)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// randomCart draws bicycles and lines of any parts.
func randomCart(random *rand.Rand, parts *catalog.Catalog) cart.Cart {
	all := parts.Parts()
	basket := cart.Cart{Name: "random"}
	for i := range random.IntN(4) {
		m, _ := compat.NewMix(fmt.Sprintf("bike %d", i), compat.Scope(random.IntN(2)))
		for range random.IntN(12) {
			m = m.With(all[random.IntN(len(all))])
		}
		basket.Bikes = append(basket.Bikes, m)
	}
	for range random.IntN(9) {
		p := all[random.IntN(len(all))]
		l := cart.Line{ID: p.ID(), Quantity: random.IntN(4)}
		switch random.IntN(8) {
		case 0:
			l = cart.Line{SKU: "a bell"}
		case 1:
			l = cart.Line{SKU: p.SKU()}
		}
		if random.IntN(2) == 0 {
			l.Bike = fmt.Sprintf("bike %d", random.IntN(4))
		}
		basket.Lines = append(basket.Lines, l)
		if random.IntN(6) == 0 { // the same again
			basket.Lines = append(basket.Lines, l)
		}
	}
	return basket
}

// Nothing is dropped: whatever a cart holds, each line says what becomes of it,
// every fitted part is on its bicycle, and all of the quantity is accounted for.
func TestCartDropsNothing(t *testing.T) {
	parts, c := shelf(t), checker(t)
	random := rand.New(rand.NewPCG(21, 2607))
	uses := map[string]int{}
	for range fewer(400) {
		basket := randomCart(random, parts)
		r, err := basket.Check(context.Background(), c, parts)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Lines) != len(basket.Lines) {
			t.Fatalf("%d lines of %d", len(r.Lines), len(basket.Lines))
		}
		for i, l := range r.Lines {
			uses[l.Use.String()]++
			accounted(t, basket.Lines[i], l)
			for _, bike := range l.Bikes {
				if p := partOf(l, parts); !onBike(r, bike, p) {
					t.Errorf("%s is fitted to %s and is not there", p.ID(), bike)
				}
			}
		}
	}
	for _, use := range []string{"fitted", "spare", "ambiguous", "ignored"} {
		if uses[use] < fewer(20) {
			t.Errorf("%d lines are %s: that proves little", uses[use], use)
		}
	}
}

// accounted holds that a line says what becomes of all of its quantity, and goes
// to no other bicycle than the one that it is for.
func accounted(t *testing.T, was cart.Line, is cart.LineResult) {
	t.Helper()
	fits := is.Use == cart.Fitted || is.Use == cart.Spare
	if fits != (len(is.Bikes)+is.Spare == is.Quantity) || !fits && is.Note == "" {
		t.Errorf("%+v", is)
	}
	if was.Bike != "" && len(is.Bikes) > 0 && !slices.Equal(is.Bikes, []string{was.Bike}) {
		t.Errorf("a line for %s is fitted to %v", was.Bike, is.Bikes)
	}
}

// partOf finds what a line brings.
func partOf(l cart.LineResult, parts *catalog.Catalog) catalog.Part {
	if p, ok := parts.Part(l.ID); ok {
		return p
	}
	return parts.BySKU(l.SKU)[0]
}

// onBike says whether a part is on a bicycle as it will be.
func onBike(r cart.Report, bike string, p catalog.Part) bool {
	return slices.ContainsFunc(r.Bikes, func(change compat.Change) bool {
		got, _ := change.After.Mix.Part(p.Kind())
		return change.After.Mix.Name() == bike && got == p
	})
}

// The blame is held against carts of these lines alone: what is laid on lines
// happens with them, and not with any one of them left out.
func TestCartBlame(t *testing.T) {
	w := blameWitness{t: t, c: checker(t), parts: shelf(t)}
	random := rand.New(rand.NewPCG(22, 2607))
	for range fewer(200) {
		r, err := randomCart(random, w.parts).Check(context.Background(), w.c, w.parts)
		if err != nil {
			t.Fatal(err)
		}
		for _, bike := range r.Bikes {
			w.bike, w.lines = bike.Before.Mix, r.Lines
			for _, f := range slices.Concat(bike.New, bike.Worse) {
				w.hear(f)
			}
		}
	}
	if w.blamed < fewer(300) || w.together < fewer(20) {
		t.Errorf("%d causes, %d of several lines: that proves little", w.blamed, w.together)
	}
}

// blameWitness checks by itself what lines of a cart bring about.
type blameWitness struct {
	t                *testing.T
	c                *compat.Checker
	parts            *catalog.Catalog
	bike             compat.Mix
	lines            []cart.LineResult
	blamed, together int
}

// hear holds one finding against the lines that are blamed for it.
func (w *blameWitness) hear(f compat.ChangedFinding) {
	if len(f.Lines) == 0 {
		w.t.Errorf("nothing is blamed for %s", f)
	}
	for _, lines := range f.Lines {
		w.blamed++
		w.together += min(len(lines)-1, 1)
		if !w.happens(lines, f) {
			w.t.Errorf("%s: does not happen with lines %v alone", f, lines)
		}
		for i := range lines {
			if less := slices.Delete(slices.Clone(lines), i, i+1); w.happens(less, f) {
				w.t.Errorf("%s: happens with lines %v of %v already", f, less, lines)
			}
		}
	}
}

// happens says whether a finding is as bad with some lines of the cart alone.
func (w *blameWitness) happens(lines []int, f compat.ChangedFinding) bool {
	var fitted []catalog.Part
	for _, i := range lines {
		if p, ok := w.parts.Part(w.lines[i-1].ID); ok {
			fitted = append(fitted, p)
		} else {
			fitted = append(fitted, w.parts.BySKU(w.lines[i-1].SKU)...)
		}
	}
	for _, got := range w.c.Check(w.bike.Refit(fitted...)).Findings() {
		if got.Rule == f.Rule {
			return got.Verdict.Rank() <= f.Verdict.Rank()
		}
	}
	return false
}

// Same cart, same bytes; every key is there and nothing is null.
func TestCartAsJSON(t *testing.T) {
	parts, c := shelf(t), checker(t)
	random := rand.New(rand.NewPCG(23, 2607))
	for range fewer(60) {
		basket := randomCart(random, parts)
		var texts [2]string
		for i := range texts {
			r, err := basket.Check(context.Background(), c, parts)
			if err != nil {
				t.Fatal(err)
			}
			text, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			texts[i] = string(text)
		}
		if texts[0] != texts[1] {
			t.Fatalf("not the same bytes:\n%s\n%s", texts[0], texts[1])
		}
		var got map[string]any
		if err := json.Unmarshal([]byte(texts[0]), &got); err != nil {
			t.Fatal(err)
		}
		want := []string{"bikes", "cart", "complete", "lines", "mendings", "rules", "schema_version", "tool", "verdict"}
		if keys := slices.Sorted(maps.Keys(got)); !slices.Equal(keys, want) {
			t.Errorf("keys %v", keys)
		}
		if hash := got["rules"].(map[string]any)["hash"]; hash != c.Rules().Hash() {
			t.Errorf("hash %v", hash)
		}
		bare := strings.NewReplacer(`"adjusted":null`, "", `"marginal":null`, "", `"leans":null`, "").Replace(texts[0])
		if strings.Contains(bare, "null") {
			t.Errorf("null in %s", bare)
		}
	}
	if text, err := json.Marshal(cart.Report{}); err != nil || strings.Contains(string(text), "null") {
		t.Errorf("the zero report: %v, %s", err, text)
	}
}
