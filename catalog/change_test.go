package catalog_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/rules/source"
)

// same says in what a catalogue answers otherwise than one that was made whole.
func same(t *testing.T, got, want *catalog.Catalog) {
	t.Helper()
	if got.Name() != want.Name() || got.Currency() != want.Currency() || got.Len() != want.Len() {
		t.Fatalf("%s, %s, %d parts, and not %s, %s, %d", got.Name(), got.Currency(), got.Len(), want.Name(), want.Currency(), want.Len())
	}
	if !slices.Equal(got.Parts(), want.Parts()) || !slices.Equal(slices.Collect(got.All()), want.Parts()) {
		t.Fatal("the parts are others, or in another order")
	}
	for p := range want.All() {
		q, ok := got.Part(p.ID())
		if !ok || q != p || !slices.Equal(got.OfKind(p.Kind()), want.OfKind(p.Kind())) || !slices.Equal(got.BySKU(p.SKU()), want.BySKU(p.SKU())) {
			t.Fatalf("%s is found otherwise", p.ID())
		}
	}
	for _, kind := range catalog.KindNames() {
		if !slices.Equal(slices.Collect(got.AllOfKind(kind)), want.OfKind(kind)) {
			t.Fatalf("the parts of the kind %s are others", kind)
		}
	}
}

// A catalogue that is changed again and again answers as one that is made whole of what
// it then holds, and none of those before it has changed.
func TestChangedAsMadeWhole(t *testing.T) {
	shed, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	all := shed.Parts()
	now := shelved{}
	if now.Catalog, err = catalog.Of(all[:len(all)/2]...); err != nil {
		t.Fatal(err)
	}
	now.held = now.Parts()
	draw := rand.New(rand.NewPCG(4, 7))
	for range 60 {
		before := now
		if draw.IntN(2) == 0 {
			now = now.with(t, draw, all)
		} else {
			now = now.without(t, draw)
		}
		for _, s := range []shelved{now, before} {
			whole, err := catalog.Of(s.held...)
			if err != nil {
				t.Fatal(err)
			}
			same(t, s.Catalog, whole)
		}
	}
}

// shelved is a catalogue and the parts that it must hold.
type shelved struct {
	*catalog.Catalog
	held []catalog.Part
}

// with puts in new parts, and others at another price or under another number.
func (s shelved) with(t *testing.T, draw *rand.Rand, all []catalog.Part) shelved {
	t.Helper()
	held := slices.Clone(s.held)
	var some []catalog.Part
	for _, k := range draw.Perm(len(all))[:draw.IntN(6)] {
		p, err := all[k].With(map[string]any{"sku": []string{"A", "B", "C"}[draw.IntN(3)]})
		if draw.IntN(2) == 0 {
			p, err = all[k].Priced("12.50")
		}
		if err != nil {
			t.Fatal(err)
		}
		some = append(some, p)
		if i := slices.IndexFunc(held, func(q catalog.Part) bool { return q.ID() == p.ID() }); i >= 0 {
			held[i] = p
			continue
		}
		held = append(held, p)
	}
	out, err := s.With(some...)
	if err != nil {
		t.Fatal(err)
	}
	return shelved{out, held}
}

func (s shelved) without(t *testing.T, draw *rand.Rand) shelved {
	t.Helper()
	var ids []string
	for _, k := range draw.Perm(len(s.held))[:min(draw.IntN(4), len(s.held))] {
		ids = append(ids, s.held[k].ID())
	}
	out, err := s.Without(ids...)
	if err != nil {
		t.Fatal(err)
	}
	return shelved{out, slices.DeleteFunc(slices.Clone(s.held), func(p catalog.Part) bool { return slices.Contains(ids, p.ID()) })}
}

// All faults of a change are told, and nothing is changed then.
func TestChangeFaults(t *testing.T) {
	shed, err := catalog.ReadFile("parts.yaml", []byte("parts: [{kind: chain, id: towrope, name: T, speeds: 9}]"))
	if err != nil {
		t.Fatal(err)
	}
	twice, _ := catalog.New("chain", map[string]any{"id": "twice", "speeds": 9})
	nameless, _ := catalog.New("chain", map[string]any{"speeds": 9})
	_, err = shed.With(twice, catalog.Part{}, nameless, twice)
	wantFaults(t, err, "part 2: it is no part at all", "part 3: the chain has no id", `part 4: the id "twice" is taken already, at part 1`)
	_, err = shed.Without("towropes", "towrope", "bell")
	wantFaults(t, err, `there is no part "towropes" to take out (did you mean "towrope"?)`, `there is no part "bell" to take out`)
	if shed.Len() != 1 {
		t.Errorf("%d parts are left", shed.Len())
	}
	var zero catalog.Catalog
	if c, err := zero.With(twice); err != nil || c.Len() != 1 {
		t.Errorf("an empty catalogue takes no part: %v", err)
	}
	if c, err := shed.Without("towrope", "towrope"); err != nil || c.Len() != 0 || len(c.OfKind("chain")) != 0 {
		t.Errorf("one id twice: %v", err)
	}
}

func wantFaults(t *testing.T, err error, want ...string) {
	t.Helper()
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) != len(want) {
		t.Fatalf("the faults are %v", err)
	}
	for i := range want {
		if !strings.Contains(ps[i].String(), want[i]) {
			t.Errorf("fault %d is %q, and not %q", i, ps[i], want[i])
		}
	}
}

// A price is changed alone; what is none is refused at the place of the part.
func TestPriced(t *testing.T) {
	p, err := catalog.NewAt(source.Pos{File: "stock", Line: 17}, "chain", map[string]any{"id": "a", "speeds": 9, "price": 4})
	if err != nil {
		t.Fatal(err)
	}
	q, err := p.Priced("41.50")
	if err != nil || q.Price() != "41.50" || p.Price() != "4" || q.Record() != p.Record() || q.ID() != "a" || q.Pos() != p.Pos() {
		t.Errorf("%v, %v", q, err)
	}
	if q, err = q.Priced(""); err != nil || q.Price() != "" {
		t.Errorf("the price is %q, %v", q.Price(), err)
	}
	_, err = p.Priced("4,50 EUR")
	wantFaults(t, err, "stock:17: price: a price is a number with at most two decimals")
	_, err = catalog.Part{}.Priced("4")
	wantFaults(t, err, "price: there is no part that could have a price")
}
