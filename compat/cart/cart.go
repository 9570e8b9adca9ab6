package cart

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// Cart is what a customer is about to buy, and the bicycles that it is for.
type Cart struct {
	Name string

	// Bikes are the customer's bicycles as they are, each with a name of its own.
	// With none, the lines make bicycles of their own: one for each name that they
	// are for, or one of all lines.
	Bikes []compat.Mix
	Lines []Line
}

// Line is one line of a cart.
type Line struct {
	ID       string // a part's id, looked for first
	SKU      string // the seller's number, which may stand for a set of parts
	Name     string // what the shop calls it, for people
	Quantity int    // 0 stands for 1
	Bike     string // the name of the bicycle that it is for; empty: find out

	pos source.Pos
}

// FileLimits are those of a cart file. They let in as many lines and bicycles as a cart
// may have, each described as fully as shops do.
func FileLimits() source.Limits {
	hint := fmt.Sprintf("a cart has at most %d lines and %d bicycles", mostLines, mostBikes)
	return source.Limits{Bytes: 1 << 20, Values: 50_000, Hint: hint}
}

// Read reads a cart file, YAML or JSON by the ending of its name. It may hold
// Entries: cart: and its name, bikes: with mixes as compat.ReadMix takes them, and
// lines: with LineEntries, an id or a sku each. What the catalogue does not
// hold is no fault: a shop sells other things too. The error is source.Problems,
// with every fault of the file.
func Read(file string, text []byte, from *catalog.Catalog) (cart Cart, err error) {
	defer rescue("reading a cart", &err)
	memory := FileLimits().Borrow()
	defer memory.Free()
	root, err := memory.Parse(file, text)
	if err != nil {
		return Cart{}, err
	}
	return readNode(root, from)
}

// ReadNode reads a cart out of the tree of its file, as Read does.
func ReadNode(root *source.Node, from *catalog.Catalog) (cart Cart, err error) {
	defer rescue("reading a cart", &err)
	return readNode(root, from)
}

func readNode(root *source.Node, from *catalog.Catalog) (Cart, error) {
	var ps source.Problems
	cart := readCart(root, from, &ps)
	if err := ps.Err(); err != nil {
		return Cart{}, err
	}
	return cart, nil
}

func readCart(root *source.Node, from *catalog.Catalog, ps *source.Problems) Cart {
	f, ok := readEntries(root, "", fileEntries(), ps)
	if !ok {
		return Cart{}
	}
	cart := Cart{Name: f.name, Bikes: readBikes(f.bikes, from, ps)}
	for _, line := range f.lines {
		cart.Lines = append(cart.Lines, readLine(line.node, line.path, ps))
	}
	return cart
}

// readBikes reads mixes that a file holds.
func readBikes(list []item, from *catalog.Catalog, ps *source.Problems) []compat.Mix {
	var out []compat.Mix
	taken := map[string]source.Pos{}
	for _, bike := range list {
		m := compat.ReadMixNode(bike.node, from, ps)
		out = append(out, m)
		if other, twice := taken[m.Name()]; twice && m.Name() != "" {
			bike.node.Refuse(ps, "bikes", fmt.Sprintf("two bicycles are called %q, the other one at %s", m.Name(), other),
				"give each a name of its own").Code = source.Twice
			continue
		}
		taken[m.Name()] = bike.node.Pos
	}
	return out
}

// readLine reads one line.
func readLine(n *source.Node, path string, ps *source.Problems) Line {
	line, ok := readEntries(n, path, lineEntries(), ps)
	if ok && !named(n) {
		n.Refuse(ps, path, "the line says not what it is", "write the part's id or the seller's number as sku").Code = source.Missing
	}
	line.pos = n.Pos
	return line
}

// faults holds a cart that a program made against the limits, and any cart
// against names that stand for two bicycles.
func (cart Cart) faults(from *catalog.Catalog) error {
	var ps source.Problems
	place := func(pos source.Pos) source.Pos {
		if pos.File == "" {
			pos.File = "cart " + cart.Name
		}
		return pos
	}
	if from == nil {
		ps.Add(place(source.Pos{}), "", "there is no catalogue to find the lines in", "load one with catalog.Load").Code = source.Missing
	}
	if len(cart.Lines) > mostLines || len(cart.Bikes) > mostBikes {
		ps.Add(place(source.Pos{}), "", fmt.Sprintf("%d lines and %d bicycles are too many", len(cart.Lines), len(cart.Bikes)),
			fmt.Sprintf("a cart has at most %d lines and %d bicycles", mostLines, mostBikes)).Code = source.TooMany
	}
	if own := len(cart.Bikes) == 0; own && len(ownBikes(cart)) > mostBikes {
		ps.Add(place(source.Pos{}), "lines", fmt.Sprintf("are for %d bicycles", len(ownBikes(cart))),
			fmt.Sprintf("a cart has at most %d", mostBikes)).Code = source.TooMany
	}
	taken := map[string]bool{}
	for _, m := range cart.Bikes {
		if taken[m.Name()] {
			ps.Add(place(source.Pos{}), "bikes", fmt.Sprintf("two bicycles are called %q", m.Name()),
				"give each a name of its own").Code = source.Twice
		}
		taken[m.Name()] = true
	}
	for i, line := range cart.Lines {
		if line.Quantity < 0 || line.Quantity > mostQuantity {
			text, hint := quantities().outOfRange(line.Quantity)
			ps.Add(place(line.pos), fmt.Sprintf("lines[%d].quantity", i), text, hint).Code = source.OutOfRange
		}
	}
	return ps.Err()
}
