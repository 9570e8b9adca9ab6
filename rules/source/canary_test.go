package source

import (
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"

	"example.org/cogcourt/rules/source/internal/fault"
)

// The explanations of broken files hang on the words of the two parsers, which a
// new version may change. These tests feed them everything that is known to break,
// and fail with the sentence that is not understood any more.

// TestSentencesOfYAML has a text for each sentence that is looked for, and more.
func TestSentencesOfYAML(t *testing.T) {
	deep := strings.Repeat("[", 20_000)
	broken := []string{
		"a: b: c", "a: @b", "a: `b`", "a: %b", "a:\n\tb: c", "\ta: b", "a: >3x", "a: |x", "a: |0\n  b", "a: 'b", "a: \"b",
		"a: 'b\n---\nc", "a: \"\\q\"", "a: \"\\x4\"", "a: \"\\ud800\"", "a: \"\\U99999999\"", "a\nb: c", "a: - b", "a: ? b",
		"a: & b", "a: *", "a: *b", "a: [b c: d", "a: [b, c} d", "a: {b", "a: ]", "a: [b,, c]", "- a\nb: c", "a: b\n- c",
		"a: b\n}", deep, "a: !<x", "a: !e!x y", "a: !%zz y", "a: !%ff y", "a: !<%ff> y", "a: b\nc: [d, !{x}]", "a: !<x>y",
		"a: !x!y!z w", "a: b\n c: d", "{a: b}}", "a: 'b' c", "--- a\n--- b: c: d", "a: \"\\", "a: |\n\tb",
		"a:\n    b: c\n\td: e", "b: 2\na 1\nc: 3", "a\n...\n%TAG x\n--- b", "a\n...\n%TAG !\n--- b",
		"a\n...\n%TAG ! \n--- b", "a\n...\n%YAML x\n--- b", "a\n...\n%YAML 1x\n--- b", "a\n...\n%YAML 2.0\n--- b",
		"a\n...\n%YAML 9999999999.1\n--- b", "a\n...\n%FOO\n--- b", "a\n...\n% x\n--- b", "a\n...\n%TAG!\n--- b",
		"a\n...\n%YAML 1.1\n%YAML 1.1\n--- b", "a\n...\n%TAG ! x\n%TAG ! y\n--- b", "a\n...\n%YAML 1.1 x\n--- b",
	}
	met := map[string]string{}
	for _, text := range broken {
		says, _ := refusal(text, len(text))
		_, err := Limits{}.parse("x.yaml", []byte(text), nil)
		if says == "" {
			t.Errorf("%.40q: the parser takes it", text)
		}
		if err == nil || strings.Contains(err.Error(), fault.Raw) {
			t.Errorf("%.40q: the parser says %q, which is not known", text, says)
		}
		for _, known := range fault.YAMLSentences() {
			if strings.Contains(says, known) {
				met[known] = text
			}
		}
	}
	for _, known := range fault.YAMLSentences() {
		if met[known] == "" {
			t.Errorf("the parser says nothing with %q any more", known)
		}
	}
}

// TestSentencesOfJSON has a text for each sentence that is understood, and more.
func TestSentencesOfJSON(t *testing.T) {
	broken := []string{
		"[\"a\tb\"]", "[\"a\nb\"]", `["\q"]`, `["\u12"]`, `["\u12x4"]`, `[1 2]`, `[1}`, `{"a":1 "b":2}`, `{"a":1]`,
		`{"a" 1}`, `{"a"}`, `{a:1}`, `{1:2}`, `{"a":1, b:1}`, `{"a":}`, `]`, `[x]`, `{"a":tru}`, `[nulx]`, `[fals3]`, `[01]`,
		`[-x]`, `[1.x]`, `[1ex]`, `[1e+x]`, `[.5]`, `[+1]`, `{"a":1} x`, `{"a":1}}`, `{"a":1} // c`, `# c`, `['a']`, `[1,]`,
		`{"a":1,}`, `{,}`, `[,1]`, `{"a"::1}`, `nul`, `[`, `{"a`, `[True]`, `[NaN]`, `[1,,2]`, `[1_000]`,
	}
	met := map[string]bool{}
	for _, text := range broken {
		says := jsonSays(text)
		_, err := Limits{}.parse("x.json", []byte(text), nil)
		if err == nil || strings.Contains(err.Error(), fault.Raw) {
			t.Errorf("%q: the decoder says %q, which is not understood", text, says)
		}
		for _, known := range fault.JSONSentences() {
			met[known] = met[known] || strings.Contains(says, known)
		}
	}
	for _, known := range fault.JSONSentences() {
		if !met[known] {
			t.Errorf("the decoder says nothing with %q any more", known)
		}
	}
}

// jsonSays is the decoder's own sentence of a text.
func jsonSays(text string) string {
	dec := json.NewDecoder(strings.NewReader(text))
	for {
		if _, err := dec.Token(); errors.Is(err, io.EOF) {
			return ""
		} else if err != nil {
			return err.Error()
		}
	}
}
