package rules_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// want is one fault that a bad file says it has.
type want struct {
	file      string
	line, col int // col 0 for any
	pattern   *regexp.Regexp
}

var (
	wantMark = regexp.MustCompile(`[ \t]*# want (.*)$`)
	wantItem = regexp.MustCompile("^([0-9]+ )?(\"(?:[^\"\\\\]|\\\\.)*\"|`[^`]*`) *")
)

// wants takes the remarks `# want COL "regexp" ...` out of a file. The column
// may be left out, and a line may have several faults.
func wants(t *testing.T, name string, text []byte) (string, []want) {
	t.Helper()
	var out []want
	lines := strings.Split(string(text), "\n")
	for i, line := range lines {
		m := wantMark.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		lines[i] = strings.TrimSuffix(line, m[0])
		for rest := m[1]; rest != ""; {
			item := wantItem.FindStringSubmatch(rest)
			if item == nil {
				t.Fatalf("%s:%d: cannot read %s", name, i+1, rest)
			}
			rest = rest[len(item[0]):]
			col, _ := strconv.Atoi(strings.TrimSpace(item[1])) // 0 where there is none
			pattern, err := strconv.Unquote(item[2])
			if err != nil {
				t.Fatalf("%s:%d: %v", name, i+1, err)
			}
			out = append(out, want{name, i + 1, col, regexp.MustCompile(pattern)})
		}
	}
	return strings.Join(lines, "\n"), out
}

// meets says whether a problem is the one that is wanted.
func (w want) meets(p source.Problem) bool {
	return w.file == p.Pos.File && w.line == p.Pos.Line && (w.col == 0 || w.col == p.Pos.Col) && w.pattern.MatchString(p.Text+" | "+p.Hint)
}

// TestBadFiles loads each file of testdata/bad, and each directory as one set.
// Every fault must be reported at its place, in one run, and nothing else.
func TestBadFiles(t *testing.T) {
	entries, err := os.ReadDir(filepath.Join("testdata", "bad"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		t.Run(e.Name(), func(t *testing.T) { badSet(t, os.DirFS(filepath.Join("testdata", "bad")), e.Name()) })
	}
}

func badSet(t *testing.T, root fs.FS, name string) {
	clean := fstest.MapFS{}
	var expected []want
	err := fs.WalkDir(root, name, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, path)
		if err != nil {
			return err
		}
		stripped, found := wants(t, path, text)
		clean[path] = &fstest.MapFile{Data: []byte(stripped)}
		expected = append(expected, found...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: []fs.FS{clean}, Drawings: drawings()})
	var problems source.Problems
	if !errors.As(err, &problems) || set != nil {
		t.Fatalf("loaded as %v, with the error %v", set, err)
	}
	for _, p := range problems {
		held(t, clean, p)
		met := false
		for i, w := range expected {
			if w.meets(p) {
				expected = append(expected[:i], expected[i+1:]...)
				met = true
				break
			}
		}
		if !met {
			t.Errorf("not wanted: %s", p)
		}
	}
	for _, w := range expected {
		t.Errorf("missing: %s:%d:%d: %s", w.file, w.line, w.col, w.pattern)
	}
}

// held holds the code of a problem, and that it ends within its file and not in
// front of where it begins. What is wrong with a word has an end.
func held(t *testing.T, files fstest.MapFS, p source.Problem) {
	t.Helper()
	if p.Code == "" || p.Code == source.Invalid {
		t.Errorf("a problem without a code: %s", p)
	}
	if p.End == (source.Pos{}) {
		switch p.Code {
		case source.Expression, source.UnknownEntry, source.UnknownID, source.NoSuchChoice, source.BadName, source.BadAdjust:
			t.Errorf("%s: a problem without an end: %s", p.Code, p)
		}
		return
	}
	lines := strings.Split(string(files[p.End.File].Data), "\n")
	outside := p.End.Line > len(lines) || p.End.Col > utf8.RuneCountInString(lines[p.End.Line-1])+1
	if p.End.File != p.Pos.File || outside || p.End.Compare(p.Pos) < 0 {
		t.Errorf("an end outside of the file or in front of %s: %s", p, p.End)
	}
}

// TestBadSets holds faults that belong to no line.
func TestBadSets(t *testing.T) {
	for name, c := range map[string]struct {
		files []fs.FS
		want  string
	}{
		"no file":       {nil, "no rules were found"},
		"no rule file":  {files("readme.txt", "hello"), "no rules were found"},
		"no rules":      {files("a.yaml", "pack: boats\n"), "no rules were found"},
		"an empty file": {files("a.yaml", ""), "a.yaml:1:1: the file is empty"},
		"broken JSON":   {files("a.json", `{"pack": "boats",}`), "a.json:1:"},
		"broken YAML":   {files("a.yaml", "pack: [boats\nrules: 3\n"), "a.yaml:"},
		"a bad one beside a good one": {files("a.yaml", pack("fail_if: sail.wet"), "b.yaml", "pack: x\nrules: [{id: a/b}]\n"),
			"b.yaml:2:9: rules[0]: title is missing"},
	} {
		set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: c.files})
		if set != nil || err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: want %q, got %v", name, c.want, err)
		}
	}
}

// TestJSONRules holds that a rule file may be JSON, with places of its own.
func TestJSONRules(t *testing.T) {
	good := `{"pack": "boats", "rules": [{"id": "a/b", "title": "T", "why": "W", "fail_if": "sail.area_m2 > 10",
"say": "é {sail.area_m2:.1}", "remedy": "R", "basis": {"practice": "P"}}]}`
	set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("a.json", good)})
	if err != nil {
		t.Fatal(err)
	}
	res := set.Evaluate(records(facts{"sail.area_m2": 11}))
	if got := res.Text(res.Findings[0]); got != "é 11.0" {
		t.Errorf("says %q", got)
	}
	bad := strings.Replace(good, "é {sail.area_m2:.1}", `\u00e9 \"{sail.aera_m2:.1}\"`, 1)
	_, err = rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("a.json", bad)})
	if err == nil || !strings.Contains(err.Error(), `a.json:2:24: rules[0].say: sail has no field "aera_m2" (did you mean "area_m2"?)`) {
		t.Errorf("got %v", err)
	}
}
