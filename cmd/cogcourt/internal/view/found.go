package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Hit is one of the things that a word stands for: a kind of part, a field, or a
// word that a field may hold.
type Hit struct {
	Object *rules.Object
	Field  int        // the index of the field; -1 for the kind itself
	Value  fact.Known // with a name where the word is one that the field may hold
	Fit    fact.Fit
	By     string // the name by which it was found
}

// Found is what was found for a word, best first.
type Found struct {
	Word     string
	Hits     []Hit
	Speaking []string // where nothing was: the fields whose descriptions hold the word
}

// How much of what was found is printed.
const (
	mostWhole = 4 // things that are shown whole; of more than these each has a line
	mostNames = 8 // names of what fits less well
)

// name is what a thing is called in rules, with the value where it is one.
func (h Hit) name() string {
	if h.Field < 0 {
		return h.Object.Name()
	}
	name := h.Object.Name() + "." + h.field().Name
	if h.Value.Name != "" {
		name += " = " + h.Value.Name
	}
	return name
}

func (h Hit) field() fact.Field { return h.Object.Table().Fields()[h.Field] }

// doc says what a thing is.
func (h Hit) doc() string {
	switch {
	case h.Field < 0:
		return h.Object.Doc()
	case h.Value.Name == "":
		return h.field().Doc
	case h.Value.Doc == "":
		return "One of the words of " + h.field().Name + ". " + h.field().Doc
	}
	return knownDoc(h.Value)
}

// FoundWords prints what was found for words, as text or json.
func FoundWords(w io.Writer, found []Found, format string) error {
	if format == "json" {
		return foundJSON(w, found)
	}
	for i, f := range found {
		if i > 0 {
			fmt.Fprintln(w)
		}
		f.text(w)
	}
	return nil
}

// text prints one word: the best whole, where they are few, and the names of the
// rest. Who has the name right needs no line to say where it was found.
func (f Found) text(w io.Writer) {
	if len(f.Hits) == 0 {
		f.nothing(w)
		return
	}
	best := f.best()
	switch fit := f.Hits[0].Fit; {
	case fit == fact.NearOwn || fit == fact.NearOther:
		wrap(w, f.Word+": ", 2, "nothing is called so; nearest is "+names(best))
	case fit != fact.IsOwn:
		wrap(w, f.Word+": ", 2, names(best))
	}
	for i, h := range best {
		switch {
		case len(best) > mostWhole || h.Value.Name != "" || f.Hits[0].Fit <= fact.NearOwn && h.Field < 0:
			h.line(w)
			continue
		case i > 0 || f.Hits[0].Fit != fact.IsOwn:
			fmt.Fprintln(w)
		}
		if h.Field < 0 {
			Words(w, []*rules.Object{h.Object})
		} else {
			Word(w, h.Object, h.field())
		}
	}
	if rest := f.Hits[len(best):]; len(rest) > 0 {
		fmt.Fprintln(w)
		wrap(w, "See also: ", 10, names(rest))
	}
}

// line prints a thing in a line or two, in the columns of Words where its name is
// not too long for them.
func (h Hit) line(w io.Writer) {
	if name := h.name(); len(name) <= 29 {
		wrap(w, fmt.Sprintf("  %-29s ", name), 32, h.doc())
	} else {
		wrap(w, "  "+name+": ", 4, h.doc())
	}
}

// best are the hits that fit as well as the first.
func (f Found) best() []Hit {
	n := 1
	for n < len(f.Hits) && f.Hits[n].Fit == f.Hits[0].Fit {
		n++
	}
	return f.Hits[:n]
}

// names lists what things are called, as far as a reader would go on.
func names(hits []Hit) string {
	out := make([]string, 0, mostNames)
	for _, h := range hits[:min(len(hits), mostNames)] {
		out = append(out, h.name())
	}
	text := strings.Join(out, ", ")
	if more := len(hits) - len(out); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// nothing says that a word is no name and near none, and what speaks of it.
func (f Found) nothing(w io.Writer) {
	text := "nothing is called so, and nothing is near it"
	if n := len(f.Speaking); n > 0 {
		text += "; of it speak " + strings.Join(f.Speaking[:min(n, mostNames)], ", ")
	}
	wrap(w, f.Word+": ", 2, text+" (cogcourt words lists all)")
}

// fitNames are the words of the JSON for how something was found.
var fitNames = [...]string{"", "part of another name", "near another name", "near its name", "part of its name", "another name", "its name"}

// hitJSON is one of the things that a word stands for. Of a kind only name, kind,
// doc and kind_also are filled.
type hitJSON struct {
	wordJSON
	Value string `json:"value"`
	Fit   string `json:"fit"`
	By    string `json:"by"`
}

// foundWord is one word with what it stands for.
type foundWord struct {
	Word     string    `json:"word"`
	Found    []hitJSON `json:"found"`
	Speaking []string  `json:"mentioned_in"`
}

func foundJSON(w io.Writer, found []Found) error {
	out := make([]foundWord, len(found))
	for i, f := range found {
		out[i] = foundWord{Word: f.Word, Found: []hitJSON{}, Speaking: append([]string{}, f.Speaking...)}
		for _, h := range f.Hits {
			hit := hitJSON{Fit: fitNames[h.Fit], By: h.By, Value: h.Value.Name, wordJSON: kindOf(h.Object)}
			if h.Field >= 0 {
				hit.wordJSON = wordOf(h.Object, h.field())
			}
			if h.Value.Name != "" {
				hit.Fit = "a word that it holds"
			}
			out[i].Found = append(out[i].Found, hit)
		}
	}
	return Indented(w, out)
}
