package compat

import (
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// countTable is the fields of a line of what is usual by count.
var countTable = fact.NewTable(
	fact.Field{Name: "kind", Type: fact.Choice, Choices: []string{"cassette", "chain", "crankset", "chainring"}, Required: true},
	fact.Field{Name: "of", Type: fact.Wholes, Max: 16, Cap: 16},
	fact.Field{Name: "class", Type: fact.Names, Cap: 8},
	fact.Field{Name: "told", Type: fact.Names, Cap: 8},
	fact.Field{Name: "ask", Type: fact.Choice, Choices: []string{"cassette.freehub", "cassette.pitch_mm"}},
	fact.Field{Name: "largest_from", Type: fact.Whole, Max: 60},
	fact.Field{Name: "largest_below", Type: fact.Whole, Max: 60},
	fact.Field{Name: "source", Type: fact.Name, Required: true},
	ofThree("pitch_mm"), ofThree("cog_thickness_mm"), ofThree("outer_width_mm"), ofThree("inner_width_mm"), ofThree("ring_thickness_mm"),
)

// ofThree is a value with its least and most.
func ofThree(name string) fact.Field {
	return fact.Field{Name: name, Type: fact.Fractions, Min: 1, Max: 12, Cap: 3, Unit: "mm"}
}

// usualLine is one line of what is usual by count.
type usualLine struct {
	of          []float64
	class, told []string
	ask         rules.Ref
	from, below float64
	values      []usualValue
}

// usualValue is one usual fact, ready to stand in a record.
type usualValue struct {
	ref   rules.Ref
	value fact.Value
}

// usualLines reads the lines by kind, once. The file is part of the program: a test
// reads it, and a line with a fault would be left out here.
var usualLines = sync.OnceValue(func() map[*rules.Object][]usualLine {
	lines, _ := readUsualLines(usual.Counts())
	return lines
})

func readUsualLines(name string, text []byte) (map[*rules.Object][]usualLine, error) {
	root, err := source.Parse(name, text)
	if err != nil {
		return nil, err
	}
	var ps source.Problems
	out := map[*rules.Object][]usualLine{}
	for _, n := range root.Get("counts").Items {
		values := n.ReadRecord(countTable, "counts", nil, &ps)
		get := func(name string) fact.Value { i, _ := countTable.Index(name); return values[i] }
		kind, ok := catalog.Kind(get("kind").Text)
		if !ok {
			continue
		}
		line := usualLine{of: get("of").List, class: get("class").Words(), told: get("told").Words(), from: get("largest_from").Num,
			below: get("largest_below").Num}
		switch get("ask").Text {
		case "cassette.freehub":
			line.ask = cogFreehub
		case "cassette.pitch_mm":
			line.ask = cogPitch
		}
		for i, f := range countTable.Fields() {
			if v := values[i]; f.Cap == 3 && v.Known {
				line.values = append(line.values, usualValue{kind.Ref(f.Name), usualNumber(v.List, get("source").Text)})
			}
		}
		out[kind] = append(out[kind], line)
	}
	return out, ps.Err()
}

// usualNumber makes a value of usual, least and most.
func usualNumber(three []float64, source string) fact.Value {
	v := fact.Num(three[0])
	v.Usual = fact.ByCount
	return v.WithSpread(&fact.Spread{Least: three[1], Most: three[2], Source: source})
}

var (
	cogFreehub    = catalog.Cassette.Ref("freehub")
	cogPitch      = catalog.Cassette.Ref("pitch_mm")
	cogPitches    = catalog.Cassette.Ref("pitches_mm")
	cogStack      = catalog.Cassette.Ref("stack_height_mm")
	chainSpeeds   = catalog.Chain.Ref("speeds")
	cogThickness  = catalog.Cassette.Ref("cog_thickness_mm")
	chainOuter    = catalog.Chain.Ref("outer_width_mm")
	chainInner    = catalog.Chain.Ref("inner_width_mm")
	ringThickness = catalog.Crankset.Ref("ring_thickness_mm")
	ownThickness  = catalog.Chainring.Ref("ring_thickness_mm")
	chainAlso     = catalog.Chain.Ref("also_for")
	chainClass    = catalog.Chain.Ref("inner_class")
	crankSpeeds   = catalog.Crankset.Ref("speeds")
	shifterSpeeds = catalog.RearShifter.Ref("speeds")
	shifterClicks = catalog.RearShifter.Ref("clicks")
	shifterPulls  = catalog.RearShifter.Ref("pulls_mm")
	shifterDrive  = catalog.RearShifter.Ref("actuation")
)

// filler puts usual values in the places of facts that nobody stated. It writes to a
// copy of the record alone.
type filler struct {
	given, record *rules.Record
	place         int // of its kind
	room          figures.Room
}

// fill puts the facts that are usual by count where nobody stated them: into copies of
// their records, which take the places of these.
func fill(records []*rules.Record, room figures.Room) {
	for place, rec := range records {
		if rec != nil {
			records[place] = filled(place, rec, room)
		}
	}
}

// filled gives a record with what is usual by count of the part that it is of, by the
// place of its kind; itself where there is nothing.
func filled(place int, rec *rules.Record, room figures.Room) *rules.Record {
	f := filler{given: rec, record: rec, place: place, room: room}
	if place == shifterPlace {
		f.clicks()
		return f.record
	}
	for i := range filledKinds {
		kind := &filledKinds[i]
		if kind.place != place || kind.known(rec) {
			continue
		}
		lines, n := usualLines()[kind.object], kind.count(rec)
		for i := range lines {
			f.line(lines, &lines[i], n)
		}
	}
	return f.record
}

// filledKind is a kind of which something is usual by count, and how it is counted.
type filledKind struct {
	object *rules.Object
	place  int
	facts  []rules.Ref
	count  func(*rules.Record) float64
}

var filledKinds = []filledKind{
	{catalog.Cassette, kindPlace("cassette"), []rules.Ref{cogPitch, cogThickness}, func(r *rules.Record) float64 {
		if list := cogs.In(r).List; len(list) > 0 {
			return float64(len(list))
		}
		return cogCount.In(r).Num
	}},
	{catalog.Chain, kindPlace("chain"), []rules.Ref{chainOuter, chainInner}, func(r *rules.Record) float64 {
		n := chainSpeeds.In(r).Num
		if n == 0 {
			return 0
		}
		for _, also := range chainAlso.In(r).List {
			if also <= 12 { // of 13 there are two kinds
				n = max(n, also) // sold for both, it is as wide as the narrower asks
			}
		}
		return n
	}},
	{catalog.Crankset, kindPlace("crankset"), []rules.Ref{ringThickness}, func(r *rules.Record) float64 { return crankSpeeds.In(r).Num }},
	{catalog.Chainring, kindPlace("chainring"), []rules.Ref{ownThickness}, func(*rules.Record) float64 { return 0 }},
}

// known says whether all is stated that could be usual by count.
func (k *filledKind) known(rec *rules.Record) bool {
	for _, ref := range k.facts {
		if !rec.At(ref.Index).Known && !insteadOfPitch(ref, rec) {
			return false
		}
	}
	return true
}

func kindPlace(name string) int {
	i, _ := catalog.KindIndex(name)
	return i
}

// fits says whether a line is about a part with this count.
func (l *usualLine) fits(rec *rules.Record, n float64) bool {
	if l.of != nil && !slices.Contains(l.of, n) {
		return false
	}
	if l.class != nil && !slices.Contains(l.class, chainClass.In(rec).Text) {
		return false
	}
	largest := 0.0
	if list := cogsOf(rec); len(list) > 0 {
		largest = list[len(list)-1]
	}
	return largest >= l.from && (l.below == 0 || largest < l.below)
}

// cogsOf gives the teeth of a cassette, none of other parts.
func cogsOf(rec *rules.Record) []float64 {
	if rec.Object() != catalog.Cassette {
		return nil
	}
	return cogs.In(rec).List
}

// toldOther says whether the words that are stated are those of another kind of parts
// with the same count.
func (l *usualLine) toldOther(rec *rules.Record, others []usualLine, n float64) bool {
	if l.told == nil {
		return false
	}
	words := cogFreehub.In(rec).Words()
	if slices.ContainsFunc(l.told, func(w string) bool { return slices.Contains(words, w) }) {
		return false
	}
	for i := range others {
		o := &others[i]
		if o.fits(rec, n) && slices.ContainsFunc(o.told, func(w string) bool { return slices.Contains(words, w) }) {
			return true
		}
	}
	return false
}

// spacedOther says whether a stated pitch is nearer to that of another kind of parts with
// the same count, whose cogs have a thickness of their own.
func (l *usualLine) spacedOther(rec *rules.Record, others []usualLine, n float64) bool {
	if rec.Object() != catalog.Cassette || !cogPitch.In(rec).Known {
		return false
	}
	off := func(o *usualLine) float64 { return math.Abs(o.values[0].value.Num - cogPitch.In(rec).Num) }
	return slices.ContainsFunc(others, func(o usualLine) bool { return o.fits(rec, n) && off(&o) < off(l) })
}

// line fills in what one line gives.
func (f *filler) line(lines []usualLine, l *usualLine, n float64) {
	if !l.fits(f.given, n) || l.toldOther(f.given, lines, n) || l.spacedOther(f.given, lines, n) {
		return
	}
	for i := range l.values {
		v := &l.values[i]
		if !v.ref.In(f.record).Known && !insteadOfPitch(v.ref, f.given) {
			f.put(v.ref.Index, v.value)
		}
	}
}

// insteadOfPitch says whether the spacing is stated in another way than as a pitch.
func insteadOfPitch(ref rules.Ref, rec *rules.Record) bool {
	return ref == cogPitch && (cogPitches.In(rec).Known || cogStack.In(rec).Known)
}

// put puts a value into a copy of the record.
func (f *filler) put(field int, v fact.Value) {
	if f.record == f.given {
		f.record = f.given.CloneInto(f.room.At(f.place))
	}
	f.record.Put(field, v)
}

var shifterPlace = kindPlace("rear_shifter")

// clicks counts the clicks of a cable shifter that is sold for a number of cogs.
func (f *filler) clicks() {
	rec := f.given
	if shifterClicks.In(rec).Known || shifterPulls.In(rec).Known || shifterDrive.In(rec).Text == "motor" {
		return
	}
	if n := shifterSpeeds.In(rec).Num - 1; n >= 1 { // unstated it is 0
		v := fact.Num(n)
		v.Usual = fact.ByCount
		f.put(shifterClicks.Index, v)
	}
}

// drop takes out the numbers that are usual of a class, and the sets that it is published
// in: what the class is called by, such as its splines or its count, stays.
func drop(records []*rules.Record, room figures.Room) {
	for i, rec := range records {
		if rec != nil {
			records[i] = dropped(rec, room.At(i))
		}
	}
}

// dropped gives a record without these; itself where it has none.
func dropped(rec, memory *rules.Record) *rules.Record {
	out := rec
	for j, f := range rec.Object().Table().Fields() {
		v := rec.At(j)
		number := f.Type == fact.Fraction || f.Type == fact.Fractions || strings.HasPrefix(f.Name, "index_sets")
		measured := v.Spread() != nil || v.Usual == fact.ByClass && number && f.Name != "over_locknut_mm"
		if !v.Known || !measured {
			continue
		}
		if out == rec {
			out = rec.CloneInto(memory)
		}
		out.Put(j, fact.Value{})
	}
	return out
}

// figuresPlace is where the figures stand among the records.
var figuresPlace = len(catalog.Kinds())

// behind gives the stated facts that a fact hangs on: those of figures.Behind, and
// those by which they are usual where nobody stated them.
func behind(ref rules.Ref) []rules.Ref { return behindAll()[ref] }

// behindAll is behind of every fact that rules may speak of.
var behindAll = sync.OnceValue(func() map[rules.Ref][]rules.Ref {
	told := map[rules.Ref][]rules.Ref{
		cogPitch:      {cogs, cogCount, cogFreehub, cogPitches, cogStack},
		cogThickness:  {cogs, cogCount, cogFreehub, cogPitch, cogPitches, cogStack},
		chainOuter:    {chainSpeeds, chainAlso, chainClass},
		chainInner:    {chainSpeeds, chainAlso, chainClass},
		ringThickness: {crankSpeeds},
		shifterClicks: {shifterSpeeds, shifterPulls, shifterDrive},
	}
	out := map[rules.Ref][]rules.Ref{}
	for _, o := range figures.Objects() {
		for _, f := range o.Table().Fields() {
			ref := o.Ref(f.Name)
			all := slices.Clone(figures.Behind(ref))
			for _, b := range figures.Behind(ref) {
				for _, t := range told[b] {
					if !slices.Contains(all, t) {
						all = append(all, t)
					}
				}
			}
			out[ref] = all
		}
	}
	return out
})

// derive completes the facts of a rule's example: with what is usual, and the figures.
func derive(given []*rules.Record) []*rules.Record {
	records := slices.Clone(given)
	fill(records, nil)
	return figures.Complete(records)
}

// others gives the other kinds of cassettes with the same count, where the spacing is
// known by the count alone.
func others(records []*rules.Record) []rules.Other {
	place := kindPlace("cassette")
	rec := records[place]
	if v := cogPitch.In(rec); rec == nil || v.Usual != fact.ByCount || v.Spread() == nil {
		return nil
	}
	n := filledKinds[0].count(rec)
	lines := usualLines()[catalog.Cassette]
	var out []rules.Other
	mine := true
	for i := range lines {
		l := &lines[i]
		if !l.fits(rec, n) || l.toldOther(rec, lines, n) {
			continue
		}
		if mine { // the first is what stands in the record
			mine = false
			continue
		}
		out = append(out, l.other(records, place))
	}
	return out
}

// other gives the records with the values of this line in the place of usual ones.
func (l *usualLine) other(records []*rules.Record, place int) rules.Other {
	o := rules.Other{Records: slices.Clone(records), Ask: l.ask}
	rec := records[place].Clone()
	if l.ask.In(rec).Known { // by a word that tells nothing of it
		o.Ask = cogPitch
	}
	for _, v := range l.values {
		if old := v.ref.In(rec); old.Usual == fact.ByCount {
			rec.Put(v.ref.Index, v.value)
			o.Moved = append(o.Moved, v.ref)
		}
	}
	o.Records[place], o.Records[figuresPlace] = rec, nil
	o.Records = figures.Complete(o.Records)
	return o
}
