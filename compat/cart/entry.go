package cart

import (
	"fmt"
	"slices"
	"strings"

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

// entry is an Entry and where in a T it is read to: a *string, an *int or an
// *[]item, from which its type follows; nothing for what nobody reads.
type entry[T any] struct {
	Entry
	to    func(into *T) any
	shown []string // of a list: the keys that a hint shows of what stands in it
}

// file is a cart file with its lists as they stand there.
type file struct {
	name         string
	bikes, lines []item
}

// item is an entry of a list and its place, such as lines[2].
type item struct {
	path string
	node *source.Node
}

func fileEntries() []entry[file] {
	return []entry[file]{
		{Entry{Name: "cart", Doc: "What the cart is called."}, func(f *file) any { return &f.name }, nil},
		{Entry{Name: "bikes", Max: mostBikes, Doc: "The customer's bicycles as they are, each a mix with a name of its own. " +
			"With none, the lines make bicycles of their own."}, func(f *file) any { return &f.bikes }, []string{"mix", "parts"}},
		{Entry{Name: "lines", Max: mostLines, Required: true, Doc: "What is ordered, with an id or sku each."},
			func(f *file) any { return &f.lines }, []string{"id", "quantity"}},
		{Entry{Name: "note", Doc: "Anything that a reader should know."}, nil, nil},
	}
}

func lineEntries() []entry[Line] {
	return []entry[Line]{
		{Entry{Name: "id", Names: true, Doc: "A part's id, looked for first."}, func(l *Line) any { return &l.ID }, nil},
		{Entry{Name: "sku", Names: true, Doc: "The seller's number, which may stand for a set of parts."},
			func(l *Line) any { return &l.SKU }, nil},
		{Entry{Name: "name", Doc: "What the shop calls it, for people."}, func(l *Line) any { return &l.Name }, nil},
		{quantities(), func(l *Line) any { return &l.Quantity }, nil},
		{Entry{Name: "bike", Doc: "The name of the bicycle that it is for; without it, that is found out."},
			func(l *Line) any { return &l.Bike }, nil},
		{Entry{Name: "note", Doc: "Anything that a reader should know."}, nil, nil},
	}
}

// quantities is the entry that carts of programs are held to as well.
func quantities() Entry {
	return Entry{Name: "quantity", Min: 1, Max: mostQuantity, Doc: "How many are ordered; 1 where it is not said."}
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
		case *[]item:
			out[i].Type = source.List
		}
	}
	return out
}

// readEntries reads what a map holds into its places. Of a node that is no map it
// reads nothing, says so and gives false.
func readEntries[T any](n *source.Node, path string, list []entry[T], ps *source.Problems) (into T, ok bool) {
	names := make([]string, len(list))
	for i := range list {
		names[i] = list[i].Name
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
			n.Refuse(ps, path, "the cart has no "+e.Name, "write "+e.Name+": with an id or sku each").Code = source.Missing
		case v != nil && e.to != nil:
			e.read(v, at, &into, ps)
		}
	}
	return into, true
}

// read reads one entry to its place.
func (e entry[T]) read(n *source.Node, path string, into *T, ps *source.Problems) {
	switch to := e.to(into).(type) {
	case *string:
		text, _ := n.ReadText(path, ps)
		*to = strings.Clone(text) // a report does not keep its cart's file
	case *int:
		number, ok := n.ReadWhole(path, ps)
		if ok && (number < e.Min || number > e.Max) {
			text, hint := e.outOfRange(number)
			n.Refuse(ps, path, text, hint).Code = source.OutOfRange
		}
		*to = number
	case *[]item:
		for i, node := range n.ReadMaps(path, ps, e.shown...) {
			if i == e.Max {
				node.Refuse(ps, path, fmt.Sprintf("a cart has at most %d %s", e.Max, e.Name), "").Code = source.TooMany
				break
			}
			*to = append(*to, item{fmt.Sprintf("%s[%d]", path, i), node})
		}
	}
}

// outOfRange says that a number is none for this entry.
func (e Entry) outOfRange(number int) (text, hint string) {
	return fmt.Sprintf("%d is no %s", number, e.Name), fmt.Sprintf("write %d to %d, or leave the line out", e.Min, e.Max)
}

// named reports whether a line says what it is.
func named(n *source.Node) bool {
	return slices.ContainsFunc(lineEntries(), func(e entry[Line]) bool { return e.Names && n.Get(e.Name) != nil })
}
