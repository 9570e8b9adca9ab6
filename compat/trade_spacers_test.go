package compat

import (
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat/internal/random"
)

// Spacers wanted behind a cassette by class, on the bodies of 31, 34.95 and 36.75 mm: as
// sold, and how far one spacer is off. Where a cassette stands too high without any, what
// is fitted is too much by what the body lacks.
func TestSpacersByClass(t *testing.T) {
	cogs := map[string]int{"7": 7, "flat": 12, "thin-10": 10, "road-11": 11}
	for _, row := range []struct {
		class, body       string
		sold, fitted, off float64
	}{
		{"7", "7", 0, 0.5, 0.5}, {"7", "7", 0, 0, 0},
		{"7", "8-10", 4.5, 4, 0}, {"7", "8-10", 4.5, 4.5, 0}, {"7", "8-10", 4.5, 3.8, -0.2}, {"7", "8-10", 4.5, 4.7, 0.2},
		{"7", "road-11", 6.35, 5.9, 0}, {"7", "road-11", 6.35, 6.4, 0}, {"7", "road-11", 6.35, 5.8, -0.1}, {"7", "road-11", 6.35, 6.5, 0.1},
		{"flat", "7", 0, 0, 3.95}, {"flat", "8-10", 0, 0, 0}, {"flat", "8-10", 0, 0.4, 0.4},
		{"flat", "road-11", 1.85, 1.85, 0}, {"flat", "road-11", 1.85, 1.8, -0.05}, {"flat", "road-11", 1.85, 1.9, 0.05},
		{"thin-10", "7", 0, 0, 2.95},
		{"thin-10", "8-10", 1, 1, 0}, {"thin-10", "8-10", 1, 0.95, -0.05}, {"thin-10", "8-10", 1, 1.05, 0.05},
		{"thin-10", "road-11", 2.85, 2.85, 0}, {"thin-10", "road-11", 2.85, 2.8, -0.05}, {"thin-10", "road-11", 2.85, 2.9, 0.05},
		{"road-11", "7", 0, 0, 5.8}, {"road-11", "8-10", 0, 0, 1.85},
		{"road-11", "road-11", 0, 0, 0}, {"road-11", "road-11", 0, 0.1, 0.1},
	} {
		figs := usualMix(t, fields{
			"cassette": {"cog_count": cogs[row.class], "freehub": []string{"spline-9"}, "height_class": row.class},
			"hub":      {"freehub": "spline-9", "body_class": row.body}, "bench": {"spacer_behind_mm": row.fitted},
		}).facts.Measure()
		wanted, lack := figs.Value("spacer_wanted_mm")
		off, _ := figs.Value("spacer_off_mm")
		if !wanted.Known || math.Abs(wanted.Num-row.sold) > 1e-9 || math.Abs(off.Num-row.off) > 1e-9 {
			t.Errorf("%+v: %v mm are wanted, and it is %v off (%+v)", row, wanted, off, lack)
		}
	}
}

