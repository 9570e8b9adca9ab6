package cart

import (
	"fmt"
	"iter"

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

// The limits of a cart, which bound the time that one may take.
const (
	mostLines    = 1000
	mostBikes    = 100
	mostQuantity = 10_000
)

// Read reads a cart file, YAML or JSON by the ending of its name: cart: and
// its name, bikes: with mixes as compat.ReadMix takes them, and lines: each with id or
// sku, and where wanted name, quantity and bike. What the catalogue does not
// hold is no fault: a shop sells other things too. The error is source.Problems,
// with every fault of the file.
func Read(file string, text []byte, from *catalog.Catalog) (cart Cart, err error) {
	defer rescue("reading a cart", &err)
	root, err := source.Parse(file, text)
	if err != nil {
		return Cart{}, err
	}
	var ps source.Problems
	cart = readCart(root, from, &ps)
	if err := ps.Err(); err != nil {
		return Cart{}, err
	}
	return cart, nil
}

func readCart(root *source.Node, from *catalog.Catalog, ps *source.Problems) Cart {
	var cart Cart
	if !root.Keys("", ps, "cart", "bikes", "lines", "note") && root.Kind != source.Map {
		return cart
	}
	if n := root.Get("cart"); n != nil {
		cart.Name, _ = n.ReadText("cart", ps)
	}
	if n := root.Get("bikes"); n != nil {
		cart.Bikes = readBikes(n.ReadMaps("bikes", ps, "mix", "parts"), from, ps)
	}
	list := root.Get("lines")
	if list == nil {
		root.Refuse(ps, "", "the cart has no lines", "write lines: with an id or sku each").Code = source.Missing
		return cart
	}
	for i, item := range list.ReadMaps("lines", ps, "id", "quantity") {
		if i == mostLines {
			item.Refuse(ps, "lines", fmt.Sprintf("a cart has at most %d lines", mostLines), "").Code = source.TooMany
			break
		}
		cart.Lines = append(cart.Lines, readLine(item, fmt.Sprintf("lines[%d]", i), ps))
	}
	return cart
}

// readBikes reads mixes that a file holds.
func readBikes(list iter.Seq2[int, *source.Node], from *catalog.Catalog, ps *source.Problems) []compat.Mix {
	var out []compat.Mix
	taken := map[string]source.Pos{}
	for i, item := range list {
		if i == mostBikes {
			item.Refuse(ps, "bikes", fmt.Sprintf("a cart has at most %d bicycles", mostBikes), "").Code = source.TooMany
			break
		}
		m := compat.ReadMixNode(item, from, ps)
		out = append(out, m)
		if other, twice := taken[m.Name()]; twice && m.Name() != "" {
			item.Refuse(ps, "bikes", fmt.Sprintf("two bicycles are called %q, the other one at %s", m.Name(), other),
				"give each a name of its own").Code = source.Twice
			continue
		}
		taken[m.Name()] = item.Pos
	}
	return out
}

// readLine reads one line.
func readLine(n *source.Node, path string, ps *source.Problems) Line {
	line := Line{Quantity: 1, pos: n.Pos}
	if !n.Keys(path, ps, "id", "sku", "name", "quantity", "bike", "note") && n.Kind != source.Map {
		return line
	}
	for key, to := range map[string]*string{"id": &line.ID, "sku": &line.SKU, "name": &line.Name, "bike": &line.Bike} {
		if v := n.Get(key); v != nil {
			*to, _ = v.ReadText(path+"."+key, ps)
		}
	}
	if n.Get("id") == nil && n.Get("sku") == nil {
		n.Refuse(ps, path, "the line says not what it is", "write the part's id or the seller's number as sku").Code = source.Missing
	}
	if v := n.Get("quantity"); v != nil {
		quantity, ok := v.ReadWhole(path+".quantity", ps)
		if ok && (quantity < 1 || quantity > mostQuantity) {
			v.Refuse(ps, path+".quantity", fmt.Sprintf("%d is no quantity", quantity),
				fmt.Sprintf("write 1 to %d, or leave the line out", mostQuantity)).Code = source.OutOfRange
		}
		line.Quantity = quantity
	}
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
			ps.Add(place(line.pos), fmt.Sprintf("lines[%d].quantity", i), fmt.Sprintf("%d is no quantity", line.Quantity),
				fmt.Sprintf("write 1 to %d, or leave the line out", mostQuantity)).Code = source.OutOfRange
		}
	}
	return ps.Err()
}
