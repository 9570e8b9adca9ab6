package source

import (
	"fmt"
	"path/filepath"
	"strings"
)

// The limits of a file. They allow a catalogue of 10,000 parts with a dozen
// fields and a list each, and keep the worst that a hostile file can ask for to
// a bounded amount of memory; the cost of reading is linear in the text.
const (
	MaxBytes = 8 << 20 // the size of a file
	MaxDepth = 32      // lists and maps within each other
	MaxNodes = 500_000 // values and keys together
)

// mostProblems is where a reader gives up collecting: nobody reads more, and a
// hostile file could make one for every other byte.
const mostProblems = 200

// Parse reads a file: JSON where its name ends in .json, YAML otherwise. The
// file is not opened, its name only stands in the places. The error is Problems.
func Parse(file string, text []byte) (*Node, error) {
	return rescued(file, func() (*Node, error) { return parse(file, text) })
}

// rescued makes a problem of a panic in a reader, for which there should be no
// text; the YAML parser is known to have had some.
func rescued(file string, read func() (*Node, error)) (n *Node, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			n, err = nil, Problems{{
				Pos:  Pos{File: file},
				Text: fmt.Sprintf("the reader broke down: %v", fault),
				Hint: "this is a mistake in the program; please report it with the file",
			}}
		}
	}()
	return read()
}

// parse is Parse without a safety net, for the fuzz target to see panics.
func parse(file string, text []byte) (*Node, error) {
	l, ps := admit(file, text)
	if len(ps) > 0 {
		return nil, ps.Err()
	}
	var n *Node
	if strings.EqualFold(filepath.Ext(file), ".json") {
		n, ps = parseJSON(l)
	} else {
		n, ps = parseYAML(l)
	}
	if len(ps) > 0 {
		return nil, ps.Err()
	}
	return n, nil
}
