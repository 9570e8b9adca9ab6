package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/rules/source"
)

// spelled writes a mix file as arguments.
func spelled(t *testing.T, file string, text []byte) []string {
	t.Helper()
	root, err := source.Parse(file, text)
	if err != nil {
		t.Fatal(err)
	}
	args := []string{"mix=" + root.Get("mix").Text}
	if n := root.Get("scope"); n != nil {
		args = append(args, "scope="+n.Text)
	}
	for _, p := range root.Get("parts").Pairs {
		if p.Value.Kind == source.Text {
			args = append(args, p.Key.Text+"="+p.Value.Text)
			continue
		}
		args = append(args, spelledFields(p)...)
	}
	if n := root.Get("bench"); n != nil {
		args = append(args, spelledFields(source.Pair{Key: &source.Node{Text: "bench"}, Value: n})...)
	}
	return args
}

func spelledFields(p source.Pair) []string {
	var args []string
	for _, f := range p.Value.Pairs {
		value := f.Value.Text
		if f.Value.Kind == source.List {
			var items []string
			for _, item := range f.Value.Items {
				items = append(items, item.Text)
			}
			value = strings.Join(items, ",")
		}
		args = append(args, p.Key.Text+"."+f.Key.Text+"="+value)
	}
	return args
}

// TestLineSaysWhatFilesSay holds that a mix on the line is read by the reader of
// files: each demo mix gives the same report and the same sheet, byte for byte.
func TestLineSaysWhatFilesSay(t *testing.T) {
	mixes := map[string]string{"in place": "mix: In place\nparts:\n  cassette: {cogs_t: [11, 13, 15], pitch_mm: 3.65 ± 0.02, cog_thickness_mm: 1.6," +
		" own_lockring_small_cog: true, name: 'Reed, three: # cogs'}\n  chain: {speeds: 12, outer_width_mm: 5.25, directional: false}\n" +
		"  rear_shifter: {actuation: cable, pulls_mm: [2.5, 2.6 ± 0.1]}\nbench: {cog_positions_mm: [0, 3.6, 7.3]}\n"}
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		mixes[name] = string(text)
	}
	for name, text := range mixes {
		path := filepath.Join(t.TempDir(), "bike.yaml")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		line := spelled(t, path, []byte(text))
		for _, command := range [][]string{{"check", "--format", "json"}, {"sheet", "--format", "json"}, {"check", "--format", "jsonl", "--full"}} {
			wantStatus, want, stderr := command1("", append(slices.Clone(command), path)...)
			if wantStatus == exitLoad {
				t.Fatalf("%s: %s", name, stderr)
			}
			if status, got, stderr := command1("", append(slices.Clone(command), line...)...); status != wantStatus || got != want {
				t.Errorf("%s %v ends with %d, the file with %d: %s%s", name, line, status, wantStatus, stderr, firstDifference(want, got))
			}
		}
	}
}

// TestLineIsAsWrittenAnyWay holds what may be left out or written otherwise.
func TestLineIsAsWrittenAnyWay(t *testing.T) {
	for _, c := range [][2]string{
		{"cassette.cogs_t=11,13,15", "'cassette.cogs_t=[11, 13, 15]'"},
		{"cassette.cogs_t=18", "cassette.cogs_t=[18]"},
		{"cassette=reedbed-12-10-51", "cassette.id=reedbed-12-10-51"},
		{"cassette.cogs_t=11,13 cassette.pitch_mm=3.65±0.02", "cassette.cogs_t=11,13 'cassette.pitch_mm=3.65 +/- 0.02'"},
		{"chain.speeds=9", "chain.speeds=9 scope=cart mix=unnamed"},
	} {
		status, first, stderr := command1("", arguments("check --format json "+c[0])...)
		if _, second, _ := command1("", arguments("check --format json "+c[1])...); status == exitLoad || first != second {
			t.Errorf("%s and %s differ: %s%s", c[0], c[1], stderr, firstDifference(first, second))
		}
	}
}

