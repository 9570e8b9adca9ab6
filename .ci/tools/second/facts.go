package second

import (
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types/ref"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// place is where a fact stands among the records.
type place struct {
	object, field int
	kind          string
	of            fact.Type
}

// facts are the facts of one bicycle as the engine takes them. It implements the
// engine's activation.
type facts struct {
	judge   *Judge
	records []*rules.Record
	objects map[string]any
	stated  map[string]bool
	absent  map[string]bool // objects
	gaps    []*cel.AttributePatternType
	hidden  []string // facts that are assumed, and taken not to be stated
	lets    map[string]ref.Val
	held    *rules.Record // the figures before facts were moved, for those that stand by a name
}

// ResolveName gives an object, a let-name or the flags of what is stated.
func (f *facts) ResolveName(name string) (any, bool) {
	if v, ok := f.lets[name]; ok {
		return v, true
	}
	if name == flags {
		return f.stated, true
	}
	v, ok := f.objects[name]
	return v, ok
}

// Parent gives none.
func (f *facts) Parent() cel.Activation { return nil }

// factsOf makes facts of records, of all that the rules read.
func (j *Judge) factsOf(records []*rules.Record, held *rules.Record, hidden ...string) *facts {
	f := &facts{judge: j, records: records, objects: map[string]any{}, stated: map[string]bool{}, absent: map[string]bool{}, hidden: hidden, held: held}
	for i, o := range j.objects {
		f.objects[o.Name()] = map[string]any{}
		if records[i] == nil {
			f.absent[o.Name()] = true
			f.gaps = append(f.gaps, cel.AttributePattern(o.Name()))
		}
	}
	for _, name := range j.read {
		p := j.places[name]
		if f.absent[p.kind] {
			continue
		}
		v := f.value(name)
		field := strings.TrimPrefix(name, p.kind+".")
		if !v.Known || slices.Contains(hidden, name) {
			f.gaps = append(f.gaps, cel.AttributePattern(p.kind).QualString(field))
			continue
		}
		f.objects[p.kind].(map[string]any)[field] = plain(v, p.of)
		f.stated[name] = v.Usual != fact.ByCount
	}
	for _, name := range j.asked {
		if _, seen := f.stated[name]; !seen {
			p := j.places[name]
			v := f.value(name)
			f.stated[name] = !f.absent[p.kind] && v.Known && v.Usual != fact.ByCount && !slices.Contains(hidden, name)
		}
	}
	return f
}

var nothing fact.Value

// value reads a fact. A figure that stands by a name is as it was before facts moved.
func (f *facts) value(name string) *fact.Value {
	p := f.judge.places[name]
	rec := f.records[p.object]
	if f.held != nil && byName[name] {
		rec = f.held
	}
	if rec == nil {
		return &nothing
	}
	return rec.At(p.field)
}

// byName are the figures that stand by a name or by a count, and are not tried over
// what is usual.
var byName = map[string]bool{"figures.index_by_name": true, "figures.connector_against_chain": true}

// lack says why a fact has no value.
func (f *facts) lack(name string) fact.Lack {
	if f.absent[name] {
		return fact.Lack{Absent: []string{name}}
	}
	p := f.judge.places[name]
	if f.absent[p.kind] {
		return fact.Lack{Absent: []string{p.kind}}
	}
	rec := f.records[p.object]
	if f.held != nil && byName[name] {
		rec = f.held
	}
	if l := rec.Lack(p.field); len(l.Absent)+len(l.Missing) > 0 || l.Reason != "" || l.Fault != "" {
		return l
	}
	return fact.Lack{Missing: []string{name}}
}
