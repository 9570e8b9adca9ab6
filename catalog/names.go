package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// The words below are those that the trade knows for fields of free names, by
// count and shape and never by maker. A field takes other words too; only of
// these do the rules know what goes on what.

func known(name, doc string, also ...string) fact.Known {
	return fact.Known{Name: name, Doc: doc, Also: also}
}

// bodyNames are what cogs sit on.
func bodyNames() []fact.Known {
	return []fact.Known{
		known("spline-9", "nine splines, eight of them wide: the usual body for 7 to 11 cogs",
			"9-spline", "9-splines", "nine-spline", "nine-splines", "splined-9"),
		known("spline-9-deep", "nine splines cut deeper, of one short period of ten cogs", "spline-9-tall", "9-spline-deep"),
		known("spline-8", "eight splines, of 7 and 8 cogs", "8-spline", "8-splines", "eight-spline", "eight-splines", "splined-8"),
		known("spline-8-deep", "eight splines cut deeper, for 9 to 12 cogs", "8-spline-deep"),
		known("spline-8-short", "eight splines on a short body, for 13 cogs", "8-spline-short"),
		known("spline-road-12", "the body of one road group of twelve, with splines of its own", "road-12", "12-spline-road"),
		known("spline-23", "twenty-three fine splines, for a smallest cog of 10", "23-spline", "23-splines", "splined-23"),
		known("driver-10", "a short body with a thread of its own, for a smallest cog of 10", "driver", "10-driver"),
		known("driver-10-long", "the same driver, longer by 1.85 mm", "driver-long", "driver-10-road"),
		known("driver-bmx", "a driver for one cog of 8 or 9 teeth", "bmx-driver", "bmx"),
		known("thread-1.375", "the thread for screwed-on freewheels, 1.375 in by 24 turns an inch",
			"thread-1.37", "thread-1.375-24", "thread-1.37-24", "thread-english", "thread-iso", "freewheel-thread"),
		known("thread-metric-34.7", "the metric thread of old freewheels, 34.7 by 1 mm",
			"thread-34.7", "thread-french", "thread-metric"),
		known("thread-30", "the thread of small freewheels, 30 by 1 mm", "thread-30-1", "thread-m30", "thread-metric-30"),
		known("thread-italian-35", "the italian freewheel thread, 35 mm by 24 turns an inch", "thread-35", "thread-italian"),
		known("track-1.375", "the thread for a fixed cog, with a smaller left-hand step for its lockring",
			"track-1.37", "track-thread", "track", "fixed-1.375"),
		known("lug-3", "three lugs with a spring ring, of geared and coaster hubs",
			"lugs-3", "3-lug", "3-lugs", "three-lug", "three-lugs"),
	}
}

// hangerNames are what a derailleur is hung on. The list is closed.
func hangerNames() []fact.Known {
	return []fact.Known{
		known("fixed", "a tab that is one with the dropout", "integral", "integrated"),
		known("replaceable", "a hanger with screws of its own, in one of hundreds of shapes", "removable", "bolt-on"),
		known("direct", "the lower and more rearward place, without the short link", "direct-mount"),
		known("universal", "the one replaceable shape that any maker may build, on a through axle", "universal-hanger"),
		known("claw", "a loose plate that the axle holds in a slot open to the front", "claw-hanger"),
		known("none", "a frame with no place for a derailleur", "no", "no-hanger"),
	}
}

// shellNames are the shells of frames and what bearings are made for.
func shellNames() []fact.Known {
	return []fact.Known{
		known("threaded-68", "1.370 in by 24 turns an inch, 68 mm wide, drive side left-hand",
			"english-68", "iso-68", "threaded-english-68"),
		known("threaded-73", "the same thread, 73 mm wide", "english-73", "iso-73", "threaded-english-73"),
		known("threaded-68-73", "a bearing with rings of 2.5 mm for both widths", "threaded-73-68", "english-68-73"),
		known("threaded-83", "the same thread, 83 mm wide", "english-83"),
		known("threaded-100", "the same thread, 100 mm wide, of fat tyres", "english-100"),
		known("threaded-70-italian", "36 mm by 24 turns an inch, 70 mm wide, both sides right-hand",
			"threaded-italian-70", "italian-70", "threaded-70", "threaded-italian", "italian"),
		known("threaded-47-68", "47 by 1 mm, 68 mm wide"),
		known("threaded-47-73", "47 by 1 mm, 73 mm wide"),
		known("threaded-47-86.5", "47 by 1 mm, 86.5 mm wide", "threaded-47-86"),
		known("press-41-86.5", "a smooth bore of 41 mm, 86.5 mm wide", "press-41-86"),
		known("press-41-89.5", "a smooth bore of 41 mm, 89.5 mm wide", "press-41-89"),
		known("press-41-92", "a smooth bore of 41 mm, 92 mm wide"),
		known("press-42-68", "a smooth bore of 42 mm, 68 mm wide"),
		known("press-42-73", "a smooth bore of 42 mm, 73 mm wide"),
		known("press-46-68", "a smooth bore of 46 mm, 68 mm wide"),
		known("press-46-73", "a smooth bore of 46 mm, 73 mm wide"),
		known("press-46-79", "a smooth bore of 46 mm, 79 mm wide"),
		known("press-46-83", "a smooth bore of 46 mm, 83 mm wide"),
		known("press-46-86.5", "a smooth bore of 46 mm, 86.5 mm wide", "press-46-86"),
		known("press-46-92", "a smooth bore of 46 mm, 92 mm wide"),
		known("one-piece-51", "a smooth bore of 51.3 mm, for a crank bent of one piece", "one-piece"),
	}
}