// TestLineFaults holds that each fault names its argument and what would be right,
// and that all of them are told at once, in the order of the line.
func TestLineFaults(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"chain.sppeds=9", `argument 1: chain.sppeds=9: chain: unknown entry "sppeds" (did you mean "speeds"?)`},
		{"chain.speeds=nine", "argument 1: chain.speeds=nine: must be a whole number, is a text"},
		{"chain.speeds=99", "argument 1: chain.speeds=99: "},
		{"chian.speeds=9", `argument 1: chian.speeds=9: there is no kind "chian" (did you mean "chain"?)`},
		{"rear-derailleur=x", `argument 1: rear-derailleur=x: there is no kind "rear-derailleur" (did you mean "rear_derailleur"?)`},
		{"scoop=bike", `argument 1: scoop=bike: there is no kind "scoop" (did you mean "scope"?)`},
		{"benhc.position=sag", `argument 1: benhc.position=sag: there is no kind "benhc" (did you mean "bench"?)`},
		{"cassette=reedbed-12-10-15", `no part is called "reedbed-12-10-15" (did you mean "reedbed-12-10-51"?)`},
		{"chain=reedbed-12-10-51", "(write cassette: reedbed-12-10-51)"},
		{"cassette.pitch_mm=3.65", "argument 1: cassette.pitch_mm=3.65: cassette: cogs_t is missing"},
		{"chain.speeds=9 chain.speeds=10", "argument 2: chain.speeds=10: says the same twice (leave one out; the other is argument 1: chain.speeds=9)"},
		{"cassette.id=reedbed-12-10-51 cassette=b", "several usual classes stand in one argument"},
		{"chain.speeds=9 speeds=9", `argument 2: speeds=9: "speeds" is a field, not a kind (write chain.speeds= or `},
		{"cog_positions_mm=0,1", "(write bench.cog_positions_mm=)"},
		{"chain.speeds=", "argument 1: chain.speeds=: nothing stands behind the ="},
		{"=9", "argument 1: =9: nothing stands in front of the ="},
		{"chain.=9", "argument 1: chain.=9: names no field"},
		{"bench=9", "argument 1: bench=9: bench holds several values (write bench.FIELD=VALUE;"},
		{"mix.name=A", "argument 1: mix.name=A: mix has no fields (write mix=A)"},
		{"scope=bikes chain.speeds=9", `argument 1: scope=bikes: there is no scope "bikes" (did you mean "bike"?)`},
		{"mix=A", "argument 1: mix=A: the mix on the line has no parts"},
		{"rear_derailleur=usual-a,,usual-b", "argument 1: rear_derailleur=usual-a,,usual-b: an id between the commas is empty"},
		{"chain.name=a\u202eb chain.speeds=99", `argument 2: chain.speeds=99: `},
		{"'chain.speeds={a: 9}'", "argument 1: chain.speeds={a: 9}: must be a number, is a map"},
		{"chain.speeds=&a", "argument 1: chain.speeds=&a: "},
		{"'chain.speeds=9 # nine' chain.speeds=9", "argument 2: chain.speeds=9: says the same twice"},
		{"'chain.speeds=9 #4'", "argument 1: chain.speeds=9 #4: a # begins a remark, and the rest of the argument is lost"},
		{"'cassette.cogs_t=[11, 13'", "argument 1: cassette.cogs_t=[11, 13: "},
		{"cassette.cogs_t=11,x,13", "argument 1: cassette.cogs_t=11,x,13: cassette.cogs_t[1]: must be a whole number"},
		{"chain.outer_width_mm=.nan", "argument 1: chain.outer_width_mm=.nan: "},
		{"cassette.cogs_t=11,13 cassette.pitch_mm=3.9 cassette.pitches_mm=3.9", "say the same twice"},
		{"cassette.cogs_t=11,13 bench.cog_positions_mm=0,1,2", "argument 2: bench.cog_positions_mm=0,1,2: 3 positions for 2 cogs"},
	} {
		status, out, stderr := command1("", append([]string{"check"}, arguments(c.line)...)...)
		if status != exitLoad || out != "" || !strings.Contains(stderr, c.want) || strings.Count(stderr, "\n") != 1 {
			t.Errorf("%s ends with %d, want %q:\n%s%s", c.line, status, c.want, stderr, out)
		}
	}
	if status, _, stderr := command1("", "check", "mix=\xff", "chain.speeds=9"); status != exitLoad || stderr != "argument 1: mix=\\xff: is a text that is not UTF-8\n" {
		t.Errorf("exit status %d: %s", status, stderr)
	}
	var line []string
	for i := range 12 {
		line = append(line, fmt.Sprintf("bench.wrong%d=1", i+1))
	}
	_, _, stderr := command1("", append([]string{"check", "chain.sppeds=9"}, line...)...)
	for i, got := range strings.Split(strings.TrimSpace(stderr), "\n") {
		if !strings.HasPrefix(got, fmt.Sprintf("argument %d: ", i+1)) {
			t.Errorf("fault %d stands out of order:\n%s", i+1, stderr)
		}
	}
	if n := strings.Count(stderr, "\n"); n != 13 {
		t.Errorf("%d faults are told, want 13:\n%s", n, stderr)
	}
}

