package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/source"
)

// Example states facts and what the rule must give for them.
type Example struct {
	Name    string
	Want    string   // pass, warn, fail, unknown or not_applied
	Missing []string // for unknown: the facts that must be named, if stated
	Pos     source.Pos

	given []*Record
}

// Wrong is an example that did not give what it says.
type Wrong struct {
	Rule    *Rule
	Example Example
	Got     string
	Detail  string // values read, missing facts or the error
}

var wants = []string{"pass", "warn", "fail", "unknown", "not_applied"}

// examples reads the examples of a rule.
func (l *loader) examples(path string, n *source.Node) []Example {
	path += ".examples"
	list := n.Get("examples")
	if list == nil {
		return nil
	}
	var out []Example
	for i, item := range list.ReadList(path, l.ps) {
		at := fmt.Sprintf("%s[%d]", path, i)
		if !item.Keys(at, l.ps, "name", "given", "want", "missing") {
			continue
		}
		ex := Example{Pos: item.Pos}
		ex.Name = l.text(item, at, "name")
		ex.Want = l.text(item, at, "want")
		if ex.Want != "" && !slices.Contains(wants, ex.Want) {
			l.ps.Add(item.Get("want").Pos, at+".want", fmt.Sprintf("%q is nothing that a rule gives", ex.Want), source.Suggest(ex.Want, wants))
		}
		if m := item.Get("missing"); m != nil {
			ex.Missing = m.ReadTexts(at+".missing", l.ps)
		}
		for j, name := range ex.Missing {
			if _, ok := l.set.vocabulary.Find(name); !ok {
				l.ps.Add(item.Get("missing").Items[j].Pos, at+".missing", fmt.Sprintf("no fact is called %q", name), l.suggestFact(name))
			}
		}
		ex.given = l.given(at+".given", item.Get("given"))
		out = append(out, ex)
	}
	return out
}

func (l *loader) suggestFact(name string) string {
	object, field, _ := strings.Cut(name, ".")
	i, ok := l.set.vocabulary.Place(object)
	if !ok {
		return source.Suggest(object, l.set.vocabulary.names())
	}
	return source.Suggest(field, l.set.vocabulary.objects[i].Table().Names())
}

// given reads the facts of an example, object by object.
func (l *loader) given(path string, n *source.Node) []*Record {
	records := make([]*Record, len(l.set.vocabulary.objects))
	if n == nil || !n.Keys(path, l.ps, l.set.vocabulary.names()...) {
		return records
	}
	for _, pair := range n.Pairs {
		i, _ := l.set.vocabulary.Place(pair.Key.Text)
		o := l.set.vocabulary.objects[i]
		// An example states what its rule is about; the rest of the part stays open.
		values := o.Table().Partial().Read(pair.Value, path+"."+o.Name(), nil, l.ps)
		if len(values) == len(o.Table().Fields()) {
			records[i] = o.NewRecord(values, nil)
		}
	}
	return records
}

// Examples gives the examples of a rule.
func (r *Rule) Examples() []Example { return r.examples }

// Prove runs every example of every rule and returns those that do not give what
// they say, in file order, with the number that were run.
func (s *Set) Prove() (wrong []Wrong, ran int) {
	for _, r := range s.rules {
		for _, ex := range r.examples {
			ran++
			if w, ok := s.proveOne(r, ex); !ok {
				wrong = append(wrong, w)
			}
		}
	}
	return wrong, ran
}

func (s *Set) proveOne(r *Rule, ex Example) (Wrong, bool) {
	records := ex.given
	if s.derive != nil {
		records = s.derive(records)
	}
	res := &Result{set: s, records: records}
	f := s.open(records)
	s.apply(r, f, res)
	f.Close()
	w := Wrong{Rule: r, Example: ex}
	if len(res.NotApplied) > 0 {
		na := res.NotApplied[0]
		w.Got = "not_applied"
		w.Detail = strings.TrimSpace(string(na.Reason) + " " + join(na.Names))
		return w, ex.Want == w.Got
	}
	got := res.Findings[0]
	w.Got = got.Ruled.String()
	w.Detail = cmp.Or(got.Err, res.usedLine(got))
	if got.Verdict == Unknown && got.Err == "" {
		w.Detail = "missing " + join(got.Missing)
	}
	if got.Err != "" || w.Got != ex.Want {
		return w, false
	}
	for _, m := range ex.Missing {
		if !slices.Contains(got.Missing, m) {
			return w, false
		}
	}
	return w, true
}

// usedLine prints the facts that a finding rests on.
func (res *Result) usedLine(f Finding) string {
	var parts []string
	for _, fact := range res.Used(f) {
		parts = append(parts, fact.Name+" = "+fact.Value.String())
	}
	return strings.Join(parts, ", ")
}
