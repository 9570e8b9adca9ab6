package catalog

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/rules/source"
)

// at gives the path of a key, and its node if it is there.
func (r *reader) at(key string) (*source.Node, string) {
	if r.path == "" {
		return r.node.Get(key), key
	}
	return r.node.Get(key), r.path + "." + key
}

// id reads the part's own id. In a description in place Read has refused it already.
func (r *reader) id() string {
	n, path := r.at("id")
	id, ok := r.word(n, path)
	if ok && strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		n.Refuse(r.ps, path, fmt.Sprintf("%q is no id", id), "an id is made of a-z, 0-9 and -").Code = source.BadName
	}
	return id
}

// sku reads the seller's number.
func (r *reader) sku() string {
	n, path := r.at("sku")
	s, ok := r.word(n, path)
	if ok {
		r.short(n, path)
	}
	return s
}

// isWord reports whether a node may stand for an id or a seller's number: a text,
// or a plain number as it is written.
func isWord(n *source.Node) bool {
	return n != nil && n.Text != "" && (n.Kind == source.Text || n.Kind == source.Number)
}

func (r *reader) word(n *source.Node, path string) (string, bool) {
	if n == nil {
		return "", false
	}
	if n.Kind == source.Number {
		return n.Text, true
	}
	return n.ReadText(path, r.ps)
}

// text reads one of the free texts.
func (r *reader) text(key string) string {
	n, path := r.at(key)
	if n == nil {
		return ""
	}
	s, ok := n.ReadText(path, r.ps)
	if ok {
		r.short(n, path)
	}
	return s
}

// short refuses a text that no list could show.
func (r *reader) short(n *source.Node, path string) {
	if utf8.RuneCountInString(n.Text) > MaxText {
		n.Refuse(r.ps, path, fmt.Sprintf("the text is longer than %d characters", MaxText), "").Code = source.TooLarge
	}
}

// Bases lists what a part may say of where its values come from.
func Bases() []string { return []string{"stated", "measured", "assumed"} }

// basis reads where the values come from; a part that does not say is stated.
func (r *reader) basis() string {
	n, path := r.at("basis")
	if n == nil {
		return "stated"
	}
	word, ok := n.ReadText(path, r.ps)
	if !ok {
		return ""
	}
	known := Bases()
	for _, k := range known {
		if k == word {
			return word
		}
	}
	n.Refuse(r.ps, path, fmt.Sprintf("there is no basis %q", word), r.ps.Suggest(word, known)).Code = source.NoSuchChoice
	return ""
}

// price reads a decimal number, written as a number or as a text.
func (r *reader) price() string {
	n, path := r.at("price")
	if n == nil {
		return ""
	}
	text := n.Text
	if n.Kind == source.Number {
		text = plainDecimal(text)
	}
	if n.Kind == source.Number || n.Kind == source.Text {
		if _, ok := cents(text); ok {
			return text
		}
	}
	text = "a price is a number with at most two decimals, and no currency"
	n.Refuse(r.ps, path, text, "write 41.50, and the currency once a file").Code = source.NoNumber
	return ""
}