// TestLinesOfManyArguments holds that a mix of more arguments than there are fields is
// refused at the first one too many, and one of as many is not.
func TestLinesOfManyArguments(t *testing.T) {
	line := slices.Repeat([]string{"chain.speeds=9"}, mostArguments+1000)
	for count, want := range map[int]string{
		mostArguments:        "argument 2: chain.speeds=9: says the same twice",
		mostArguments + 1:    "argument 2001: chain.speeds=9: the mix on the line has more than 2000 arguments (write it into a file)\n",
		mostArguments + 1000: "argument 2001: chain.speeds=9: the mix on the line has more than 2000 arguments (write it into a file)\n",
	} {
		status, out, stderr := command1("", append([]string{"check"}, line[:count]...)...)
		if status != exitLoad || out != "" || !strings.HasPrefix(stderr, want) {
			t.Errorf("%d arguments end with %d: %.200s%s", count, status, stderr, out)
		}
	}
}

// TestLineAndFiles holds how a mix on the line and files stand side by side.
func TestLineAndFiles(t *testing.T) {
	const wrong = "on both sides of demo:ferry-motor"
	for _, c := range []struct {
		line   string
		status int
		want   string
	}{
		{"check demo:ferry-motor chain.speeds=9 demo:ferry-motor cassette.cogs_t=11,13", exitUnknown, "3 mixes judged"},
		{"check demo:ferry-motor chain.sppeds=9", exitLoad, `unknown entry "sppeds"`},
		{"check demo:fleet-three-faults chain.sppeds=9", exitLoad, "1 mix did not load"},
		{"check demo:fleet-three-faults wheel.tyre_width_mm=40", exitFail, "1 fail, 1 unknown"},
		{"check demo:ferry-motor wheel.tyre_width_mm=40", exitUnknown, "1 unknown, 1 warn"},
		{"compare demo:ferry-motor chain=lantern-chain-12 cassette=reedbed-12-10-51", exitOK, "unnamed"},
		{"compare chain=lantern-chain-12 cassette=reedbed-12-10-51 demo:ferry-motor", exitOK, "unnamed"},
		{"compare chain=lantern-chain-12 demo:ferry-motor cassette=reedbed-12-10-51", exitUsage, wrong},
		{"compare chain.speeds=9 chain.speeds=10", exitUsage, "all arguments with = are one mix together, and beside it stands one file"},
		{"compare demo:ferry-motor demo:ferry-motor chain.speeds=10", exitUsage, "beside it stands one file"},
		{"compare demo:ferry-motor chain.sppeds=9", exitLoad, `unknown entry "sppeds"`},
		{"sheet demo:ferry-motor chain.speeds=9", exitUsage, "name one mix"},
		{"chain.speeds=9", exitUsage, `"chain.speeds=9" is no command; cogcourt check chain.speeds=9 judges`},
	} {
		status, out, stderr := command1("", arguments(c.line)...)
		if status != c.status || !strings.Contains(out+stderr, c.want) {
			t.Errorf("%s ends with %d, want %d and %q:\n%s%s", c.line, status, c.status, c.want, stderr, out)
		}
	}
}

