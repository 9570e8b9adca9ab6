package compat

import (
	"fmt"
	"iter"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/source"
)

// Cart is what a customer is about to buy, and the bicycles that it is for.
type Cart struct {
	Name string

	// Bikes are the customer's bicycles as they are, each with a name of its own.
	// With none, the lines make bicycles of their own: one for each name that they
	// are for, or one of all lines.
	Bikes []Mix
	Lines []CartLine
}

// CartLine is one line of a cart, and what a CartReport says of it.
type CartLine struct {
	ID       string // a part's id, looked for first
	SKU      string // the seller's number, which may stand for a set of parts
	Name     string // what the shop calls it, for people
	Quantity int    // 0 stands for 1
	Bike     string // the name of the bicycle that it is for; empty: find out

	// Of a report's line:
	Use   string   // fitted, spare, ambiguous, or ignored: it is no drivetrain part
	Bikes []string // the bicycles that it is fitted to
	Spare int      // how many of the quantity are left over
	Note  string   // why, in one sentence; empty where it goes without saying

	pos source.Pos
}

// The uses of a line.
const (
	useFitted    = "fitted"
	useSpare     = "spare"
	useAmbiguous = "ambiguous"
	useIgnored   = "ignored"
)

// The limits of a cart, which bound the time that one may take.
const (
	mostLines    = 1000
	mostBikes    = 100
	mostQuantity = 10_000
)

// ReadCart reads a cart file, YAML or JSON by the ending of its name: cart: and
// its name, bikes: with mixes as ReadMix takes them, and lines: each with id or
// sku, and where wanted name, quantity and bike. What the catalogue does not
// hold is no fault: a shop sells other things too. The error is source.Problems,
// with every fault of the file.
func ReadCart(file string, text []byte, from *catalog.Catalog) (cart Cart, err error) {
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
		ps.Add(root.Pos, "", "the cart has no lines", "write lines: with an id or sku each")
		return cart
	}
	for i, item := range list.ReadMaps("lines", ps, "id", "quantity") {
		if i == mostLines {
			ps.Add(item.Pos, "lines", fmt.Sprintf("a cart has at most %d lines", mostLines), "")
			break
		}
		cart.Lines = append(cart.Lines, readLine(item, fmt.Sprintf("lines[%d]", i), ps))
	}
	return cart
}

// readBikes reads mixes that a file holds.
func readBikes(list iter.Seq2[int, *source.Node], from *catalog.Catalog, ps *source.Problems) []Mix {
	var out []Mix
	taken := map[string]source.Pos{}
	for i, item := range list {
		if i == mostBikes {
			ps.Add(item.Pos, "bikes", fmt.Sprintf("a cart has at most %d bicycles", mostBikes), "")
			break
		}
		r := mixReader{from: from, mix: emptyMix("", ScopeCart)}
		r.read(item)
		r.mix.loose = looseFacts(r.mix.records)
		ps.Join(r.ps)
		out = append(out, r.mix)
		if other, twice := taken[r.mix.name]; twice && r.mix.name != "" {
			ps.Add(item.Pos, "bikes", fmt.Sprintf("two bicycles are called %q, the other one at %s", r.mix.name, other), "give each a name of its own")
			continue
		}
		taken[r.mix.name] = item.Pos
	}
	return out
}

// readLine reads one line.
func readLine(n *source.Node, path string, ps *source.Problems) CartLine {
	line := CartLine{Quantity: 1, pos: n.Pos}
	if !n.Keys(path, ps, "id", "sku", "name", "quantity", "bike", "note") && n.Kind != source.Map {
		return line
	}
	for key, to := range map[string]*string{"id": &line.ID, "sku": &line.SKU, "name": &line.Name, "bike": &line.Bike} {
		if v := n.Get(key); v != nil {
			*to, _ = v.ReadText(path+"."+key, ps)
		}
	}
	if n.Get("id") == nil && n.Get("sku") == nil {
		ps.Add(n.Pos, path, "the line says not what it is", "write the part's id or the seller's number as sku")
	}
	if v := n.Get("quantity"); v != nil {
		quantity, ok := v.ReadWhole(path+".quantity", ps)
		if ok && (quantity < 1 || quantity > mostQuantity) {
			ps.Add(v.Pos, path+".quantity", fmt.Sprintf("%d is no quantity", quantity), fmt.Sprintf("write 1 to %d, or leave the line out", mostQuantity))
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
		ps.Add(place(source.Pos{}), "", "there is no catalogue to find the lines in", "load one with catalog.Load")
	}
	if len(cart.Lines) > mostLines || len(cart.Bikes) > mostBikes {
		ps.Add(place(source.Pos{}), "", fmt.Sprintf("%d lines and %d bicycles are too many", len(cart.Lines), len(cart.Bikes)),
			fmt.Sprintf("a cart has at most %d lines and %d bicycles", mostLines, mostBikes))
	}
	taken := map[string]bool{}
	for _, m := range cart.Bikes {
		if taken[m.name] {
			ps.Add(place(source.Pos{}), "bikes", fmt.Sprintf("two bicycles are called %q", m.name), "give each a name of its own")
		}
		taken[m.name] = true
	}
	for i, line := range cart.Lines {
		if line.Quantity < 0 || line.Quantity > mostQuantity {
			ps.Add(place(line.pos), fmt.Sprintf("lines[%d].quantity", i), fmt.Sprintf("%d is no quantity", line.Quantity), fmt.Sprintf("write 1 to %d, or leave the line out", mostQuantity))
		}
	}
	return ps.Err()
}
