package rules_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// A small world of its own, so that these tests say what the package does and
// not what bicycles do. The rig is computed from the two others.
var (
	sail = rules.NewObject("sail", "A sail.",
		source.Field{Name: "area_m2", Type: source.Fraction, Unit: "m2", Min: 0, Max: 100, Doc: "Its area.", How: "Measure it."},
		source.Field{Name: "reefs", Type: source.Whole, Min: 0, Max: 9, Doc: "Rows of reef points.", How: "Count them."},
		source.Field{Name: "panels_m2", Type: source.Fractions, Unit: "m2", Min: 0, Max: 100, Cap: 8, Doc: "Panels.", How: "Measure."},
		source.Field{Name: "cloth", Type: source.Choice, Choices: []string{"canvas", "nylon"}, Doc: "Cloth.", How: "Feel."},
		source.Field{Name: "maker", Type: source.Name, Doc: "Who sewed it.", How: "Look at the corner."},
		source.Field{Name: "wet", Type: source.Flag, Doc: "Wet.", How: "Feel."})
	mast = rules.NewObject("mast", "A mast.",
		source.Field{Name: "height_m", Type: source.Fraction, Unit: "m", Min: 0, Max: 50, Doc: "Height.", How: "Measure."},
		source.Field{Name: "stays", Type: source.Whole, Min: 0, Max: 9, Doc: "Stays.", How: "Count."})
	rig = rules.NewObject("rig", "What sail and mast make together.",
		source.Field{Name: "heel_deg", Type: source.Fraction, Unit: "deg", Min: 0, Max: 90, Doc: "Heel."},
		source.Field{Name: "speed_kn", Type: source.Fraction, Unit: "kn", Min: 0, Max: 90, Doc: "Speed."})
)

var world = []*rules.Object{sail, mast, rig}

func vocabulary(t testing.TB) *rules.Vocabulary {
	t.Helper()
	v, err := rules.NewVocabulary(world...)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// load reads one rule file.
func load(t testing.TB, text string) (*rules.Set, error) {
	t.Helper()
	return rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("boats.yaml", text)})
}

func mustLoad(t testing.TB, text string) *rules.Set {
	t.Helper()
	set, err := load(t, text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return set
}

// files gives a file system of names and texts in turn.
func files(namesAndTexts ...string) []fs.FS {
	m := fstest.MapFS{}
	for i := 0; i+1 < len(namesAndTexts); i += 2 {
		m[namesAndTexts[i]] = &fstest.MapFile{Data: []byte(namesAndTexts[i+1])}
	}
	return []fs.FS{m}
}

// pack gives a file with one rule: these lines, and what else a rule must have.
func pack(lines ...string) string {
	have := "\n" + strings.Join(lines, "\n")
	for _, line := range []string{"id: boats/rule", "title: All is well", "why: Boats sink.", "say: Look here.", "remedy: Mend it.", "basis: {practice: invented}"} {
		if key, _, _ := strings.Cut(line, ":"); !strings.Contains(have, "\n"+key+":") {
			lines = append(lines, line)
		}
	}
	body := strings.ReplaceAll(strings.Join(lines, "\n"), "\n", "\n    ")
	return "pack: boats\nrules:\n  -\n    " + body + "\n"
}

// facts are values by the names that rules use; the name of an object alone
// stands for one of which nothing is stated.
type facts map[string]any

// assumed is a value that nobody stated.
func assumed(v source.Value) source.Value {
	v.Assumed = true
	return v
}

// records makes the records of the world from facts.
func records(f facts) []*rules.Record {
	out := make([]*rules.Record, len(world))
	for i, o := range world {
		values := make([]source.Value, len(o.Table().Fields()))
		lacks := make([]rules.Lack, len(values))
		_, there := f[o.Name()]
		for j, field := range o.Table().Fields() {
			fact, ok := f[o.Name()+"."+field.Name]
			if !ok {
				continue
			}
			there = true
			if lack, ok := fact.(rules.Lack); ok {
				lacks[j] = lack
			} else {
				values[j] = value(fact)
			}
		}
		if there {
			out[i] = o.NewRecord(values, lacks)
		}
	}
	return out
}

func value(fact any) source.Value {
	switch v := fact.(type) {
	case source.Value:
		return v
	case int:
		return source.Num(float64(v))
	case float64:
		return source.Num(v)
	case bool:
		return source.Truth(v)
	case string:
		return source.Word(v)
	case []float64:
		return source.Nums(v)
	}
	panic(fmt.Sprintf("a %T is no fact", fact))
}

// outcome says in one line what the only rule of a set gives.
func outcome(res *rules.Result) string {
	if len(res.NotApplied)+len(res.Findings) != 1 {
		return fmt.Sprintf("%d findings and %d not applied", len(res.Findings), len(res.NotApplied))
	}
	if len(res.NotApplied) == 1 {
		na := res.NotApplied[0]
		return strings.TrimSpace("not applied " + string(na.Reason) + " " + strings.Join(na.Names, " "))
	}
	f := res.Findings[0]
	out := f.Ruled.String()
	if f.Verdict != f.Ruled {
		out += " given as " + f.Verdict.String()
	}
	if len(f.Missing) > 0 {
		out += " missing " + strings.Join(f.Missing, " ")
	}
	if len(f.Assumed) > 0 {
		out += " assumed " + strings.Join(f.Assumed, " ")
	}
	if f.Err != "" {
		out += " error " + f.Err
	}
	return out
}
