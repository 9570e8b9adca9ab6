package source

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestFlood reads a file that is nothing but mistakes. What is printed and kept is
// bounded, the count is right, and no name is searched for what is only counted.
func TestFlood(t *testing.T) {
	const many = 60_000
	for file, text := range map[string]string{
		"x.yaml": keys(many, "pitch_m%d: 1\n"),
		"y.yaml": "{" + keys(many, "pitch_m%d: 1, ") + "}",
		"z.json": "{" + keys(many, `"pitch_m%d": 1,`) + `"cogs_t": [11]}`,
	} {
		root, err := Parse(file, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		var ps Problems
		root.Keys("", &ps, "cogs_t", "pitch_mm")
		if ps.Count() != many || len(ps) != MaxProblems+1 || cap(ps) > 4*MaxProblems {
			t.Errorf("%s: %d counted, %d kept, room for %d", file, ps.Count(), len(ps), cap(ps))
		}
		if size := len(ps.Error()); size > 32<<10 {
			t.Errorf("%s: %d bytes", file, size)
		}
		errors.As(ps.Err(), &ps)
		last := ps[len(ps)-1]
		first := root.Pairs[MaxProblems].Key.Pos
		if last.Text != "and 59800 more" || last.Code != More || last.Pos != first || ps[MaxProblems-1].End == (Pos{}) {
			t.Errorf("%s: the last is %v, before it %v", file, last, ps[MaxProblems-1])
		}
		if hint := ps.Suggest("pitch_m", []string{"pitch_mm"}); hint != "" {
			t.Errorf("%s: a name is searched all the same: %s", file, hint)
		}
	}
}

// TestUnread holds what is said of what was not looked at, also behind what is counted
// and where problems of several files are put together.
func TestUnread(t *testing.T) {
	var ps, all Problems
	for i := range MaxProblems {
		ps.Add(Pos{"x", i + 1, 1}, "", "fault", "")
	}
	last := func(ps Problems) string { return ps[len(ps)-1].String() }
	ps.Unread(Pos{"x", 900, 1})
	ps.Unread(Pos{"x", 901, 1})
	const hint = " (mend the ones above first)"
	if got := last(ps); got != "x:900:1: not all of the rest was looked at"+hint || !ps.Full() || ps.Count() != MaxProblems {
		t.Errorf("%s, %d counted", got, ps.Count())
	}
	all.Join(ps)
	all.Add(Pos{"y", 1, 1}, "", "fault", "")
	all.Add(Pos{"y", 2, 1}, "", "fault", "")
	if got := last(all.Err().(Problems)); got != "x:900:1: and 2 more; not all of the rest was looked at"+hint || all.Count() != MaxProblems+2 {
		t.Errorf("%s, %d counted", got, all.Count())
	}
	for file, text := range map[string]string{
		"x.yaml": "[" + strings.Repeat("0777,", 1000) + "1]",
		"x.json": "[" + strings.Repeat(`"\ud800",`, 1000) + "1]",
	} {
		_, err := Parse(file, []byte(text))
		if ps = nil; !errors.As(err, &ps) || len(ps) != MaxProblems+1 || !strings.Contains(last(ps), "not all of the rest was looked at") {
			t.Errorf("%s: %d problems, the last is %s", file, len(ps), last(ps))
		}
	}
}

// TestCount adds up to the most and beyond, one by one and from elsewhere.
func TestCount(t *testing.T) {
	var ps, none Problems
	for i := range 3 * MaxProblems {
		before := ps.Count()
		p := ps.Add(Pos{"x", i + 1, 1}, "", fmt.Sprint("fault ", i), "")
		p.Code = Twice
		since := ps.Since(before)
		if before != i || ps.Count() != i+1 || ps.Full() != (i+1 >= MaxProblems) || len(since) != 1 {
			t.Fatalf("%d before and %d after the fault %d, since then %v", before, ps.Count(), i, since)
		}
		if i < MaxProblems && ps[i].Code != Twice || len(ps) > MaxProblems+1 {
			t.Fatalf("the fault %d: %v", i, ps[len(ps)-1])
		}
	}
	if len(ps.Since(ps.Count())) != 0 || len(none.Since(0)) != 0 || len(ps.Since(0)) != len(ps) {
		t.Error("since now there are some")
	}
	joined := Problems{{Text: "own"}}
	joined.Join(ps)
	joined.Join(ps)
	joined.Add(Pos{}, "", "one more", "")
	if joined.Count() != 2+6*MaxProblems || len(joined) != MaxProblems+1 {
		t.Errorf("joined %d, kept %d", joined.Count(), len(joined))
	}
	// Who appends by himself is held to the bound at last.
	raw := append(append(Problems{}, ps...), ps...)
	var out Problems
	if errors.As(raw.Err(), &out); len(out) != MaxProblems+1 || !strings.HasPrefix(out[MaxProblems].Text, "and ") {
		t.Errorf("%d problems", len(out))
	}
	if errors.As(Problems{{Text: "no code"}}.Err(), &out); out[0].Code != Invalid {
		t.Errorf("the code %q", out[0].Code)
	}
	if none.Err() != nil || none.Count() != 0 || none.Full() {
		t.Error("none is some")
	}
}

// TestEnds has where the tokens of a text end.
func TestEnds(t *testing.T) {
	for _, c := range []struct{ file, text, want string }{
		{"x.yaml", "é: wo", "1:2 1:6"},
		{"x.yaml", "a: 'it''s' # c", "1:2 1:11"},
		{"x.yaml", `"a": "x\u00e9\""`, "1:4 1:17"},
		{"x.yaml", "a: ''", "1:2 1:6"},
		{"x.yaml", "a: \"b \\\n  c\\\n  \"", "1:2 3:4"},
		{"x.yaml", "a: b\n  c\nd: 1", "1:2 2:4"},
		{"x.yaml", "a: |\n  b\n  cd\n\n", "1:2 3:5"},
		{"x.yaml", "a: >-\n  b\n  c", "1:2 3:4"},
		{"x.yaml", "a: |\n\nb: 1", "1:2 1:5"},
		{"x.yaml", "a: [b]", "1:2 "},
		{"x.yaml", "a: {b: c}", "1:2 "},
		{"x.yaml", "a:", "1:2 "},
		{"x.yaml", "a: ~", "1:2 1:5"},
		{"x.yaml", "a: 3.65 ± 0.02  ", "1:2 1:15"},
		{"x.json", `{"a" : "\u00e9\ud83d\ude00" }`, "1:5 1:28"},
		{"x.json", `{"a": 1.50}`, "1:5 1:11"},
		{"x.json", `{"a": null}`, "1:5 1:11"},
		{"x.json", `{"a": true}`, "1:5 1:11"},
		{"x.json", `{"a": ""}`, "1:5 1:9"},
	} {
		n, err := Limits{}.parse(c.file, []byte(c.text), nil)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		place := func(p Pos) string { return strings.TrimPrefix(p.String(), c.file+":") }
		if got := place(n.Pairs[0].Key.End()) + " " + place(n.Pairs[0].Value.End()); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
	n, _ := FromGo("x", "text")
	if n.End() != (Pos{}) || (*Node)(nil).End() != (Pos{}) {
		t.Error("what came from no file has an end")
	}
}

// TestProblemJSON has the names that programs read.
func TestProblemJSON(t *testing.T) {
	var ps Problems
	n, _ := Parse("x.yaml", []byte("tilte: x"))
	n.Keys("r", &ps, "title")
	ps.Add(Pos{File: "y"}, "", "is odd", "")
	text, err := json.Marshal(ps)
	const want = `[{"pos":{"file":"x.yaml","line":1,"col":1},"end":{"file":"x.yaml","line":1,"col":6},"code":"unknown-entry","path":"r",` +
		`"text":"unknown entry \"tilte\"","hint":"did you mean \"title\"?"},{"pos":{"file":"y","line":0,"col":0},"code":"invalid","path":"","text":"is odd","hint":""}]`
	if string(text) != want || err != nil {
		t.Errorf("%s, %v", text, err)
	}
}

// TestParseLine reads lines of a file: every place is on the line.
func TestParseLine(t *testing.T) {
	n, err := ParseLine("stdin", 7, []byte("  {\"é\": [1, \"x\"]}\r"))
	x := n.Get("é").Items[1]
	if err != nil || n.Pos != (Pos{"stdin", 7, 3}) || x.At(0) != (Pos{"stdin", 7, 14}) || x.End() != (Pos{"stdin", 7, 16}) {
		t.Error(n, err)
	}
	for text, want := range map[string]string{
		`{"parts": {"chain": 1, "chain": 2}}`: `stdin:7:24: parts: "chain" stands twice, first at stdin:7:12 (take one out)`,
		"\ufeff{}":                            "stdin:7:1: a byte order mark stands in front of the value (delete it; only a file may begin with one",
		`{} x`:                                "stdin:7:4: more text behind the end of the value (one line holds one value)",
		`{} {}`:                               "stdin:7:4: more text behind the end of the value (one line holds one value)",
		"{}\n{}":                              "stdin:7:4: more text behind the end of the value (one line holds one value)",
		"{\r\n\"a\": x}":                      `stdin:7:9: "x" is no value that JSON knows`,
		"# c":                                 "stdin:7:1: JSON has no comments (take it out)",
		" ":                                   "stdin:7:1: the line is empty",
		`{"a": tru`:                           "stdin:7:1: the { that opens here is not closed",
		`tru`:                                 "stdin:7:1: the line ends within a value",
		`[1, {"a": 2]`:                        "stdin:7:12: ] does not close the { at stdin:7:5",
		"{\"a\": \"\xff\"}":                   "stdin:7:8: byte 0xFF is not UTF-8",
		"\xff\xfe{":                           "stdin:7:1: is UTF-16",
		strings.Repeat(" ", MaxBytes+1):       "stdin:7:1: is longer than 8388608 bytes",
		"mix: a":                              `stdin:7:1: "mix" is no value that JSON knows`,
	} {
		_, err := ParseLine("stdin", 7, []byte(text))
		var ps Problems
		if !errors.As(err, &ps) || len(ps) != 1 || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%.40q: %v, want %s", text, err, want)
		}
		for _, p := range ps {
			if p.Pos.Line != 7 || p.End.Line != 7 && p.End != (Pos{}) || p.Pos.Col > utf8.RuneCountInString(text)+1 || p.Code == Invalid {
				t.Errorf("%.40q: %v to %v, %s", text, p.Pos, p.End, p.Code)
			}
		}
	}
	if n, err := ParseLine("stdin", 1, []byte("\ufeff{}")); err != nil || n.Pos.Line != 1 {
		t.Error("a file may begin with a byte order mark", err)
	}
}
