package compat

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// The twin is the whole check once more, written by hand over plain structs: a
// bike with its facts, its figures, and one function a rule. It is what a
// program would do without rule files, and holds the engine to the same answers
// and to a cost that is not far from its own.

// num, nums and word are facts; what is not stated is not known.
type num struct {
	x              float64
	known, assumed bool
}

type nums struct {
	xs             []float64
	known, assumed bool
}

type word struct {
	s              string
	known, assumed bool
}

// kindOf says which kind a part is of, and whether it is there.
type kindOf struct {
	name  string
	there bool
}

// bike is a mix as plain structs. A part that is not there is a zero one.
type bike struct {
	scope   Scope
	present [18]bool // kinds that are there, in the order of the catalog

	cassette struct {
		kindOf
		cogs, pitches                          nums
		pitch, thickness, stack, mount, spacer num
		rollers, family                        word
	}
	chain struct {
		kindOf
		speeds, outer, inner, sold num
		rollers                    word
	}
	rear struct {
		kindOf
		actuation, family, radio, rest               word
		ratio, madeForPitch, trim, add, addRest, gap num
		guideTeeth, guideRadius, maxCog, capacity    num
		ratios, steps, madeForPitches, selectable    nums
	}
	shifter struct {
		kindOf
		actuation, family, radio              word
		indexed, pull, clicks, takeUp, factor num
		pulls                                 nums
	}
	crank struct {
		kindOf
		rings, offsets nums
		line           num
		rollers        word
	}
	ring struct {
		kindOf
		rings nums
	}
	hub struct {
		kindOf
		kind                         word
		width, inset, shoulder, body num
	}
	frame struct {
		kindOf
		stay, growth, growthAtSag, idler num
		suspension                       word
	}
	wheel struct {
		kindOf
		bead, tyre num
	}
	bench struct {
		kindOf
		cogs, steps                              nums
		chain, ends, spacer, hanger, line, inset num
		position                                 word
	}
}

// bikeReader reads facts of one part by name.
type bikeReader struct {
	object *rules.Object
	record *rules.Record
}

func (r bikeReader) value(name string) source.Value { return r.object.Ref(name).In(r.record) }

func (r bikeReader) num(name string) num {
	v := r.value(name)
	return num{v.Num, v.Known, v.Assumed}
}

func (r bikeReader) nums(name string) nums {
	v := r.value(name)
	return nums{v.List, v.Known, v.Assumed}
}

func (r bikeReader) word(name string) word {
	v := r.value(name)
	return word{v.Text, v.Known, v.Assumed}
}

func (r bikeReader) kind() kindOf { return kindOf{r.object.Name(), r.record != nil} }

// bikeOf reads a mix into plain structs.
func bikeOf(m Mix) *bike {
	b := &bike{scope: m.scope}
	for i := range kindCount {
		b.present[i] = m.records[i] != nil
	}
	of := func(o *rules.Object) bikeReader {
		i, _ := catalog.KindIndex(o.Name())
		return bikeReader{o, m.records[i]}
	}
	b.readRear(of(catalog.Cassette), of(catalog.Chain), of(catalog.RearDerailleur))
	b.readShifter(of(catalog.RearShifter))
	b.readFront(of(catalog.Crankset), of(catalog.Chainring))
	b.readFrame(of(catalog.Hub), of(catalog.Frame), of(catalog.Wheel))
	b.readBench(bikeReader{bench, m.records[benchPlace]})
	return b
}

func (b *bike) readRear(cassette, chain, rear bikeReader) {
	c := &b.cassette
	c.kindOf, c.cogs, c.pitches = cassette.kind(), cassette.nums("cogs_t"), cassette.nums("pitches_mm")
	c.pitch, c.thickness, c.stack = cassette.num("pitch_mm"), cassette.num("cog_thickness_mm"), cassette.num("stack_height_mm")
	c.mount, c.spacer = cassette.num("mount_height_mm"), cassette.num("spacer_mm")
	c.rollers, c.family = cassette.word("roller_class"), cassette.word("index_family")
	h := &b.chain
	h.kindOf, h.speeds, h.sold = chain.kind(), chain.num("speeds"), chain.num("pitches")
	h.outer, h.inner, h.rollers = chain.num("outer_width_mm"), chain.num("inner_width_mm"), chain.word("roller_class")
	d := &b.rear
	d.kindOf, d.actuation, d.family = rear.kind(), rear.word("actuation"), rear.word("index_family")
	d.radio, d.rest = rear.word("radio"), rear.word("rest_cog")
	d.ratio, d.ratios, d.steps = rear.num("ratio"), rear.nums("ratios"), rear.nums("steps_mm")
	d.madeForPitch, d.madeForPitches = rear.num("made_for_pitch_mm"), rear.nums("made_for_pitches_mm")
	d.selectable, d.trim = rear.nums("steps_selectable"), rear.num("trim_step_mm")
	d.add, d.addRest, d.gap = rear.num("add_pitches"), rear.num("add_pitches_rest"), rear.num("b_gap_mm")
	d.guideTeeth, d.guideRadius = rear.num("guide_pulley_t"), rear.num("guide_pulley_tip_radius_mm")
	d.maxCog, d.capacity = rear.num("max_cog_t"), rear.num("capacity_t")
}

