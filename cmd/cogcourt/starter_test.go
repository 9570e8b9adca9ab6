package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// loadsAs writes a part file and lists its parts.
func loadsAs(t *testing.T, text string) (status int, out, stderr string) {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "mine.yaml"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return command1("", "parts", "--parts", dir)
}

// fieldLine finds the line of a field, a remark or not.
func fieldLine(margin, field string) *regexp.Regexp {
	return regexp.MustCompile(`(?m)^` + margin + `(# )?` + field + `:.*$`)
}

var readBy = regexp.MustCompile(`Read by (\d+) of|No rule reads it`)

// TestPartStartersLoad holds that the starter of each kind loads as it is, and has
// each field once, with how to get it, those first that most rules read.
func TestPartStartersLoad(t *testing.T) {
	for _, o := range catalog.Kinds() {
		status, text, stderr := command1("", "new", "part", o.Name())
		if status != exitOK {
			t.Fatalf("%s: %s", o.Name(), stderr)
		}
		if status, out, stderr := loadsAs(t, text); status != exitOK || !strings.Contains(out, "my-"+strings.ReplaceAll(o.Name(), "_", "-")) {
			t.Errorf("%s does not load: %s%s", o.Name(), stderr, out)
		}
		flat := strings.Join(strings.Fields(strings.ReplaceAll(text, "#", "")), " ")
		for _, f := range o.Table().Fields() {
			line := fieldLine("    ", f.Name).FindAllString(text, -1)
			if len(line) != 1 || f.Required == strings.Contains(line[0], "# ") {
				t.Errorf("%s.%s has the lines %q", o.Name(), f.Name, line)
			}
			if how := strings.Join(strings.Fields(f.How), " "); !strings.Contains(flat, "How: "+how) || !strings.Contains(flat, f.Doc) {
				t.Errorf("%s.%s does not say what it is and how to get it", o.Name(), f.Name)
			}
		}
		last := 1 << 20
		for _, m := range readBy.FindAllStringSubmatch(flat, -1) {
			n, _ := strconv.Atoi("0" + m[1])
			if n > last {
				t.Errorf("%s: a field that %d rules read stands behind one that %d do", o.Name(), n, last)
			}
			last = n
		}
	}
	_, text, _ := command1("", append([]string{"new", "part"}, catalog.KindNames()...)...)
	if status, out, stderr := loadsAs(t, text); status != exitOK || !strings.Contains(out, strconv.Itoa(len(catalog.Kinds()))+" parts in") {
		t.Errorf("all kinds together do not load: %s%s", stderr, out)
	}
}

// sample is some value that a field may hold.
func sample(f fact.Field) string {
	number := strconv.FormatFloat(f.Min, 'f', -1, 64)
	switch f.Type {
	case fact.Flag:
		return "true"
	case fact.Choice:
		return f.Choices[0]
	case fact.Name:
		return "some"
	case fact.Names:
		return "[some]"
	case fact.Fractions, fact.Wholes:
		return "[" + number + "]"
	}
	return number
}

// TestPartStartersTakeValues holds that each line of a starter can be filled in where it
// stands: the reader takes the value, or says what this value has to do with others.
func TestPartStartersTakeValues(t *testing.T) {
	for _, o := range catalog.Kinds() {
		_, text, _ := command1("", "new", "part", o.Name())
		for _, f := range o.Table().Fields() {
			filled := fieldLine("    ", f.Name).ReplaceAllLiteralString(text, "    "+f.Name+": "+sample(f))
			_, err := catalog.ReadFile("mine.yaml", []byte(filled))
			ps, _ := err.(source.Problems)
			for _, p := range ps {
				if p.Code != source.Contradicts && p.Code != source.Missing {
					t.Errorf("%s.%s: %s", o.Name(), f.Name, p)
				}
			}
		}
	}
}

