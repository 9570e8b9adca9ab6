package main

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// hostile are names of mixes that no width is made for.
var hostile = []string{
	strings.Repeat("Endless", 28), strings.Repeat("長い名前の", 38), strings.Repeat("\u202e", 150), "tab\tand\nline", strings.Repeat("e\u0301", 95),
	"\x1b[2J\x1b[31m" + strings.Repeat("bell\a", 30), strings.Repeat("🚲", 120), "____ [chain/length] FAIL",
}

// generated gives mixes of parts that nobody put together: of each kind one of the
// demo, a class or none, sometimes with fewer cogs and rings, and a name.
func generated(t *testing.T, n int) []compat.Mix {
	t.Helper()
	cat, err := options{}.catalogue()
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(7, 80))
	out := make([]compat.Mix, n)
	for i := range out {
		var parts []catalog.Part
		for _, kind := range catalog.KindNames() {
			shelf := append(cat.OfKind(kind), compat.Usual().OfKind(kind)...)
			if r.IntN(5) == 0 || len(shelf) == 0 {
				continue
			}
			p := shelf[r.IntN(len(shelf))]
			switch {
			case kind == "cassette" && r.IntN(3) == 0:
				p, err = p.With(map[string]any{"cogs_t": teeth(11, 1+r.IntN(13), 1+r.IntN(4))})
			case kind == "crankset" && r.IntN(3) == 0:
				p, err = p.With(map[string]any{"rings_t": teeth(24, 1+r.IntN(3), 12)})
			}
			if err != nil {
				continue // it says otherwise itself
			}
			parts = append(parts, p)
		}
		name := fmt.Sprintf("Drawn %d", i)
		if i%3 == 0 {
			name = hostile[i/3%len(hostile)]
		}
		if out[i], err = compat.NewMix(name, compat.Scope(r.IntN(2)), parts...); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// teeth gives so many counts that rise from the first by the same step.
func teeth(first, n, step int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = first + i*step
	}
	return out
}

// onScreen is how many columns a line takes: letters of the east and signs count two,
// what is drawn over another letter none. It is counted more coarsely than the command
// does.
func onScreen(line string) int {
	n := 0
	for _, r := range line {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r >= 0x2e80:
			n += 2
		default:
			n++
		}
	}
	return n
}

// shaped holds that every line of a report goes into 80 columns, that its word ends
// before the text begins, and that nothing went wrong in printing.
func shaped(t *testing.T, what, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if n := onScreen(line); n > 80 {
			t.Errorf("%s: %d columns: %s", what, n, line)
		}
		if plotted.MatchString(line) {
			continue
		}
		if len(line) > 8 && line[8] != ' ' || len(line) > 9 && line[9] == ' ' && !inset.MatchString(line) {
			t.Errorf("%s: not in the gutter, or not behind it: %q", what, line)
		}
	}
	if m := regexp.MustCompile(`NaN|Inf\b|%!|<nil>|\x1b|\t`).FindString(text); m != "" {
		t.Errorf("%s has %q:\n%s", what, m, text)
	}
}

// inset are the lines that may go on further in: those of lists and of the table of gears.
var inset = regexp.MustCompile(`^ {11}\S|^(  cog|  step %|ring \d+|  metres) +\d|^ {12}\S|^(lines)? +\d+\. `)

// plotted are the lines of the plot of errors, which has numbers in the gutter.
var plotted = regexp.MustCompile(`^ {4}([+-]\d\.\d\d|warns|fails|worst|teeth| {4}0| {3}mm) [ oX!?|_.-]|^ {10}[ oX!?|]+$`)

// Whatever is put together, its report has a line of at most 80 columns, names every
// rule that does not pass, and leaves a blank for every fact that is missing.
func TestReportsOfAnything(t *testing.T) {
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[rules.Verdict]int{}
	blanks, explained := 0, 6 // to say with which values a finding would pass takes its time: one of so many does
	if testing.Short() {
		explained = 20
	}
	var before compat.Report
	for i, m := range generated(t, 60) {
		r := c.Check(m)
		seen[r.Verdict]++
		blanks += len(r.Missing())
		what := fmt.Sprintf("mix %d", i)
		for _, explain := range []bool{false, true} {
			if explain && i%explained > 0 {
				continue
			}
			text := printed(func(w *strings.Builder) { view.Reports(w, []compat.Report{r}, 0, view.Style{Explain: explain}) })
			shaped(t, what, text)
			complete(t, what, r, text)
		}
		shaped(t, what+" compared", printed(func(w *strings.Builder) { view.Change(w, compat.Compare(before, r), view.Style{}) }))
		plainLines(t, what, r)
		for line := range strings.Lines(printed(func(w *strings.Builder) { view.Sheet(w, c.Sheet(m)) })) {
			if n := onScreen(strings.TrimSuffix(line, "\n")); n > 80 {
				t.Errorf("the sheet of %s: %d columns: %s", what, n, line)
			}
		}
		before = r
	}
	if seen[rules.Fail] == 0 || seen[rules.Unknown] == 0 || blanks < 10 {
		t.Errorf("the mixes are too tame: %v, %d facts are missing", seen, blanks)
	}
}

func printed(by func(w *strings.Builder)) string {
	var b strings.Builder
	by(&b)
	return b.String()
}

// complete holds that a report shows what does not pass and what is missing.
func complete(t *testing.T, what string, r compat.Report, text string) {
	t.Helper()
	flat := strings.Join(strings.Fields(text), " ")
	if head := strings.ToUpper(r.Verdict.String()); !strings.HasPrefix(text, head+" ") {
		t.Errorf("%s does not begin with %s", what, head)
	}
	for _, v := range r.Verdicts() {
		if v.Verdict != rules.Pass && !strings.Contains(flat, " ["+v.Rule+"]") {
			t.Errorf("%s: nothing of %s, which is %s:\n%s", what, v.Rule, v.Verdict, text)
		}
	}
	_, flat, _ = strings.Cut(flat, "in ") // a name may have a blank of its own
	for _, m := range r.Missing() {
		kind, field, _ := strings.Cut(m.Name, ".")
		if !strings.Contains(flat, "file "+kind+": {"+field+": ...}") || !strings.Contains(flat, ": ____") {
			t.Errorf("%s: no place for %s:\n%s", what, m.Name, text)
		}
	}
	if n := strings.Count(flat, ": ____"); n != len(r.Missing()) {
		t.Errorf("%s: %d blanks for %d facts:\n%s", what, n, len(r.Missing()), text)
	}
}

// plainLines holds that of a report there is a line for the mix and one for each
// finding that does not pass, of three fields each.
func plainLines(t *testing.T, what string, r compat.Report) {
	t.Helper()
	lines := strings.Split(printed(func(w *strings.Builder) { view.Reports(w, []compat.Report{r}, 0, view.Style{Plain: true}) }), "\n")
	want := []string{r.Verdict.String() + "\tmix\t"}
	for _, v := range r.Verdicts() {
		if v.Verdict != rules.Pass {
			want = append(want, v.Verdict.String()+"\t"+v.Rule+"\t")
		}
	}
	if len(lines) != len(want)+1 || lines[len(want)] != "" {
		t.Fatalf("%s: %d lines, want %d", what, len(lines)-1, len(want))
	}
	for i, begin := range want {
		if !strings.HasPrefix(lines[i], begin) || strings.Count(lines[i], "\t") != 2 || strings.HasSuffix(lines[i], "\t") {
			t.Errorf("%s: want %q and a text, got %q", what, begin, lines[i])
		}
	}
}