// spindleNames are how cranks sit on their spindle.
func spindleNames() []fact.Known {
	return []fact.Known{
		known("square-taper", "a square end, which of the two tapers is not said", "square", "taper", "squaretaper", "tapered-square"),
		known("taper-jis", "the square taper of most bicycles", "square-taper-jis", "jis-taper", "jis"),
		known("taper-iso", "the slimmer square taper of some road and track cranks", "square-taper-iso", "iso-taper", "iso"),
		known("splined-8", "a hollow spindle with eight splines", "8-spline", "spline-8"),
		known("splined-10", "a hollow spindle with ten splines", "10-spline", "spline-10"),
		known("cottered", "a round spindle with a flat, and a pin driven across it", "cotter", "cotter-pin"),
		known("one-piece", "crank and spindle bent of one piece", "onepiece", "one-piece-crank"),
		known("through-24", "a hollow spindle of 24 mm that is one with an arm", "24", "hollow-24", "24mm"),
		known("through-24-22", "a hollow spindle of 24 mm, 22 mm on the side away from the cogs", "through-22-24", "24-22"),
		known("through-29", "a hollow spindle of 28.99 mm", "29", "hollow-29"),
		known("through-30", "a hollow spindle of 30 mm", "30", "hollow-30", "30mm"),
	}
}

// cellNames are the forms of single cells; packs have a maker's own.
func cellNames() []fact.Known {
	var out []fact.Known
	for _, size := range []string{"1216", "1220", "1225", "1616", "1620", "1632", "2016", "2025",
		"2032", "2320", "2325", "2330", "2354", "2430", "2450", "2477"} {
		out = append(out, known("cr"+size, "a lithium button of 3 V by its diameter and height, never charged", "cr-"+size))
		out = append(out, known("br"+size, "the same size with less charge, never charged", "br-"+size))
	}
	for _, size := range []string{"1632", "2016", "2025", "2032", "2450"} {
		out = append(out, known("lir"+size, "a button of the same size that can be charged, of up to 4.2 V", "lir-"+size))
	}
	return append(out,
		known("lr44", "an alkaline button of 1.5 V", "lr-44"),
		known("sr44", "a silver button of 1.55 V", "sr-44"),
		known("aaa", "a slim round cell, 1.5 V, or 1.2 V where it can be charged", "lr03"),
		known("aa", "a round cell, 1.5 V, or 1.2 V where it can be charged", "lr6"))
}

// chemistryNames are what cells are made of.
func chemistryNames() []fact.Known {
	return []fact.Known{
		known("lithium-manganese", "never charged, 3 V; buttons that begin with cr", "limno2", "lithium-manganese-dioxide"),
		known("lithium-carbon", "never charged, 3 V; buttons that begin with br", "lithium-carbon-monofluoride"),
		known("alkaline", "never charged, 1.5 V"),
		known("silver-oxide", "never charged, 1.55 V", "silver"),
		known("li-ion", "can be charged, 3.6 to 3.7 V a cell and 4.2 V full", "lithium-ion", "liion", "li-polymer", "lipo"),
		known("nickel-metal-hydride", "can be charged, 1.2 V", "nimh", "ni-mh"),
		known("lead", "can be charged, 2 V a cell", "lead-acid"),
	}
}

// axleNames are the ways to hold a wheel. The list is closed.
func axleNames() []fact.Known {
	return []fact.Known{
		known("quick", "a skewer or nuts in open dropouts", "skewer", "quick-release", "nuts", "nut", "nutted", "bolt-on"),
		known("through", "an axle that screws through closed dropouts", "through-axle", "thru", "thru-axle"),
	}
}

// threadNames are the threads of through axles.
func threadNames() []fact.Known {
	return []fact.Known{
		known("m12-1.0", "12 mm, one turn a millimetre", "m12-1", "m12x1", "m12x1.0", "12x1.0", "12-1.0"),
		known("m12-1.5", "12 mm, two turns in three millimetres", "m12x1.5", "12x1.5", "12-1.5"),
		known("m12-1.75", "12 mm, four turns in seven millimetres", "m12x1.75", "12x1.75", "12-1.75"),
	}
}

// patternNames are how the bolts of a ring stand.
func patternNames() []fact.Known {
	return []fact.Known{
		known("even", "all bolts equally far from the next", "symmetric", "symmetrical", "regular"),
		known("asymmetric", "some bolts nearer to the next than others", "uneven", "asymmetrical"),
		known("direct", "no bolt circle: the ring sits on splines of the arm", "direct-mount"),
	}
}
