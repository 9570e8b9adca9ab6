package source

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source/internal/fault"
)

// ReadRecord reads a record of a table's fields from a map and gives the values
// in the table's order, always one for each field. Keys in also are left to the
// caller. Everything that a field asks for is checked; what is wrong is a
// problem at its exact place, and the field is left unstated. A nil node gives
// the defaults alone.
func (n *Node) ReadRecord(t *fact.Table, path string, also []string, ps *Problems) []fact.Value {
	r := record{table: t, node: n, path: path, ps: ps}
	values, _ := r.read(also, false)
	return values
}

// Reading says how a record is read.
type Reading struct {
	Path  string   // of the map
	Also  []string // keys that are left to the caller
	Usual bool     // as ReadUsual does, else as ReadRecord does
}

// ReadStated is ReadRecord, or ReadUsual, and tells the fields that the map states from
// those that are left to their defaults.
func (n *Node) ReadStated(t *fact.Table, how Reading, ps *Problems) (values []fact.Value, stated []bool) {
	r := record{table: t, node: n, path: how.Path, ps: ps, usual: how.Usual}
	return r.read(how.Also, true)
}

// ReadUsual is ReadRecord for the usual values of a class. Nothing is required of
// it, for a class says what its members have in common; each value is marked as
// usual by a class, and a number may go over a spread:
//
//	pitch_mm: {usual: 3.65, least: 3.55, most: 3.75, source: trade-page}
//
// The source is an id, or memory. A number by itself is one by which the class is
// told, and has no spread.
func (n *Node) ReadUsual(t *fact.Table, path string, also []string, ps *Problems) []fact.Value {
	r := record{table: t, node: n, path: path, ps: ps, usual: true}
	values, _ := r.read(also, false)
	return values
}

// read reads the whole record, and which fields are stated where that is asked for.
func (r *record) read(also []string, tell bool) (values []fact.Value, stated []bool) {
	count := len(r.table.Fields())
	r.values = make([]fact.Value, count)
	if tell {
		stated = make([]bool, count)
	}
	n := r.node
	if n != nil && n.Kind != Map {
		n.wrongKind(r.path, "a map", "", r.ps)
		return r.values, stated
	}
	memory := statedPairs.Get().(*[]Pair)
	r.pairs = slices.Grow((*memory)[:0], count)[:count]
	if n != nil {
		r.stated(also)
		r.related()
	}
	r.defaults()
	for i := range stated {
		stated[i] = r.pairs[i].Key != nil
	}
	clear(r.pairs)
	*memory, r.pairs = r.pairs, nil
	statedPairs.Put(memory)
	return r.values, stated
}

// statedPairs is memory for where the fields of a record are stated. Nothing stands in it.
var statedPairs = sync.Pool{New: func() any { return new([]Pair) }}

// record is one map on its way to be values.
type record struct {
	table  *fact.Table
	node   *Node
	path   string
	ps     *Problems
	usual  bool // of usual values
	values []fact.Value
	pairs  []Pair // where each field is stated
}

// stated reads each entry by itself.
func (r *record) stated(also []string) {
	var known []fact.Named
	suggest := func(word string) string {
		if known == nil {
			known = r.table.Named()
			for _, name := range also {
				known = append(known, fact.Named{Name: name})
			}
		}
		return fact.SuggestNamed(word, known)
	}
	for _, p := range r.node.Pairs {
		name := p.Key.Text
		if i, ok := r.table.Index(name); ok {
			r.pairs[i] = p
			r.values[i] = r.value(&r.table.Fields()[i], p.Value)
			continue
		}
		if slices.Contains(also, name) {
			continue
		}
		p.Key.unknown(r.path, suggest, r.ps)
	}
}

// related checks what fields say of each other.
func (r *record) related() {
	fields := r.table.Fields()
	for i := range fields {
		f, stated := &fields[i], r.pairs[i].Value != nil
		if f.Required && !stated {
			r.missing(f)
		}
		if f.Excludes != "" && stated {
			r.exclude(i, r.index(f.Excludes))
		}
		if f.OneLess != "" && r.values[i].Known {
			r.oneLess(i, r.index(f.OneLess))
		}
	}
}

