package schemas

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// update writes the golden list anew: go test ./schemas -update.
var update = flag.Bool("update", false, "write the golden list anew")

// document is a file of the repository, or one that stands within another.
type document struct {
	kind, name string
	text       []byte
	want       []fault // the faults that remarks in it tell, where it cannot be loaded as it is
}

// good gathers every file that must load: the demo, the shipped rules, and what
// new prints.
func good(t *testing.T) []document {
	var out []document
	for folder, kind := range map[string]string{"catalog/demo/parts": "parts", "catalog/demo/mixes": "mix", "catalog/demo/orders": "cart", "rules/standard": "rules"} {
		out = append(out, folderOf(t, folder, kind)...)
	}
	for name, text := range carts {
		out = append(out, document{kind: "cart", name: name + ".yaml", text: []byte(text)})
	}
	for _, id := range []string{"my-shop/largest-cog", "a/b/c"} {
		out = append(out, document{kind: "rules", name: "new.yaml", text: tool(t, "", "new", id)})
	}
	return out
}

func folderOf(t *testing.T, folder, kind string) []document {
	t.Helper()
	var out []document
	for _, pattern := range []string{"*.yaml", "*.json"} {
		files, err := filepath.Glob(filepath.Join(root, folder, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, document{kind: kind, name: folder + "/" + filepath.Base(file), text: text})
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", folder)
	}
	return out
}

// TestGoodFiles holds that loader and schema accept every good file.
func TestGoodFiles(t *testing.T) {
	files := good(t)
	for _, d := range files {
		v := judge(t, d.kind, d.name, d.text)
		if len(v.faults) > 0 {
			t.Errorf("%s: %v", d.name, v.faults)
		}
		if v.schema != nil {
			t.Errorf("%s: %s", d.name, brief(v.schema))
		}
	}
	t.Logf("%d good files", len(files))
}

// sessions gathers the files that stand in the scripts of the command's tests:
// good ones and bad ones, told apart by the loader alone.
func sessions(t *testing.T) []document {
	mark := regexp.MustCompile(`(?m)^-- (\S+) --\n`)
	var out []document
	files, _ := filepath.Glob(filepath.Join(root, "cmd/cogcourt/testdata/*.txt"))
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		at := mark.FindAllSubmatchIndex(text, -1)
		for i, m := range at {
			end := len(text)
			if i+1 < len(at) {
				end = at[i+1][0]
			}
			d := document{name: string(text[m[2]:m[3]]), text: text[m[1]:end]}
			switch head := string(d.text); {
			case filepath.Ext(d.name) != ".yaml" && filepath.Ext(d.name) != ".json":
				continue
			case strings.Contains(head, "pack:"):
				d.kind = "rules"
			case strings.Contains(head, "kind"):
				d.kind = "parts"
			case strings.Contains(head, "lines") && !strings.Contains(head, "mix: Both"):
				d.kind = "cart"
			default:
				d.kind = "mix"
			}
			d.name = filepath.Base(file) + "/" + d.name
			out = append(out, d)
		}
	}
	if len(out) < 30 {
		t.Fatalf("only %d files in the scripts", len(out))
	}
	return out
}

// TestSessions holds that loader and schema agree on them.
func TestSessions(t *testing.T) {
	loaded := 0
	for _, d := range sessions(t) {
		v := judge(t, d.kind, d.name, d.text)
		if fault := v.disagree(); fault != "" {
			t.Errorf("%s: %s\n%s", d.name, fault, d.text)
		}
		if len(v.faults) == 0 {
			loaded++
		}
	}
	t.Logf("%d load", loaded)
}

// bad gathers the files of the bad folders, taken apart: one document for each
// entry of a list, so that the fault of one does not hide that of another.
func bad(t *testing.T) []document {
	var out []document
	for _, d := range folderOf(t, "catalog/testdata/bad", "parts") {
		out = append(out, apart(t, d, "parts")...)
	}
	for _, d := range folderOf(t, "rules/testdata/bad", "rules") {
		out = append(out, apart(t, d, "rules", "sources", "adjust", "steps")...)
	}
	return out
}

// wanted are the faults that a remark tells: quoted texts behind # want.
var wanted = regexp.MustCompile("`([^`]*)`|\"((?:[^\"\\\\]|\\\\.)*)\"")