// TestReadingsAreCounted holds the count beside a field against rules that are known.
func TestReadingsAreCounted(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "small.yaml"), []byte(answered), 0o644); err != nil {
		t.Fatal(err)
	}
	_, text, _ := command1("", "new", "part", "chain", "--no-standard", "--rules", dir)
	speeds, width := strings.Index(text, "# speeds:"), strings.Index(text, "# outer_width_mm:")
	if strings.Count(text, "Read by 1 of 2 rules.") != 2 || !strings.Contains(text, "No rule reads it.") ||
		speeds > strings.Index(text, "# inner_width_mm:") || width > strings.Index(text, "# inner_width_mm:") {
		t.Errorf("two fields are read by a rule each:\n%s", text)
	}
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	// Rules ask for pitches by figures alone.
	if n := readings(c.Rules())["cassette.pitch_mm"]; n < 3 {
		t.Errorf("%d rules hang on the pitch of a cassette", n)
	}
}

// TestMixStartersCheck holds that a mix to begin from can be judged as it is, and that
// what is invented in it is no fault.
func TestMixStartersCheck(t *testing.T) {
	lines := [][]string{{}, catalog.KindNames()}
	for _, kind := range catalog.KindNames() {
		lines = append(lines, []string{kind})
	}
	for _, kinds := range lines {
		status, text, stderr := command1("", append([]string{"new", "mix"}, kinds...)...)
		if status != exitOK {
			t.Fatal(stderr)
		}
		status, out, stderr := command1(text, "check", "-")
		if status != exitOK && status != exitUnknown || stderr != "" || strings.Contains(out, "FAIL") {
			t.Errorf("new mix %v ends with %d: %s%s", kinds, status, stderr, out)
		}
		if !strings.Contains(text, "\nbench:\n") || !strings.Contains(text, "  # hanger_error_mm:") {
			t.Errorf("new mix %v has no bench", kinds)
		}
	}
	_, text, _ := command1("", "new", "mix")
	for _, kind := range []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "crankset", "hub", "frame"} {
		if !strings.Contains(text, "\n  "+kind+":\n    name: Invented ") {
			t.Errorf("a whole bicycle has no %s", kind)
		}
	}
	filled := strings.NewReplacer("    # outer_width_mm:", "    outer_width_mm: 5.6", "  # hanger_error_mm:", "  hanger_error_mm: 1").Replace(text)
	if status, _, stderr := command1(filled, "check", "-"); filled == text || stderr != "" || status == exitLoad {
		t.Errorf("lines cannot be filled in: %s", stderr)
	}
}

// TestLikeIsTheMix holds that a mix printed to go on from is the same mix.
func TestLikeIsTheMix(t *testing.T) {
	mixes := map[string]string{"odd.yaml": `mix: "Odd: # \"9\", 'true'"
parts:
  cassette: {cogs_t: [11, 13, 15], pitch_mm: 3.65 ± 0.02, name: 'yes', maker: "a\tb", freehub: [spline-9, driver-10]}
  chain: {speeds: 9, sku: 007-a, name: "9", basis: measured}
bench: {chain_wear_percent: 0.2, position: sag}
`,
		"odd-bare.yaml":  "mix: Some\nparts: {chain: {}, hub: {maker: No}, rear_derailleur: {}}\n",
		"odd-hub.yaml":   "mix: Some\nscope: bike\nparts: {hub: {}}\n",
		"odd-empty.yaml": "mix: Some\nscope: bike\nparts: {}\n",
		"odd.json":       `{"mix": "No", "scope": "bike", "parts": {"chain": {"name": "~", "speeds": 9, "outer_width_mm": "6.6 ± 0.1"}}}`}
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		mixes[name+".yaml"] = string(text)
	}
	t.Chdir(t.TempDir())
	for name, text := range mixes {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		wantStatus, want, stderr := command1("", "check", "--format", "json", name)
		if wantStatus == exitLoad {
			t.Fatal(stderr)
		}
		_, like, stderr := command1("", "new", "mix", "--like", name)
		if status, got, more := command1(like, "check", "--format", "json", "-"); status != wantStatus || got != want {
			t.Errorf("%s is another mix: %s%s%s\n%s", name, stderr, more, firstDifference(want, got), like)
		}
		line := append([]string{"new", "mix"}, spelled(t, name, []byte(text))...)
		if strings.HasPrefix(name, "odd") {
			continue // its free texts are said in TestLineSaysWhatFilesSay, and a part of which nothing is said in none
		}
		if _, again, stderr := command1("", line...); again != like {
			t.Errorf("%s on the line is another starter: %s%s", name, stderr, firstDifference(like, again))
		}
	}
}