// TestFileWithEquals holds that a file whose name has a = can be judged, and that
// its bare name says how.
func TestFileWithEquals(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("v=2.yaml", []byte("mix: Two\nparts:\n  chain: {speeds: 9}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if status, out, stderr := command1("", "check", "./v=2.yaml"); status == exitLoad || !strings.Contains(out, "Two") {
		t.Errorf("exit status %d: %s%s", status, stderr, out)
	}
	if status, _, stderr := command1("", "check", "v=2.yaml"); status != exitLoad || !strings.Contains(stderr, "write ./v=2.yaml to judge it") {
		t.Errorf("exit status %d: %s", status, stderr)
	}
}

// answered are rules whose verdicts are known, for the answers to a mix on the line.
const answered = `pack: small
rules:
  - id: small/width
    title: The chain is narrow enough for our tool
    why: The tool takes chains of up to seven millimetres.
    fail_if: chain.outer_width_mm > 7
    warn_if: chain.outer_width_mm > 6
    say: "The chain is {chain.outer_width_mm:.1} mm wide at 20 N m. It sticks."
    remedy: A narrower chain.
    basis: {practice: "our own tool"}
  - id: small/speeds
    title: The chain is for seven cogs or more
    why: The tool wants it.
    when: stated(chain.speeds)
    fail_if: chain.speeds < 6
    warn_if: chain.speeds < 7
    say: "The chain is for {chain.speeds} cogs"
    remedy: Another chain.
    basis: {practice: "our own tool"}
`

// TestLineHasAnAnswer holds that a mix on the line, and no file, begins with an
// answer of one sentence, in the words of the finding that decides.
func TestLineHasAnAnswer(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "small.yaml"), []byte(answered), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		line   string
		status int
		answer string
	}{
		{"chain.outer_width_mm=7.1", exitFail, "No: the chain is 7.1 mm wide at 20 N m."},
		{"chain.outer_width_mm=7.1 chain.speeds=5", exitFail, "No: the chain is 7.1 mm wide at 20 N m. 1 more fault below."},
		{"chain.outer_width_mm=6.1", exitOK, "No fault found, but: the chain is 6.1 mm wide at 20 N m."},
		{"chain.outer_width_mm=6 chain.speeds=6", exitOK, "No fault found, but: the chain is for 6 cogs."},
		{"chain.outer_width_mm=6 chain.speeds=8", exitOK, "No fault found in 2 checks."},
		{"chain.directional=true", exitUnknown, "Open: measure or look up "},
		{"wheel.tyre_width_mm=40", exitUnknown, "Open: nothing could be checked: no rule applies to these parts."},
		{"chain.outer_width_mm=6 scope=bike", exitUnknown, "Open: a whole bicycle also needs: cassette, "},
	} {
		status, out, stderr := command1("", append([]string{"check", "--no-standard", "--rules", dir}, arguments(c.line)...)...)
		answer, rest, _ := strings.Cut(out, "\n\n")
		if flat := strings.Join(strings.Fields(answer), " "); status != c.status || !strings.HasPrefix(flat, c.answer) {
			t.Errorf("%s ends with %d, want %d and %q:\n%s%s", c.line, status, c.status, c.answer, stderr, out)
		}
		if c.answer[len(c.answer)-1] == '.' && len(strings.Fields(answer)) != len(strings.Fields(c.answer)) {
			t.Errorf("%s: the answer goes on: %s", c.line, answer)
		}
		if first := strings.Fields(rest); len(first) < 2 || first[1] != "unnamed" {
			t.Errorf("%s: no report stands behind %q", c.line, answer)
		}
	}
	_, out, _ := command1("", "check", "--no-standard", "--rules", dir, "chain.directional=true")
	if flat := strings.Join(strings.Fields(out), " "); !strings.Contains(flat, "and add chain.outer_width_mm=VALUE. UNKNOWN") {
		t.Errorf("the answer does not say where the measure goes:\n%s", out)
	}
	_, alone, _ := command1("", "check", "demo:ferry-motor")
	_, both, _ := command1("", "check", "missing.yaml", "demo:ferry-motor", "wheel.tyre_width_mm=40")
	if head, _, _ := strings.Cut(alone, "\n"); !strings.HasPrefix(both, head) || strings.Count(both, "\nOpen: nothing could be checked") != 1 {
		t.Errorf("the answer stands at the wrong mix:\n%s", both)
	}
}

// TestAnswerSaysWhatItRestsOn holds that a pass by usual values is not answered as
// one by measured ones.
func TestAnswerSaysWhatItRestsOn(t *testing.T) {
	status, out, stderr := command1("", "check", "chain=lantern-chain-12", "cassette=reedbed-12-10-51")
	answer, _, _ := strings.Cut(out, "\n\n")
	if status != exitOK || !strings.HasPrefix(answer, "No fault found in ") || !strings.Contains(answer, " on what is usual") {
		t.Errorf("exit status %d: %s%s", status, out, stderr)
	}
}
