package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Example states facts and what the rule must give for them.
type Example struct {
	Name    string
	Want    Outcome
	Missing []string // for unknown: the facts that must be named, if stated
	Pos     source.Pos

	given []*Record
}

// Given is the facts as the example states them: one record for each object of
// the vocabulary, nil for what is not there. The slice is the example's own.
func (e Example) Given() []*Record { return e.given }

// examples reads the examples of a rule.
func (l *loader) examples(path string, n *source.Node) []Example {
	path += ".examples"
	var out []Example
	named := map[string]source.Pos{}
	for i, item := range n.Get("examples").ReadMaps(path, l.ps, "name", "given", "want") {
		at := fmt.Sprintf("%s[%d]", path, i)
		if !l.keys(item, at, "name", "given", "want", "missing") {
			continue
		}
		ex := l.example(at, item)
		if other, twice := named[ex.Name]; twice && ex.Name != "" {
			text := fmt.Sprintf("two examples are called %q", ex.Name)
			item.Get("name").Refuse(l.ps, at+".name", text, "the other one is at "+other.String()).Code = source.Twice
		}
		named[ex.Name] = ex.Pos
		out = append(out, ex)
	}
	return out
}

func (l *loader) example(path string, n *source.Node) Example {
	ex := Example{Pos: n.Pos}
	ex.Name = l.text(n, path, "name")
	if want := l.text(n, path, "want"); slices.Contains(wants, want) {
		ex.Want = Outcome(slices.Index(outcomeNames[:], want))
	} else if want != "" {
		text := fmt.Sprintf("%q is nothing that a rule gives", want)
		n.Get("want").Refuse(l.ps, path+".want", text, fact.Suggest(want, wants)).Code = source.NoSuchChoice
	}
	path, given := path+".missing", path+".given"
	for _, item := range n.Get("missing").ReadList(path, l.ps) {
		name, ok := item.ReadText(path, l.ps)
		if !ok {
			continue
		}
		ex.Missing = append(ex.Missing, name)
		if _, known := l.set.vocabulary.Find(name); !known {
			item.Refuse(l.ps, path, fmt.Sprintf("no fact is called %q", name), l.suggestFact(name)).Code = source.UnknownID
		}
	}
	ex.given = l.given(given, n.Get("given"))
	return ex
}

func (l *loader) suggestFact(name string) string {
	object, field, _ := strings.Cut(name, ".")
	i, ok := l.set.vocabulary.Index(object)
	if !ok {
		return l.set.vocabulary.suggest(object)
	}
	return fact.SuggestNamed(field, l.set.vocabulary.objects[i].Table().Named())
}

// given reads the facts of an example, object by object.
func (l *loader) given(path string, n *source.Node) []*Record {
	records := make([]*Record, len(l.set.vocabulary.objects))
	before := len(*l.ps)
	if n != nil && !n.KeysNamed(path, l.ps, l.set.vocabulary.named()) {
		l.hinted(n, before, l.set.vocabulary.names())
	}
	if n == nil || n.Kind != source.Map {
		return records
	}
	for _, pair := range n.Pairs {
		i, ok := l.set.vocabulary.Index(pair.Key.Text)
		if !ok {
			continue
		}
		o := l.set.vocabulary.objects[i]
		// An example states what its rule is about; the rest of the part stays open.
		values := pair.Value.ReadRecord(l.set.vocabulary.partial[i], path+"."+o.Name(), nil, l.ps)
		if len(values) == len(o.Table().Fields()) {
			records[i] = o.NewRecord(values, nil)
		}
	}
	return records
}

// Examples gives the examples of a rule.
func (r *Rule) Examples() []Example { return r.examples() }
