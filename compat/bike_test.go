package compat

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// The twin is the whole check once more, written by hand over plain structs: a
// bike with its facts, its figures, and one function a rule. It is what a
// program would do without rule files, and holds the engine to the same answers
// and to a cost that is not far from its own.

// twinNum, twinNums and twinWord are facts; what is not stated is not known.
type twinNum struct {
	x              float64
	known, assumed bool
}

type twinNums struct {
	xs             []float64
	known, assumed bool
}

type twinWord struct {
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
		cogs, pitches                          twinNums
		pitch, thickness, stack, mount, spacer twinNum
		ownLockring, assistRated, overhang     twinNum
		rollers, family, freehub               twinWord
	}
	chain struct {
		kindOf
		speeds, outer, inner, sold, strength twinNum
		extended, directional, assistRated   twinNum
		rollers                              twinWord
	}
	connector struct {
		kindOf
		speeds, directional twinNum
	}
	rear struct {
		kindOf
		actuation, family, radio, rest, mount, cell, clutch twinWord
		ratio, madeForPitch, trim, add, addRest, gap        twinNum
		guideTeeth, guideRadius, maxCog, capacity           twinNum
		gauge, minLargest, trimRange, maxFront              twinNum
		torque, cellMax, float, offset, cage                twinNum
		ratios, steps, madeForPitches, selectable           twinNums
	}
	shifter struct {
		kindOf
		actuation, family, radio, cell        twinWord
		indexed, pull, clicks, takeUp, factor twinNum
		singleStep, cellMax                   twinNum
		pulls                                 twinNums
	}
	crank struct {
		kindOf
		rings, offsets                              twinNums
		line, thickness, extended, narrowWide, oval twinNum
		rollers                                     twinWord
	}
	ring struct {
		kindOf
		rings                                 twinNums
		narrowWide, thickness, extended, oval twinNum
	}
	guide struct {
		kindOf
		largest twinNum
	}
	link struct {
		kindOf
		gives twinWord
	}
	hub struct {
		kindOf
		kind, freehub, axle                          twinWord
		width, inset, shoulder, body, minCog, spokes twinNum
	}
	frame struct {
		kindOf
		stay, growth, growthAtSag, idler, width twinNum
		suspension, assist, use, hanger         twinWord
	}
	wheel struct {
		kindOf
		bead, tyre twinNum
	}
	cell struct {
		kindOf
		form, chemistry twinWord
		volts, primary  twinNum
	}
	charger struct {
		kindOf
		chemistry  twinWord
		minC, maxC twinNum
	}
	bench struct {
		kindOf
		cogs, steps                              twinNums
		chain, ends, spacer, hanger, line, inset twinNum
		gap, wear, torque                        twinNum
		position                                 twinWord
	}
}

// bikeReader reads facts of one part by name.
type bikeReader struct {
	object *rules.Object
	record *rules.Record
}

func (r bikeReader) value(name string) fact.Value { return r.object.Ref(name).In(r.record) }

func (r bikeReader) num(name string) twinNum {
	v := r.value(name)
	return twinNum{v.Num, v.Known, v.Assumed}
}

func (r bikeReader) nums(name string) twinNums {
	v := r.value(name)
	return twinNums{v.List, v.Known, v.Assumed}
}

func (r bikeReader) word(name string) twinWord {
	v := r.value(name)
	return twinWord{v.Text, v.Known, v.Assumed}
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
	b.readCogs(of(catalog.Cassette), of(catalog.Chain), of(catalog.ChainConnector))
	b.readRear(of(catalog.RearDerailleur))
	b.readShifter(of(catalog.RearShifter))
	b.readFront(of(catalog.Crankset), of(catalog.Chainring))
	b.readFrame(of(catalog.Hub), of(catalog.Frame), of(catalog.Wheel))
	guide, link := of(catalog.ChainGuide), of(catalog.HangerLink)
	b.guide.kindOf, b.guide.largest = guide.kind(), guide.num("ring_max_t")
	b.link.kindOf, b.link.gives = link.kind(), link.word("gives_hanger")
	b.readPower(of(catalog.Cell), of(catalog.Charger))
	b.readBench(bikeReader{bench, m.records[benchPlace]})
	return b
}

func (b *bike) readCogs(cassette, chain, connector bikeReader) {
	c := &b.cassette
	c.kindOf, c.cogs, c.pitches = cassette.kind(), cassette.nums("cogs_t"), cassette.nums("pitches_mm")
	c.pitch, c.thickness, c.stack = cassette.num("pitch_mm"), cassette.num("cog_thickness_mm"), cassette.num("stack_height_mm")
	c.mount, c.spacer, c.freehub = cassette.num("mount_height_mm"), cassette.num("spacer_mm"), cassette.word("freehub")
	c.rollers, c.family = cassette.word("roller_class"), cassette.word("index_family")
	c.ownLockring, c.assistRated, c.overhang = cassette.num("own_lockring_small_cog"), cassette.num("assist_rated"), cassette.num("overhang_mm")
	h := &b.chain
	h.kindOf, h.speeds, h.sold, h.strength = chain.kind(), chain.num("speeds"), chain.num("pitches"), chain.num("strength_n")
	h.outer, h.inner, h.rollers = chain.num("outer_width_mm"), chain.num("inner_width_mm"), chain.word("roller_class")
	h.extended, h.directional, h.assistRated = chain.num("extended_inner_plates"), chain.num("directional"), chain.num("assist_rated")
	n := &b.connector
	n.kindOf, n.speeds, n.directional = connector.kind(), connector.num("speeds"), connector.num("directional")
}

