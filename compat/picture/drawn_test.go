package picture_test

import (
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// draw gives one drawing of an outline.
func draw(t *testing.T, name string, o compat.Outline) picture.Picture {
	t.Helper()
	p, ok := picture.Draw(name, o, picture.Options{})
	if !ok {
		t.Fatalf("no drawing %s", name)
	}
	return p
}

// numbersOf gives the numbers of all elements that match, in the order of the pattern's
// groups.
func numbersOf(t *testing.T, svg, pattern string) [][]float64 {
	t.Helper()
	var out [][]float64
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(svg, -1) {
		var row []float64
		for _, text := range m[1:] {
			x, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, x)
		}
		out = append(out, row)
	}
	return out
}

// TestErrorIsToScale holds where the points and the limits of the chart stand: all on
// one scale, the spokes to the left.
func TestErrorIsToScale(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	svg := draw(t, "error", o).SVG
	axis := numbersOf(t, svg, `class="axis" d="M([\d.]+) 42L`)[0][0]
	fail := numbersOf(t, svg, `class="edge-fail" d="M([\d.]+) `)
	warn := numbersOf(t, svg, `class="edge-warn" d="M([\d.]+) `)
	scale := (axis - fail[0][0]) / 0.75
	if math.Abs(fail[1][0]-axis-0.75*scale) > 0.11 || math.Abs(axis-warn[0][0]-0.46875*scale) > 0.11 {
		t.Errorf("the axis is at %v, fails at %v, warns at %v", axis, fail, warn)
	}
	stems := numbersOf(t, svg, `class="stem-[a-z]+" d="M[\d.]+ [\d.]+L([\d.]+) `)
	if len(stems) != 12 {
		t.Fatalf("%d points", len(stems))
	}
	for i, c := range o.Cogs {
		if got := (axis - stems[i][0]) / scale; math.Abs(got-c.Error.Value) > 0.002 {
			t.Errorf("cog %d stands at %v mm, its error is %v", i+1, got, c.Error.Value)
		}
	}
	if n := strings.Count(svg, `class="o-warn on"`); n != 3 { // two cogs and the legend
		t.Errorf("%d warn", n)
	}
}

// TestViewsAreToScale holds the distances of the side view: axles, radii and the guide
// pulley are as far apart as they are on the bicycle.
func TestViewsAreToScale(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	svg := draw(t, "views", o).SVG
	axles := numbersOf(t, svg, `class="axle" cx="([\d.]+)" cy="([\d.]+)"`)
	guide, rear, front := axles[0], axles[1], axles[2]
	scale := (front[0] - rear[0]) / 430
	away := math.Hypot(guide[0]-rear[0], guide[1]-rear[1]) / scale
	if want := o.Cogs[11].TipRadius.Value + o.Guide.Bolt.Value; math.Abs(away-want) > 0.3 {
		t.Errorf("the bolt stands %v mm from the axle, wanted are %v", away, want)
	}
	teeth := numbersOf(t, svg, `class="teeth" cx="[\d.]+" cy="[\d.]+" r="([\d.]+)" stroke-width="[\d.]+" pathLength="(\d+)"`)
	if len(teeth) != 3 || teeth[0][1] != 102 || teeth[1][1] != 20 || teeth[2][1] != 64 {
		t.Errorf("teeth: %v", teeth)
	}
}

// TestGaugeIsLifeSize holds that the gauge is drawn in mm, one unit each.
func TestGaugeIsLifeSize(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	svg := draw(t, "gauge", o).SVG
	if !strings.Contains(svg, `width="150mm" height="74mm" viewBox="0 0 150 74"`) {
		t.Errorf("begins with %.200s", svg)
	}
	bar := numbersOf(t, svg, `class="bar" d="M[\d.]+ [\d.]+L[\d.]+ [\d.]+M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)`)[0]
	if bar[2]-bar[0] != 50 || bar[3] != bar[1] {
		t.Errorf("the bar goes from %v to %v", bar[:2], bar[2:])
	}
	arc := numbersOf(t, svg, `class="tips" d="M([\d.]+) ([\d.]+)A([\d.]+) [\d.]+ 0 0 0 ([\d.]+) ([\d.]+)"`)[0]
	r := arc[2]
	lowest := arc[1] - math.Sqrt(r*r-(arc[3]-arc[0])*(arc[3]-arc[0])/4) + r
	cross := numbersOf(t, svg, `class="cross" d="M[\d.]+ ([\d.]+)L`)[0][0]
	if want := o.Guide.Bolt.Value; math.Abs(cross-lowest-want) > 0.02 || math.Abs(r-o.Cogs[11].TipRadius.Value) > 0.01 {
		t.Errorf("the cross stands %v below the tips, wanted are %v; the arc's radius is %v", cross-lowest, want, r)
	}
}

