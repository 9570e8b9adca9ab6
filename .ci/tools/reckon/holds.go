package reckon

import (
	"slices"
	"strings"
)

// starts says whether one of some words begins so.
func starts(list []string, with ...string) bool {
	return slices.ContainsFunc(list, func(word string) bool {
		return slices.ContainsFunc(with, func(w string) bool { return strings.HasPrefix(word, w) })
	})
}

// goes are the bodies that take cogs made for each, beside their own.
var goes = map[string][]string{
	"spline-9-deep": {"spline-9"}, "driver-10": {"driver-10-long"}, "spline-road-12": {"spline-9"}, "spline-8-deep": {"spline-8-short"},
	"thread-1.375": {"thread-italian-35", "track-1.375"}, "thread-italian-35": {"thread-1.375"},
}

// fixedCog says whether the one cog turns with the wheel.
func fixedCog(b bike) bool {
	made, kind, body := b.value("cassette.freehub").Words(), b.text("hub.kind_of_hub"), b.text("hub.freehub")
	if said := b.value("cassette.fixed_cog"); said.Known {
		return said.Num == 1
	}
	return slices.Contains(made, "track-1.375") || kind == "fixed" && b.num("figures.cog_count") == 1 &&
		!(starts(made, "thread-") && body != "" && !strings.HasPrefix(body, "thread-"))
}

// hold are the twins of what holds what.
var hold = map[string]twin{
	"cog_hold": table(func(b bike) string {
		kind, body, made := b.text("hub.kind_of_hub"), b.text("hub.freehub"), b.value("cassette.freehub").Words()
		splined := b.known("cassette.freehub") && !slices.ContainsFunc(made, func(w string) bool { return !starts([]string{w}, "spline-", "driver-") })
		alone := kind == "fixed" || kind == "internal" && strings.HasPrefix(body, "lug-")
		return digit(alone && (splined || b.num("figures.cog_count") > 1)) + digit(fixedCog(b) && strings.HasPrefix(body, "thread-"))
	}, map[string]string{"00": "body", "01": "thread", "10": "kind", "11": "kind"}),
	"fixed_cog": table(func(b bike) string {
		return digit(fixedCog(b)) + digit(b.here("rear_derailleur")) + digit(b.here("chain_tensioner"))
	}, map[string]string{
		"000": "none", "001": "none", "010": "none", "011": "none", "100": "alone", "101": "tensioner", "110": "derailleur", "111": "derailleur",
	}),
	"fixed_drive": holds(func(b bike) bool {
		if said := b.value("cassette.fixed_cog"); said.Known {
			return said.Num == 1
		}
		made := b.value("cassette.freehub")
		return slices.Contains(made.Words(), "track-1.375") ||
			!made.Known && b.text("hub.kind_of_hub") == "fixed" && b.known("figures.cog_count") && b.num("figures.cog_count") == 1
	}),
	"body_offered": holds(func(b bike) bool {
		for _, made := range b.value("cassette.freehub").Words() {
			for _, takes := range append([]string{made}, goes[made]...) {
				if slices.Contains(b.value("hub.bodies").Words(), takes) {
					return true
				}
			}
		}
		return false
	}),
	"clamp_axle": func(b bike) (any, bool) {
		if b.text("rear_derailleur.mount") != "full" || b.text("figures.mount_hanger") != "universal" {
			return "any", true
		}
		return b.either("frame.axle", "hub.axle").Text, true
	},
	"axle_moves": table(func(b bike) string {
		return digit(b.text("frame.dropout") == "vertical") + digit(b.known("frame.take_up_mm"))
	}, map[string]string{"00": "not-said", "01": "as-stated", "10": "not", "11": "not"}),
	"dropout_least_mm": plain(func(b bike) float64 {
		threaded := strings.HasPrefix(b.text("hub.freehub"), "thread-")
		if !b.known("hub.freehub") {
			threaded = b.text("hub.kind_of_hub") == "freewheel" || starts(b.value("cassette.freehub").Words(), "thread-")
		}
		return map[bool]float64{false: 0.1, true: 1}[threaded && !b.known("bench.smallest_cog_inset_mm")]
	}),
	"lockring_by_height": holds(func(b bike) bool {
		mount := b.value("cassette.mount_height_mm")
		return mount.Known && mount.Usual == 0 && b.known("hub.body_length_mm")
	}),
	"spacer_fitted_mm": plain(func(b bike) float64 {
		if at := b.value("bench.spacer_behind_mm"); at.Known {
			return at.Num
		}
		comes, proud := b.num("cassette.spacer_mm"), 0.0
		if b.known("cassette.mount_height_mm") && b.known("hub.body_length_mm") {
			proud = b.num("cassette.mount_height_mm") + comes - b.num("hub.body_length_mm")
		}
		return map[bool]float64{false: comes}[b.text("hub.body_class") == "7" || proud > 2]
	}),
	"chain_held_by": table(func(b bike) string {
		cogs := b.value("figures.cog_count")
		return digit(b.text("hub.kind_of_hub") == "fixed") + digit(b.here("rear_derailleur")) + digit(b.here("chain_tensioner")) +
			digit(cogs.Known && cogs.Num > 1) + digit(len(b.rings()) > 1)
	}, heldBy()),
	"chain_roller_class": rollers("chain.roller_class", "chain.speeds"),
	"cog_roller_class":   rollers("cassette.roller_class", "figures.cog_count"),
	"ring_roller_class": func(b bike) (any, bool) {
		if word := b.ofRing("roller_class").Text; word != "" {
			return word, true
		}
		return "standard", true
	},
	"chain_own_set": holds(func(b bike) bool {
		a, c := b.text("chain.index_family"), b.text("cassette.index_family")
		return a != "" && a == c && !saidOf(b, "chain.outer_width_mm") && !saidOf(b, "chain.inner_width_mm")
	}),
	"chain_sold_for_cogs": holds(func(b bike) bool {
		n := b.num("figures.cog_count")
		for _, name := range []string{"chain.outer_width_mm", "cassette.pitch_mm", "cassette.pitches_mm", "cassette.stack_height_mm", "bench.cog_positions_mm"} {
			if saidOf(b, name) {
				return false
			}
		}
		return n > 4 && n < 13 && slices.Contains(append(slices.Clone(b.list("chain.also_for")), b.num("chain.speeds")), n)
	}),
	"chain_closing": table(func(b bike) string {
		half := b.known("chain.half_links") || b.num("bench.half_link") == 1
		lone := len(b.cogs()) == 1 && len(b.rings()) == 1 && !b.known("bench.half_link")
		return digit(half) + digit(b.here("rear_derailleur") || len(b.cogs()) > 1) + digit(lone)
	}, map[string]string{
		"000": "even-only", "001": "perhaps", "010": "even-only", "011": "even-only", "100": "cranked", "101": "cranked",
		"110": "cranked-and-derailleur", "111": "cranked-and-derailleur",
	}),
	"cell_primary":                primary("cell"),
	"controller_cell_primary":     primary("controller_cell"),
	"charger_for_cell":            charger("cell"),
	"charger_for_controller_cell": charger("controller_cell"),
	"cell_judged":                 holds(func(bike) bool { return true }),
}

