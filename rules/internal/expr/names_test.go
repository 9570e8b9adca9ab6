package expr

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// TestListsOfNames holds what can be asked of a list of names, by the closures and by the
// engine.
func TestListsOfNames(t *testing.T) {
	l := boatLanguage(t)
	f := NewFrames(l, 2).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"maker": fact.Word("bob"), "makers": fact.Texts("ann", "bob"), "wet": fact.Truth(true)}))
	f.Put(1, set(l.objects[1], map[string]fact.Value{"makers": fact.Texts("bob", "cid")}))
	s := l.NewScope()
	s.Let("sewn", 0, must(t, s, "sail.makers", Value))
	s.Let("again", 1, must(t, s, "sewn", Value))
	for _, text := range []string{
		"'ann' in sail.makers", "!('cid' in sail.makers)", "sail.maker in sail.makers", "sail.maker in mast.makers",
		"sail.makers.exists(n, n == 'ann')", "!sail.makers.exists(n, n == 'cid')", "sail.makers.all(n, n != 'cid')",
		"sail.makers.exists(n, n in mast.makers)", "!sail.makers.all(n, n in mast.makers)", "sail.makers.exists(n, n.startsWith('b'))",
		"size(sail.makers) == 2", "count(mast.makers) == 2", "sail.makers[0] == 'ann'", "sail.makers.exists(n, n + '-x' == 'ann-x')",
		"'ann' in sewn", "size(again) == 2", "again.exists(n, n in mast.makers)", "size(['a', 'b', 'c']) == 3",
	} {
		p := must(t, s, text, Condition)
		if got := p.Decide(f); got.State != True {
			t.Errorf("%s: %+v", text, got)
		}
		if v, ok := decided(true), p.exec(f); v.State != True || ok.Value() != true {
			t.Errorf("%s: the engine says %v", text, ok)
		}
	}
	for _, text := range []string{"sail.makers", "sewn", "again"} {
		if got := must(t, s, text, Value).Render(f, Shortest); got != "ann, bob" {
			t.Errorf("%s is written %q", text, got)
		}
	}
	f.Put(1, nil)
	f.Renew()
	got := must(t, s, "sail.makers.exists(n, n in mast.makers)", Condition).Decide(f)
	if got.State != Undecided || len(got.Lacks) != 1 || l.Name(got.Lacks[0]) != "mast" {
		t.Errorf("without a mast: %+v", got)
	}
	if got := must(t, s, "mast.makers", Value).Render(f, Shortest); got != NotStated {
		t.Errorf("without a mast it is written %q", got)
	}
}

// TestNamesRefused holds that a text which can never be a name is refused, and
// that lists of names are kept as they are or not at all.
func TestNamesRefused(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("sewn", 0, must(t, s, "sail.makers", Value))
	for text, want := range map[string]string{
		"'Ann' in sail.makers":                               `sail.makers is never "Ann"`,
		"'Ann' in sewn":                                      `sail.makers is never "Ann"`,
		"sail.makers.exists(n, n == 'Ann')":                  `sail.makers is never "Ann"`,
		"sewn.exists(n, n in ['ann', 'a b'])":                `sail.makers is never "a b"`,
		"sail.makers == mast.makers":                         "lists are not compared for equality",
		"1 in sail.makers":                                   "in cannot take a whole number, a list of texts",
		"max(sail.makers) > 1":                               "max cannot take a list of texts",
		"sail.makers.exists(n, mast.makers.exists(m, m==n))": "a loop cannot stand within a loop",
		"sail.makers + mast.makers == sail.makers":           "+ cannot take a list of texts, a list of texts",
	} {
		p, issues := s.Compile(text, Condition)
		if p != nil || len(issues) == 0 || issues[0].Text != want {
			t.Errorf("%s: %v, want %s", text, issues, want)
		}
	}
	if _, err := NewLanguage(NewObject("sail", "A sail.", fact.NewTable(fact.Field{Name: "makers", Type: fact.Names}))); err == nil {
		t.Error("a list of names without a cap is admitted")
	}
}

// TestNamesCost holds that the bound knows how long a list of names is.
func TestNamesCost(t *testing.T) {
	cost := func(most int) uint64 {
		l, err := NewLanguage(NewObject("sail", "A sail.", fact.NewTable(
			fact.Field{Name: "makers", Type: fact.Names, Cap: most}, fact.Field{Name: "others", Type: fact.Names, Cap: most})))
		if err != nil {
			t.Fatal(err)
		}
		if p, issues := l.NewScope().Compile("sail.makers.exists(n, n in sail.others)", Condition); p != nil {
			return p.Cost()
		} else if !strings.Contains(issues[0].Text, "could take") {
			t.Fatal(issues)
		}
		return 0
	}
	if few, many := cost(10), cost(40); few == 0 || many < 8*few {
		t.Errorf("lists of 10 cost %d, of 40 cost %d: a loop over both costs by the square", few, many)
	}
	if got := cost(200); got != 0 {
		t.Errorf("two lists of 200 are admitted with %d steps", got)
	}
}

// TestNamesMutants holds which changes are made of conditions on names.
func TestNamesMutants(t *testing.T) {
	s := boatLanguage(t).NewScope()
	for text, want := range map[string][]string{
		"'ann' in sail.makers":                    {"'ann' becomes 'other-ann'"},
		"sail.makers.exists(n, n in mast.makers)": {"exists becomes all"}, // exchanged lists say the same
		"sail.makers.all(n, n in mast.makers)":    {"all becomes exists", "sail.makers and mast.makers are exchanged"},
	} {
		mutants, err := s.Mutants(text)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, m := range mutants {
			got = append(got, m.Change)
			if p, issues := s.Compile(m.Text, Condition); p == nil {
				t.Errorf("%s does not compile: %v", m.Text, issues)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
