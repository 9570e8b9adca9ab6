package rules_test

import (
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// A fail that hangs on a computed value names what nobody stated: the assumed fact
// behind it, and where all of these are stated what the value takes for granted.
func TestTextOfWhatIsSupposed(t *testing.T) {
	sail := rules.NewObject("sail", "A sail.",
		fact.Field{Name: "area_m2", Type: fact.Fraction, Max: 99, Doc: "The area of the cloth.", How: "Measure it."})
	sums := rules.NewObject("sums", "What is worked out.",
		fact.Field{Name: "heel_deg", Type: fact.Fraction, Max: 99, Doc: "How far she lies over.", Supposes: "how hard it blows"})
	v, err := rules.NewVocabulary(sail, sums)
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Load(rules.Config{
		Vocabulary: v,
		Files:      files("a.yaml", pack("fail_if: sums.heel_deg > 20", `say: "She lies over."`)),
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
	for _, c := range []struct {
		area fact.Value
		want string
	}{
		{fact.Num(12), "She lies over. Nobody stated how hard it blows, so it only warns: measure to be sure."},
		{assumed(fact.Num(12)), "She lies over. Nobody stated the area of the cloth (sail), so it only warns: measure to be sure."},
		{fact.Value{}, "She lies over. Nobody stated how hard it blows, so it only warns: measure to be sure."},
	} {
		var cloth, heel rules.Record
		sail.FillRecord(&cloth, []fact.Value{c.area}, nil)
		sums.FillRecord(&heel, []fact.Value{assumed(fact.Num(30))}, nil)
		res := set.Evaluate([]*rules.Record{&cloth, &heel})
		if got := res.Text(res.Findings[0]); got != c.want {
			t.Errorf("area %v: says %q, not %q", c.area, got, c.want)
		}
	}
}