// saidOf says whether somebody stated a fact that may also be usual.
func saidOf(b bike, name string) bool { v := b.value(name); return v.Known && v.Usual == 0 }

// heldBy makes the table of what takes the chain up: fixed hub, derailleur, tensioner,
// several cogs, several rings.
func heldBy() map[string]string {
	out := map[string]string{}
	for i := range 32 {
		key := ""
		for bit := range 5 {
			key += digit(i>>(4-bit)&1 == 1)
		}
		switch {
		case strings.HasPrefix(key, "1") && key[1:2]+key[3:4] != "11", strings.HasPrefix(key, "000") && key[3:] == "00":
			out[key] = "axle"
		case key[1] == '1' || key[2] == '0':
			out[key] = "derailleur"
		default:
			out[key] = "tensioner"
		}
	}
	return out
}

// rollers are those that a part states, else the standard ones.
func rollers(stated, _ string) twin {
	return func(b bike) (any, bool) {
		if word := b.text(stated); word != "" {
			return word, true
		}
		return "standard", true
	}
}

// primary tells by the letters of a cell's name whether it is used up once.
func primary(kind string) twin {
	return holds(func(b bike) bool {
		if said := b.value(kind + ".primary"); said.Known {
			return said.Num == 1
		}
		return starts([]string{b.text(kind + ".form")}, "cr", "br", "lr", "sr")
	})
}

// charger tells by the digits behind the letters whether two buttons are of one size.
func charger(kind string) twin {
	size := func(form string) string {
		digits := strings.TrimLeft(form, "bcilr")
		if letters := strings.TrimSuffix(form, digits); len(digits) == 4 && slices.Contains([]string{"cr", "br", "lir"}, letters) {
			return digits
		}
		return form
	}
	return func(b bike) (any, bool) {
		a, c := b.text(kind+".chemistry"), b.text("charger.chemistry")
		f, g := b.text(kind+".form"), b.text("charger.form")
		switch {
		case a != "" && a == c:
			return "same", true
		case f == "" || g == "":
			return "unstated", true
		case size(f) == size(g):
			return "same", true
		}
		return "other", true
	}
}
