package prove

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Proposal is an example that an author may write.
type Proposal struct {
	Text string        // what it changes of which example
	Want rules.Outcome // what it must want
	YAML string        // the whole example, as it stands in the list of a rule file
}

// String says the proposal in one sentence; a nil one is empty.
func (p *Proposal) String() string {
	if p == nil {
		return ""
	}
	return p.Text + "; want: " + p.Want.String()
}

// difference is one fact, or one object, that is stated otherwise than in an
// example.
type difference struct {
	name  string
	value string
	gone  bool
}

func (d difference) String() string {
	if d.gone {
		return "without " + d.name
	}
	return d.name + ": " + d.value
}

// differences lists what is stated otherwise, in the order of the vocabulary.
func differences(set *rules.Set, was, now []*rules.Record) []difference {
	var out []difference
	for i, o := range set.Vocabulary().Objects() {
		if was[i] != nil && now[i] == nil {
			out = append(out, difference{name: o.Name(), gone: true})
			continue
		}
		for j := range o.Table().Fields() {
			ref := rules.Ref{Object: o, Index: j}
			a, b := ref.In(was[i]), ref.In(now[i])
			if a.Known != b.Known || a.Known && !same(a, b) {
				out = append(out, difference{name: ref.String(), value: written(ref.Field(), b), gone: !b.Known})
			}
		}
	}
	return out
}

// same says whether two values say the same.
func same(a, b fact.Value) bool {
	return a.Num == b.Num && a.Text == b.Text && slices.Equal(a.List, b.List) && slices.Equal(a.Words(), b.Words()) &&
		a.Tol == b.Tol && slices.Equal(a.Tols(), b.Tols())
}

// number writes a number with its tolerance as files have it.
func number(x, tol float64) string {
	out := strconv.FormatFloat(x, 'f', -1, 64)
	if tol != 0 {
		out += " ± " + strconv.FormatFloat(tol, 'f', -1, 64)
	}
	return out
}

// word writes a name: in quotes where a file would take it for something else.
func word(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' || slices.Contains([]string{"y", "n", "yes", "no", "on", "off", "true", "false", "null"}, s) {
		return strconv.Quote(s)
	}
	return s
}

// written is a value as files have it.
func written(f fact.Field, v fact.Value) string {
	switch f.Type {
	case fact.Flag:
		return strconv.FormatBool(v.Num != 0)
	case fact.Choice, fact.Name:
		return word(v.Text)
	case fact.Fraction, fact.Whole:
		return number(v.Num, v.Tol)
	}
	var parts []string
	for _, w := range v.Words() {
		parts = append(parts, word(w))
	}
	for i, x := range v.List {
		tol := 0.0
		if v.Tols() != nil {
			tol = v.Tols()[i]
		}
		parts = append(parts, number(x, tol))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// propose makes an example of facts, and reads it as a rule file would be read.
// It is nil where the example would not load; the facts are those that were read.
func (x *explorer) propose(like rules.Example, given []*rules.Record) (*Proposal, []*rules.Record) {
	diffs := differences(x.set, like.Given(), given)
	texts := make([]string, len(diffs))
	for i, d := range diffs {
		if texts[i] = d.String(); !d.gone {
			texts[i] = "with " + texts[i]
		}
	}
	change := strings.Join(texts, " and ")
	p := &Proposal{Text: "like " + strconv.Quote(like.Name) + ", " + change}
	body := x.given(given)
	read, ok := x.read("given: " + body)
	if !ok {
		return nil, nil
	}
	p.Want, _ = x.set.Gives(x.rule, read, x.set.Complete(read))
	name, err := json.Marshal(like.Name + ", " + change)
	if err != nil {
		return nil, nil
	}
	p.YAML = "- {name: " + string(name) + ", given: " + body + ", want: " + p.Want.String() + "}"
	return p, read
}

// given writes records as the given: of an example, in one line. What a field
// holds by default is left out.
func (x *explorer) given(records []*rules.Record) string {
	var objects []string
	for i, o := range x.set.Vocabulary().Objects() {
		if records[i] == nil {
			continue
		}
		var fields []string
		for j, f := range o.Table().Fields() {
			v := records[i].Value(j)
			if v.Known && (f.Default == nil || !same(v, *f.Default)) {
				fields = append(fields, f.Name+": "+written(f, v))
			}
		}
		objects = append(objects, o.Name()+": {"+strings.Join(fields, ", ")+"}")
	}
	return "{" + strings.Join(objects, ", ") + "}"
}

// read reads such a line. It is not ok where anything is wrong with it.
func (x *explorer) read(text string) ([]*rules.Record, bool) {
	root, err := source.Parse("example.yaml", []byte(text+"\n"))
	if err != nil {
		return nil, false
	}
	var ps source.Problems
	objects := x.set.Vocabulary().Objects()
	out := make([]*rules.Record, len(objects))
	for i, o := range objects {
		if n := root.Get("given").Get(o.Name()); n != nil {
			out[i] = o.NewRecord(n.ReadRecord(o.Table().Partial(), o.Name(), nil, &ps), nil)
		}
	}
	return out, len(ps) == 0
}
