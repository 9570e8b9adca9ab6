package compat

import "math"

// The rules about what goes onto what, and about cells.

// onTooth is the room between a chain's inner plates and a tooth.
func onTooth(room float64, assumed ...string) twinFinding {
	if room < 0 {
		return twinVerdict(true, true, assumed...)
	}
	return warnIf(room < 0.05-1e-9 || room > 0.9+1e-9)
}

func chainOnCog(_ *bike, f *twinFigures) twinFinding {
	var t twinTally
	thick, inner := t.takes(&f.all[figCogThickness]), t.takes(&f.all[figChainInner])
	if t.open() {
		return twinOpen(&t)
	}
	return onTooth(inner.x-thick.x, marked("figures.cog_thickness_mm", thick.assumed, "figures.chain_inner_mm", inner.assumed)...)
}

func chainOnRing(_ *bike, f *twinFigures) twinFinding {
	var t twinTally
	// The checker names what the chain lacks first, as its figure stands first.
	inner, thick := t.takes(&f.all[figChainInner]), t.takes(&f.all[figRingThickness])
	if t.open() {
		return twinOpen(&t)
	}
	return onTooth(inner.x-thick.x, marked("figures.chain_inner_mm", inner.assumed, "figures.ring_thickness_mm", thick.assumed)...)
}

func hangerMount(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	mount := b.rear.mount
	t.lackWord(b.rear.kindOf, "mount", mount)
	hanger := t.takes(&f.all[figMountHanger])
	if t.open() {
		return twinOpen(&t)
	}
	if mount.s == "full" && hanger.s != "universal" || mount.s == "hanger" && hanger.s == "direct" {
		return twinVerdict(true, true, marked("rear_derailleur.mount", mount.assumed, "figures.mount_hanger", hanger.assumed)...)
	}
	return warnIf(mount.s == "direct" && hanger.s != "direct")
}

// goesOn says whether a cassette goes onto a body: of the same splines, or of
// others one way.
func goesOn(cassette, hub string) bool {
	return cassette == hub || cassette == "spline-9-deep" && hub == "spline-9" || cassette == "driver-10" && hub == "driver-10-long"
}

func freehub(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	cassette, hub := b.cassette.freehub, b.hub.freehub
	t.lackWord(b.cassette.kindOf, "freehub", cassette)
	t.lackWord(b.hub.kindOf, "freehub", hub)
	switch {
	case t.open():
		return twinOpen(&t)
	case goesOn(cassette.s, hub.s):
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("cassette.freehub", cassette.assumed, "hub.freehub", hub.assumed)...)
}

func lockringMargin(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	cassette, hub := b.cassette.freehub, b.hub.freehub
	if cassette.s == "thread-1.375" {
		return unless
	}
	t.lackWord(b.cassette.kindOf, "freehub", cassette)
	t.lackWord(b.hub.kindOf, "freehub", hub)
	switch {
	case t.open():
		return twinOpen(&t)
	case !goesOn(cassette.s, hub.s):
		return unless
	}
	margin := t.takes(&f.all[figLockringMargin])
	switch {
	case t.open():
		return twinOpen(&t)
	case margin.x < 0.1 || margin.x > 1.8:
		return twinVerdict(true, true, marked("figures.lockring_margin_mm", margin.assumed, "cassette.freehub", cassette.assumed, "hub.freehub", hub.assumed)...)
	}
	return warnIf(margin.x > 1.5)
}

func overLocknut(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	hub, frame, axle := b.hub.width, b.frame.width, b.hub.axle
	through := axle.s == "through"
	t.num(b.hub.kindOf, "over_locknut_mm", hub)
	off := math.Abs(hub.x - frame.x)
	apart := hub.known && frame.known && (off > 3 || off <= 0.5)
	if !apart {
		t.lackWord(b.hub.kindOf, "axle", axle)
	}
	t.num(b.frame.kindOf, "over_locknut_mm", frame)
	if t.open() {
		return twinOpen(&t)
	}
	if !(off > 3 || off > 0.5 && through) {
		return warnIf(off > 1)
	}
	// Far enough apart, the axle does not matter.
	needsAxle := axle.assumed && (off <= 3 || hub.assumed || frame.assumed)
	return twinVerdict(true, true, marked("hub.over_locknut_mm", hub.assumed, "hub.axle", needsAxle, "frame.over_locknut_mm", frame.assumed)...)
}

func cellForm(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	cell, rear, shifter := b.cell.form, b.rear.cell, b.shifter.cell
	t.lackWord(b.cell.kindOf, "form", cell)
	t.lackWord(b.rear.kindOf, "cell", rear)
	t.lackWord(b.shifter.kindOf, "cell", shifter)
	switch {
	case t.open():
		return quiet(&t)
	case cell.s == rear.s || cell.s == shifter.s:
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("rear_derailleur.cell", rear.assumed, "rear_shifter.cell", shifter.assumed, "cell.form", cell.assumed)...)
}

func cellVoltage(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	volts, most := t.num(b.cell.kindOf, "nominal_v", b.cell.volts), t.num(b.rear.kindOf, "cell_max_v", b.rear.cellMax)
	switch {
	case t.open():
		return quiet(&t)
	case volts <= most:
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("rear_derailleur.cell_max_v", b.rear.cellMax.assumed, "cell.nominal_v", b.cell.volts.assumed)...)
}

func controllerVoltage(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	cell, rear, shifter := b.cell.form, b.rear.cell, b.shifter.cell
	volts := t.num(b.cell.kindOf, "nominal_v", b.cell.volts)
	t.lackWord(b.cell.kindOf, "form", cell)
	t.lackWord(b.shifter.kindOf, "cell", shifter)
	most := t.num(b.shifter.kindOf, "cell_max_v", b.shifter.cellMax)
	t.lackWord(b.rear.kindOf, "cell", rear)
	switch {
	case t.open():
		return quiet(&t)
	case cell.s != shifter.s || cell.s == rear.s:
		return unless
	case volts <= most:
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("rear_shifter.cell_max_v", b.shifter.cellMax.assumed, "cell.nominal_v", b.cell.volts.assumed,
		"cell.form", cell.assumed, "rear_shifter.cell", shifter.assumed, "rear_derailleur.cell", rear.assumed)...)
}

func primaryCharge(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	primary := t.num(b.cell.kindOf, "primary", b.cell.primary)
	t.lackWord(b.charger.kindOf, "chemistry", b.charger.chemistry)
	switch {
	case t.open():
		return quiet(&t)
	case primary == 0:
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("cell.primary", b.cell.primary.assumed)...)
}

func chargerChemistry(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	primary := t.num(b.cell.kindOf, "primary", b.cell.primary)
	cell, charger := b.cell.chemistry, b.charger.chemistry
	t.lackWord(b.cell.kindOf, "chemistry", cell)
	t.lackWord(b.charger.kindOf, "chemistry", charger)
	switch {
	case t.open():
		return quiet(&t)
	case primary != 0:
		return unless
	case cell.s == charger.s:
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("cell.chemistry", cell.assumed, "charger.chemistry", charger.assumed, "cell.primary", b.cell.primary.assumed)...)
}

func chargerTemperature(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	t.lackWord(b.charger.kindOf, "chemistry", b.charger.chemistry)
	low, high := t.num(b.charger.kindOf, "min_c", b.charger.minC), t.num(b.charger.kindOf, "max_c", b.charger.maxC)
	switch {
	case t.open():
		return quiet(&t)
	case b.charger.chemistry.s != "li-ion":
		return unless
	}
	return warnIf(low < 0 || high > 45)
}
