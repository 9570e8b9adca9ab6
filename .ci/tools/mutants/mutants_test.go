package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// A module with one function, whose tests hold some of it.
var fixture = map[string]string{
	"go.mod": "module fixture\n\ngo 1.26.0\n",
	"fits/fits.go": `package fits

var most = 2.0

func Fits(a, b float64) bool {
	if a-b > most {
		return false
	}
	return a+b < 9
}
`,
	"fits/fits_test.go": `package fits

import "testing"

func TestFits(t *testing.T) {
	if !Fits(4, 3) || Fits(5, 4) {
		t.Error("7 is less than 9, and 9 is not")
	}
}

func TestWhatMayStandOff(t *testing.T) {
	if Fits(3, 0.5) {
		t.Error("2.5 is more than 2")
	}
}

var before bool

func TestFirst(t *testing.T) { before = true }

func TestInCompanyAlone(t *testing.T) {
	if !before {
		t.Error("this wants the test before it")
	}
}
`,
}

// What is noticed is what a test would fail by; what no test comes to is told apart.
func TestChangesAreTried(t *testing.T) {
	root, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range fixture {
		if err := written(filepath.Join(root, name), []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	all, err := mutatedIn(root, regexp.MustCompile(`^fits/\w+\.go$`), []string{"./fits"})
	if err != nil {
		t.Fatal(err)
	}
	tests, err := met(root, []string{"fits"}, regexp.MustCompile(""))
	if err != nil {
		t.Fatal(err)
	}
	if last := tests[len(tests)-1]; last.name != "" || len(tests) != 4 {
		t.Errorf("%d tests, the last %q: one that holds in company alone is run with its whole package", len(tests), last.name)
	}
	wants := map[string]string{
		"2.0 -> a tenth more":       unnoticed, // 2.5 is more than 2.2, too
		"a-b > most -> true":        "fits",
		"a-b > most -> false":       "fits",
		"a-b > most -> a-b >= most": unmet, // nothing is tried at 2
		"a-b -> a + b":              "fits",
		"false -> turned":           "fits",
		"a+b < 9 -> a+b <= 9":       "fits",
		"a+b -> a - b":              "fits",
		"9 -> a tenth more":         "fits",
	}
	found := map[string]string{}
	for _, m := range all {
		found[m.was+" -> "+m.now] = m.tried(tests, false, 0)
	}
	if !maps.Equal(found, wants) {
		t.Errorf("found %v\nwanted %v", found, wants)
	}
}

// The first process of each package is quick, the change's own package is first, and
// slow tests come last.
func TestTrialsBeginWithTheQuick(t *testing.T) {
	own, other := &program{name: "rules"}, &program{name: "compat"}
	one := func(p *program, name string, fifths time.Duration, meets int) *test {
		return &test{of: p, name: name, takes: fifths * quick / 5, meets: map[int]bool{meets: true}}
	}
	tests := []*test{
		one(other, "C", 1, 7), one(other, "Slow", 30, 7), one(own, "A", 2, 7), one(own, "Less", 9, 7), one(own, "B", 4, 7),
		one(own, "Beside", 1, 7), one(own, "Never", 1, 8),
	}
	var got []string
	for _, trial := range (mutant{id: 7, file: "rules/judge.go"}).trials(tests) {
		var names []string
		for _, one := range trial.tests {
			names = append(names, one.name)
		}
		got = append(got, strings.Join(names, " "))
	}
	if want := []string{"Beside A", "C", "B", "Less", "Slow"}; !slices.Equal(got, want) {
		t.Errorf("%q, not %q", got, want)
	}
}

// An entry is found by what the code says, and told where the code says it no more.
func TestKnownSurvivors(t *testing.T) {
	const text = "# A remark.\n\nrules/judge.go  func judge\n    if n > 1 {\n    n > 1 -> true\n    One is\n    judged alike.\n"
	reasons, err := known(text)
	if err != nil {
		t.Fatal(err)
	}
	m := mutant{file: "rules/judge.go", line: 12, in: "func judge", text: "if n > 1 {", was: "n > 1", now: "true"}
	if why := reasons[m.key()]; why != "One is judged alike." {
		t.Errorf("the reason is %q", why)
	}
	if left := stale(reasons, []mutant{m}); left != nil {
		t.Errorf("%q is not stale", left)
	}
	m.text = "if n > 2 {"
	if left := stale(reasons, []mutant{m}); len(left) != 1 {
		t.Errorf("%q: one entry is stale", left)
	}
	if reasons, err := known(knownText); err != nil || len(reasons) == 0 {
		t.Errorf("%d entries of known.txt, %v", len(reasons), err)
	}
	for _, bad := range []string{"rules/judge.go  func judge\n    if n > 1 {\n    n > 1 -> true", text + "\n" + text} {
		if _, err := known(bad); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
}

// A seed draws the same changes where others have come before them, and another seed others.
func TestDrawnByWhatIsThere(t *testing.T) {
	var all []mutant
	for i := range 400 {
		all = append(all, mutant{id: i + 1, file: "rules/judge.go", in: "func judge", text: fmt.Sprint("if n > ", i), was: "n", now: "true"})
	}
	texts := func(all []mutant, seed uint64) []string {
		sample, err := drawn(all, 100, seed, "")
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, m := range sample {
			out = append(out, m.text)
		}
		return out
	}
	moved := slices.Clone(all)
	for i := range moved {
		moved[i].id += 1000
		moved[i].line += 7
	}
	if a, b := texts(all, 1), texts(moved, 1); !slices.Equal(a, b) || len(a) != 100 {
		t.Errorf("%d are drawn, and where the code has moved %v instead of %v", len(a), b, a)
	}
	if slices.Equal(texts(all, 1), texts(all, 2)) {
		t.Error("two seeds draw the same")
	}
}

// Memory that is taken beforehand or serves again is left alone, and what it is for is not.
func TestMemoryIsLeftAlone(t *testing.T) {
	root, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"go.mod": fixture["go.mod"], "fits/fits.go": `package fits

import (
	"slices"
	"sync"
)

var pool sync.Pool

func Fits(n int) []int {
	out := make([]int, 0, n+8)
	if cap(out) < 2 {
		out = slices.Grow(out, 16)
	}
	pool.Put(&out)
	return append(out, n*4)
}
`} {
		if err := written(filepath.Join(root, name), []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	all, err := mutatedIn(root, regexp.MustCompile(`^fits/\w+\.go$`), []string{"./fits"})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range all {
		got = append(got, m.was+" -> "+m.now)
	}
	slices.Sort(got)
	if want := []string{"0 -> one more", "4 -> one more", "n*4 -> n / 4", "out = slices.Grow(out, 16) -> left out"}; !slices.Equal(got, want) {
		t.Errorf("changed are %q, not %q", got, want)
	}
}

// What is printed of survivors tells the known ones apart, and counts them.
func TestTally(t *testing.T) {
	m := mutant{id: 3, file: "rules/judge.go", line: 12, in: "func judge", text: "if n > 1 {", was: "n > 1", now: "true"}
	sum := &tally{known: map[string]string{m.key(): "One is judged alike."}, files: map[string][2]int{}}
	sum.add(m, unnoticed)
	m.now = "false"
	sum.add(m, unmet)
	sum.add(m, "rules")
	sum.add(m, "compat")
	got := sum.String()
	for _, want := range []string{
		"4 changes, 2 noticed, 50.0 %; 2 survive, 1 of them known, 1 met by no test\n",
		"4 tried,  2 survive\n", "known, because: One is judged alike.\n", "in func judge: if n > 1 {\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
}
