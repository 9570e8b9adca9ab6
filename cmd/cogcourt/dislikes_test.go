package main

import (
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// What makes a mechanic distrust a tool: false exactness, promises, sides without
// a viewpoint, numbers without what they are counted from. Each check gives a
// sentence on a text that has the fault, else nothing.
var dislikes = []func(text string) string{
	without(`\d\.\d{3,} ?(mm|degrees|half-inch)|:\.[3-9]\}`, "", "nobody measures three decimals"),
	without(`(?i)\b(in)?compatib`, "", "compatible is a promise; say what was found"),
	without(`(?i)\bworks?\b`, `(?i)\bworks? by\b`, "works is a promise; say what was found"),
	without(`(?i)\b(anti|counter)?-?clockwise\b`, `(?i)seen from`, "clockwise from where?"),
	without(`(?i)\b(to the|on the|the|turned|towards the) (left|right)\b[,.;:]|\b(to the|on the|towards the) (left|right)\b|\b(left|right)[- ](hand|side)\b`, `(?i)left-hand thread`, "left and right depend on who looks; say towards the spokes or the dropout"),
	without(`(?i)\blinks?\b`, `(?i)\b(half-inch|inner|outer) links?\b|\bhanger\b`, "which link? say half-inch links"),
	without(`(?i)\btrim\b[^.]*[0-9}]`, `(?i)\bfrom\b`, "trim is counted from where?"),
	without(`(?i)\bpercent\b`, `\bmm\b|(?i)charge`, "percent of what? say the millimetres as well"),
	without(`(?i)b-gap[^.]*\bmm\b|\bmm\b[^.]*b-gap`, `(?i)\bsag\b|\bon the stand\b`, "a B-gap in mm holds at sag, or says where else"),
}

// without refuses a pattern in a text, but where the text says as often what
// makes it right.
func without(pattern, unless, fault string) func(string) string {
	bad := regexp.MustCompile(pattern)
	return func(text string) string {
		found := len(bad.FindAllString(text, -1))
		if found == 0 || unless != "" && len(regexp.MustCompile(unless).FindAllString(text, -1)) >= min(found, allowed(unless, found)) {
			return ""
		}
		return fault
	}
}

// allowed is how often the right words must stand: each time for a word that is
// right only in a phrase, once for a remark on the whole text.
func allowed(unless string, found int) int {
	if strings.Contains(unless, "links?") || strings.Contains(unless, "works?") {
		return found
	}
	return 1
}

// torque of a bolt goes with the sentence that the part's own marking wins; that of a
// motor is no setting.
var torque = without(`\bN m\b`, `(?i)marking|of the motor`, "a torque needs: the part's own marking wins")

// disliked gives the faults of a text.
func disliked(text string) []string {
	text = strings.Join(strings.Fields(text), " ")
	var out []string
	for _, check := range dislikes {
		if fault := check(text); fault != "" {
			out = append(out, fault)
		}
	}
	return out
}

// TestDislikesAreSeen holds that each check sees what it is for, and no more.
func TestDislikesAreSeen(t *testing.T) {
	bad := []string{
		"It misses by 0.553 mm.", "The gap is {gap:.3} mm.", "The parts are compatible.", "This chain works.",
		"Turn it clockwise.", "The cage on the right touches.", "Move it to the left.", "Use the left-hand cup.",
		"Cut it to 114 links.", "Take a link out of 116 half-inch links.", "Set the trim to +3.",
		"It misses by 14 percent.", "Set a B-gap of 13 mm.",
	}
	for _, text := range bad {
		if len(disliked(text)) == 0 {
			t.Errorf("nothing is said of %q", text)
		}
	}
	for _, text := range []string{
		"It misses by 0.55 mm, 14.7 percent of the spacing.", "The shifter works by cable.", "0.6 are left for the pulleys.",
		"Cut it to 114 half-inch links.", "Take the right one.", "The trim moves 1.2 mm each way from its middle.",
		"A B-gap of 13 mm at sag.", "On the stand a B-gap of 6 mm.", "The cup has a left-hand thread.", "The cell holds 30 percent of its charge.",
	} {
		if faults := disliked(text); len(faults) > 0 {
			t.Errorf("%q: %v", text, faults)
		}
	}
}

// standardTexts gives every text of each shipped rule and step, with its place.
func standardTexts(t *testing.T) [][]placed {
	t.Helper()
	var ps source.Problems
	var out [][]placed
	for _, f := range source.ReadFiles(os.DirFS("../../rules/standard"), &ps) {
		root, err := source.Parse(f.Name, f.Text)
		if err != nil {
			t.Fatal(err)
		}
		for _, list := range []string{"rules", "steps"} {
			for _, item := range root.Get(list).ReadList(list, &ps) {
				out = append(out, textsOf(item))
			}
		}
	}
	if len(ps) > 0 || len(out) < 30 {
		t.Fatalf("%d rules and steps, %v", len(out), ps)
	}
	return out
}

// placed is a text of a rule file, under its key.
type placed struct{ place, key, text string }

func textsOf(n *source.Node) []placed {
	texts := []string{"title", "why", "say", "pass", "remedy", "caution", "what", "do", "value", "unstated", "check", "because"}
	var out []placed
	for _, p := range n.Pairs {
		switch {
		case slices.Contains(texts, p.Key.Text) && p.Value.Kind == source.Text:
			out = append(out, placed{p.Value.Pos.String(), p.Key.Text, p.Value.Text})
		case p.Key.Text == "needs":
			for _, need := range p.Value.Items {
				out = append(out, textsOf(need)...)
			}
		}
	}
	return out
}

// TestRuleTexts holds every text of the shipped rules and steps against the
// dislikes.
func TestRuleTexts(t *testing.T) {
	backwards := regexp.MustCompile(`(?i)back-?pedal|pedal\w* backwards`)
	careful := regexp.MustCompile(`(?i)\b(test it|expected|may)\b`)
	for _, texts := range standardTexts(t) {
		all := ""
		for _, p := range texts {
			all += p.text + "\n"
		}
		// Beside a hanger a link is the part of that name, not half an inch of chain.
		hanger := strings.Contains(all, "hanger_link") || strings.Contains(all, "rated_cog_t")
		for _, p := range texts {
			for _, fault := range disliked(p.text) {
				if hanger && strings.HasPrefix(fault, "which link?") {
					continue
				}
				t.Errorf("%s: %s: %s: %s", p.place, p.key, fault, p.text)
			}
			if (p.key == "say" || p.key == "pass") && backwards.MatchString(p.text) && !careful.MatchString(p.text) {
				t.Errorf("%s: %s: pedalling backwards is not promised: say not expected to drop; test it", p.place, p.key)
			}
		}
		if fault := torque(all); fault != "" {
			t.Errorf("%s: %s", texts[0].place, fault)
		}
	}
}

// TestNoLineFails holds that no rule fails on a chain's line or angle, for which
// nobody publishes a limit.
func TestNoLineFails(t *testing.T) {
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	line := regexp.MustCompile(`chain_angle|ring_lines|cog_lines|backpedal|chainline`)
	seen := 0
	for _, r := range c.Rules().Rules() {
		conditions := r.FailIf
		for _, l := range r.Lets() {
			conditions += " " + l.Text
		}
		if line.MatchString(conditions + r.WarnIf) {
			seen++
			if r.FailIf != "" && line.MatchString(conditions) {
				t.Errorf("%s fails on %s", r.ID, line.FindString(conditions))
			}
		}
	}
	if seen == 0 {
		t.Error("no rule looks at lines")
	}
}

// TestDemoReports holds the reports and sheets of the demo against the dislikes.
func TestDemoReports(t *testing.T) {
	opening := regexp.MustCompile(`(?m)^ {9}(No fault found in \d+ checks?|\d+ (faults?|warnings?|open points?|checks? that went wrong)( and| in|,) [^.]*checks?|Nothing could be)`)
	for _, name := range demo.Mixes() {
		_, text, _ := command1("", "check", "demo:"+name)
		_, sheet, _ := command1("", "sheet", "demo:"+name)
		for _, paragraph := range strings.Split(text+sheet, "\n\n") {
			for _, fault := range disliked(paragraph) {
				t.Errorf("%s: %s:\n%s", name, fault, paragraph)
			}
		}
		_, explained, _ := command1("", "check", "--explain", "demo:"+name)
		if m := regexp.MustCompile(`\d\.\d{3,} [a-z]+|\d\.\d{5,}`).FindString(explained); m != "" {
			t.Errorf("%s explains with %s", name, m)
		}
		if !opening.MatchString(text) || !strings.Contains(strings.Join(strings.Fields(text), " "), "marking wins") {
			t.Errorf("%s does not say in how many checks, or that the marking wins:\n%s", name, text)
		}
	}
	for _, name := range demo.Orders() {
		_, text, _ := command1("", "cart", "demo:"+name)
		for _, paragraph := range strings.Split(text, "\n\n") {
			for _, fault := range disliked(paragraph) {
				hanger := strings.HasPrefix(fault, "which link?") && strings.Contains(paragraph, "[cassette/largest-cog]") // see TestRuleTexts
				if !hanger {
					t.Errorf("%s: %s:\n%s", name, fault, paragraph)
				}
			}
		}
		if strings.Count(strings.Join(strings.Fields(text), " "), "marking wins") != 1 {
			t.Errorf("%s does not say once that the marking wins:\n%s", name, text)
		}
	}
}

// innerName is a name that only who writes rules knows.
var innerName = regexp.MustCompile(`\b(figures|bench|` + strings.Join(catalog.KindNames(), "|") + `)\.[a-z][a-z_0-9]*`)

// TestNoInnerNames holds that texts say what a fact is, and not what rules call it.
func TestNoInnerNames(t *testing.T) {
	if !innerName.MatchString("by figures.chain_outer_mm") || innerName.MatchString("the chain. It") {
		t.Fatal("inner names are not seen")
	}
	open := `{mix: open, scope: bike, parts: {cassette: {cogs_t: [11, 13, 15, 17, 19], pitch_mm: 4.0 ± 0.2}, chain: {speeds: 9}, crankset: {rings_t: [40]},
		rear_derailleur: {actuation: motor, made_for_pitch_mm: 4.6, max_cog_t: 15}, rear_shifter: {actuation: cable, pull_mm: 3}, hub: {kind_of_hub: cassette}, frame: {}}}`
	mixes := map[string]string{"-": open}
	for _, name := range demo.Mixes() {
		mixes["demo:"+name] = ""
	}
	for mix, stdin := range mixes {
		for _, line := range []string{"check", "check --explain", "sheet", "sheet --format markdown"} {
			_, stdout, stderr := command1(stdin, append(strings.Fields(line), mix)...)
			if len(stdout) < 200 {
				t.Fatalf("%s %s says nothing: %s", line, mix, stderr)
			}
			if m := innerName.FindString(stdout); m != "" {
				t.Errorf("%s %s says %s", line, mix, m)
			}
		}
	}
}

// TestStopsOfAMotorComeLast holds that the sheet of a motor derailleur does not
// begin with the limit stops, against which the motor must not push.
func TestStopsOfAMotorComeLast(t *testing.T) {
	_, out, _ := command1("", "sheet", "--format", "json", "demo:ferry-motor")
	var sheet struct{ Steps []struct{ ID, Do string } }
	if err := json.Unmarshal([]byte(out), &sheet); err != nil {
		t.Fatal(err)
	}
	place := map[string]int{}
	for i, s := range sheet.Steps {
		place[s.ID] = i + 1
	}
	if place["fine-trim"] == 0 || place["stops"] < place["fine-trim"] || !strings.Contains(sheet.Steps[place["stops"]-1].Do, "limit stops") {
		t.Errorf("the stops are step %d, the fine trim %d", place["stops"], place["fine-trim"])
	}
}

// TestOneFaultIsToldOnce holds that no two findings of a demo report that do not
// pass say the same, or rest on the same facts.
func TestOneFaultIsToldOnce(t *testing.T) {
	fails := map[string]int{"fleet-three-faults": 3}
	unknown := map[string]int{"donated-undecided": 1, "phone-question": 1} // facts to measure first
	for _, name := range demo.Mixes() {
		r := demoReport(t, name)
		told := map[string]string{}
		failing := 0
		for _, f := range r.Findings() {
			if f.Verdict == rules.Fail {
				failing++
			}
			if f.Verdict != rules.Fail && f.Verdict != rules.Warn {
				continue
			}
			var facts []string
			for _, u := range f.Used {
				facts = append(facts, u.Name)
			}
			slices.Sort(facts)
			for _, key := range []string{f.Text, f.Remedy, strings.Join(facts, " ")} {
				if other := told[key]; other != "" && other != f.Rule {
					t.Errorf("%s: %s and %s tell one fault: %s", name, other, f.Rule, key)
				}
				told[key] = f.Rule
			}
		}
		if failing != fails[name] {
			t.Errorf("%s: %d fails, want %d", name, failing, fails[name])
		}
		if got := len(r.Missing()); got != unknown[name] {
			t.Errorf("%s: %d facts to measure first, want %d", name, got, unknown[name])
		}
	}
}

func demoReport(t *testing.T, name string) compat.Report {
	t.Helper()
	return report(t, "demo:"+name)
}

// report checks one mix of the demo or a text.
func report(t *testing.T, mix string) compat.Report {
	t.Helper()
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	cat, err := options{}.catalogue()
	if err != nil {
		t.Fatal(err)
	}
	name := "-"
	if strings.HasPrefix(mix, "demo:") {
		name = mix
	}
	m, _, err := readMix(name, strings.NewReader(mix), cat)
	if err != nil {
		t.Fatal(err)
	}
	return c.Check(m)
}

// TestDailyRidesDoNotFail holds what many ride every day and no rule may fail.
func TestDailyRidesDoNotFail(t *testing.T) {
	for name, parts := range map[string]string{
		"an own set by coarse averages": `{cassette: {cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 24, 28], pitch_mm: 3.95, index_family: lake},
			rear_shifter: {actuation: cable, pull_mm: 2.7, clicks: 9, index_family: lake}, rear_derailleur: {actuation: cable, ratio: 1.4, index_family: lake}}`,
		"eight clicks of a shifter on seven cogs": `{cassette: {cogs_t: [13, 15, 17, 19, 21, 23, 25], pitch_mm: 5}, rear_shifter: {actuation: cable, pull_mm: 2.8, clicks: 7},
			rear_derailleur: {actuation: cable, ratio: 1.7}}`,
		"two teeth over the largest cog":  `{cassette: {cogs_t: [11, 13, 36]}, rear_derailleur: {max_cog_t: 34}}`,
		"a chain for eleven on twelve":    `{cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.65}, chain: {speeds: 11, outer_width_mm: 5.62}}`,
		"the widest for eleven on twelve": `{cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.65}, chain: {speeds: 11, outer_width_mm: 5.74}}`,
	} {
		r := report(t, "mix: "+name+"\nparts: "+parts+"\n")
		decided := 0
		for _, f := range r.Findings() {
			if f.Verdict == rules.Fail {
				t.Errorf("%s: %s fails: %s", name, f.Rule, f.Text)
			}
			if f.Verdict != rules.Unknown {
				decided++
			}
		}
		if decided == 0 {
			t.Errorf("%s: nothing was decided", name)
		}
	}
}
