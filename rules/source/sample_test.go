package source

import "example.org/cogcourt/rules/fact"

// sample is a table with a field of every type and every check.
func sample() *fact.Table {
	return fact.NewTable(
		fact.Field{Name: "cogs_t", Type: fact.Wholes, Unit: "t", Min: 9, Max: 60, Cap: 16, Required: true, Rising: true, Doc: "teeth of each cog"},
		fact.Field{Name: "rings_t", Type: fact.Wholes, Unit: "t", Min: 16, Max: 70, Cap: 3, Sorted: true, Doc: "teeth of each ring"},
		fact.Field{Name: "pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 6, Excludes: "pitches_mm"},
		fact.Field{Name: "pitches_mm", Type: fact.Fractions, Unit: "mm", Min: 2, Max: 6, Cap: 15, OneLess: "cogs_t", Excludes: "pitch_mm"},
		fact.Field{Name: "speeds", Type: fact.Whole, Min: 1, Max: 14},
		fact.Field{Name: "assist_rated", Type: fact.Flag},
		fact.Field{Name: "actuation", Type: fact.Choice, Choices: []string{"cable", "motor"}},
		fact.Field{Name: "freehub", Type: fact.Name},
		fact.Field{Name: "fits", Type: fact.Names, Cap: 3},
		fact.Field{Name: "offset_mm", Type: fact.Fraction, Unit: "mm"},
		fact.Field{Name: "usual_mm", Type: fact.Fraction, Unit: "mm", Min: 1, Max: 3, Default: &fact.Value{Known: true, Assumed: true, Num: 1.8}},
	)
}

// readSample reads a file of parts: with fields of the sample and a few others.
func readSample(file string, text []byte) error {
	root, err := Parse(file, text)
	if err != nil {
		return err
	}
	var ps Problems
	root.Keys("", &ps, "title", "edition", "weight", "done", "notes", "parts")
	root.Get("title").ReadText("title", &ps)
	root.Get("edition").ReadWhole("edition", &ps)
	root.Get("weight").ReadNumber("weight", &ps)
	root.Get("done").ReadFlag("done", &ps)
	root.Get("notes").ReadTexts("notes", &ps)
	for i, n := range root.Get("parts").ReadList("parts", &ps) {
		path := entry("parts", i)
		n.Get("id").ReadText(path+".id", &ps)
		n.ReadRecord(sample(), path, []string{"id", "kind"}, &ps)
	}
	return ps.Err()
}
