package compat_test

import (
	"io/fs"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/standard"
)

// checker compiles the standard rules once a test binary.
func checker(t testing.TB) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{})
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
// every text, step and example is read and compiled, which New leaves for later.
func TestStandardIsSound(t *testing.T) {
	v, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Load(rules.Config{Vocabulary: v, Files: []fs.FS{standard.Files()}})
	if err != nil {
		t.Fatal(err)
	}
	sound := checker(t).Rules()
	if set.Hash() != sound.Hash() || len(set.Rules()) != len(sound.Rules()) {
		t.Fatalf("hash %s with %d rules, the checker has %s with %d", set.Hash(), len(set.Rules()), sound.Hash(), len(sound.Rules()))
	}
	for i, r := range set.Rules() {
		if got := sound.Rules()[i]; got.ID != r.ID || len(got.Examples()) != len(r.Examples()) || len(r.Examples()) == 0 {
			t.Errorf("%s has %d examples, and %s has %d when it is read later", r.ID, len(r.Examples()), got.ID, len(got.Examples()))
		}
	}
}
