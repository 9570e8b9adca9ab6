package fault_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/rules/source"
)

// TestMisreadings has the mistakes that no file of testdata/bad shows: what stands on
// the line would change with a comment there.
func TestMisreadings(t *testing.T) {
	for text, want := range map[string]string{
		"a: 'it's'\nb: 1\n":                          "1:8: more text behind the closing '",
		"\"a\" b\n":                                  `1:5: more text behind the closing "`,
		"say: {a} teeth {b}\nx: y\n":                 "1:10: more text behind the closing }",
		"a: {x}: y\n":                                "1:7: a colon and a blank within a text",
		"a: \"b\": c\n":                              "1:7: a colon and a blank within a text",
		"- a: x\n\u00a0\u00a0b: y\n  c: z\n":         "2:1: a no-break space (U+00A0) in the indentation (indent with plain spaces)",
		"a:\n\u00a0\u00a0b: y\n":                     "2:1: a no-break space (U+00A0) in the indentation",
		"a:\n  b: x\n  \u00a0c: y\n":                 "3:3: a: a no-break space (U+00A0) in the indentation",
		"a: 1\n\u00a0\n  b: 2\n":                     "2:1: a no-break space (U+00A0) in the indentation",
		"a: x\n   \u00a0b: 2\n":                      "2:4: a no-break space (U+00A0) in the indentation",
		"a:\n\u2003\u2003- b\n":                      "2:1: a space of another kind (U+2003) in the indentation",
		"a: |\n  \u00a0b\nc: d\n":                    "",
		"a: 1\n...\n%YAML 2.0\n--- b\n":              "3:1: directives are not allowed",
		"r:\n  - a: x\n\u00a0\u00a0b: y\n    c: z\n": "3:1: a no-break space (U+00A0) in the indentation",
		"a:b\nc: d\n":                                "1:1: a line without a name and a colon (write a blank behind the colon)",
		"text\nmore: x\n":                            "1:1: a line without a name and a colon",
		"b: 2\na 1\nc: 3\n":                          "2:1: a line without a name and a colon",
		"a: x\n\n# c\n\n  b: y\n":                    "5:3: is indented under a line that has a value",
		"- a: 1\n b: 2\n- c\n":                       "2:2: a line without a - in a list",
		"a:\n  - b\n - c\n":                          "3:2: an entry of a list among",
		"\ta: 1\n":                                   "1:1: a tab in the indentation",
		"a:\n  b: 1\n\tc: 2\n":                       "3:1: a tab in the indentation",
		"a: x\n  \t- b\n\t- c\n":                     "a tab in the indentation",
		"a: 'b\n---\nc: d\n":                         "1:4: the quote that opens here is not closed",
		"\"a: b\nc: d\n":                             "1:1: the quote that opens here",
		"é: [1, 2\n":                                 "1:4: the [ that opens here is not closed",
		"a: x\nb: {c: \n":                            "2:4: the { that opens here is not closed",
		"b: {c: 1,\n  d: \n\n# e\n":                  "1:4: the { that opens here is not closed",
		"b: [c, {d: ":                                "1:4: the [ that opens here is not closed",
		"a: [\"b, c]\n":                              "1:5: the quote that opens here",
		"a: {b: 'c d: e\n":                           "the quote that opens here",
		"a: [b, c} d, e]\n":                          "a list or map in brackets that cannot be read",
		"a: b\n}\n":                                  "2:1: } closes nothing",
		"a: [>x]\n":                                  "1:5: a text cannot begin with >",
		"a: `x`\n":                                   "1:4: a text cannot begin with `",
		"a: ? b\n":                                   "1:4: a text cannot begin with ?",
		"a: & b\n":                                   "1:4: a text cannot begin with &",
		"a: !<x\n":                                   "1:4: a text cannot begin with !",
		"a: !e!x y\n":                                "1:4: a text cannot begin with !",
		"a: !%zz y\n":                                "1:4: a text cannot begin with !",
		"a: b\nc: [d, !{x}]\n":                       "2:8: a text cannot begin with !",
		"a: ]\n":                                     "1:4: a text cannot begin with ]",
		"a: [b, c,, d]\n":                            "1:10: nothing stands in front of this comma",
		"a: \"\\x4\"\n":                              `1:5: \x is not followed by the 2 digits`,
		"":                                           "1:1: the file is empty",
		"# c\n":                                      "1:1: the file is empty",
		"a: \"\\x41\\u00e9\\q\"\n":                   `1:15: \q is no escape`,
		"a: 'b: \"c\n":                               "1:4: the quote that opens here",
		"a: \"\\U99999999\"\n":                       `1:5: \U is not followed by the 8 digits`,
		"a: \"\\n\\\n  \\\\ \\q\"\n":                 `2:6: \q is no escape`,
		"a: |0\n  x\n":                               "1:4: | begins a text on the lines below",
		"a: x\n...\nb\n":                             "3:1: a line without a name and a colon",
		"a: 1\n---\nb: *c\n":                         "3:4: aliases are not allowed: *c",
		"b: [*c]\n":                                  "1:5: aliases are not allowed: *c",
		strings.Repeat("a", 1100) + ": b":            "1:1: a name of more than 1024 characters",
		strings.Repeat("- abc\n", 90_000) + "b: 1\n": "90001:1: a line without a - in a list",
		strings.Repeat("é: [日]\n", 1):                "",
	} {
		_, err := source.Parse("x.yaml", []byte(text))
		if got := fmt.Sprint(err); !strings.Contains(got, want) || want != "" && strings.Contains(got, "\n") {
			t.Errorf("%.60q: %s, want %s", text, got, want)
		}
	}
}

