package view

import (
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// onOneLine is a cart's report on the screen, on one line.
func onOneLine(r cart.Report) string {
	var out strings.Builder
	Carts(&out, []cart.Report{r}, 0, Style{})
	return strings.Join(strings.Fields(out.String()), " ")
}

// Lines of which somebody has to say more are named, of many the first ten.
func TestAmbiguousLinesAreNamed(t *testing.T) {
	r := cart.Report{Name: "Order", Verdict: rules.Unknown}
	for range 13 {
		r.Lines = append(r.Lines, cart.LineResult{Line: cart.Line{ID: "x"}, Use: cart.Ambiguous})
	}
	for n, want := range map[int]string{
		1:  "Line 1 is ambiguous.",
		2:  "Lines 1 and 2 are ambiguous.",
		3:  "Lines 1, 2 and 3 are ambiguous.",
		11: "Lines 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 and 11 are ambiguous.",
		12: "Lines 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 and 2 more are ambiguous.",
		13: "Lines 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 and 3 more are ambiguous.",
	} {
		some := r
		some.Lines = r.Lines[:n]
		if got := onOneLine(some); !strings.Contains(got, fmt.Sprintf("(%s) %s No bicycle", counted(n, "line", "lines"), want)) {
			t.Errorf("%d: %s", n, got)
		}
	}
}

// Each use is counted, and a line without a note says what goes without saying
// only to a program.
func TestUsesOfLines(t *testing.T) {
	r := cart.Report{Lines: []cart.LineResult{
		{Line: cart.Line{ID: "a", SKU: "b", Name: "A\u202E"}, Use: cart.Fitted, Bikes: []string{"His", ""}, Spare: 2},
		{Line: cart.Line{SKU: "b"}, Use: cart.Spare, Spare: 1},
		{Line: cart.Line{SKU: "c"}, Use: cart.Spare, Spare: 1, Note: "why"},
		{Line: cart.Line{SKU: "d", Name: "D"}, Use: cart.Ignored, Note: "why"},
	}}
	got := onOneLine(r)
	for _, want := range []string{
		"UNKNOWN a cart without a name (4 lines) 1 line is fitted, 2 lines are spare, 1 line is ignored.",
		`1. a, A\u{202e}: fitted to His, the bicycle, 2 spare 2. b: spare (another line brings the same) 3. c: spare (why) 4. d, D: ignored (why)`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}

// Names that no line holds stand in the gutter like others.
func TestLongNamesInACart(t *testing.T) {
	long := strings.Repeat("Endless", 28)
	r := cart.Report{Name: long, Lines: []cart.LineResult{
		{Line: cart.Line{ID: long, Name: strings.Repeat("長", 190)}, Use: cart.Fitted, Bikes: []string{long}},
		{Line: cart.Line{SKU: strings.Repeat("\u202e", 100)}, Use: cart.Ambiguous, Note: long},
	}}
	var out strings.Builder
	Carts(&out, []cart.Report{r, r}, 1, Style{})
	for line := range strings.Lines(out.String()) {
		if line = strings.TrimSuffix(line, "\n"); columns(line) > width || len(line) > 8 && line[8] != ' ' {
			t.Errorf("%d columns: %q", columns(line), line)
		}
	}
}
