package rules_test

import (
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// A fail that hangs on a computed value names what nobody stated: the assumed fact
// behind it, and where all of these are stated what the value takes for granted. One
// that declares nothing of the kind is named itself.
func TestTextOfWhatIsSupposed(t *testing.T) {
	sail := rules.NewObject("sail", "A sail.",
		fact.Field{Name: "area_m2", Type: fact.Fraction, Max: 99, Doc: "The area of the cloth.", How: "Measure it."})
	sums := rules.NewObject("sums", "What is worked out.",
		fact.Field{Name: "heel_deg", Type: fact.Fraction, Max: 99, Doc: "How far she lies over.", Supposes: "how hard it blows"},
		fact.Field{Name: "leeway_deg", Type: fact.Fraction, Max: 99, Doc: "How far she drifts off."})
	v, err := rules.NewVocabulary(sail, sums)
	if err != nil {
		t.Fatal(err)
	}
	const granted = "She is badly trimmed. Nobody stated how hard it blows, so it only warns: measure to be sure."
	for _, c := range []struct {
		reads string
		area  fact.Value
		want  string
	}{
		{"heel_deg", fact.Num(12), granted},
		{"heel_deg", assumed(fact.Num(12)), "She is badly trimmed. Nobody stated the area of the cloth (sail), so it only warns: measure to be sure."},
		{"heel_deg", fact.Value{}, granted},
		{"leeway_deg", fact.Num(12), "She is badly trimmed. Nobody stated how far she drifts off, so it only warns: measure to be sure."},
	} {
		set, err := rules.Load(rules.Config{
			Vocabulary: v,
			Files:      files("a.yaml", pack("fail_if: sums."+c.reads+" > 20", `say: "She is badly trimmed."`)),
			Behind: func(ref rules.Ref) []rules.Ref {
				if ref.Object == sums {
					return []rules.Ref{sail.Ref("area_m2")}
				}
				return []rules.Ref{ref}
			},
		})
		if err != nil {
			t.Fatal(err)
		}
		var cloth, worked rules.Record
		sail.FillRecord(&cloth, []fact.Value{c.area}, nil)
		sums.FillRecord(&worked, []fact.Value{assumed(fact.Num(30)), assumed(fact.Num(30))}, nil)
		res := set.Evaluate([]*rules.Record{&cloth, &worked})
		if got := res.Text(res.Findings[0]); got != c.want {
			t.Errorf("%s, area %v: says %q, not %q", c.reads, c.area, got, c.want)
		}
	}
}
