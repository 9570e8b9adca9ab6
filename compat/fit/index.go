package fit

import (
	"cmp"
	"encoding/binary"
	"errors"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Index holds the parts of a catalog as rules tell them apart: in classes of parts in
// which no rule finds a difference. It is immutable and safe for many goroutines.
type Index struct {
	checker *compat.Checker
	catalog *catalog.Catalog
	rules   []ruleReads
	kinds   []kindIndex // by the places of catalog.Kinds
}

// ruleReads is what a rule goes by, as far as parts can be exchanged.
type ruleReads struct {
	id     string
	fields [][]int // by the places of the kinds: the fields that it reads
	reach  uint64  // the kinds that it reads, or on which something was measured that it reads
}

// kindIndex is the parts of one kind.
type kindIndex struct {
	parts   []catalog.Part // in the order of the catalog
	classes []class
	shapes  []shaping // by the rules; several share one
}

// class is parts that no rule tells apart, the cheapest first, those without a price
// last; by their places among the parts of the kind.
type class struct {
	members []int32
	cost    cost // of the first
}

// shaping tells classes apart as far as one rule does: classes of one shape are the
// same to it.
type shaping struct {
	of    []int32 // by the classes; nil where the rule reads nothing of the kind
	count int
}

// errNoRules is what a search says by a Checker without rules, which decides nothing.
var errNoRules = errors.New("fit: the checker has no rules to choose by")

// NewIndex makes an index of the parts of a catalog, as the rules of a Checker see
// them. It takes time and memory once: for eight kinds of ten thousand parts each about
// as much as checking a thousand mixes. With a Checker without rules every search fails.
func NewIndex(c *compat.Checker, from *catalog.Catalog) *Index {
	ix := &Index{checker: c, catalog: from, kinds: make([]kindIndex, len(catalog.Kinds()))}
	if c.Rules() == nil {
		return ix
	}
	for _, r := range c.Rules().Rules() {
		ix.rules = append(ix.rules, readsOf(c, r))
	}
	for place, kind := range catalog.Kinds() {
		if parts := from.OfKind(kind.Name()); len(parts) > 0 {
			ix.kinds[place].fill(parts, place, ix.rules)
		}
	}
	return ix
}

// readsOf finds out what a rule goes by.
func readsOf(c *compat.Checker, r *rules.Rule) ruleReads {
	out := ruleReads{id: r.ID, fields: make([][]int, len(catalog.Kinds())), reach: places(c.Reach(r))}
	for _, ref := range c.RuleReads(r) {
		if place, ok := catalog.KindIndex(ref.Object.Name()); ok {
			out.fields[place] = append(out.fields[place], ref.Index)
		}
	}
	for _, fields := range out.fields {
		slices.Sort(fields)
	}
	return out
}

// places gives kinds as a set, by their places.
func places(kinds []string) uint64 {
	var out uint64
	for _, kind := range kinds {
		if place, ok := catalog.KindIndex(kind); ok {
			out |= 1 << place
		}
	}
	return out
}

// fill puts parts into classes, and finds the shapes of these.
func (k *kindIndex) fill(parts []catalog.Part, place int, rules []ruleReads) {
	k.parts = parts
	read := map[int]bool{}
	for _, r := range rules {
		for _, field := range r.fields[place] {
			read[field] = true
		}
	}
	k.classify(read)
	columns := k.columns(read)
	k.shapes = make([]shaping, len(rules))
	shared := map[string]shaping{}
	for i, r := range rules {
		fields := r.fields[place]
		if len(fields) == 0 {
			k.shapes[i] = shaping{count: 1}
			continue
		}
		var key []byte
		for _, f := range fields {
			key = binary.AppendUvarint(key, uint64(f))
		}
		s, ok := shared[string(key)]
		if !ok {
			list := make([][]int32, len(fields))
			for at, f := range fields {
				list[at] = columns[f]
			}
			s = shape(list)
			shared[string(key)] = s
		}
		k.shapes[i] = s
	}
}

// classify puts parts together that are equal in all that is read.
func (k *kindIndex) classify(read map[int]bool) {
	byRecord, byKey := map[*rules.Record]int{}, map[string]int{}
	var key []byte
	for i, p := range k.parts {
		rec := p.Record()
		at, ok := byRecord[rec]
		if !ok {
			key = key[:0]
			for f := range rec.Object().Table().Fields() {
				if read[f] {
					key = rec.At(f).AppendKey(key)
				}
			}
			if at, ok = byKey[string(key)]; !ok {
				at = len(k.classes)
				k.classes = append(k.classes, class{})
				byKey[string(key)] = at
			}
			byRecord[rec] = at
		}
		k.classes[at].members = append(k.classes[at].members, int32(i))
	}
	costs := make([]cost, len(k.parts))
	for i, p := range k.parts {
		costs[i] = costOf(p)
	}
	for i := range k.classes {
		c := &k.classes[i]
		slices.SortStableFunc(c.members, func(a, b int32) int { return costs[a].compare(costs[b]) })
		c.members, c.cost = slices.Clip(c.members), costs[c.members[0]]
	}
}

// columns numbers the values of each field that is read: equal values, equal numbers.
func (k *kindIndex) columns(read map[int]bool) map[int][]int32 {
	out := map[int][]int32{}
	var key []byte
	for f := range read {
		numbers := map[string]int32{}
		column := make([]int32, len(k.classes))
		for i, c := range k.classes {
			key = k.parts[c.members[0]].Record().At(f).AppendKey(key[:0])
			n, ok := numbers[string(key)]
			if !ok {
				n = int32(len(numbers))
				numbers[string(key)] = n
			}
			column[i] = n
		}
		out[f] = column
	}
	return out
}

// shape numbers the combinations of numbers in columns of one length, of which there is
// at least one.
func shape(columns [][]int32) shaping {
	of := slices.Clone(columns[0])
	for _, column := range columns[1:] {
		seen := map[[2]int32]int32{}
		for i := range of {
			pair := [2]int32{of[i], column[i]}
			n, ok := seen[pair]
			if !ok {
				n = int32(len(seen))
				seen[pair] = n
			}
			of[i] = n
		}
	}
	if len(of) == 0 {
		return shaping{of, 0}
	}
	return shaping{of, int(slices.Max(of)) + 1}
}

// cost is a price: what is known of it, and how many parts have none.
type cost struct {
	unpriced int
	cents    int64
}

func (c cost) plus(o cost) cost { return cost{c.unpriced + o.unpriced, c.cents + o.cents} }

// compare puts what has a price before what has none.
func (c cost) compare(o cost) int {
	return cmp.Or(cmp.Compare(c.unpriced, o.unpriced), cmp.Compare(c.cents, o.cents))
}

// costOf is the price that a part states.
func costOf(p catalog.Part) cost {
	cents, ok := p.Cents()
	if !ok {
		return cost{unpriced: 1}
	}
	return cost{cents: cents}
}
