package reckon

import (
	"math"
	"slices"
	"strings"
)

// The bodies, and how much more than the middle one each asks for behind a cassette; how
// much more than one for 8 and 9 cogs each class does. Those of seven stand by themselves.
var (
	bodyNames = []string{"7", "8-10", "road-11"}
	ofBody    = []float64{-3.95, 0, 1.85}
	ofClass   = map[string]float64{"flat": 0, "thin-10": 1, "road-11": -1.85}
	ofSeven   = [][2]float64{{0, 0}, {4, 4.5}, {5.9, 6.4}}
)

// spacers is the twin of spacer_off_mm: it tries all that class and body may be.
var spacers = map[string]twin{"spacer_off_mm": plain(func(b bike) float64 {
	var held, warned, failed []float64
	for _, row := range spacerRows(b) {
		off := offHere(b, row)
		switch mends := off < 0 && !b.known("bench.spacer_behind_mm"); {
		case off > -0.3-1e-6 && off < 0.45+1e-6:
			held = append(held, off)
		case mends || off > -0.8-1e-6 && off < 0.95+1e-6:
			warned = append(warned, off)
		default:
			failed = append(failed, off)
		}
	}
	nearer := func(x, y float64) int { return int(math.Copysign(1, math.Abs(x)-math.Abs(y))) }
	switch {
	case len(failed) > 0:
		return slices.MinFunc(failed, nearer)
	case len(warned) > 0:
		return slices.MaxFunc(warned, nearer)
	}
	return slices.MaxFunc(held, nearer)
})}

// offHere is how far what is fitted lies outside of what is wanted; what came with the
// cassette counts where it is right.
func offHere(b bike, wanted [2]float64) float64 {
	off := func(x float64) float64 { return x - min(max(x, wanted[0]), wanted[1]) }
	if at := b.value("bench.spacer_behind_mm"); at.Known {
		return off(at.Num)
	}
	if o := off(b.num("cassette.spacer_mm")); b.known("cassette.spacer_mm") && o > -0.3-1e-6 && o < 0.45+1e-6 {
		return o
	}
	return off(0)
}

// spacerRows gives what is wanted on each body and of each class that it may be.
func spacerRows(b bike) [][2]float64 {
	made, body := b.value("cassette.freehub").Words(), b.text("hub.freehub")
	if body == "driver-10-long" && slices.Contains(made, "driver-10") {
		return [][2]float64{{1.85, 1.85}}
	}
	bodies := []int{1, 2}
	if at := slices.Index(bodyNames, b.text("hub.body_class")); at >= 0 {
		bodies = []int{at}
	} else if l := b.value("hub.body_length_mm"); l.Known {
		bodies = nil
		for i, of := range []float64{31, 34.95, 36.75} {
			if math.Abs(l.Num-of) <= []float64{0.6, 0.3, 0.3}[i]+1e-9 {
				bodies = []int{i}
			}
		}
	}
	var out [][2]float64
	for _, class := range strings.Fields(classes(b, made, body)) {
		for _, i := range bodies {
			if class == "7" {
				out = append(out, ofSeven[i])
				continue
			}
			x := exact([]float64{ofBody[i], ofClass[class]})
			out = append(out, [2]float64{x, x})
		}
	}
	return out
}

// classes gives the height classes that a cassette may be of, by its word or its cogs.
func classes(b bike, made []string, body string) string {
	if word := b.text("cassette.height_class"); word != "" {
		return word
	}
	if body != "" && slices.Contains(made, "spline-road-12") && !slices.Contains(made, body) {
		return "road-11"
	}
	n, largest := int(b.num("figures.cog_count")), 0.0
	if len(b.cogs()) > 0 {
		largest = slices.Max(b.cogs())
	}
	if n == 12 && largest >= 42 || (n == 10 || n == 11) && largest >= 34 {
		return "flat"
	}
	return map[int]string{7: "7", 8: "flat", 9: "flat", 10: "thin-10 flat", 11: "road-11"}[n]
}
