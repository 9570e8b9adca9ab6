package compat

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/standard"
)

// fewExamples are how many examples of a shipped rule a seed keeps: all of them would
// take most of the time.
const fewExamples = 2

// ruleSeeds are the shipped rules and steps, each as a file of its own with few of its examples, and
// others that show what the shipped ones do not.
func ruleSeeds(t testing.TB) []string {
	t.Helper()
	seeds := []string{
		adjustable + "adjust:\n  - {rule: shop/wide, to: warn, reason: r, by: b, until: 2999-12-31}\n",
		"pack: odd\nrules:\n  - {id: odd/zero, title: t, why: w, let: {half: 1 / (count(cassette.cogs_t) - 2)}, fail_if: half > 1 || cassette.cogs_t[7] > 20, say: '{half:.1}', remedy: r, basis: {memory: m}}\n",
		"pack: odd\nrules:\n  - {id: odd/loop, title: t, why: w, when: stated(cassette.cogs_t), warn_if: 'cassette.cogs_t.exists(c, cassette.cogs_t.all(d, d % c != 1))', say: s, remedy: r, basis: {practice: p}}\n",
		`{"pack": "json", "rules": [{"id": "json/one", "title": "t", "why": "w", "fail_if": "near(chain.outer_width_mm, 6.6, 0.01)", "say": "s", "remedy": "r", "basis": {"practice": "p"}}]}`,
	}
	files, err := fs.Glob(standard.Files(), "*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		text, err := fs.ReadFile(standard.Files(), file)
		if err != nil {
			t.Fatal(err)
		}
		for _, list := range []string{"rules", "steps"} {
			seeds = append(seeds, entriesOf(string(text), list)...)
		}
	}
	return seeds
}

// entriesOf makes a file of each entry of a list that a rule file holds.
func entriesOf(text, list string) []string {
	_, entries, found := strings.Cut(text, "\n"+list+":\n")
	if !found {
		return nil
	}
	var out []string
	for _, entry := range strings.Split(entries, "\n  - id: ")[1:] {
		kept, examples := "", 0
		for line := range strings.Lines(entry) {
			if strings.HasPrefix(line, "      - {name: ") {
				examples++
			}
			if examples <= fewExamples {
				kept += line
			}
		}
		if list == "steps" {
			kept += oneRule
		}
		out = append(out, "pack: one\n"+list+":\n  - id: "+kept)
	}
	return out
}

// oneRule stands below steps, for a file without a rule is none.
const oneRule = "rules:\n  - {id: one/wide, title: t, why: w, fail_if: chain.outer_width_mm > 5, say: s, remedy: r, basis: {practice: p}}\n"

// citedIDs is a file of the sources that the shipped rules name.
func citedIDs(t testing.TB) string {
	t.Helper()
	text, err := fs.ReadFile(standard.Files(), "sources.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, id := range regexp.MustCompile(`(?m)^  - \{?id: ([a-z0-9-]+)`).FindAllStringSubmatch(string(text), -1) {
		list = append(list, fmt.Sprintf(`{"id": %q, "what": "w", "status": "read"}`, id[1]))
	}
	return `{"pack": "cited", "sources": [` + strings.Join(list, ", ") + `]}`
}

// FuzzRules loads any text as a rule file: it has faults with places, or it judges three
// mixes twice in the same bytes, and nothing that goes wrong in it is a pass.
func FuzzRules(f *testing.F) {
	mixes, cited := fixedMixes(f), citedIDs(f)
	blind.Fuzz(f, ruleSeeds(f), func(t testing.TB, text []byte, choice byte) bool {
		files := fstest.MapFS{"cited.json": {Data: []byte(cited)}, []string{"rules.yaml", "rules.json"}[choice%2]: {Data: text}}
		c, err := New(Config{NoStandard: true, Rules: []fs.FS{files}})
		if err != nil {
			placedFaults(t, err)
			return false
		}
		for _, m := range mixes {
			r := c.Check(m)
			wholeWay(t, r)
			sameBytes(t, "the report again", c.Check(m).AppendJSON(nil), r.MarshalJSON)
		}
		for _, wrong := range first(c.Rules().Prove()) {
			if strings.Contains(wrong.Detail, "internal error") {
				t.Errorf("the example %s of %s: %s", wrong.Example.Name, wrong.Rule.ID, wrong.Detail)
			}
		}
		return true
	})
}

func first(failures []rules.Failure, _ int) []rules.Failure { return failures }

// FuzzText puts any text where a rule has its texts. It changes no verdict, and breaks
// nothing where facts lack.
func FuzzText(f *testing.F) {
	seeds := []string{
		"{gap:.2} mm between {chain.outer_width_mm} and {cassette.cogs_t}. {name}", "{gap > 0 ? 'a' : 'b'} {{ }} {abs(gap):.1}", "{cassette.cogs_t[7]} {1 / (gap - gap)}", "{chain.strength_n} N. And {figures.index_residual_mm:.3}.",
		"{'{'} {\"}\"}", "{", "}", "{}", "{gap:.9}", "plain # text", "{chain.maker}", "\x1b[31m {gap}", "{last(cassette.cogs_t) * 1e300 * 1e300}", "{last(cassette.cogs_t)} cogs: {size(cassette.cogs_t)}. {near(gap, 1, 0.5)}",
	}
	mixes := fixedMixes(f)
	plain := verdictsOf(f, "a plain text", mixes)
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		c, err := New(Config{NoStandard: true, Rules: ruleFiles(textPack(t, string(text), choice))})
		if err != nil {
			placedFaults(t, err)
			return false
		}
		for i, m := range mixes {
			r := c.Check(m)
			wholeWay(t, r)
			if r.Verdict != plain[i] {
				t.Errorf("%q makes %s of %s", text, r.Verdict, plain[i])
			}
		}
		return true
	})
}

// verdictsOf is what the mixes come to with one text.
func verdictsOf(t testing.TB, text string, mixes []Mix) []rules.Verdict {
	t.Helper()
	c, err := New(Config{NoStandard: true, Rules: ruleFiles(textPack(t, text, 0))})
	if err != nil {
		t.Fatal(err)
	}
	var out []rules.Verdict
	for _, m := range mixes {
		out = append(out, c.Check(m).Verdict)
	}
	return out
}

// textPack is a rule and a step with one text in one of the places that take texts with
// expressions.
func textPack(t testing.TB, text string, choice byte) string {
	t.Helper()
	quoted, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	places := []string{"say", "remedy", "caution", "pass", "do", "value", "check"}
	place := places[int(choice)%len(places)]
	of := map[string]string{"say": `"s"`, "remedy": `"r"`, "caution": `"c"`, "pass": `"p"`, "do": `"d"`, "value": `"v"`, "check": `"k"`}
	of[place] = string(EscapeJSON(quoted))
	return fmt.Sprintf(`pack: text
rules:
  - {id: text/one, title: t, why: w, let: {gap: 7 - chain.outer_width_mm, name: "gap > 1 ? 'wide' : 'narrow'"}, warn_if: gap < 1, say: %s, remedy: %s, caution: %s, pass: %s, basis: {practice: p}}
steps:
  - {id: one, do: %s, value: %s, check: %s, because: b}
`, of["say"], of["remedy"], of["caution"], of["pass"], of["do"], of["value"], of["check"])
}
