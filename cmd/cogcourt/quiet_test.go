package main

import (
	"os"
	"strings"
	"testing"
)

// clickRules read two figures that may mean nothing for a mix.
const clickRules = `pack: clicks
rules:
  - {id: clicks/first, title: The first click is used, why: Spare clicks surprise., warn_if: figures.index_first_click > 0,
     say: One is spare., remedy: Tell the rider., basis: {practice: invented}}
  - {id: clicks/error, title: The index fits, why: It skips., warn_if: figures.index_residual_mm > 9,
     say: It does not fit., remedy: Another shifter., basis: {practice: invented}}
`

// That there is no spare click is how things should be and no news; that a lever
// has no clicks is. Which is which, the figure tells and not its sentence.
func TestNoNewsIsQuiet(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("rules", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("rules/r.yaml", []byte(clickRules), 0o644); err != nil {
		t.Fatal(err)
	}
	mix := func(shifter string) string {
		return `{mix: Clicks, parts: {cassette: {cogs_t: [11, 13, 15, 17, 19, 21, 24, 28], pitch_mm: 4.8},
  rear_derailleur: {actuation: cable, ratio: 1.7}, rear_shifter: ` + shifter + `}}`
	}
	const clicks, ear = "{actuation: cable, pull_mm: 2.8, clicks: 7}", "{actuation: cable, indexed: false}"
	for _, test := range []struct{ name, shifter, flags, want, not string }{
		{"no spare click", clicks, "", "No fault found in 1 check.", "unjudged"},
		{"explained", clicks, "--explain", "clicks/first: there is no spare click", "unjudged"},
		{"by ear", ear, "", "unjudged", "spare"},
	} {
		_, stdout, stderr := command1(mix(test.shifter), strings.Fields("check --no-standard --rules rules - "+test.flags)...)
		if !strings.Contains(stdout, test.want) || strings.Contains(stdout, test.not) {
			t.Errorf("%s: want %q and not %q:\n%s%s", test.name, test.want, test.not, stdout, stderr)
		}
	}
}

// A finding prints its own sentence, and none where there is none but the title.
func TestTitleStandsOnce(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("rules", 0o755); err != nil {
		t.Fatal(err)
	}
	text := `pack: speaks
rules:
  - {id: speaks/not, title: The chain is narrow, why: w, warn_if: chain.outer_width_mm > 9, say: Wide., remedy: r, basis: {practice: p}}
  - {id: speaks/pass, title: The chain is slim, why: w, warn_if: chain.outer_width_mm > 9, say: Wide., pass: "It has {chain.outer_width_mm} mm.", remedy: r, basis: {practice: p}}
  - {id: speaks/warn, title: The chain is thin, why: w, warn_if: chain.outer_width_mm > 5, say: The chain is thin., remedy: r, basis: {practice: p}}
`
	if err := os.WriteFile("rules/r.yaml", []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	_, stdout, stderr := command1(`{mix: One, parts: {chain: {outer_width_mm: 6, speeds: 9}}}`, strings.Fields("check --explain --no-standard --rules rules -")...)
	for text, times := range map[string]int{"The chain is narrow": 1, "It has 6 mm.": 1, "The chain is thin.": 1} {
		if n := strings.Count(stdout, text); n != times {
			t.Errorf("%q stands %d times, want %d:\n%s%s", text, n, times, stdout, stderr)
		}
	}
}

// A rule that goes wrong waits for no fact: the report says so, and what it was.
func TestRuleThatGoesWrong(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("rules", 0o755); err != nil {
		t.Fatal(err)
	}
	rule := func(id, when string) string {
		return "  - {id: wrong/" + id + ", title: T, why: w, warn_if: " + when + ", say: s, remedy: r, basis: {practice: p}}\n"
	}
	divides, waits, fine := rule("divides", "chain.pitches / (chain.speeds - 9) > 1"), rule("waits", "chain.outer_link_gap_mm > 3"), rule("fine", "chain.speeds > 30")
	for _, test := range []struct{ rules, want string }{
		{divides, "Nothing could be decided: 1 check that went wrong. Mend what went wrong, as said below, before ordering."},
		{divides + waits, "Nothing could be decided: 1 open point and 1 check that went wrong. Measure what is named below before ordering."},
		{waits, "Nothing could be decided: 1 open point. Measure what is named below before ordering."},
		{fine + divides, "1 check that went wrong in 2 checks, and no fault among the others. Mend what went wrong, as said below, before ordering."},
		{fine + waits + divides, "1 open point and 1 check that went wrong in 3 checks, and no fault among the others. Measure what is named below before ordering."},
	} {
		if err := os.WriteFile("rules/r.yaml", []byte("pack: wrong\nrules:\n"+test.rules), 0o644); err != nil {
			t.Fatal(err)
		}
		_, stdout, stderr := command1(`{mix: One, parts: {chain: {speeds: 9, pitches: 110}}}`, strings.Fields("check --no-standard --rules rules -")...)
		text := strings.Join(strings.Fields(stdout), " ")
		if !strings.Contains(text, test.want) {
			t.Errorf("want %s\n%s%s", test.want, stdout, stderr)
		}
		if strings.Contains(test.rules, "divides") && !strings.Contains(text, "This could not be worked out: division by zero.") {
			t.Errorf("nothing is said of what went wrong:\n%s", stdout)
		}
	}
}
