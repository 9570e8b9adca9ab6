package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
)

func TestMain(m *testing.M) {
	flag.Parse()
	registered()
	beam.Init()
	os.Exit(m.Run())
}

// someLines are mixes of the demo's parts, every combination another, with lines between
// them that cannot be judged.
func someLines(t *testing.T, n int) []string {
	t.Helper()
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	byKind := map[string][]string{}
	for _, p := range parts.Parts() {
		byKind[p.Kind()] = append(byKind[p.Kind()], p.ID())
	}
	bad := []string{`{"cart": 1}`, "", "   ", "not json", `{"mix": "x", "parts": {"casette": {}}}`, "\xff\xfe", `{"chain": "no-such"}`,
		`{"chain": {"speeds": 99}, "chain": {}}`, `[]`, "{\"mix\": \"\u202etx\u0085\"}", `{"lines": []}`}
	var out []string
	for i := range n {
		if i%7 == 3 {
			out = append(out, bad[i/7%len(bad)])
			continue
		}
		mix := map[string]string{}
		for k, kind := range []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "hub", "frame", "crankset"} {
			if ids := byKind[kind]; (i>>k)%5 > 0 {
				mix[kind] = ids[(i*(k+3)+i/len(ids))%len(ids)]
			}
		}
		text, err := json.Marshal(mix)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(text))
	}
	return out
}

