package source

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"example.org/cogcourt/rules/source/internal/fault"
)

// FromGo makes the tree that a file of the same content would give, from maps,
// slices, numbers, texts and flags as programs and decoders hold them: any of
// map[string]any, []any, []map[string]any, slices of numbers or strings, all
// number types, json.Number, string, bool and nil. Keys are sorted. The name
// stands for the file, every place is the whole of it, and problems tell by
// their path what they are about. The error is Problems: what is no such value,
// NaN and infinities, texts that are not UTF-8, and more values or depth than a
// file may have, which a map that holds itself comes to.
func FromGo(name string, v any) (*Node, error) { return FromGoAt(Pos{File: name}, v) }

// FromGoAt is FromGo for values that have a place of their own, such as the row of a
// table: every place is this one.
func FromGoAt(at Pos, v any) (*Node, error) {
	g := goTree{pos: at}
	n := g.node(v, "", 0)
	if err := g.ps.Err(); err != nil {
		return nil, err
	}
	return n, nil
}

type goTree struct {
	pos   Pos
	ps    Problems
	count int
}

func (g *goTree) refuse(code Code, path, text, hint string) *Node {
	g.ps.Add(g.pos, path, text, hint).Code = code
	return &Node{Pos: g.pos}
}

func (g *goTree) node(v any, path string, depth int) *Node {
	if g.count++; g.count > maxValues {
		if g.count == maxValues+1 {
			return g.refuse(TooMany, path, fmt.Sprintf("there are more than %d values", maxValues), "a map may hold itself")
		}
		return &Node{Pos: g.pos}
	}
	switch v := v.(type) {
	case nil:
		return &Node{Kind: Null, Pos: g.pos, Plain: true}
	case bool:
		return &Node{Kind: Bool, Pos: g.pos, Plain: true, Text: strconv.FormatBool(v)}
	case string:
		return g.text(v, path)
	case json.Number:
		return g.literal(string(v), path)
	case map[string]any:
		return g.mapping(v, path, depth)
	}
	if n := g.slice(v, path, depth); n != nil {
		return n
	}
	return g.number(v, path)
}

func (g *goTree) deep(path string) *Node {
	return g.refuse(TooMany, path, fmt.Sprintf("lies more than %d deep", maxDepth), "a map may hold itself")
}

func (g *goTree) text(s, path string) *Node {
	if !utf8.ValidString(s) {
		return g.refuse(Character, path, "is a text that is not UTF-8", "")
	}
	return &Node{Kind: Text, Pos: g.pos, Text: s}
}

func (g *goTree) mapping(m map[string]any, path string, depth int) *Node {
	if depth >= maxDepth {
		return g.deep(path)
	}
	n := &Node{Kind: Map, Pos: g.pos}
	for _, key := range slices.Sorted(maps.Keys(m)) {
		if g.count++; g.count > maxValues || g.ps.Full() {
			break
		}
		n.Pairs = append(n.Pairs, Pair{g.text(key, path), g.node(m[key], sub(path, key), depth+1)})
	}
	return n
}

// slice makes a list of any slice it knows, or nil of anything else.
func (g *goTree) slice(v any, path string, depth int) *Node {
	switch v := v.(type) {
	case []any:
		return list(g, v, path, depth)
	case []map[string]any:
		return list(g, v, path, depth)
	case []string:
		return list(g, v, path, depth)
	case []float64:
		return list(g, v, path, depth)
	case []float32:
		return list(g, v, path, depth)
	case []int:
		return list(g, v, path, depth)
	case []int32:
		return list(g, v, path, depth)
	case []int64:
		return list(g, v, path, depth)
	case []uint:
		return list(g, v, path, depth)
	case []json.Number:
		return list(g, v, path, depth)
	}
	return nil
}

func list[T any](g *goTree, vs []T, path string, depth int) *Node {
	if depth >= maxDepth {
		return g.deep(path)
	}
	n := &Node{Kind: List, Pos: g.pos}
	for i, v := range vs {
		if g.count > maxValues || g.ps.Full() {
			break
		}
		n.Items = append(n.Items, g.node(v, entry(path, i), depth+1))
	}
	return n
}

func (g *goTree) number(v any, path string) *Node {
	switch v := v.(type) {
	case float64:
		return g.float(v, 64, path)
	case float32:
		return g.float(float64(v), 32, path)
	case int, int8, int16, int32, int64, uint, uint8, uint16, uint32, uint64:
		return &Node{Kind: Number, Pos: g.pos, Plain: true, Text: fmt.Sprint(v)}
	}
	return g.refuse(WrongKind, path, fmt.Sprintf("is a %T, which no file can hold", v), "give a map, list, number, text or flag")
}

func (g *goTree) float(x float64, bits int, path string) *Node {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return g.refuse(NoNumber, path, "is no finite number", "leave the entry out where there is no number")
	}
	return &Node{Kind: Number, Pos: g.pos, Plain: true, Text: strconv.FormatFloat(x, 'g', -1, bits)}
}

// literal makes a number of what a JSON decoder kept as it was written.
func (g *goTree) literal(s, path string) *Node {
	if !shaped(s) {
		return g.refuse(NoNumber, path, fault.Clip(s)+" is no number", "")
	}
	if _, wrong := float(s); wrong != "" {
		return g.refuse(NoNumber, path, wrong, "")
	}
	return &Node{Kind: Number, Pos: g.pos, Plain: true, Text: s}
}
