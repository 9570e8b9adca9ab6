package main

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// readMix reads one mix as the command line names it, and gives its tree as well.
func readMix(name string, in io.Reader, cat *catalog.Catalog) (compat.Mix, *source.Node, error) {
	file, root, err := inputTree(name, in, compat.MixLimits())
	if err != nil {
		return compat.Mix{}, nil, err
	}
	var ps source.Problems
	m := compat.ReadMixNode(root, cat, &ps)
	if err := ps.Err(); err != nil {
		if sortOf(root) == "cart" {
			err = otherSort(source.Pos{File: file}, "is a cart, not a mix", "cogcourt cart "+name+" judges it")
		}
		return compat.Mix{}, nil, err
	}
	return m, root, nil
}

// readCart reads one cart as the command line names it.
func readCart(name string, in io.Reader, cat *catalog.Catalog) (cart.Cart, error) {
	file, root, err := inputTree(name, in, cart.FileLimits())
	if err != nil {
		return cart.Cart{}, err
	}
	order, err := cart.ReadNode(root, cat)
	if err != nil && sortOf(root) == "mix" {
		err = otherSort(source.Pos{File: file}, "is a mix, not a cart", "cogcourt check "+name+" judges it")
	}
	return order, err
}

// sortOf tells a mix and a cart apart by the entries that only one of them has: of
// one that was taken for the other, each entry would be a fault of its own. It is
// empty for what is neither or has some of both.
func sortOf(root *source.Node) string {
	has := func(names ...string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return root.Get(name) != nil })
	}
	parts := root.Get("parts") // a list is that of a part file
	mix := has("mix") || parts != nil && parts.Kind == source.Map
	switch order := has("cart", "bikes", "lines"); {
	case mix && !order:
		return "mix"
	case order && !mix && parts == nil:
		return "cart"
	}
	return ""
}

// otherSort says that a file is of another sort, and what judges it.
func otherSort(at source.Pos, text, hint string) error {
	return source.Problems{{Pos: at, Code: source.WrongKind, Text: text, Hint: hint}}
}

// inputTree reads what the command line names into a tree, within the limits of what it
// is taken for.
func inputTree(name string, in io.Reader, within source.Limits) (file string, root *source.Node, err error) {
	file, text, err := input(name, in, within)
	if err != nil {
		return file, nil, err
	}
	root, err = within.Parse(file, text)
	return file, root, err
}

// input finds the text of a mix or a cart and the name to show in its faults.
func input(name string, in io.Reader, within source.Limits) (file string, text []byte, err error) {
	if demoName, ok := strings.CutPrefix(name, "demo:"); ok {
		text, ok := demo.Mix(demoName)
		if !ok {
			text, ok = demo.Order(demoName)
		}
		if !ok {
			return name, nil, noDemo(name, demoName)
		}
		return name, text, nil
	}
	if name == "-" {
		text, err = within.Read(in)
		if err != nil {
			return name, nil, unreadable("stdin", err)
		}
		return stdinName(text), text, nil
	}
	text, err = fileText(name, within)
	return name, text, err
}

func noDemo(name, demoName string) error {
	known := slices.Concat(demo.Mixes(), demo.Orders())
	hint := fact.Suggest(demoName, known)
	if hint == "" {
		hint = "known are " + strings.Join(known, ", ")
	}
	return source.Problems{{Pos: source.Pos{File: name}, Code: source.Unreadable, Text: "there is no such demo", Hint: hint}}
}

// stdinName gives what was read from standard input the ending of its format: a
// brace and a quote begin JSON, a brace and a bare name YAML in braces.
func stdinName(text []byte) string {
	const blanks = " \t\r\n"
	rest, brace := bytes.CutPrefix(bytes.TrimLeft(bytes.TrimPrefix(text, []byte("\ufeff")), blanks), []byte("{"))
	if rest = bytes.TrimLeft(rest, blanks); brace && (len(rest) == 0 || rest[0] == '"' || rest[0] == '}') {
		return "stdin.json"
	}
	return "stdin"
}