// write puts a text into a folder of the test.
func write(t *testing.T, dir, name, text string) string {
	t.Helper()
	file := filepath.Join(dir, name)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// carried runs the pipeline and gives what it wrote, what it said last, and its status.
// What an earlier run wrote lies where it writes.
func carried(t *testing.T, o options) (text []byte, said string, status int) {
	t.Helper()
	dir := t.TempDir()
	o.output = filepath.Join(dir, "reports")
	o.shards = 3
	write(t, dir, "reports-00001-of-00003", "1\tof an earlier run\n")
	var stderr bytes.Buffer
	status = run(context.Background(), &o, ownRunner, &stderr)
	for shard := range o.shards {
		more, err := os.ReadFile(shardName(o.output, shard, o.shards))
		if err != nil && status != exitLoad && status != exitUsage {
			t.Fatal(err)
		}
		text = append(text, more...)
	}
	return text, stderr.String(), status
}

// inOrder sorts answers by their numbers, and takes the numbers off.
func inOrder(t *testing.T, text []byte) string {
	t.Helper()
	type answer struct {
		number int
		text   string
	}
	var all []answer
	for line := range strings.Lines(string(text)) {
		number, rest, _ := strings.Cut(line, "\t")
		n, err := strconv.Atoi(number)
		if err != nil {
			t.Fatalf("%q begins with no number", line)
		}
		all = append(all, answer{n, rest})
	}
	slices.SortStableFunc(all, func(a, b answer) int { return a.number - b.number })
	var b strings.Builder
	for _, a := range all {
		b.WriteString(a.text)
	}
	return b.String()
}

// TestSameAsTheCommand holds the pipeline against the command, on lines of all sorts,
// with rules and parts of one's own, and in the status.
func TestSameAsTheCommand(t *testing.T) {
	dir := t.TempDir()
	command := filepath.Join(dir, "cogcourt")
	if out, err := exec.Command("go", "build", "-o", command, "example.org/cogcourt/cmd/cogcourt").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	rules, parts := filepath.Join(dir, "rules"), filepath.Join(dir, "parts")
	for _, folder := range []string{rules, parts} {
		if err := os.Mkdir(folder, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	write(t, rules, "own.yaml", `pack: lake
rules:
  - {id: lake/chain, title: Few speeds, why: Thin chains rust., fail_if: chain.speeds > 9, say: "{chain.speeds} speeds.",
     remedy: Take nine., basis: {practice: invented}}
`)
	write(t, parts, "own.yaml", "parts:\n  - {kind: chain, id: lake-chain, name: Lake chain, speeds: 10}\n")
	for name, c := range map[string]struct {
		lines []string
		more  []string // flags of the command
		s     settings
	}{
		"all sorts":     {someLines(t, 400), nil, settings{}},
		"own rules":     {someLines(t, 60), []string{"--rules", rules, "--full"}, settings{Rules: []string{rules}, Full: true}},
		"own parts":     {[]string{`{"chain": "lake-chain"}`, someLines(t, 1)[0]}, []string{"--parts", parts}, settings{Parts: []string{parts}}},
		"nothing usual": {someLines(t, 40), []string{"--no-usual"}, settings{NoUsual: true}},
		"no standard":   {someLines(t, 20), []string{"--no-standard", "--rules", rules}, settings{NoStandard: true, Rules: []string{rules}}},
	} {
		mixes := strings.Join(c.lines, "\n")
		command := exec.Command(command, append([]string{"check", "--format", "jsonl", "-"}, c.more...)...)
		command.Stdin = strings.NewReader(mixes)
		want, err := command.Output()
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		got, said, status := carried(t, options{input: write(t, dir, "mixes.jsonl", mixes), settings: c.s})
		if sorted := inOrder(t, got); sorted != string(want) || len(want) == 0 {
			t.Errorf("%s: the command and the pipeline differ: %s\n%s\n%s", name, said, want, sorted)
		}
		if status != command.ProcessState.ExitCode() {
			t.Errorf("%s: status %d, and %d of the command: %s", name, status, command.ProcessState.ExitCode(), said)
		}
	}
}

// TestSeveralFiles holds that a line's number counts in its own file, whoever reads it.
func TestSeveralFiles(t *testing.T) {
	dir := t.TempDir()
	want := map[string]bool{}
	total := 0
	for k := range 4 {
		var b strings.Builder
		for i := range 30 * k {
			if i%5 == 4 {
				b.WriteString("\n")
				continue
			}
			total++
			fmt.Fprintf(&b, `{"mix": "%d of %d", "parts": {"chain": {"speeds": 9}}}`+"\n", i+1, k)
			want[fmt.Sprintf("%s\t%d\t%d of %d", filepath.Join(dir, fmt.Sprintf("part-%d.jsonl", k)), i+1, i+1, k)] = true
		}
		write(t, dir, fmt.Sprintf("part-%d.jsonl", k), b.String())
	}
	text, said, status := carried(t, options{input: filepath.Join(dir, "part-*.jsonl")})
	seen := 0
	for line := range strings.Lines(string(text)) {
		words := strings.SplitN(line, "\t", 3)
		var report struct{ Mix string }
		if len(words) != 3 || json.Unmarshal([]byte(words[2]), &report) != nil {
			t.Fatalf("%q is no answer", line)
		}
		key := words[0] + "\t" + words[1] + "\t" + report.Mix
		if !want[key] {
			t.Errorf("%q is not wanted, or came twice", key)
		}
		delete(want, key)
		seen++
	}
	if len(want) > 0 || seen != total || status == exitLoad || !strings.Contains(said, fmt.Sprintf(" %d unknown", total)) && !strings.Contains(said, "pass") {
		t.Errorf("%d of %d lines, status %d: %s; missing %v", seen, total, status, said, want)
	}
}

// TestNumbered holds what counts as a line.
func TestNumbered(t *testing.T) {
	long := strings.Repeat("x", compat.MixLimits().Bytes+1)
	for text, want := range map[string]string{
		"": "", "\n\n": "", "a": "1 a", "a\n": "1 a", "\ufeffa\nb": "1 a|2 b", "\ufeff\ufeffa": "1 \ufeff\ufeffa", "\n \t\nc\r\n\nd": "3 c\r|5 d",
		"a\n" + long + "\nb\n": "1 a|2 long|3 b", long: "1 long", long[1:] + "\n": "1 long",
	} {
		var got []string
		if err := numbered("f", strings.NewReader(text), func(l Line) {
			words := string(l.Text)
			if l.Long {
				words += "long"
			}
			got = append(got, fmt.Sprint(l.Number, " ", words))
		}); err != nil {
			t.Error(err)
		}
		if joined := strings.Join(got, "|"); joined != want {
			t.Errorf("%.20q gives %.80q, not %q", text, joined, want)
		}
	}
	broken := io.MultiReader(strings.NewReader("a\nb"), readerOf(func([]byte) (int, error) { return 0, errors.New("cable cut") }))
	if err := numbered("f", broken, func(Line) {}); err == nil || !strings.Contains(err.Error(), "cable cut") {
		t.Errorf("a file that cannot be read to its end: %v", err)
	}
}

type readerOf func([]byte) (int, error)

func (f readerOf) Read(to []byte) (int, error) { return f(to) }
