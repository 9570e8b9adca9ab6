package source

// sample is a table with a field of every type and every check.
func sample() *Table {
	return NewTable(
		Field{Name: "cogs_t", Type: Wholes, Unit: "t", Min: 9, Max: 60, Cap: 16, Required: true, Rising: true, Doc: "teeth of each cog"},
		Field{Name: "rings_t", Type: Wholes, Unit: "t", Min: 16, Max: 70, Cap: 3, Sorted: true, Doc: "teeth of each ring"},
		Field{Name: "pitch_mm", Type: Fraction, Unit: "mm", Min: 2, Max: 6, Excludes: "pitches_mm"},
		Field{Name: "pitches_mm", Type: Fractions, Unit: "mm", Min: 2, Max: 6, Cap: 15, OneLess: "cogs_t", Excludes: "pitch_mm"},
		Field{Name: "speeds", Type: Whole, Min: 1, Max: 14},
		Field{Name: "assist_rated", Type: Flag},
		Field{Name: "actuation", Type: Choice, Choices: []string{"cable", "motor"}},
		Field{Name: "freehub", Type: Name},
		Field{Name: "offset_mm", Type: Fraction, Unit: "mm"},
		Field{Name: "usual_mm", Type: Fraction, Unit: "mm", Min: 1, Max: 3, Default: &Value{Known: true, Assumed: true, Num: 1.8}},
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
		sample().Read(n, path, []string{"id", "kind"}, &ps)
	}
	return ps.Err()
}
