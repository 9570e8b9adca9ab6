package rules_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// A small world of its own, so that these tests say what the package does and
// not what bicycles do. The rig is computed from the two others.
var (
	sail = rules.NewObject("sail", "A sail.",
		fact.Field{Name: "area_m2", Type: fact.Fraction, Unit: "m2", Min: 0, Max: 100, Doc: "Its area.", How: "Measure it.", Also: []string{"surface"}},
		fact.Field{Name: "reefs", Type: fact.Whole, Min: 0, Max: 9, Doc: "Rows of reef points.", How: "Count them."},
		fact.Field{Name: "panels_m2", Type: fact.Fractions, Unit: "m2", Min: 0, Max: 100, Cap: 8, Doc: "Panels.", How: "Measure."},
		fact.Field{Name: "cloth", Type: fact.Choice, Choices: []string{"canvas", "nylon"}, Doc: "Cloth.", How: "Feel."},
		fact.Field{Name: "maker", Type: fact.Name, Doc: "Who sewed it.", How: "Look at the corner."},
		fact.Field{Name: "wet", Type: fact.Flag, Doc: "Wet.", How: "Feel."})
	mast = rules.NewObject("mast", "A mast.",
		fact.Field{Name: "height_m", Type: fact.Fraction, Unit: "m", Min: 0, Max: 50, Doc: "Height.", How: "Measure."},
		fact.Field{Name: "stays", Type: fact.Whole, Min: 0, Max: 9, Doc: "Stays.", How: "Count."}).Called("pole")
	rig = rules.NewObject("rig", "What sail and mast make together.",
		fact.Field{Name: "heel_deg", Type: fact.Fraction, Unit: "deg", Min: 0, Max: 90, Doc: "Heel."},
		fact.Field{Name: "speed_kn", Type: fact.Fraction, Unit: "kn", Min: 0, Max: 90, Doc: "Speed."})
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

// drawings are what rules may point to: the second shows no limits.
func drawings() []rules.Drawing {
	return []rules.Drawing{{Name: "heel", Doc: "The boat from astern.", Limits: []string{"warn", "fail"}}, {Name: "plan", Doc: "The sail laid out."}}
}

// load reads one rule file.
func load(t testing.TB, text string) (*rules.Set, error) {
	t.Helper()
	return rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("boats.yaml", text), Drawings: drawings()})
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
func assumed(v fact.Value) fact.Value {
	v.Assumed = true
	return v
}

// records makes the records of the world from facts.
func records(f facts) []*rules.Record {
	out := make([]*rules.Record, len(world))
	for i, o := range world {
		values := make([]fact.Value, len(o.Table().Fields()))
		lacks := make([]fact.Lack, len(values))
		_, there := f[o.Name()]
		for j, field := range o.Table().Fields() {
			given, ok := f[o.Name()+"."+field.Name]
			if !ok {
				continue
			}
			there = true
			if lack, ok := given.(fact.Lack); ok {
				lacks[j] = lack
			} else {
				values[j] = value(given)
			}
		}
		if there {
			out[i] = o.NewRecord(values, lacks)
		}
	}
	return out
}

func value(given any) fact.Value {
	switch v := given.(type) {
	case fact.Value:
		return v
	case int:
		return fact.Num(float64(v))
	case float64:
		return fact.Num(v)
	case bool:
		return fact.Truth(v)
	case string:
		return fact.Word(v)
	case []float64:
		return fact.Nums(v)
	}
	panic(fmt.Sprintf("a %T is no fact", given))
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