// apart takes a file to pieces: each entry of its lists by itself, and what
// stands around them. A file that cannot be taken apart stays whole.
func apart(t *testing.T, d document, lists ...string) []document {
	t.Helper()
	lines := strings.Split(string(d.text), "\n")
	d.want = wants(lines)
	var doc yaml.Node
	if err := yaml.Unmarshal(d.text, &doc); err != nil || filepath.Ext(d.name) != ".yaml" || doc.Content[0].Kind != yaml.MappingNode {
		return []document{d}
	}
	head := map[string]any{}
	inHead := slices.Clone(lines)
	var out []document
	for i := 0; i+1 < len(doc.Content[0].Content); i += 2 {
		key, value := doc.Content[0].Content[i], doc.Content[0].Content[i+1]
		if !slices.Contains(lists, key.Value) || value.Kind != yaml.SequenceNode {
			v, err := plainValue(value)
			if err != nil {
				t.Fatal(err)
			}
			head[key.Value] = v
			continue
		}
		for j, item := range value.Content {
			first, last := item.Line-1, lastLine(item)
			v, err := plainValue(item)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, document{kind: d.kind, name: fmt.Sprintf("%s %s[%d]", d.name, key.Value, j),
				text: jsonText(t, map[string]any{"pack": "p", key.Value: []any{v}}), want: wants(lines[first:last])})
			for k := first; k < last; k++ {
				inHead[k] = ""
			}
		}
		head[key.Value] = []any{}
	}
	if left := wants(inHead); len(left) > 0 {
		out = append(out, document{kind: d.kind, name: d.name + " around its lists", text: jsonText(t, head), want: left})
	}
	return out
}

func wants(lines []string) []fault {
	var out []fault
	for _, line := range lines {
		_, remark, found := strings.Cut(line, "# want")
		if !found {
			continue
		}
		for _, m := range wanted.FindAllStringSubmatch(remark, -1) {
			out = append(out, fault{text: strings.ReplaceAll(m[1]+m[2], `\`, "")})
		}
	}
	return out
}

// lastLine is the last line of a node, counted from 1.
func lastLine(n *yaml.Node) int {
	last := n.Line
	for _, c := range n.Content {
		last = max(last, lastLine(c))
	}
	return last
}

// TestBadFiles holds that the schema refuses each bad entry, unless all of its
// faults are of those that no schema can tell. Which these are stands in a golden
// list.
func TestBadFiles(t *testing.T) {
	var accepted []string
	refused := 0
	for _, d := range bad(t) {
		if len(d.want) == 0 {
			continue // one that only others clash with
		}
		v := verdictOfBad(t, d)
		if fault := v.disagree(); fault != "" {
			t.Errorf("%s: %s\n%s", d.name, fault, d.text)
		}
		if v.schema != nil {
			refused++
			continue
		}
		for _, f := range v.faults {
			accepted = append(accepted, fmt.Sprintf("%s: %s", d.name, why(f)))
		}
	}
	t.Logf("%d refused by the schema, %d lines in the golden list", refused, len(accepted))
	compareGolden(t, "testdata/beyond-a-schema.txt", accepted)
}

// verdictOfBad judges a bad entry. The rule files speak of boats, so that their
// faults are those of the remarks, and their facts are left out.
func verdictOfBad(t *testing.T, d document) verdict {
	t.Helper()
	name := "bad.json"
	if strings.HasSuffix(d.name, ".yaml") {
		name = "bad.yaml"
	}
	text := d.text
	if d.kind == "parts" && name == "bad.json" {
		text = []byte(strings.Replace(string(text), `"pack":"p",`, "", 1))
	}
	if d.kind == "parts" {
		return judge(t, d.kind, name, text)
	}
	v := verdict{faults: d.want}
	inst, err := instance(name, text)
	if err != nil {
		v.schema = err
		return v
	}
	withoutGiven(inst)
	v.schema = schema(t, d.kind).Validate(inst)
	return v
}

// withoutGiven takes the facts out of examples.
func withoutGiven(v any) {
	switch v := v.(type) {
	case map[string]any:
		delete(v, "given")
		for _, child := range v {
			withoutGiven(child)
		}
	case []any:
		for _, child := range v {
			withoutGiven(child)
		}
	}
}

// compareGolden holds lines against a golden file.
func compareGolden(t *testing.T, file string, lines []string) {
	t.Helper()
	slices.Sort(lines)
	got := strings.Join(slices.Compact(lines), "\n") + "\n"
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is stale (.ci/update writes it anew); now:\n%s", file, got)
	}
}

// TestNoBadFolderIsForgotten holds that every folder of bad files is looked at.
func TestNoBadFolderIsForgotten(t *testing.T) {
	err := fs.WalkDir(os.DirFS(root), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() || d.Name() != "bad" {
			return err
		}
		if !slices.Contains([]string{"catalog/testdata/bad", "rules/testdata/bad", "rules/source/testdata/bad"}, path) {
			t.Errorf("%s is not looked at; rules/source is left out, since it holds no file that has a schema", path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
