package source

import (
	"fmt"
	"path/filepath"
	"strings"
)

// maxDepth is how deep lists and maps may lie within each other.
const maxDepth = 32

// Parse reads a file within the widest limits: JSON where its name ends in .json, YAML
// otherwise. The file is not opened, its name only stands in the places. The error is
// Problems.
func Parse(file string, text []byte) (*Node, error) { return Limits{}.Parse(file, text) }

// Parse reads a file, as the function Parse does, within these limits.
func (m Limits) Parse(file string, text []byte) (*Node, error) {
	return rescued(Pos{File: file}, func() (*Node, error) { return m.parse(file, text, nil) })
}

// ParseLine reads one value of JSON that stands alone on a line of a file, as in
// JSONL, within the widest limits. Every place is on that line, and columns count from
// its begin. The error is Problems.
func ParseLine(file string, line int, text []byte) (*Node, error) {
	return Limits{}.parseLine(file, line, text, nil)
}

func (m Limits) parseLine(file string, line int, text []byte, lent *Memory) (*Node, error) {
	whole := Pos{File: file, Line: max(line, 1), Col: 1}
	return rescued(whole, func() (*Node, error) {
		l, ps := m.admit(whole, text)
		l.lend(lent)
		return parseWith(l, ps, parseJSON)
	})
}

// rescued makes a problem of a panic in a reader, for which there should be no
// text; the YAML parser is known to have had some.
func rescued(whole Pos, read func() (*Node, error)) (n *Node, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			n, err = nil, Problems{{
				Pos:  whole,
				Code: Internal,
				Text: fmt.Sprintf("the reader broke down: %v", fault),
				Hint: "this is a mistake in the program; please report it with the file",
			}}
		}
	}()
	return read()
}

// parse is Parse without a safety net, for the fuzz target to see panics.
func (m Limits) parse(file string, text []byte, lent *Memory) (*Node, error) {
	l, ps := m.admit(Pos{File: file}, text)
	l.lend(lent)
	if strings.EqualFold(filepath.Ext(file), ".json") {
		return parseWith(l, ps, parseJSON)
	}
	return parseWith(l, ps, parseYAML)
}

// parseWith reads a text in which no character was refused.
func parseWith(l *layout, ps Problems, format func(*layout) (*Node, Problems)) (*Node, error) {
	if len(ps) > 0 {
		return nil, ps.Err()
	}
	n, ps := format(l)
	if len(ps) > 0 {
		return nil, ps.Err()
	}
	return n, nil
}