// Of a body that nobody names both that are sold today are tried, and of ten cogs both
// heights. Where all fail, the row that comes nearest stands; where none fails, the one
// furthest off, which is what to order.
func TestSpacersWhereClassesAreOpen(t *testing.T) {
	nine := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 32}, "freehub": []string{"spline-9"}}, "hub": {"freehub": "spline-9"}}
	ten := and(nine, "cassette", "cogs_t", []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25})
	of := func(last int, between ...int) fields {
		return and(nine, "hub", "body_class", "8-10", "cassette", "cogs_t", append(append([]int{11, 12, 13, 14, 15, 16, 17, 18}, between...), last))
	}
	driver := and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "freehub", "driver-10-long")
	for _, row := range []figureRow{
		{"nothing fitted behind nine: the longer body wants most", nine, "spacer_off_mm", -1.85},
		{"nothing fitted behind ten: thin ones on the longer body want most", ten, "spacer_off_mm", -2.85},
		{"and that is to order", ten, "spacer_wanted_mm", 2.85},
		{"6 mm behind ten: nearest to thin ones on the longer body", and(ten, "bench", "spacer_behind_mm", 6.0), "spacer_off_mm", 3.15},
		{"which wants", and(ten, "bench", "spacer_behind_mm", 6.0), "spacer_wanted_mm", 2.85},
		{"nothing of it on a belt", and(nine, "hub", "body_class", "road-11", "frame", "drive", "belt"), "spacer_off_mm", "~belt"},
		{"nor what is wanted", and(nine, "hub", "body_class", "road-11", "frame", "drive", "belt"), "spacer_wanted_mm", "~belt"},
		// Which class a cassette is of, by its cogs.
		{"ten to 33 may be thin", of(33, 19), "spacer_rows", "ring"},
		{"ten to 34 are flat", of(34, 19), "spacer_rows", "one"},
		{"eleven to 33 are of the road", of(33, 19, 20), "spacer_off_mm", 1.85},
		{"eleven to 34 are flat", of(34, 19, 20), "spacer_off_mm", 0},
		{"twelve to 41 have to say", of(41, 19, 20, 21), "spacer_off_mm", "~cassette.height_class"},
		{"twelve to 42 are flat", of(42, 19, 20, 21), "spacer_off_mm", 0},
		// What class and body leave open.
		{"nine on a body that is named", and(nine, "hub", "body_class", "8-10"), "spacer_rows", "one"},
		{"on one that is not", nine, "spacer_rows", "long"},
		{"ten on one that is not", ten, "spacer_rows", "both-and-ring"},
		{"seven", and(nine, "cassette", "cogs_t", []int{11, 13, 15, 17, 20, 24, 28}), "spacer_rows", "both"},
		{"of the road", and(nine, "cassette", "height_class", "road-11"), "spacer_rows", "only-long"},
		{"a short driver cassette has one length", driver, "spacer_rows", "one"},
		{"so that no body is to be told", driver, "spacer_long_mm", "~the body is named"},
		{"the longer body", ten, "spacer_long_mm", 2.85},
		{"the shorter one", ten, "spacer_short_mm", 1},
		{"wants none under flat ones", nine, "spacer_short_mm", "~wants no spacer"},
		// What comes with the cassette stands where it is right, and is left in its box elsewhere.
		{"its own ring is the one that is wanted", and(nine, "cassette", "spacer_mm", 1.85, "hub", "body_class", "road-11"), "spacer_off_mm", 0},
		{"a thin one is not", and(nine, "cassette", "spacer_mm", 1.0, "hub", "body_class", "road-11"), "spacer_off_mm", -1.85},
		{"2 mm proud with it, it stands there", and(nine, "cassette", "spacer_mm", 1.0, "cassette", "mount_height_mm", 34.0, "hub", "body_length_mm", 33.0), "spacer_fitted_mm", 1},
		{"prouder it does not", and(nine, "cassette", "spacer_mm", 1.1, "cassette", "mount_height_mm", 34.0, "hub", "body_length_mm", 33.0), "spacer_fitted_mm", 0},
		{"one height of eight splines is not enough", fields{"cassette": {"cogs_t": []int{11, 34}, "freehub": []string{"spline-8"}, "mount_height_mm": 31.0},
			"hub": {"freehub": "spline-8"}}, "spacer_off_mm", "~state both heights"},
		{"23 splines are made in one length", and(nine, "cassette", "freehub", []string{"spline-23"}, "hub", "freehub", "spline-23"), "lockring_margin_mm", "~one length"},
		// Bodies by their length: 0.6 mm about 31, 0.3 about the others.
		{"30.4 is short", and(nine, "hub", "body_length_mm", 30.4, "bench", "spacer_behind_mm", 0.0), "spacer_off_mm", 3.95},
		{"31.6 as well", and(nine, "hub", "body_length_mm", 31.6, "bench", "spacer_behind_mm", 0.0), "spacer_off_mm", 3.95},
		{"31.7 is of no class", and(nine, "hub", "body_length_mm", 31.7), "spacer_off_mm", "~cassette.mount_height_mm"},
		{"34.65 is for eight to ten", and(nine, "hub", "body_length_mm", 34.65), "spacer_off_mm", 0},
		{"35.25 as well", and(nine, "hub", "body_length_mm", 35.25), "spacer_off_mm", 0},
		{"35.27 is of no class", and(nine, "hub", "body_length_mm", 35.27), "spacer_off_mm", "~cassette.mount_height_mm"},
		{"36.45 is of the road", and(nine, "hub", "body_length_mm", 36.45), "spacer_off_mm", -1.85},
		{"37.05 as well", and(nine, "hub", "body_length_mm", 37.05), "spacer_off_mm", -1.85},
		{"37.07 is of no class", and(nine, "hub", "body_length_mm", 37.07), "spacer_off_mm", "~cassette.mount_height_mm"},
	} {
		row.hold(t)
	}
}

// A cassette that stands more than 2 mm too high without any spacer does so for certain; up
// to that nobody knows, for a spacer may stand behind it.
func TestTooHighWithoutAnySpacer(t *testing.T) {
	for mount, assumed := range map[float64]bool{35.5: true, 36: true, 36.1: false} {
		v, lack := usualMix(t, fields{"cassette": {"cogs_t": []int{11, 34}, "freehub": []string{"spline-9"}, "mount_height_mm": mount},
			"hub": {"freehub": "spline-9", "body_length_mm": 34.0}}).facts.Measure().Value("lockring_margin_mm")
		if !v.Known || math.Abs(v.Num-(mount-34)) > 1e-9 || v.Assumed != assumed {
			t.Errorf("at %v it stands %v mm proud, assumed %t (%+v)", mount, v.Num, v.Assumed, lack)
		}
	}
}

// Where none is wanted and nobody states a spacer, there is nothing to doubt: it passes. One
// that is wanted may lie on the bench. A stack that stands too high without any does so for
// certain.
func TestNoSpacerIsNothingWhereNoneIsWanted(t *testing.T) {
	for body, want := range map[string]struct {
		off     float64
		assumed bool
	}{"7": {3.95, false}, "8-10": {0, false}, "road-11": {-1.85, true}} {
		v, lack := usualMix(t, fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 32}, "freehub": []string{"spline-9"}},
			"hub": {"freehub": "spline-9", "body_class": body}}).facts.Measure().Value("spacer_off_mm")
		if !v.Known || math.Abs(v.Num-want.off) > 1e-9 || v.Assumed != want.assumed {
			t.Errorf("on %s it is %v mm off, assumed %t (%+v), want %v", body, v.Num, v.Assumed, lack, want)
		}
	}
}

// Where the body is what tells rows apart, and only one height is possible, the height is
// not asked for.
func TestOneHeightIsNotAskedFor(t *testing.T) {
	_, lack := Measure(mixOf(random.Draw{Fields: fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 34}, "freehub": []string{"spline-9"}},
		"hub": {"freehub": "spline-9"}, "bench": {"spacer_behind_mm": 0.0}}})).Value("spacer_off_mm")
	if want := []string{"hub.body_class"}; !slices.Equal(lack.Missing, want) {
		t.Errorf("it lacks %v, want %v", lack.Missing, want)
	}
}
