package compat_test

import (
	"io/fs"
	"testing/fstest"
)

// filesOf makes a file system of texts.
func filesOf(texts map[string]string) fs.FS {
	out := fstest.MapFS{}
	for name, text := range texts {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}