func (b *bike) readShifter(r bikeReader) {
	s := &b.shifter
	s.kindOf, s.actuation, s.family, s.radio = r.kind(), r.word("actuation"), r.word("index_family"), r.word("radio")
	s.indexed, s.pull, s.clicks, s.pulls = r.num("indexed"), r.num("pull_mm"), r.num("clicks"), r.nums("pulls_mm")
	s.takeUp, s.factor = r.num("first_pull_take_up_mm"), r.num("pull_factor")
}

func (b *bike) readFront(crank, ring bikeReader) {
	c := &b.crank
	c.kindOf, c.rings, c.offsets = crank.kind(), crank.nums("rings_t"), crank.nums("ring_offset_mm")
	c.line, c.rollers = crank.num("chainline_mm"), crank.word("roller_class")
	b.ring.kindOf, b.ring.rings = ring.kind(), ring.nums("rings_t")
}

func (b *bike) readFrame(hub, frame, wheel bikeReader) {
	h := &b.hub
	h.kindOf, h.kind, h.width = hub.kind(), hub.word("kind_of_hub"), hub.num("over_locknut_mm")
	h.inset, h.shoulder, h.body = hub.num("smallest_cog_inset_mm"), hub.num("shoulder_inset_mm"), hub.num("body_length_mm")
	f := &b.frame
	f.kindOf, f.stay, f.growth = frame.kind(), frame.num("chainstay_mm"), frame.num("chain_growth_mm")
	f.growthAtSag, f.idler, f.suspension = frame.num("growth_at_sag_mm"), frame.num("idler_t"), frame.word("rear_suspension")
	b.wheel.kindOf, b.wheel.bead, b.wheel.tyre = wheel.kind(), wheel.num("bead_seat_mm"), wheel.num("tyre_width_mm")
}

func (b *bike) readBench(r bikeReader) {
	m := &b.bench
	m.kindOf, m.cogs, m.steps = r.kind(), r.nums("cog_positions_mm"), r.nums("step_positions_mm")
	m.chain, m.ends, m.position = r.num("chain_pitches"), r.num("end_to_end_pitches"), r.word("position")
	m.spacer, m.hanger, m.line, m.inset = r.num("spacer_behind_mm"), r.num("hanger_error_mm"), r.num("chainline_mm"), r.num("smallest_cog_inset_mm")
}

// found is a figure of the twin: a value, or why there is none.
type found struct {
	x              float64
	xs             []float64
	known, assumed bool
	why            *tally
}

// tally gathers what a figure lacks while it is worked out.
type tally struct {
	missing, absent []string
	reason          string
	assumed         bool
}

func (t *tally) open() bool { return len(t.missing)+len(t.absent) > 0 || t.reason != "" }

// lack notes a fact that is not there.
func (t *tally) lack(k kindOf, name string) {
	if k.there {
		t.missing = joined(t.missing, k.name+"."+name)
	} else {
		t.absent = joined(t.absent, k.name)
	}
}

func (t *tally) num(k kindOf, name string, v num) float64 {
	if !v.known {
		t.lack(k, name)
	}
	t.assumed = t.assumed || v.assumed
	return v.x
}

func (t *tally) nums(k kindOf, name string, v nums) []float64 {
	if !v.known {
		t.lack(k, name)
	}
	t.assumed = t.assumed || v.assumed
	return v.xs
}

// takes reads an earlier figure; what that lacks, this one lacks.
func (t *tally) takes(f *found) *found {
	if f.known {
		t.assumed = t.assumed || f.assumed
		return f
	}
	for _, name := range f.why.missing {
		t.missing = joined(t.missing, name)
	}
	for _, name := range f.why.absent {
		t.absent = joined(t.absent, name)
	}
	t.senseless(f.why.reason)
	return f
}

func (t *tally) senseless(why string) {
	if t.reason == "" {
		t.reason = why
	}
}

func joined(to []string, name string) []string {
	for _, n := range to {
		if n == name {
			return to
		}
	}
	return append(to, name)
}