// TestBrokenJSON has the ways in which JSON is broken.
func TestBrokenJSON(t *testing.T) {
	for text, want := range map[string]string{
		"":                     "1:1: the file is empty",
		" \n":                  "1:1: the file is empty",
		`[1,2`:                 "1:1: the [ that opens here is not closed",
		`[{"a":[`:              "1:7: the [ that opens here is not closed",
		`{"a":"x`:              "1:6: the quote that opens here is not closed",
		`nul`:                  "1:1: the file ends within a value",
		`[1 2]`:                "1:4: a comma is missing",
		`{"a" 1}`:              "1:6: a colon is missing",
		`{"a"}`:                "1:5: a colon is missing",
		`{"a":}`:               "1:6: '}' cannot stand here",
		`]`:                    "1:1: ']' cannot stand here",
		`{1:2}`:                `1:2: "1" is no name (put names in double quotes)`,
		`{a:1}`:                `1:2: "a" is no name`,
		`{"a":1, b:1}`:         `1:9: "b" is no name`,
		`{,}`:                  "1:2: nothing stands in front of this ,",
		`{"a":1]`:              "1:7: ] does not close the { at x.json:1:1",
		`{"a":01}`:             `01 is not written as a plain number (write 1, or "01" in quotes`,
		`{"a":+1}`:             "1:6: +1 is not written as a plain number",
		`[.5]`:                 "1:2: .5 is not written as a plain number (write 0.5",
		`[1.]`:                 "1. is not written as a plain number",
		`{"a":True}`:           `1:6: "True" is no value that JSON knows`,
		`{"a":tru}`:            `1:6: "tru" is no value that JSON knows`,
		`{"a":fun()}`:          `1:6: "fun()" is no value that JSON knows`,
		`{"a":-.inf}`:          "1:6: -.inf is no finite number",
		`{"a":0X5}`:            "1:6: 0X5 is not written as a plain number",
		`{"a":5_0}`:            "1:6: 5_0 is not written as a plain number",
		`{"a":5e+}`:            `1:6: "5e+" is no value that JSON knows`,
		`{"a":5-}`:             "1:7: a comma is missing in front of this",
		`["é", "\q"]`:          "1:8: no such escape",
		`["é", "\u12g4"]`:      "1:8: no such escape",
		`["\u12"]`:             "no such escape",
		"[\"a\tb\"]":           `1:4: a line break or tab within a text (write \n or \t)`,
		`{"a":1} // c`:         "1:9: JSON has no comments",
		"# c\n[]":              "1:1: JSON has no comments",
		`{"a":1} x`:            "1:9: more text behind the end of the value",
		`{"a":1}}`:             "1:8: more text behind the end of the value",
		`{"":1}`:               "1:2: an entry has no name",
		`{"a":{"b":[1,{"c":`:   "1:14: the { that opens here is not closed",
		"[\r\n 1,\r 2,\n x\n]": `4:2: "x" is no value`,
	} {
		_, err := source.Parse("x.json", []byte(text))
		if got := fmt.Sprint(err); !strings.Contains(got, want) {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}
