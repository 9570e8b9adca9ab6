package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/rules/source"
)

// at gives the node of a key if it is there, and its path.
func (r *reader) at(key head) (*source.Node, path) { return r.heads[key], path{r.path, itemKeys[key]} }

// path is that of a key, which is put together only where something is wrong.
type path struct{ around, key string }

func (p path) String() string {
	if p.around == "" {
		return p.key
	}
	return p.around + "." + p.key
}

// id reads the part's own id. In a description in place Read has refused it already.
func (r *reader) id() string {
	n, at := r.at(headID)
	id, ok := r.word(n, at)
	class, named := strings.CutPrefix(id, UsualPrefix)
	switch {
	case !ok:
	case strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") != "":
		n.Refuse(r.ps, at.String(), fmt.Sprintf("%q is no id", id), "an id is made of a-z, 0-9 and -").Code = source.BadName
	case named && !r.classes:
		n.Refuse(r.ps, at.String(), "ids that begin with "+UsualPrefix+" are those of the usual classes",
			"call the part "+cmp.Or(class, "something")+", or own-"+id).Code = source.BadName
	case !named && r.classes:
		n.Refuse(r.ps, at.String(), fmt.Sprintf("the id of a class begins with %s, and %q does not", UsualPrefix, id),
			"call it "+UsualPrefix+id).Code = source.BadName
	}
	return id
}

// sku reads the seller's number.
func (r *reader) sku() string {
	n, at := r.at(headSKU)
	s, ok := r.word(n, at)
	if ok {
		r.short(n, at)
	}
	return s
}

// isWord reports whether a node may stand for an id or a seller's number: a text,
// or a plain number as it is written.
func isWord(n *source.Node) bool {
	return n != nil && n.Text != "" && (n.Kind == source.Text || n.Kind == source.Number)
}

func (r *reader) word(n *source.Node, at path) (string, bool) {
	if n == nil {
		return "", false
	}
	if text, ok := n.PlainText(); ok {
		return text, true
	}
	if n.Kind == source.Number {
		return n.Text, true
	}
	return n.ReadText(at.String(), r.ps)
}

// text reads one of the free texts.
func (r *reader) text(key head) string {
	n, at := r.at(key)
	if n == nil {
		return ""
	}
	s, ok := n.PlainText()
	if !ok {
		n.ReadText(at.String(), r.ps)
		return ""
	}
	r.short(n, at)
	return s
}

// short refuses a text that no list could show.
func (r *reader) short(n *source.Node, at path) {
	if utf8.RuneCountInString(n.Text) > MaxText {
		n.Refuse(r.ps, at.String(), fmt.Sprintf("the text is longer than %d characters", MaxText), "").Code = source.TooLarge
	}
}

// UsualPrefix is what the ids of usual classes begin with, and no others.
const UsualPrefix = "usual-"

// The bases of values.
const (
	stated   = "stated"
	measured = "measured"
	assumed  = "assumed"
	usual    = "usual"
)

// own are the bases of what somebody says of one part, in place or over it.
var own = []string{stated, measured, assumed}

// Bases lists what a part may say of where its values come from. Usual, of the
// values of a class, is for part files.
func Bases() []string { return slices.Clone(allBases) }

var allBases = []string{stated, measured, assumed, usual}

// basis reads where the values come from; a part that does not say is stated.
func (r *reader) basis() string {
	n, at := r.at(headBasis)
	if n == nil && !r.classes {
		return stated
	}
	word := ""
	if n != nil {
		text, ok := n.PlainText()
		if !ok {
			n.ReadText(at.String(), r.ps)
			return ""
		}
		word = text
	}
	switch {
	case r.classes && word != usual:
		n = cmp.Or(n, r.node)
		n.Refuse(r.ps, at.String(), "the basis of a class is usual", "write basis: usual").Code = source.Contradicts
	case slices.Contains(r.bases, word):
		return r.bases[slices.Index(r.bases, word)]
	case word == usual:
		n.Refuse(r.ps, at.String(), "usual values are for part files", "name a class by its id, or write assumed").Code = source.NoSuchChoice
	default:
		n.Refuse(r.ps, at.String(), fmt.Sprintf("there is no basis %q", word), r.ps.Suggest(word, r.bases)).Code = source.NoSuchChoice
	}
	return ""
}

const noPrice = "a price is a number with at most two decimals, and no currency"

// price reads a decimal number, written as a number or as a text.
func (r *reader) price() string {
	n, at := r.at(headPrice)
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
	n.Refuse(r.ps, at.String(), noPrice, "write 41.50, and the currency once a file").Code = source.NoNumber
	return ""
}
