package main

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// toldFaults is what JSON says of faults; for several mixes an answer may be a
// report.
type toldFaults struct {
	SchemaVersion int `json:"schema_version"`
	Tool          string
	Mix           string
	Problems      []struct {
		Pos        source.Pos
		Code       source.Code
		Path       string
		Text, Hint string
	}
}

// Where JSON is asked for, the faults of files are JSON as well, each with its
// place, and nothing else stands on the standard output.
func TestFaultsAsJSON(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"bad.yaml":        "mix: Bad\nparts:\n  chian: x\n  hub: {speeds: 1}\n",
		"badcart.yaml":    "bikes:\n  - {mix: A, parts: {chain: towrope-99}}\nlines: [{quantity: 0, id: x}]\n",
		"worse.yaml":      "mix: [\n",
		"good.yaml":       "mix: Good\nparts: {chain: {speeds: 9}}\n",
		"badrules/r.yaml": "pack: p\nrules:\n  - {id: p/one}\n",
		"badparts/p.yaml": "parts:\n  - {kind: chian, id: a, name: b}\n",
	} {
		if dir, _, in := strings.Cut(name, "/"); in {
			if err := os.MkdirAll(dir, 0o755); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, test := range []struct{ line, want string }{
		{"check --format json bad.yaml", "bad.yaml:3:3 bad.yaml:4:9"},
		{"check --format json missing.yaml", "missing.yaml"},
		{"check --format json demo:nothing", "demo:nothing"},
		{"check --format jsonl bad.yaml", "bad.yaml:3:3 bad.yaml:4:9"},
		{"check --format json demo:order", "demo:order"},
		{"check --format json .", "."},
		{"check --format json --rules good.yaml --parts good.yaml demo:ferry-motor", "good.yaml"},
		{"sheet --format json worse.yaml", "worse.yaml:1:6"},
		{"compare --format json bad.yaml worse.yaml", "bad.yaml:3:3 bad.yaml:4:9 worse.yaml:1:6"},
		{"compare --format json good.yaml missing.yaml", "missing.yaml"},
		{"check --format json --rules badrules --parts badparts good.yaml", "badrules/r.yaml badparts/p.yaml"},
		{"check --format json --rules nowhere --parts nowhere-else good.yaml", "nowhere nowhere-else"},
		{"cart --format json badcart.yaml", "badcart.yaml:2:29 badcart.yaml:3:20"},
		{"cart --format json demo:ferry-motor", "demo:ferry-motor"},
		{"cart --format json --rules badrules --parts badparts demo:order", "badrules/r.yaml badparts/p.yaml"},
		{"prove --format json badrules", "badrules/r.yaml"},
	} {
		status, stdout, stderr := command1("", strings.Fields(test.line)...)
		var got toldFaults
		if err := json.Unmarshal([]byte(stdout), &got); err != nil || status != exitLoad {
			t.Errorf("%s: status %d, %v: %s", test.line, status, err, stdout)
			continue
		}
		if got.SchemaVersion != 1 || !strings.HasPrefix(got.Tool, "cogcourt ") {
			t.Errorf("%s: %s", test.line, stdout)
		}
		for _, place := range strings.Fields(test.want) {
			found := false
			for _, p := range got.Problems {
				found = found || p.Text != "" && p.Code != "" && strings.HasPrefix(p.Pos.String(), place)
			}
			if !found || !strings.Contains(stderr, place) {
				t.Errorf("%s: nothing is said of %s: %s%s", test.line, place, stdout, stderr)
			}
		}
	}
}

// Of several mixes each has its answer, in order: a report or its faults.
func TestFaultsBetweenReports(t *testing.T) {
	line := []string{"check", "--format", "json", "demo:ferry-motor", "demo:nothing", "demo:ferry-motor"}
	status, stdout, _ := command1("", line...)
	var got []toldFaults
	if err := json.Unmarshal([]byte(stdout), &got); err != nil || status != exitLoad || len(got) != 3 {
		t.Fatalf("status %d, %v, %d answers", status, err, len(got))
	}
	for i, a := range got {
		if bad := i == 1; (len(a.Problems) == 1) != bad || (a.Mix == "") != bad {
			t.Errorf("answer %d: mix %q, %d problems", i, a.Mix, len(a.Problems))
		}
	}
	line[2] = "jsonl"
	_, stdout, _ = command1("", line...)
	if lines := strings.Split(strings.TrimSpace(stdout), "\n"); len(lines) != 3 || !strings.Contains(lines[1], `"problems":[{`) {
		t.Errorf("%d lines: %s", len(lines), stdout)
	}
}

// A line that cannot be read at all has a code as well.
func TestFaultsOfUnreadLines(t *testing.T) {
	for text, want := range map[string]source.Code{
		strings.Repeat(" ", compat.MixLimits().Bytes+1): source.TooLarge, `{"lines": []}`: source.WrongKind, `{"mix"`: source.Syntax,
	} {
		_, out, _ := batchedText(text)
		var got toldFaults
		if err := json.Unmarshal([]byte(out), &got); err != nil || len(got.Problems) != 1 || got.Problems[0].Code != want {
			t.Errorf("%.20s: %v: %s", text, err, out)
		}
	}
}

// A line that does not load has its problems with their places, beside the text.
func TestFaultsOfLines(t *testing.T) {
	_, out, _ := batchedText("\n" + `{"casette":"x","hubb":"y"}`)
	var got toldFaults
	if err := json.Unmarshal([]byte(out), &got); err != nil || len(got.Problems) < 2 {
		t.Fatalf("%v: %s", err, out)
	}
	for _, p := range got.Problems {
		if p.Pos.File != "stdin" || p.Pos.Line != 2 || p.Pos.Col < 1 || p.Text == "" || p.Code == "" {
			t.Errorf("%+v", p)
		}
	}
}

func TestTogether(t *testing.T) {
	one, two := source.Problems{{Text: "one"}}, errors.New("two")
	if together() != nil || together(nil, nil) != nil {
		t.Error("nothing is a fault")
	}
	if got := together(nil, two, nil); got != two {
		t.Errorf("%v", got)
	}
	if got := together(one, nil, two, one); got == nil || got.Error() != "one\ntwo\none" {
		t.Errorf("%v", got)
	}
}

// An empty argument, as an unset variable of a shell gives one, is named.
func TestEmptyArguments(t *testing.T) {
	for _, c := range commands() {
		lines := [][]string{{c.name, ""}, {c.name, "a", ""}}
		for _, flag := range []string{"rules", "parts"} {
			if c.takes(flag) {
				lines = append(lines, []string{c.name, "--" + flag, "", "demo:ferry-motor"})
			}
		}
		for _, args := range lines {
			status, stdout, stderr := command1("", args...)
			if status != exitUsage || stdout != "" || !strings.Contains(stderr, "empty") {
				t.Errorf("%q: status %d, %s%s", args, status, stdout, stderr)
			}
		}
	}
}
