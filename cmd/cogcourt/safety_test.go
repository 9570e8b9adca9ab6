package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
)

// nasty holds characters that draw, move, turn round or hide text on a terminal:
// control characters, direction marks, blanks without width, line separators,
// tags, a soft hyphen, a letter that fonts leave blank, one of private use.
const nasty = "\x1b[31m\a\b\r\x7f\u009b1A\u202e\u2066\u200b\u200d\ufeff\u061c\u00ad\u2028\u0085\u3164\ue000\U000e0041"

// spelt gives a text as a JSON string in ASCII alone, which YAML reads as well:
// the file readers refuse such characters where they stand in the open.
func spelt(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '\n':
			b.WriteString(`\n`)
		case r > 0xffff:
			b.WriteString(`\U` + hex(r, 8))
		case r < ' ' || r >= 0x7f:
			b.WriteString(`\u` + hex(r, 4))
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func hex(r rune, digits int) string {
	text := make([]byte, digits)
	for i := digits - 1; i >= 0; i-- {
		text[i] = "0123456789abcdef"[r&15]
		r >>= 4
	}
	return string(text)
}

// nastyFiles are parts, rules and a mix in which every text that people write
// holds the nasty characters.
func nastyFiles(t *testing.T, dir string) {
	t.Helper()
	bad := spelt("x" + nasty + "y\nz")
	write := func(name, text string) {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(strings.ReplaceAll(text, "BAD", bad)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("parts/p.yaml", `{catalog: BAD, currency: BAD, parts: [
  {kind: chain, id: c, name: BAD, maker: BAD, sku: BAD, speeds: 9, outer_width_mm: 8},
  {kind: cassette, id: k, name: BAD, cogs_t: [11, 13]}]}`)
	write("rules/r.yaml", `
pack: nasty
note: BAD
rules:
  - {id: nasty/fail, title: BAD, why: BAD, fail_if: chain.outer_width_mm > 7, say: BAD, remedy: BAD, caution: BAD,
     needs: [{what: BAD, value: 1, unit: BAD}], basis: {source: s, practice: BAD},
     examples: [{name: BAD, given: {chain: {outer_width_mm: 7}}, want: fail}]}
  - {id: nasty/pass, title: BAD, why: BAD, let: {odd: "'\u001b\u202e'"}, warn_if: chain.outer_width_mm > 70, say: BAD, pass: BAD, remedy: BAD, basis: {geometry: BAD},
     waive: [{in: BAD, change: BAD, reason: BAD}]}
  - {id: nasty/unknown, title: BAD, why: BAD, warn_if: chain.inner_width_mm > 7, say: BAD, remedy: BAD, basis: {memory: BAD}}
  - {id: nasty/adjusted, title: BAD, why: BAD, fail_if: chain.outer_width_mm > 6, say: BAD, remedy: BAD, basis: {practice: BAD}}
sources: [{id: s, what: BAD, status: read}]
adjust: [{rule: nasty/adjusted, to: warn, reason: BAD, by: BAD, until: 2999-01-01}]
steps:
  - {id: one, do: BAD, value: BAD, check: BAD, because: BAD, caution: BAD}
  - {id: open, do: BAD, value: "{chain.pitches}", unstated: BAD, check: BAD, because: BAD}
  - {id: end, stopped_by: [nasty/*], do: BAD, check: BAD, because: BAD}
`)
	write("bike.yaml", `{mix: BAD, note: BAD, parts: {chain: c, cassette: k}}`)
	write("other.yaml", `{mix: BAD, parts: {chain: {speeds: 9, name: BAD, outer_width_mm: 6.1}}}`)
	write("typos.yaml", `{mix: BAD, BAD: BAD, scope: BAD, parts: {chain: BAD, BAD: k, cassette: {freehub: BAD, BAD: BAD, cogs_t: BAD}}}`)
	write("badrules/r.yaml", `{pack: BAD, BAD: 1, rules: [{id: BAD, BAD: BAD, title: t, fail_if: BAD, basis: {source: BAD, BAD: BAD},
  examples: [{name: BAD, want: BAD, given: {BAD: {}}}]}], adjust: [{rule: BAD, to: BAD, reason: BAD, by: BAD, until: BAD}]}`)
	write("badparts/p.yaml", `{parts: [{kind: BAD, id: BAD, name: BAD}, {kind: chain, id: BAD, name: n, price: BAD, basis: BAD, BAD: 1}]}`)
	write("od\x1bd\u202e.yaml", `{mix: 1}`)
	write("od\x1bd/r.yaml", "pack: odd\nrules:\n  - {id: odd/one, title: t, why: w, warn_if: chain.speeds > 9, say: s, remedy: r, basis: {practice: p}, examples: [{name: e, given: {chain: {speeds: 9}}, want: warn}]}\n")
}

// TestNoNameDrawsOnTheTerminal runs every command that prints texts on them.
func TestNoNameDrawsOnTheTerminal(t *testing.T) {
	dir := t.TempDir()
	nastyFiles(t, dir)
	t.Chdir(dir)
	own := "--no-standard --rules rules --parts parts "
	for _, line := range []string{
		"check bike.yaml " + own,
		"check bike.yaml --explain " + own,
		"check bike.yaml bike.yaml --explain " + own,
		"check typos.yaml " + own,
		"check missing\x1b.yaml demo:\x1b\u202e od\x1bd\u202e.yaml " + own,
		"check bike.yaml --no-standard --rules badrules --parts badparts",
		"check bike.yaml --no-standard --rules rules --parts badparts",
		"check bike.yaml --no-standard --rules rules --parts miss\x1b",
		"check --format \x1b " + own, "check --\x1b\u202e", "check\x1b", "check --min \x1b",
		"rules " + "--no-standard --rules rules", "rules --format markdown --no-standard --rules rules",
		"rules \x1b", "rule --no-standard --rules rules nasty/fail", "rule --no-standard --rules rules nasty/unknown",
		"rule --no-standard --rules od\x1bd odd/one", "rule \x1b",
		"prove --no-standard --coverage --mutants rules", "prove --no-standard od\x1bd", "prove --run \x1b --no-standard rules",
		"prove --run (\x1b --no-standard rules", "prove --no-standard --rules miss\x1b",
		"sheet bike.yaml " + own, "sheet --format markdown bike.yaml " + own, "sheet --as-built bike.yaml " + own,
		"compare bike.yaml other.yaml " + own, "compare other.yaml bike.yaml " + own, "compare bike.yaml typos.yaml " + own,
		"words \x1b\u202e", "words \x1b.\u202e", "schema \x1b", "new \x1b", "parts --parts parts", "parts \x1b", "help \x1b",
	} {
		_, stdout, stderr := command1("", strings.Fields(line)...)
		if stdout+stderr == "" {
			t.Errorf("%q prints nothing", line)
		}
		for _, out := range []string{stdout, stderr} {
			for i, r := range out {
				if draws(r) {
					t.Errorf("%q prints %U in %q", line, r, out[max(0, i-40):min(len(out), i+40)])
					break
				}
			}
		}
	}
	_, _, stderr := command1(`{"mix": `+strings.ReplaceAll(spelt(nasty), `\U000e0041`, `\udb40\udc41`)+`, "parts": {"\u001b\u202e": 1}}`, strings.Fields("check --format jsonl - "+own)...)
	if i := strings.IndexFunc(stderr, draws); i >= 0 || !strings.Contains(stderr, "stdin:1:") {
		t.Errorf("a line of many is told as %q", stderr)
	}
	_, stdout, _ := command1("", strings.Fields("check bike.yaml "+own)...)
	for _, want := range []string{`\u{1b}[31m`, `\u{202e}`, `\u{200b}`, `\u{e0041}`} {
		if !strings.Contains(stdout, want) {
			t.Errorf("the report does not show %s of a name:\n%s", want, stdout)
		}
	}
}

// draws tells what must not reach a terminal from anybody's text.
func draws(r rune) bool {
	if r == '\n' {
		return false
	}
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs) || r == '\u3164'
}

// TestJSONHidesNothing holds that what JSON gives is safe to look at, line by line
// of a batch as well.
func TestJSONHidesNothing(t *testing.T) {
	dir := t.TempDir()
	nastyFiles(t, dir)
	t.Chdir(dir)
	own := " --no-standard --rules rules --parts parts "
	bad := `{"mix": ` + strings.ReplaceAll(spelt(nasty), `\U000e0041`, `\udb40\udc41`) + `, "\u202e": 1, "parts": {"\u009b\u202e": "\u200b"}}`
	for _, line := range []string{
		"check bike.yaml --format json" + own, "check bike.yaml other.yaml --format jsonl --full" + own, "check - --format jsonl" + own,
		"sheet bike.yaml --format json" + own, "compare bike.yaml other.yaml --format json" + own,
		"check od\x1bd\u202e.yaml --format json" + own, "check od\x1bd\u202e.yaml --format jsonl" + own,
		"check typos.yaml --format json" + own, "check bike.yaml --format json --no-standard --rules badrules --parts badparts",
		"words --format json", "schema report",
	} {
		_, stdout, _ := command1(bad, strings.Fields(line)...)
		if stdout == "" {
			t.Errorf("%q prints nothing", line)
		}
		for i, r := range stdout {
			if r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
				t.Errorf("%q prints %U in %q", line, r, stdout[max(0, i-40):min(len(stdout), i+40)])
				break
			}
		}
	}
}

// TestJSONKeepsTrueStrings holds that JSON gives names as they are.
func TestJSONKeepsTrueStrings(t *testing.T) {
	dir := t.TempDir()
	nastyFiles(t, dir)
	t.Chdir(dir)
	want := "x" + nasty + "y\nz"
	for _, line := range []string{"check", "sheet"} {
		_, stdout, stderr := command1("", line, "--format", "json", "--no-standard", "--rules", "rules", "--parts", "parts", "bike.yaml")
		var got struct {
			Mix      string
			Parts    []struct{ Name string }
			Findings []struct{ Text, Why string }
			Steps    []struct{ Do string }
		}
		if err := json.Unmarshal([]byte(stdout), &got); err != nil {
			t.Fatal(err, stderr)
		}
		names := []string{got.Mix}
		for _, p := range got.Parts {
			names = append(names, p.Name)
		}
		for _, f := range got.Findings {
			names = append(names, f.Why)
		}
		for _, s := range got.Steps {
			names = append(names, s.Do)
		}
		if len(names) < 2 {
			t.Errorf("%s: only %d names", line, len(names))
		}
		for _, name := range names {
			if name != want {
				t.Errorf("%s: %q, want %q", line, name, want)
			}
		}
	}
}