func (b *bike) readRear(r bikeReader) {
	d := &b.rear
	d.kindOf, d.actuation, d.family = r.kind(), r.word("actuation"), r.word("index_family")
	d.radio, d.rest, d.mount, d.clutch = r.word("radio"), r.word("rest_cog"), r.word("mount"), r.word("clutch")
	d.ratio, d.ratios, d.steps = r.num("ratio"), r.nums("ratios"), r.nums("steps_mm")
	d.madeForPitch, d.madeForPitches = r.num("made_for_pitch_mm"), r.nums("made_for_pitches_mm")
	d.selectable, d.trim, d.trimRange = r.nums("steps_selectable"), r.num("trim_step_mm"), r.num("trim_range_mm")
	d.add, d.addRest, d.gap, d.gauge = r.num("add_pitches"), r.num("add_pitches_rest"), r.num("b_gap_mm"), r.num("b_gap_gauge_step_mm")
	d.guideTeeth, d.guideRadius = r.num("guide_pulley_t"), r.num("guide_pulley_tip_radius_mm")
	d.maxCog, d.minLargest, d.capacity, d.maxFront = r.num("max_cog_t"), r.num("min_largest_cog_t"), r.num("capacity_t"), r.num("max_front_difference_t")
	d.torque, d.cell, d.cellMax = r.num("mount_torque_nm"), r.word("cell"), r.num("cell_max_v")
	d.float, d.offset, d.cage = r.num("guide_pulley_float_mm"), r.num("guide_offset_mm"), r.num("cage_length_mm")
}

func (b *bike) readShifter(r bikeReader) {
	s := &b.shifter
	s.kindOf, s.actuation, s.family, s.radio = r.kind(), r.word("actuation"), r.word("index_family"), r.word("radio")
	s.indexed, s.pull, s.clicks, s.pulls = r.num("indexed"), r.num("pull_mm"), r.num("clicks"), r.nums("pulls_mm")
	s.takeUp, s.factor, s.singleStep = r.num("first_pull_take_up_mm"), r.num("pull_factor"), r.num("single_step")
	s.cell, s.cellMax = r.word("cell"), r.num("cell_max_v")
}

func (b *bike) readFront(crank, ring bikeReader) {
	c := &b.crank
	c.kindOf, c.rings, c.offsets = crank.kind(), crank.nums("rings_t"), crank.nums("ring_offset_mm")
	c.line, c.rollers, c.thickness = crank.num("chainline_mm"), crank.word("roller_class"), crank.num("ring_thickness_mm")
	c.extended, c.narrowWide, c.oval = crank.num("extended_inner_plates"), crank.num("narrow_wide"), crank.num("oval_percent")
	g := &b.ring
	g.kindOf, g.rings, g.narrowWide = ring.kind(), ring.nums("rings_t"), ring.num("narrow_wide")
	g.thickness, g.extended, g.oval = ring.num("ring_thickness_mm"), ring.num("extended_inner_plates"), ring.num("oval_percent")
}

func (b *bike) readFrame(hub, frame, wheel bikeReader) {
	h := &b.hub
	h.kindOf, h.kind, h.width, h.freehub, h.axle = hub.kind(), hub.word("kind_of_hub"), hub.num("over_locknut_mm"), hub.word("freehub"), hub.word("axle")
	h.inset, h.shoulder, h.body, h.minCog = hub.num("smallest_cog_inset_mm"), hub.num("shoulder_inset_mm"), hub.num("body_length_mm"), hub.num("min_cog_t")
	h.spokes = hub.num("spoke_clearance_mm")
	f := &b.frame
	f.kindOf, f.stay, f.growth, f.width = frame.kind(), frame.num("chainstay_mm"), frame.num("chain_growth_mm"), frame.num("over_locknut_mm")
	f.growthAtSag, f.idler, f.suspension = frame.num("growth_at_sag_mm"), frame.num("idler_t"), frame.word("rear_suspension")
	f.assist, f.use, f.hanger = frame.word("assist"), frame.word("use"), frame.word("hanger")
	b.wheel.kindOf, b.wheel.bead, b.wheel.tyre = wheel.kind(), wheel.num("bead_seat_mm"), wheel.num("tyre_width_mm")
}

func (b *bike) readPower(cell, charger bikeReader) {
	c, g := &b.cell, &b.charger
	c.kindOf, c.form, c.chemistry = cell.kind(), cell.word("form"), cell.word("chemistry")
	c.volts, c.primary = cell.num("nominal_v"), cell.num("primary")
	g.kindOf, g.chemistry, g.minC, g.maxC = charger.kind(), charger.word("chemistry"), charger.num("min_c"), charger.num("max_c")
}

func (b *bike) readBench(r bikeReader) {
	m := &b.bench
	m.kindOf, m.cogs, m.steps = r.kind(), r.nums("cog_positions_mm"), r.nums("step_positions_mm")
	m.chain, m.ends, m.position = r.num("chain_pitches"), r.num("end_to_end_pitches"), r.word("position")
	m.spacer, m.hanger, m.line, m.inset = r.num("spacer_behind_mm"), r.num("hanger_error_mm"), r.num("chainline_mm"), r.num("smallest_cog_inset_mm")
	m.gap, m.wear, m.torque = r.num("b_gap_mm"), r.num("chain_wear_percent"), r.num("torque_nm")
}
