package cart_test

import (
	"io/fs"
	"sync"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/compat"
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

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

// filesOf makes a file system of texts.
func filesOf(texts map[string]string) fs.FS {
	out := fstest.MapFS{}
	for name, text := range texts {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}