// TestTangents holds that a chain leaves one wheel and meets the next at right angles to
// their radii, whichever way it goes round them.
func TestTangents(t *testing.T) {
	for _, turns := range [][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
		a, b := [4]float64{100, 50, 40, turns[0]}, [4]float64{260, 90, 15, turns[1]}
		from, to := picture.Tangent(a, b)
		way := [2]float64{to[0] - from[0], to[1] - from[1]}
		for _, end := range []struct {
			p [2]float64
			w [4]float64
		}{{from, a}, {to, b}} {
			x, y := end.p[0]-end.w[0], end.p[1]-end.w[1]
			if math.Abs(math.Hypot(x, y)-end.w[2]) > 1e-9 || math.Abs(x*way[0]+y*way[1]) > 1e-9 {
				t.Errorf("turns %v: %v of the wheel %v", turns, end.p, end.w)
			}
			// against the clock the wheel lies to the left of the way, y being downwards
			if cross := way[0]*y - way[1]*x; cross*end.w[3] < 0 {
				t.Errorf("turns %v: the wheel %v lies on the wrong side", turns, end.w)
			}
		}
	}
}

// TestCaptions holds what is said of each drawing of a bicycle of the demo, and that
// where every step meets its cog nothing is said to be moved.
func TestCaptions(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	for name, parts := range map[string][]string{
		"views": {"32 and 51 teeth, 430 mm apart", "40.4 mm from the tooth tips", "B-gap of 13.0 mm",
			"+3.5° on the largest cog and at \u22122.0° on the smallest"},
		"error": {"moved 0.55 mm towards the spokes", "worst miss is 0.55 mm, first at the 10", "align on, the 21", "taken as usual"},
		"gears": {"From 3.20 down to 0.63, a range of 510 percent", "20 percent, between the 10 and the 12", "1.5 to 7.5 m"},
		"length": {
			"use 112.6 half-inch links", "109.5 at rest", "Cut to 116, 3.4 are left", "1.95 to spare", "at 1, it fails",
		},
		"gap":   {"5.25 mm wide on cogs 3.75 mm apart and 1.60 mm thick", "0.33 mm of room", "under 0.05", "under \u22120.08", "8 times life size"},
		"gauge": {"bar measures 50 mm", "51 teeth", "40.4 mm below"},
	} {
		caption := draw(t, name, o).Caption
		for _, part := range parts {
			if !strings.Contains(caption, part) {
				t.Errorf("%s does not say %q: %s", name, part, caption)
			}
		}
	}
	got := draw(t, "error", demoOutline(t, "donated-undecided")).Caption
	if !strings.HasPrefix(got, "Every step meets its cog.") || strings.Contains(got, "moved") {
		t.Errorf("of steps that meet their cogs: %s", got)
	}
	if got := draw(t, "error", demoOutline(t, "donated-classes")).Caption; !strings.Contains(got, "known as one set") {
		t.Errorf("of a set by name: %s", got)
	}
	short := draw(t, "length", demoOutline(t, "fleet-three-faults"))
	if !strings.Contains(short.Caption, "0.6 are left") || !strings.Contains(short.SVG, "fill-fail") {
		t.Errorf("of a chain that is too short: %s", short.Caption)
	}
}

// TestTablesSayWhatIsAssumed holds the marks of numbers that nobody stated.
func TestTablesSayWhatIsAssumed(t *testing.T) {
	rows := draw(t, "error", demoOutline(t, "ferry-motor")).Table.Rows
	if want := []string{"10", "0.55 (assumed)", "0.47", "0.75", "0.05 (assumed)", "warns"}; !slices.Equal(rows[0], want) {
		t.Errorf("got %q, want %q", rows[0], want)
	}
	rows = draw(t, "gap", demoOutline(t, "donated-classes")).Table.Rows
	if want := []string{"12", "3.95", "0.20 (usual)", "passes"}; !slices.Equal(rows[0], want) {
		t.Errorf("got %q, want %q", rows[0], want)
	}
}

// TestAnyOutline holds that an outline of anybody's, with any number in any place, is
// drawn or is not, and neither stops the program nor shows what is no number.
func TestAnyOutline(t *testing.T) {
	before := demoOutline(t, "club-two-ring")
	for _, odd := range []float64{math.NaN(), math.Inf(1), -1, 1e-9, 1e5} {
		o := copied(t, before)
		eachFloat(reflect.ValueOf(&o).Elem(), func(v reflect.Value) {
			old := v.Float()
			v.SetFloat(odd)
			if text := all(o); noNumber.MatchString(text) {
				t.Errorf("with %v: %s in the drawings", odd, noNumber.FindString(text))
			}
			v.SetFloat(old)
		})
	}
	for _, p := range everything(compat.Outline{}) {
		if p.Drawn || !strings.HasPrefix(p.Caption, "Not drawn: ") {
			t.Errorf("of an outline without anything %s is drawn: %s", p.Title, p.Caption)
		}
	}
}

// eachFloat visits some numbers: those of the first and the last entry of each list, and
// all that stand alone.
func eachFloat(v reflect.Value, visit func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		visit(v)
	case reflect.Slice:
		for _, i := range []int{0, v.Len() - 1} {
			if i >= 0 && i < v.Len() {
				eachFloat(v.Index(i), visit)
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			eachFloat(v.Field(i), visit)
		}
	}
}
