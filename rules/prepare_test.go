package rules_test

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// keeping is a folder with trees of its files.
type keeping struct {
	fs.FS
	trees string
}

func (k keeping) Trees() string { return k.trees }

// made is what was prepared of a file.
type made struct{ expressions, trees string }

// preparedSet loads a sound file with what was prepared of one, changed or not.
func preparedSet(t *testing.T, v *rules.Vocabulary, text string, of made) *rules.Set {
	t.Helper()
	s, err := rules.Load(rules.Config{Vocabulary: v, Sound: []fs.FS{keeping{files("boats.yaml", text)[0], of.trees}}, Prepared: of.expressions})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// prepare prepares a sound file.
func prepare(t *testing.T, v *rules.Vocabulary, text string) made {
	t.Helper()
	expressions, trees, err := rules.Prepare(rules.Config{Vocabulary: v, Sound: files("boats.yaml", text)})
	if err != nil {
		t.Fatal(err)
	}
	return made{expressions, trees}
}

// boatFacts are on both sides of each condition of soundRules, and lack some.
var boatFacts = []facts{
	{"sail.area_m2": 40, "mast.height_m": 5}, {"sail.area_m2": 11, "mast.height_m": 5}, {"sail.area_m2": 9, "mast.height_m": 5},
	{"mast.height_m": 5, "sail": nil}, {"sail.area_m2": 9, "mast.height_m": 1}, {"mast.height_m": 5},
}

// TestPreparedSaysTheSame holds a prepared set against a parsed one, in what it says,
// in its places and in its hash.
func TestPreparedSaysTheSame(t *testing.T) {
	v := vocabulary(t)
	of := prepare(t, v, soundRules)
	for _, part := range []string{"\nrule sail/area\n", "\nstep hoist\n", "value\t\"over / 2\"\t", "condition\t\"over > 5\"\t"} {
		if !strings.Contains(of.expressions, part) {
			t.Errorf("%q is not in\n%s", part, of.expressions)
		}
	}
	got, want := preparedSet(t, v, soundRules, of), mustLoad(t, soundRules)
	for _, f := range boatFacts {
		if diff := cmp.Diff(everything(want, f), everything(got, f)); diff != "" {
			t.Errorf("%v, - is parsed, + prepared:\n%s", f, diff)
		}
	}
	a, b := got.Rules()[0], want.Rules()[0]
	if got.Hash() != preparedSet(t, v, soundRules, made{}).Hash() || a.Pos.Line != b.Pos.Line || a.Pos.Col != b.Pos.Col {
		t.Errorf("hash %s, place %v and %v", got.Hash(), a.Pos, b.Pos)
	}
	for i, e := range b.Expressions() {
		if x, y := a.Expressions()[i].At(3), e.At(3); x.Line != y.Line || x.Col != y.Col {
			t.Errorf("%s is at %v and %v", e.Key, x, y)
		}
	}
	if wrong, ran := got.Prove(); len(wrong) > 0 || ran != 1 {
		t.Errorf("%d examples ran, %d wrong", ran, len(wrong))
	}
}

// TestPreparedIsTold tells by another limit in what is prepared that it is used, and
// holds that it is not where the file, the vocabulary or the text itself is another.
func TestPreparedIsTold(t *testing.T) {
	v := vocabulary(t)
	of := prepare(t, v, soundRules)
	over := facts{"sail.area_m2": 40, "mast.height_m": 5} // by 30, and it fails above 10
	says := func(v *rules.Vocabulary, text, expressions string) string {
		return outcome(preparedSet(t, v, text, made{expressions, of.trees}).Evaluate(records(over)))
	}
	changed := strings.Replace(of.expressions, "int 10", "int 100", 1)
	parsed, prepared := says(v, soundRules, ""), says(v, soundRules, changed)
	if changed == of.expressions || parsed == prepared || says(v, soundRules, of.expressions) != parsed {
		t.Fatalf("parsed %s, prepared %s", parsed, prepared)
	}
	other, err := rules.NewVocabulary(sail, mast, rules.NewObject("rig", "Another.", fact.Field{Name: "heel_deg", Type: fact.Fraction, Max: 80}))
	if err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string]string{
		"another file":           says(v, strings.Replace(soundRules, "capsizes", "tips", 1), changed),
		"another vocabulary":     says(other, soundRules, changed),
		"another head":           says(v, soundRules, strings.Replace(changed, "The language: ", "The language: 0", 1)),
		"no head":                says(v, soundRules, changed[1:]),
		"another hash":           says(v, soundRules, strings.Replace(changed, "file boats.yaml ", "file boats.yaml 0", 1)),
		"another rule":           says(v, soundRules, strings.Replace(changed, "rule sail/area", "rule sail/area2", 1)),
		"half of a line":         says(v, soundRules, changed[:strings.Index(changed, "int 100")]),
		"the rule of a stranger": outcome(mustLoad(t, soundRules).Evaluate(records(over))),
	} {
		if got != parsed {
			t.Errorf("%s: %s, not %s", name, got, parsed)
		}
	}
}

// TestPreparedOfAnOlderFile: a limit that a shop changes in its copy of a
// file is the limit, with the tree and the expressions of the old one beside it.
func TestPreparedOfAnOlderFile(t *testing.T) {
	v := vocabulary(t)
	of := prepare(t, v, soundRules)
	newer := strings.Replace(soundRules, "over > 10", "over > 90", 1)
	for _, f := range boatFacts {
		got, want := everything(preparedSet(t, v, newer, of), f), everything(mustLoad(t, newer), f)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%v, - is parsed, + prepared:\n%s", f, diff)
		}
	}
}

// TestPrepareRefuses: a file with a fault cannot be prepared.
func TestPrepareRefuses(t *testing.T) {
	_, _, err := rules.Prepare(rules.Config{Vocabulary: vocabulary(t), Sound: files("boats.yaml", strings.Replace(soundRules, "over > 10", "over >", 1))})
	if err == nil || !strings.Contains(err.Error(), "boats.yaml:9:") {
		t.Errorf("got %v", err)
	}
}
