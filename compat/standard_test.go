package compat_test

import (
	"encoding/json"
	"io/fs"
	"sync"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/standard"
)

// shared compiles the standard rules once: a Checker is immutable.
var shared = sync.OnceValues(func() (*compat.Checker, error) { return compat.New(compat.Config{}) })

// checker gives the checker of the standard rules.
func checker(t testing.TB) *compat.Checker {
	t.Helper()
	c, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestStandardExamples(t *testing.T) {
	wrong, ran := checker(t).Rules().Prove()
	for _, w := range wrong {
		t.Errorf("%s: %s: %s wants %s, got %s: %s", w.Example.Pos, w.Rule.ID, w.Example.Name, w.Example.Want, w.Got, w.Detail)
	}
	if ran == 0 {
		t.Error("no example was run")
	}
}

// TestStandardIsSound loads the shipped rules as if a stranger had written them:
// every condition, text, step and example is read and compiled, which New leaves
// for later, and the reports on the demo mixes are the same.
func TestStandardIsSound(t *testing.T) {
	whole, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{standard.Files()}})
	if err != nil {
		t.Fatal(err)
	}
	set, sound := whole.Rules(), checker(t).Rules()
	if set.Hash() != sound.Hash() || len(set.Rules()) != len(sound.Rules()) {
		t.Fatalf("hash %s with %d rules, the checker has %s with %d", set.Hash(), len(set.Rules()), sound.Hash(), len(sound.Rules()))
	}
	for i, r := range set.Rules() {
		if got := sound.Rules()[i]; got.ID != r.ID || len(got.Examples()) != len(r.Examples()) || len(r.Examples()) == 0 {
			t.Errorf("%s has %d examples, and %s has %d when it is read later", r.ID, len(r.Examples()), got.ID, len(got.Examples()))
		}
	}
	for _, name := range demo.Mixes() {
		m := demoMix(t, name)
		want, err := json.Marshal(whole.Check(m))
		if err != nil {
			t.Fatal(err)
		}
		got, err := json.Marshal(checker(t).Check(m))
		if err != nil || string(got) != string(want) {
			t.Errorf("%s: %v\n%s\nwhen it is read later\n%s", name, err, want, got)
		}
	}
}
