package compat_test

import (
	"testing"

	"example.org/cogcourt/compat"
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