// missing refuses a record without a field, unless another will do.
func (r *record) missing(f *fact.Field) {
	hint := f.Doc
	if f.Instead != "" {
		if r.pairs[r.index(f.Instead)].Value != nil {
			return
		}
		hint += " Where nobody knows, " + f.Instead + " will do."
	}
	if !r.usual {
		r.ps.Add(r.node.Pos, r.path, f.Name+" is missing", hint).Code = Missing
	}
}

// exclude refuses two spellings of one thing, once however many fields say so.
func (r *record) exclude(i, other int) {
	first, second := r.pairs[i].Key, r.pairs[other].Key
	if second == nil || other < i && r.table.Fields()[other].Excludes == r.table.Fields()[i].Name {
		return
	}
	if second.at < first.at || second.at == first.at && other < i {
		first, second = second, first
	}
	second.Refuse(r.ps, r.path, fmt.Sprintf("%s and %s say the same twice", first.Text, second.Text),
		fmt.Sprintf("leave one out; the other is at %s", first.Pos)).Code = Contradicts
}

func (r *record) oneLess(i, other int) {
	if !r.values[other].Known {
		return
	}
	f, have, want := r.table.Fields()[i], len(r.values[i].List), len(r.values[other].List)-1
	if have != want {
		r.pairs[i].Value.Refuse(r.ps, sub(r.path, f.Name), fmt.Sprintf("has %s, must have %d", entries(have), want),
			"one fewer than "+f.OneLess).Code = Contradicts
	}
}

// index is that of a field which another one names; the table has made sure of it.
func (r *record) index(name string) int {
	i, _ := r.table.Index(name)
	return i
}

// defaults fills what is not stated, unless the same is stated in another way.
func (r *record) defaults() {
	fields := r.table.Fields()
	for i := range fields {
		f := &fields[i]
		if f.Default == nil || r.pairs[i].Value != nil {
			continue
		}
		if f.Excludes != "" && r.pairs[r.index(f.Excludes)].Value != nil {
			continue
		}
		r.values[i] = *f.Default
	}
}

// readField reads the value of one field.
func readField(f *fact.Field, n *Node, path string, ps *Problems) fact.Value {
	switch f.Type {
	case fact.Fraction, fact.Whole:
		if num, tol, ok := n.number(path, spanOf(f), ps); ok {
			return fact.Value{Known: true, Num: num, Tol: tol}
		}
	case fact.Flag:
		if b, ok := n.ReadFlag(path, ps); ok {
			return fact.Truth(b)
		}
	case fact.Choice:
		return readChoice(f, n, path, ps)
	case fact.Name:
		if name, ok := readKnown(f, n, path, ps); ok {
			return fact.Word(name)
		}
	case fact.Names:
		return readNames(f, n, path, ps)
	case fact.Fractions, fact.Wholes:
		return readList(f, n, path, ps)
	}
	return fact.Value{}
}

// spanOf is what the numbers of a field may be.
func spanOf(f *fact.Field) span {
	return span{whole: f.Type == fact.Whole || f.Type == fact.Wholes, unit: f.Unit, min: f.Min, max: f.Max}
}

// readChoice reads one of a closed list of words. A plain number is one where it
// is written like one, such as a body for 7 cogs.
func readChoice(f *fact.Field, n *Node, path string, ps *Problems) fact.Value {
	if n.Kind != Text && (n.Kind != Number || !slices.Contains(f.Choices, n.Text)) {
		n.wrongKind(path, "a word", allChoices(f), ps)
		return fact.Value{}
	}
	if i := slices.Index(f.Choices, n.Text); i >= 0 {
		return fact.Word(f.Choices[i])
	}
	if known, ok := f.KnownName(n.Text); ok {
		return fact.Word(known)
	}
	hint := allChoices(f)
	if ps.Full() {
		hint = ""
	} else if near := fact.Nearest(n.Text, f.Choices); near != "" {
		hint = fmt.Sprintf("did you mean %q? Known are %s", near, strings.Join(f.Choices, ", "))
	}
	n.Refuse(ps, path, "no such choice: "+fault.Clip(n.Text), hint).Code = NoSuchChoice
	return fact.Value{}
}

func allChoices(f *fact.Field) string { return "write one of " + strings.Join(f.Choices, ", ") }

func entries(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}
