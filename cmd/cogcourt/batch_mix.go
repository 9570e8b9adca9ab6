package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// lineFile is how a line is called while it is read: its ending makes it JSON.
const lineFile = "stdin.json"

// bareName is what a line that is a map of parts alone calls its mix.
const bareName = "unnamed"

// barePrefix makes a mix of a map of parts.
const barePrefix = `{"mix":"` + bareName + `","parts":`

// readMixLine reads a mix file that stands on one line, or the map from kinds to
// parts alone. The line is read as it is before anything is put around it: text
// behind its value must not become part of the mix.
func readMixLine(line int, text []byte, parts *catalog.Catalog) (compat.Mix, error) {
	if line > 1 && bytes.HasPrefix(text, []byte("\ufeff")) {
		return compat.Mix{}, source.Problems{{Pos: source.Pos{Line: line, Col: 1}, Text: "byte order mark U+FEFF", Hint: "delete it"}}
	}
	root, err := source.Parse(lineFile, text)
	shift := 0
	var m compat.Mix
	switch {
	case err != nil:
	case len(root.Pairs) > 0 && isKind(root.Pairs[0].Key.Text):
		shift = root.Pos.Col - 1 - len(barePrefix)
		m, err = compat.ReadMix(lineFile, append(append([]byte(barePrefix), bytes.TrimSpace(text)...), '}'), parts)
	default:
		m, err = compat.ReadMix(lineFile, text, parts)
	}
	if err != nil && sortOf(lineFile, text) == "cart" {
		err = source.Problems{{Pos: source.Pos{Col: 1}, Text: "is a cart, not a mix", Hint: "cogcourt cart judges one cart a file"}}
	}
	var ps source.Problems
	if !errors.As(err, &ps) {
		return m, err
	}
	for i := range ps {
		ps[i].Pos = source.Pos{File: "stdin", Line: line, Col: ps[i].Pos.Col + shift}
		ps[i].Text = strings.ReplaceAll(ps[i].Text, lineFile+":1:", fmt.Sprintf("stdin:%d:", line))
	}
	return m, ps
}

func isKind(name string) bool {
	_, known := catalog.Kind(name)
	return known
}
