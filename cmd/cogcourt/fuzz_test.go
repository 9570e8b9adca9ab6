package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/internal/blind"
)

// FuzzTerminal hands any text to the command: as a mix or a cart on the standard input, as
// an argument, and as a file of rules or of parts. Whatever it is, nothing that is printed
// draws, moves or hides, and the status is one of those that there are.
func FuzzTerminal(f *testing.F) {
	own := shopFlags(f)
	file := filepath.Join(f.TempDir(), "x.yaml")
	order, _ := demo.Order("order")
	seeds := []string{
		shopRule, shopParts, string(order), "mix: M\nparts: {chain: c, cassette: {cogs_t: [11, 13], name: \"x\\u001b[31m\"}}\n", `{"mix": "a\u202eb", "parts": {"chain": {"name": "\u009b", "speeds": 9}}}`,
		"chain.speeds=9", "cassette.cogs_t=11,13,15", "cassette.pitch_mm=3.65±0.05", "mix=\x1b[31m", "chain=c", "bench.chain_pitches=110", "lines: [{id: c, name: \"\\a\"}]\n",
	}
	lines := [][]string{
		{"check", "-"}, {"check", "-", "--explain"}, {"check", "-", "--plain"}, {"check", "-", "--format", "html"}, {"check", "-", "--format", "jsonl"}, {"sheet", "-"},
		{"sheet", "-", "--format", "markdown"}, {"compare", "-", "chain.speeds=9"}, {"cart", "-"}, {"check", "ARGUMENT"}, {"rules"}, {"rule", "shop/wide"}, {"parts"}, {"words", "ARGUMENT"},
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		args := append([]string{}, lines[int(choice)%len(lines)]...)
		for i, arg := range args {
			if arg == "ARGUMENT" {
				args[i] = string(text)
			}
		}
		switch args[0] {
		case "words":
		case "rules", "rule":
			keep(t, file, text)
			args = append(args, "--no-standard", "--rules", file)
		case "parts":
			keep(t, file, text)
			args = append(args, "--parts", filepath.Dir(file))
		default:
			args = append(args, own...)
		}
		status, stdout, stderr := command1(string(text), args...)
		if silent := stdout+stderr == "" && len(strings.TrimSpace(string(text))) > 0; status < 0 || status > 4 || silent {
			t.Errorf("%q: status %d and %d bytes", args, status, len(stdout+stderr))
		}
		if slices.Contains(args, "--plain") { // two tabs a line, between its columns: a name makes no more
			for line := range strings.Lines(stdout) {
				if strings.Count(line, "\t") != 2 {
					t.Errorf("%q prints the line %q", args, line)
				}
			}
			stdout = strings.ReplaceAll(stdout, "\t", " ")
		}
		for _, out := range []string{stdout, stderr} {
			if i := strings.IndexFunc(out, draws); i >= 0 || !utf8.ValidString(out) {
				t.Errorf("%q prints %q", args, out[max(0, i-40):min(len(out), max(0, i)+40)])
			}
		}
		if strings.Contains(stderr, "mistake in the program") || strings.Contains(stderr, "internal error") {
			t.Errorf("%q: %s", args, stderr)
		}
		return status != 2 && status != 3
	})
}

// FuzzLike has any mix that is read printed as a starter, which is a mix that reads the
// same: its report is the same, byte for byte.
func FuzzLike(f *testing.F) {
	own := shopFlags(f)
	seeds := []string{
		"mix: M\nparts: {chain: c, cassette: {cogs_t: [11, 13], pitch_mm: 4.34 ± 0.02, name: \"x\\u001b[31m\"}}\nbench: {chain_pitches: 110, position: stand}\n",
		`{"mix": "a\u202eb: #c", "scope": "bike", "parts": {"chain": {"name": "'yes'", "speeds": 9, "outer_width_mm": "6.6 +/- 0.05"}, "hub": {"freehub": "8"}}}`,
		"mix: 007\nnote: n\nparts:\n  chain: {id: c, outer_width_mm: 6.1e0}\n  cassette: {id: usual-cassette-9-434, cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34]}\n",
		"mix: |\n  two\n  lines\nparts:\n  cassette: {cogs_t: [11], freehub: [spline-8, spline-11], maker: ~x, sku: '1_000', price: 41.50, basis: measured}\n  crankset: {rings_t: 46, narrow_wide: true}\n",
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, _ byte) bool {
		check := append([]string{"check", "-", "--format", "json"}, own...)
		status, want, wrong := command1(string(text), check...)
		if status == 2 {
			t.Fatal(wrong)
		}
		if status == 3 || strings.TrimSpace(string(text)) == "" {
			return false
		}
		made, like, stderr := command1(string(text), append([]string{"new", "mix", "--like", "-"}, own...)...)
		again, got, more := command1(like, check...)
		if made != 0 || again != status || got != want {
			t.Errorf("%q is judged as\n%s\nand its starter\n%s\nas\n%s%s%s", text, want, like, got, stderr, more)
		}
		return true
	})
}

// shopFlags are the flags of a shop with rules and parts of its own.
func shopFlags(f *testing.F) []string {
	f.Helper()
	rules, parts := filepath.Join(f.TempDir(), "r.yaml"), f.TempDir()
	keep(f, rules, []byte(shopRule))
	keep(f, filepath.Join(parts, "p.yaml"), []byte(shopParts))
	return []string{"--no-standard", "--rules", rules, "--parts", parts}
}

// keep writes a file.
func keep(t testing.TB, file string, text []byte) {
	t.Helper()
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// shopRule is a small pack, and shopParts what it is about.
const (
	shopRule = `pack: shop
rules:
  - {id: shop/wide, title: The chain is narrow, why: w, fail_if: chain.outer_width_mm > 5, say: "It is {chain.outer_width_mm} mm wide.", remedy: r, caution: c,
     needs: [{what: chain, value: 1, unit: mm}], basis: {practice: p}, examples: [{name: e, given: {chain: {outer_width_mm: 6}}, want: fail}]}
steps:
  - {id: one, do: "Fit {chain.speeds}.", value: "{chain.outer_width_mm}", check: k, because: b}
adjust: [{rule: shop/wide, to: warn, reason: r, by: b, until: 2999-01-01}]
`
	shopParts = `{catalog: c, currency: EUR, parts: [
  {kind: chain, id: c, name: "N", maker: M, sku: S, speeds: 9, outer_width_mm: 6.6 ± 0.05},
  {kind: cassette, id: k, name: K, cogs_t: [11, 13], pitch_mm: 4.34}]}
`
)
