package picture_test

import (
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

// TestPlot holds a whole plot: points in the nearest row, stems to the line of no error,
// limits as rows of their own.
func TestPlot(t *testing.T) {
	want := strings.Trim(`
    +0.75 ____________________________________________________________
    +0.47 ...!....o...................................................
             |    |    o    o    o
        0 ----------------------------o----o--------------------------
                                                o    o    o    |    |
    -0.47 .....................................................o....!.
    -0.75 ____________________________________________________________
    teeth    10   12   14   16   18   21   24   28   33   39   45   51
       mm  +.55 +.45 +.35 +.25 +.15 +.05 -.05 -.15 -.25 -.35 -.45 -.55
`, "\n")
	if got := strings.Join(picture.Plot(demoOutline(t, "ferry-motor")), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// plotted is the plot of cogs with these errors, in mm, that pass up to 0.5 and fail
// beyond 0.8.
func plotted(errors ...float64) []string {
	known := func(x float64) compat.Number { return compat.Number{Value: x, Known: true} }
	var o compat.Outline
	for i, e := range errors {
		v := rules.Pass
		if e > 0.8 || e < -0.8 {
			v = rules.Fail
		} else if e > 0.5 || e < -0.5 {
			v = rules.Warn
		}
		o.Cogs = append(o.Cogs, compat.OutlineCog{Teeth: known(float64(11 + i)), Error: known(e), Warn: known(0.5), Fail: known(0.8), Verdict: v})
	}
	return picture.Plot(o)
}

// TestPlotOfFails holds that what lies far beyond the fail limit has a row beyond it, and
// that large errors leave a blank between columns.
func TestPlotOfFails(t *testing.T) {
	got := plotted(1.25, 0.6, 0, -0.6, -1.25, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3)
	if len(got) != 11 || !strings.HasPrefix(got[0], strings.Repeat(" ", 13)+"X") || !strings.Contains(got[8], "X") {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
	if last := got[len(got)-1]; !strings.Contains(last, " +1.2 +.60    0 -.60 -1.2 +.30") {
		t.Errorf("numbers: %q", last)
	}
}

// TestPlotsFit holds the width and the letters of every plot, and that there is none
// where there is nothing to be seen.
func TestPlotsFit(t *testing.T) {
	count := 0
	for name, o := range outlines(t) {
		lines := picture.Plot(o)
		if len(lines) > 0 {
			count++
		}
		for _, line := range lines {
			if len(line) > 80 || strings.TrimRight(line, " ") != line {
				t.Errorf("%s: %d columns: %q", name, len(line), line)
			}
			if i := strings.IndexFunc(line, func(r rune) bool { return r < ' ' || r > '~' }); i >= 0 {
				t.Errorf("%s: %q", name, line)
			}
		}
	}
	if count < 40 {
		t.Errorf("%d plots", count)
	}
	if got := plotted(0.019, -0.019); got != nil {
		t.Errorf("nothing is to be seen, and yet\n%s", strings.Join(got, "\n"))
	}
	if got := picture.Plot(compat.Outline{}); got != nil {
		t.Errorf("of nothing: %q", got)
	}
}
