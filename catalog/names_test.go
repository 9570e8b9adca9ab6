package catalog

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// namesOf reads a field of names as a list, whichever type it is of.
func namesOf(v fact.Value) []string {
	if v.Text != "" {
		return []string{v.Text}
	}
	return v.Words()
}

// TestKnownNames holds that the tables are whole: each word is one that a file
// could hold, has a line of doc, and is no slip of another one, nor is any of its
// spellings; a closed list knows its own words and no others.
func TestKnownNames(t *testing.T) {
	word := regexp.MustCompile(`^([a-z0-9-]|[0-9]\.[0-9])+$`)
	tables := 0
	eachField(t, func(t *testing.T, f fact.Field) {
		if len(f.Known) == 0 {
			return
		}
		tables++
		if f.Type == fact.Choice && !slices.Equal(f.KnownNames(), f.Choices) {
			t.Errorf("knows %q, and its words are %q", f.KnownNames(), f.Choices)
		}
		for i, k := range f.Known {
			if k.Doc == "" || strings.HasSuffix(k.Doc, ".") || strings.Contains(k.Doc, "\n") {
				t.Errorf("%s: the doc is no line: %q", k.Name, k.Doc)
			}
			rest := f
			rest.Known = slices.Delete(slices.Clone(f.Known), i, i+1)
			for _, spelling := range append([]string{k.Name}, k.Also...) {
				if !word.MatchString(spelling) {
					t.Errorf("%q can be in no file", spelling)
				}
				if name, ok := rest.KnownName(spelling); ok {
					t.Errorf("%q stands for %q and %q", spelling, k.Name, name)
				}
			}
		}
	})
	if tables < 15 {
		t.Errorf("only %d fields know words", tables)
	}
}

// TestKnownNamesRoundTrip reads each spelling of each word through YAML, JSON and
// Go: all give the word itself, and what is given out is read back as it is.
func TestKnownNamesRoundTrip(t *testing.T) {
	for _, kind := range Kinds() {
		for i, f := range kind.Table().Fields() {
			for _, k := range f.Known {
				readSpellings(t, rules.Ref{Object: kind, Index: i}, k)
			}
		}
	}
}

func readSpellings(t *testing.T, ref rules.Ref, k fact.Known) {
	t.Helper()
	for _, spelling := range append([]string{k.Name}, k.Also...) {
		fields := map[string]any{ref.Field().Name: spelling}
		switch ref.Object {
		case Cassette:
			fields["cogs_t"] = []int{16}
		case Crankset:
			fields["rings_t"] = []int{32}
		}
		for door, p := range doors(t, ref.Object.Name(), fields) {
			if got := namesOf(ref.In(p.Record())); !slices.Equal(got, []string{k.Name}) {
				t.Errorf("%s: %q is read as %q by %s, want %q", ref, spelling, got, door, k.Name)
			}
		}
	}
}

// doors makes one part by YAML, JSON and Go.
func doors(t *testing.T, kind string, fields map[string]any) map[string]Part {
	t.Helper()
	made, err := New(kind, fields)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(fields)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]Part{"Go": made}
	for _, file := range []string{"place.json", "place.yaml"} { // JSON is YAML too
		n, err := source.Parse(file, text)
		if err != nil {
			t.Fatal(err)
		}
		var ps source.Problems
		p, ok := Read(kind, n, &ps)
		if !ok {
			t.Fatalf("%s: %v", text, ps.Err())
		}
		out[file] = p
	}
	return out
}

// TestUnknownNames holds what is taken that no table knows, and that a digit more
// or less makes another name.
func TestUnknownNames(t *testing.T) {
	for _, row := range []struct{ kind, field, name, want string }{
		{"hub", "freehub", "spline-9", "spline-9"}, {"hub", "freehub", "heron-7", "heron-7"}, {"hub", "freehub", "spline-10", "spline-10"},
		{"hub", "freehub", "driver-11", "driver-11"}, {"frame", "shell", "threaded-69", "threaded-69"}, {"frame", "shell", "hauler-motor", "hauler-motor"},
		{"cell", "form", "cr2033", "cr2033"}, {"cell", "form", "keel-pack", "keel-pack"}, {"cell", "form", "lr2032", "lr2032"},
		{"axle", "thread", "m12-1.25", "m12-1.25"}, {"axle", "thread", "m15-1.5", "m15-1.5"}, {"chainring", "bolt_pattern", "asymmetric-quay", "asymmetric-quay"},
		{"bottom_bracket", "spindle", "splined-21", "splined-21"}, {"bottom_bracket", "spindle", "24", "through-24"},
	} {
		p, err := New(row.kind, map[string]any{row.field: row.name})
		if err != nil {
			t.Errorf("%s.%s: %v", row.kind, row.field, err)
			continue
		}
		kind, _ := Kind(row.kind)
		if got := kind.Ref(row.field).In(p.Record()).Text; got != row.want {
			t.Errorf("%s.%s: %q is read as %q, want %q", row.kind, row.field, row.name, got, row.want)
		}
	}
}
