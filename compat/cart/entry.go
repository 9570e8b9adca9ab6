package cart

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/source"
)

// The limits of a cart, which bound the time that one may take.
const (
	mostLines    = 1000
	mostBikes    = 100
	mostQuantity = 10_000
)

// Entry describes one entry of a cart file or of one of its lines: it is read,
// checked and documented from this description.
type Entry struct {
	Name string
	Type source.Kind // Text, Number for a whole one, List; Null for what nobody reads
	Doc  string      // what it is, one sentence

	// Min and Max are the range of a number, both ends included. Max is also the
	// longest that a list may be.
	Min, Max int

	Required bool // a cart without it is refused
	Names    bool // says what a line is: a line has one of these at least
}

// Entries lists what a cart file may hold. Each of its bikes is as a mix file,
// and each of its lines holds LineEntries.
func Entries() []Entry { return described(fileEntries()) }

// LineEntries lists what a line of a cart file may hold.
func LineEntries() []Entry { return described(lineEntries()) }

// entry is an Entry and where in a T it is read to: a *string, an *int or a
// *[]*source.Node, from which its type follows; nothing for what nobody reads.
type entry[T any] struct {
	Entry
	to func(into *T) any
}

// file is a cart file with its lists as they stand there.
type file struct {
	name         string
	bikes, lines []*source.Node
}

func fileEntries() []entry[file] {
	return []entry[file]{
		{Entry{Name: "cart", Doc: "What the cart is called."}, func(f *file) any { return &f.name }},
		{Entry{Name: "bikes", Max: mostBikes, Doc: "The customer's bicycles as they are, each a mix with a name of its own. " +
			"With none, the lines make bicycles of their own."}, func(f *file) any { return &f.bikes }},
		{Entry{Name: "lines", Max: mostLines, Required: true, Doc: "What is ordered, with an id or sku each."}, func(f *file) any { return &f.lines }},
		{Entry{Name: "note", Doc: "Anything that a reader should know."}, nil},
	}
}

func lineEntries() []entry[Line] {
	return []entry[Line]{
		{Entry{Name: "id", Names: true, Doc: "A part's id, looked for first."}, func(l *Line) any { return &l.ID }},
		{Entry{Name: "sku", Names: true, Doc: "The seller's number, which may stand for a set of parts."}, func(l *Line) any { return &l.SKU }},
		{Entry{Name: "name", Doc: "What the shop calls it, for people."}, func(l *Line) any { return &l.Name }},
		{Entry{Name: "quantity", Min: 1, Max: mostQuantity, Doc: "How many are ordered; 1 where it is not said."}, func(l *Line) any { return &l.Quantity }},
		{Entry{Name: "bike", Doc: "The name of the bicycle that it is for; without it, that is found out."}, func(l *Line) any { return &l.Bike }},
		{Entry{Name: "note", Doc: "Anything that a reader should know."}, nil},
	}
}

// described gives the entries with their types.
func described[T any](list []entry[T]) []Entry {
	out := make([]Entry, len(list))
	for i, e := range list {
		out[i] = e.Entry
		if e.to == nil {
			continue
		}
		switch e.to(new(T)).(type) {
		case *string:
			out[i].Type = source.Text
		case *int:
			out[i].Type = source.Number
		case *[]*source.Node:
			out[i].Type = source.List
		}
	}
	return out
}

// readEntries reads what a map holds into its places. Of a node that is no map it
// reads nothing, says so and gives false.
func readEntries[T any](n *source.Node, path string, list []entry[T], ps *source.Problems) (into T, ok bool) {
	var names []string
	for _, e := range list {
		names = append(names, e.Name)
	}
	if !n.Keys(path, ps, names...) && n.Kind != source.Map {
		return into, false
	}
	for _, e := range list {
		v, at := n.Get(e.Name), e.Name
		if path != "" {
			at = path + "." + e.Name
		}
		switch {
		case v == nil && e.Required:
			ps.Add(n.Pos, path, "the cart has no "+e.Name, "write "+e.Name+": with an id or sku each")
		case v != nil && e.to != nil:
			e.read(v, at, e.to(&into), ps)
		}
	}
	return into, true
}

// read reads one entry to its place.
func (e Entry) read(n *source.Node, path string, to any, ps *source.Problems) {
	switch to := to.(type) {
	case *string:
		*to, _ = n.ReadText(path, ps)
	case *int:
		number, ok := n.ReadWhole(path, ps)
		if ok && (number < e.Min || number > e.Max) {
			ps.Add(n.Pos, path, fmt.Sprintf("%d is no %s", number, e.Name), fmt.Sprintf("write %d to %d, or leave the line out", e.Min, e.Max))
		}
		*to = number
	case *[]*source.Node:
		items := n.ReadList(path, ps)
		if len(items) > e.Max {
			ps.Add(items[e.Max].Pos, path, fmt.Sprintf("a cart has at most %d %s", e.Max, e.Name), "")
			items = items[:e.Max]
		}
		*to = items
	}
}

// named reports whether a line says what it is.
func named(n *source.Node) bool {
	return slices.ContainsFunc(lineEntries(), func(e entry[Line]) bool { return e.Names && n.Get(e.Name) != nil })
}
