package cart_test

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/compat"
)

// checker compiles the standard rules.
func checker(t testing.TB) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// filesOf makes a file system of texts.
func filesOf(texts map[string]string) fs.FS {
	out := fstest.MapFS{}
	for name, text := range texts {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}
