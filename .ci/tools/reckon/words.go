package reckon

import "math"

// holds makes a twin of a condition.
func holds(f func(b bike) bool) twin { return func(b bike) (any, bool) { return f(b), true } }

// table makes a twin of a word that is looked up by what some conditions come to, a digit
// each: 0 and 1, or 2 and 3 of more words.
func table(key func(b bike) string, rows map[string]string) twin {
	return func(b bike) (any, bool) { word, ok := rows[key(b)]; return word, ok }
}

func digit(is bool) string {
	if is {
		return "1"
	}
	return "0"
}

// said gives a digit for a word: 0 where nobody says, else its place among some.
func said(word string, words ...string) string {
	for i, w := range words {
		if w == word {
			return string(rune('1' + i))
		}
	}
	return "0"
}

func axles(b bike) string {
	return said(b.text("hub.axle"), "quick", "through", "nuts") + said(b.text("frame.axle"), "quick", "through", "nuts")
}

// words are the twins of flags and words.
var words = map[string]twin{
	"one_cog":              holds(func(b bike) bool { return len(b.cogs()) == 1 }),
	"chain_guided":         holds(func(b bike) bool { return b.here("chain_guide") }),
	"half_inch_drive":      holds(func(bike) bool { return true }),
	"ring_narrow_wide":     holds(func(b bike) bool { return b.ofRing("narrow_wide").Num == 1 }),
	"ring_extended_plates": holds(func(b bike) bool { return b.ofRing("extended_inner_plates").Num == 1 }),
	"ring_extended_stated": holds(func(b bike) bool { return b.ofRing("extended_inner_plates").Known }),
	"axle_kind":            func(b bike) (any, bool) { return b.either("hub.axle", "frame.axle").Text, true },
	"axle_end": func(b bike) (any, bool) {
		return map[string]string{"": "unstated", "open": "open", "blind": "blind"}[b.text("frame.axle_end")], true
	},
	"axle_thread": func(b bike) (any, bool) {
		if word := b.text("frame.axle_thread"); word != "" {
			return word, true
		}
		return "m12-1.0", b.text("frame.hanger") == "universal"
	},
	"axle_compared": table(func(b bike) string { return axles(b) + digit(b.here("axle")) }, map[string]string{
		"000": "silent", "010": "silent", "020": "silent", "100": "silent", "200": "silent", "001": "asked", "011": "asked", "021": "asked",
		"101": "asked", "201": "asked", "110": "alike", "111": "alike", "220": "alike", "221": "alike", "120": "differ", "121": "differ",
		"210": "differ", "211": "differ",
	}),
	"axle_goes": table(axles, map[string]string{
		"00": "through", "02": "through", "20": "through", "22": "through", "01": "open", "10": "open", "11": "open", "12": "differ", "21": "differ",
	}),
	"lever_brake": func(b bike) (any, bool) {
		if word := b.text("rear_shifter.integrated_brake"); word != "" {
			return word, true
		}
		return "unstated", true
	},
	"bar_told":       clamped("rear_shifter.clamp_diameter_mm"),
	"bar_front_told": clamped("front_shifter.clamp_diameter_mm"),
	"ring_told": table(func(b bike) string {
		apart := func(field string, by float64) string {
			own, crank := b.value("chainring."+field), b.value("crankset."+field)
			return digit(own.Known && crank.Known && math.Abs(own.Num-crank.Num) > by+1e-9)
		}
		return apart("bolt_circle_mm", 1) + apart("bolts", 0)
	}, map[string]string{"00": "pattern", "01": "bolts", "10": "circle", "11": "circle"}),
	"mount_hanger": func(b bike) (any, bool) { return b.either("hanger_link.gives_hanger", "frame.hanger").Text, true },
	"chain_pulled_by": table(func(b bike) string {
		return digit(b.text("frame.assist") == "mid") + digit(b.num("frame.timing_chain") == 1)
	}, map[string]string{"01": "two-riders", "10": "rider-and-motor", "11": "two-riders-and-motor"}),
	"hub_input_by": table(func(b bike) string {
		return digit(b.known("hub.min_drive_ratio")) + digit(b.known("hub.max_input_nm")) + digit(b.text("frame.assist") == "mid")
	}, map[string]string{"001": "torque", "010": "torque", "011": "torque", "100": "ratio", "101": "both", "110": "both", "111": "both"}),
	"front_compared": table(func(b bike) string {
		return digit(b.known("front_shifter.pulls_mm")) + digit(b.known("front_derailleur.pulls_mm")) +
			digit(b.known("front_shifter.pull_class")) + digit(b.known("front_derailleur.pull_class"))
	}, map[string]string{
		"0001": "shifter", "0010": "derailleur", "0011": "class", "0100": "shifter", "0101": "shifter", "0110": "shifter", "0111": "class",
		"1000": "derailleur", "1001": "derailleur", "1010": "derailleur", "1011": "class", "1100": "pulls", "1101": "pulls", "1110": "pulls", "1111": "pulls",
	}),
}

// clamped is whether clamp and bar are stated to differ by more than half a millimetre.
func clamped(clamp string) twin {
	return func(b bike) (any, bool) {
		c, bar := b.value(clamp), b.value("cockpit.clamp_diameter_mm")
		if c.Known && bar.Known && math.Abs(exact([]float64{c.Num}, bar.Num)) > 0.5 {
			return "clamp", true
		}
		return "kind", true
	}
}
