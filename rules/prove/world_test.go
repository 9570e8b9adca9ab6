package prove_test

import (
	"fmt"
	"io/fs"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// A small world of its own; the rig is computed from the sail.
var (
	sail = rules.NewObject("sail", "A sail.",
		fact.Field{Name: "area_m2", Type: fact.Fraction, Min: 0, Max: 100, Doc: "Its area."},
		fact.Field{Name: "reefs", Type: fact.Whole, Min: 0, Max: 9, Doc: "Rows of reef points."},
		fact.Field{Name: "panels_m2", Type: fact.Fractions, Min: 5, Max: 60, Cap: 8, Rising: true, Doc: "Panels."},
		fact.Field{Name: "cloth", Type: fact.Choice, Choices: []string{"canvas", "nylon"}, Doc: "Cloth."},
		fact.Field{Name: "makers", Type: fact.Names, Cap: 4, Doc: "Who sewed it."},
		fact.Field{Name: "wet", Type: fact.Flag, Doc: "Wet."})
	mast = rules.NewObject("mast", "A mast.",
		fact.Field{Name: "height_m", Type: fact.Fraction, Min: 0, Max: 50, Doc: "Height."},
		fact.Field{Name: "stays", Type: fact.Whole, Min: 0, Max: 9, Doc: "Stays."})
	rig = rules.NewObject("rig", "What sail and mast make together.",
		fact.Field{Name: "load", Type: fact.Fraction, Min: 0, Max: 90, Doc: "Area over height."})
)

// derive computes the load of the rig from the area of the sail and the height of
// the mast. A sail of nylon on a mast without stays is a contradiction.
func derive(given []*rules.Record) []*rules.Record {
	values, lacks := make([]fact.Value, 1), make([]fact.Lack, 1)
	area, height := sail.Ref("area_m2").In(given[0]), mast.Ref("height_m").In(given[1])
	cloth, stays := sail.Ref("cloth").In(given[0]), mast.Ref("stays").In(given[1])
	load := rig.Ref("load").In(given[2])
	switch {
	case load.Known:
		values[0] = load
	case given[0] == nil:
		lacks[0].Absent = []string{"sail"}
	case given[1] == nil:
		lacks[0].Absent = []string{"mast"}
	case !area.Known || !height.Known || height.Num == 0:
		lacks[0].Missing = []string{"sail.area_m2"}
	case cloth.Text == "nylon" && stays.Known && stays.Num == 0:
		lacks[0].Fault = "cloth and stays do not fit each other"
	default:
		values[0] = fact.Num(area.Num / height.Num)
	}
	return []*rules.Record{given[0], given[1], rig.NewRecord(values, lacks)}
}

func mustLoad(t testing.TB, text string) *rules.Set {
	t.Helper()
	v, err := rules.NewVocabulary(sail, mast, rig)
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"boats.yaml": &fstest.MapFile{Data: []byte(text)}}
	set, err := rules.Load(rules.Config{Vocabulary: v, Derive: derive, Files: []fs.FS{files},
		Drawings: []rules.Drawing{{Name: "heel", Limits: []string{"fail"}}}})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return set
}

// one gives a file with one rule: its conditions, then its examples.
func one(conditions, examples string) string {
	return fmt.Sprintf("pack: boats\nrules:\n  - {id: boats/one, title: T, why: W, say: S, remedy: R, basis: {practice: P}, %s,\n     examples: [%s]}\n",
		conditions, examples)
}