// TestLikeAsksForWhatIsMissed holds that each fact that a report misses has a line, and
// that filling in a line is enough.
func TestLikeAsksForWhatIsMissed(t *testing.T) {
	const mix = "mix: A\nscope: bike\nparts:\n  cassette: {cogs_t: [11, 13, 15], pitch_mm: 3.78, cog_thickness_mm: 1.6}\n" +
		"  chain: {name: Some}\n  rear_derailleur: donated-rd-lantern\n"
	status, like, stderr := command1(mix, "new", "mix", "--like", "-")
	if status != exitOK {
		t.Fatal(stderr)
	}
	_, out, _ := command1(mix, "check", "--format", "json", "-")
	var report struct{ Missing []compat.Missing }
	if err := json.Unmarshal([]byte(out), &report); err != nil || len(report.Missing) < 3 {
		t.Fatal(err, out)
	}
	for _, m := range report.Missing {
		kind, field, _ := strings.Cut(m.Name, ".")
		_, block, _ := strings.Cut(like, "\n  "+kind+":")
		if kind == "bench" {
			_, block, _ = strings.Cut(like, "\nbench:")
		}
		if !slices.ContainsFunc(strings.Split(block, "\n"), func(l string) bool {
			return strings.HasSuffix(l, " "+field+":") && strings.HasPrefix(strings.TrimSpace(l), "#")
		}) {
			t.Errorf("there is no line for %s:\n%s", m.Name, like)
		}
	}
	for _, kind := range []string{"crankset", "hub", "frame"} {
		if !strings.Contains(like, "\n  # "+kind+":\n") {
			t.Errorf("the bicycle's %s is not asked for", kind)
		}
	}
	filled := strings.Replace(like, "    # outer_width_mm:", "    outer_width_mm: 6.6", 1)
	if status, out, stderr := command1(filled, "check", "-"); status != exitFail || !strings.Contains(out, "chain/neighbour-gap") {
		t.Errorf("what was filled in is not judged: %d %s%s", status, stderr, out)
	}
}

// TestNewIsUsedRightly holds what each wrong line is told.
func TestNewIsUsedRightly(t *testing.T) {
	for _, c := range []struct {
		line   string
		status int
		want   string
	}{
		{"new part", exitUsage, "name the kind behind part"},
		{"new part chian", exitUsage, `there is no kind "chian"; did you mean "chain"?`},
		{"new part chain chain", exitUsage, "chain stands twice"},
		{"new mix chian", exitUsage, `there is no kind "chian"`},
		{"new part chain --like demo:ferry-motor", exitUsage, "--like goes with mix"},
		{"new a/b --like demo:ferry-motor", exitUsage, "--like goes with mix"},
		{"new part chain --parts .", exitUsage, "--parts goes with mix"},
		{"new mix --parts .", exitUsage, "--parts goes with --like"},
		{"new mix chain --like demo:ferry-motor", exitUsage, "leave chain out"},
		{"new mix chain.speeds=9 --like demo:ferry-motor", exitUsage, "are two mixes"},
		{"new mix chain.speeds=9 cassette", exitUsage, "leave cassette out"},
		{"new mix --like demo:fery-motor", exitLoad, "ferry-motor"},
		{"new mix --like demo:order", exitLoad, "is a cart, not a mix"},
		{"new mix chain.sppeds=9", exitLoad, `argument 2: chain.sppeds=9: chain: unknown entry "sppeds"`},
		{"new mx", exitUsage, `"mx" is no id for a rule; write group/name, with a-z, 0-9 and -, or mix, or part and a kind`},
		{"new chain", exitUsage, `"chain" is a kind; cogcourt new part chain prints`},
	} {
		status, out, stderr := command1("", arguments(c.line)...)
		if status != c.status || out != "" || !strings.Contains(stderr, c.want) {
			t.Errorf("%s ends with %d, want %d and %q: %s%s", c.line, status, c.status, c.want, stderr, out)
		}
	}
}
