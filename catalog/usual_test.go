package catalog

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

const classes = `parts:
  - kind: cassette
    id: usual-eleven
    name: Usual eleven
    basis: usual
    cog_count: 11
    pitch_mm: {usual: 3.78, least: 3.74, most: 3.78, source: trade-page}
    cog_thickness_mm: {usual: 1.6, least: 1.6, most: 1.6, source: memory}
    height_class: flat
  - {kind: rear_derailleur, id: usual-mechanism, name: Usual mechanism, basis: usual, actuation: cable, ratio: {usual: 1.7, least: 1.65, most: 1.75, source: trade-page}}
  - {kind: rear_derailleur, id: usual-cage, name: Usual cage, basis: usual, max_cog_t: {usual: 27, least: 26, most: 28, source: memory}}
  - {kind: rear_derailleur, id: usual-curve, name: Usual curve, basis: usual, ratios: [1.7, 1.8]}
  - {kind: rear_shifter, id: usual-lever, name: Usual lever, basis: usual, clicks: {usual: 7, least: 5, most: 7, source: memory}}
`

func loadClasses(t *testing.T) *Catalog {
	t.Helper()
	c, err := LoadUsual(fstest.MapFS{"classes.yaml": {Data: []byte(classes)}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func class(t *testing.T, id string) Part {
	t.Helper()
	p, ok := loadClasses(t).Part(id)
	if !ok {
		t.Fatalf("there is no class %s", id)
	}
	return p
}

// value gives a field of a part.
func value(p Part, field string) fact.Value {
	return p.Record().Object().Ref(field).In(p.Record())
}

// TestClasses holds what is read of a class: its spreads, its sources, and that a
// spread without a width is none.
func TestClasses(t *testing.T) {
	p := class(t, "usual-eleven")
	pitch := fact.Value{Known: true, Usual: fact.ByClass, Num: 3.78, More: &fact.More{Spread: &fact.Spread{Least: 3.74, Most: 3.78, Source: "trade-page"}}}
	for field, want := range map[string]fact.Value{
		"pitch_mm":               pitch,
		"cog_thickness_mm":       {Known: true, Usual: fact.ByClass, Num: 1.6},
		"cog_count":              {Known: true, Usual: fact.ByClass, Num: 11},
		"height_class":           {Known: true, Usual: fact.ByClass, Text: "flat"},
		"cogs_t":                 {},
		"own_lockring_small_cog": fact.Truth(false), // a default keeps its standing
	} {
		if diff := cmp.Diff(want, value(p, field)); diff != "" {
			t.Errorf("%s: %s", field, diff)
		}
	}
	for field, want := range map[string]string{"pitch_mm": "trade-page", "cog_thickness_mm": "memory", "cog_count": "", "no_such": ""} {
		if got := p.Source(field); got != want {
			t.Errorf("%s comes from %q, not from %q", field, got, want)
		}
	}
	if p.Basis() != "usual" || !p.States("pitch_mm") || p.States("own_lockring_small_cog") || p.States("no_such") {
		t.Errorf("the class is %s", p.Basis())
	}
	if (Part{}).States("pitch_mm") || (Part{}).Source("pitch_mm") != "" {
		t.Error("no part states something")
	}
}

// TestClassFiles holds what a file of classes must be, and where usual values are
// not taken.
func TestClassFiles(t *testing.T) {
	file := func(item string) fstest.MapFS {
		return fstest.MapFS{"c.yaml": {Data: []byte("parts:\n  - " + item + "\n")}}
	}
	for item, want := range map[string]string{
		"{kind: chain, id: chain-9, name: N, basis: usual}":                 "c.yaml:2:23: parts[0].id: the id of a class begins with usual-, and \"chain-9\" does not (call it usual-chain-9)",
		"{kind: chain, id: usual-chain-9, name: N, basis: stated}":          "c.yaml:2:54: parts[0].basis: the basis of a class is usual (write basis: usual)",
		"{kind: chain, id: usual-chain-9, name: N}":                         "c.yaml:2:5: parts[0].basis: the basis of a class is usual",
		"{kind: chain, id: usual-chain-9, name: N, basis: usual, spede: 9}": "did you mean \"speeds\"?",
	} {
		if _, err := LoadUsual(file(item)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s:\n%v\nwant %s", item, err, want)
		}
	}
	if _, err := New("chain", map[string]any{"id": "usual-mine"}); err == nil || !strings.Contains(err.Error(), "those of the usual classes") {
		t.Errorf("a program takes the id of a class: %v", err)
	}
	p, err := New("chain", map[string]any{"basis": "usual", "outer_width_mm": map[string]any{"usual": 6.6, "least": 6.5, "most": 7, "source": "memory"}})
	if err != nil || value(p, "outer_width_mm").Spread().Most != 7 {
		t.Errorf("a program cannot make a class of its own: %v", err)
	}
	n, _ := source.Parse("mix.yaml", []byte("{basis: usual, speeds: 9}"))
	var ps source.Problems
	if _, ok := Read("chain", n, &ps); ok || !strings.Contains(ps.Error(), "mix.yaml:1:9: chain.basis: usual values are for part files (name a class by its id, or write assumed)") {
		t.Errorf("in place: %v", ps)
	}
}

// TestMeasuredIsOwn holds that what was measured goes before what a name stands for,
// and what is only stated does not.
func TestMeasuredIsOwn(t *testing.T) {
	for _, basis := range []string{"measured", "stated", "assumed"} {
		p, err := New("rear_derailleur", map[string]any{"basis": basis, "ratio": 1.7})
		if err != nil {
			t.Fatal(err)
		}
		if v := value(p, "ratio"); v.Own != (basis == "measured") || v.Assumed != (basis == "assumed") {
			t.Errorf("%s: %+v", basis, v)
		}
		if value(p, "rest_cog").Own {
			t.Errorf("%s: a default was measured", basis)
		}
	}
}
