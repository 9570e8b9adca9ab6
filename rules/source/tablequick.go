package source

import (
	"strings"

	"example.org/cogcourt/rules/fact"
)

// quickly reads a value in which nothing is wrong or unusual, without the path that only
// a problem would name. What it does not take readField reads.
func quickly(f *fact.Field, n *Node) (fact.Value, bool) {
	switch f.Type {
	case fact.Fraction, fact.Whole:
		x, ok := n.plainNumber(spanOf(f))
		return fact.Num(x), ok
	case fact.Flag:
		return fact.Truth(strings.EqualFold(n.Text, "true")), n.Kind == Bool
	case fact.Choice:
		for _, word := range f.Choices {
			if n.Kind == Text && n.Text == word {
				return fact.Word(word), true
			}
		}
	case fact.Name:
		name, ok := n.plainName(f)
		return fact.Word(name), ok
	case fact.Names:
		return quickNames(f, n)
	case fact.Fractions, fact.Wholes:
		return quickNumbers(f, n)
	}
	return fact.Value{}, false
}

// plainNumber gives a number without a tolerance that lies within a span.
func (n *Node) plainNumber(s span) (float64, bool) {
	if n.Kind != Number || !shaped(n.Text) {
		return 0, false
	}
	x, wrong := float(n.Text)
	if wrong == "" {
		wrong, _ = s.fault(x, n.Text)
	}
	return x, wrong == ""
}

// plainName gives a name that the field knows, or one that is like none that it knows.
func (n *Node) plainName(f *fact.Field) (string, bool) {
	if n.Kind != Text && n.Kind != Number || n.Text == "" || len(n.Text) > fact.MaxName || badInName(n.Text) >= 0 {
		return "", false
	}
	if known, ok := f.KnownName(n.Text); ok {
		return known, true
	}
	if len(f.Known) > 0 && f.Slip(n.Text) != "" {
		return "", false
	}
	return n.own(), true
}

func quickNames(f *fact.Field, n *Node) (fact.Value, bool) {
	if n.Kind != List {
		name, ok := n.plainName(f)
		return fact.Texts(name), ok
	}
	if len(n.Items) == 0 || f.Cap > 0 && len(n.Items) > f.Cap {
		return fact.Value{}, false
	}
	words := make([]string, len(n.Items))
	for i, item := range n.Items {
		name, ok := item.plainName(f)
		if !ok {
			return fact.Value{}, false
		}
		for _, other := range words[:i] {
			if other == name {
				return fact.Value{}, false
			}
		}
		words[i] = name
	}
	return fact.Texts(words...), true
}

func quickNumbers(f *fact.Field, n *Node) (fact.Value, bool) {
	if n.Kind != List || len(n.Items) == 0 || f.Cap > 0 && len(n.Items) > f.Cap {
		return fact.Value{}, false
	}
	list, s := make([]float64, len(n.Items)), spanOf(f)
	for i, item := range n.Items {
		x, ok := item.plainNumber(s)
		if !ok || f.Rising && i > 0 && x <= list[i-1] {
			return fact.Value{}, false
		}
		list[i] = x
	}
	v := fact.Nums(list)
	if f.Sorted {
		largestFirst(&v)
	}
	return v, true
}

// own is the text of a scalar in memory of its own: that of JSON is a piece of the
// file's text, and would keep it.
func (n *Node) own() string {
	if n.from != nil && n.from.json {
		return strings.Clone(n.Text)
	}
	return n.Text
}
