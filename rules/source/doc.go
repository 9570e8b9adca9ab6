// Package source reads the two file formats of cogcourt, YAML and JSON, into
// one tree whose every name and value knows its place in the file, and reports
// what is wrong as sentences with a place and a hint.
//
// Both formats are read strictly: one document a file, no aliases, merges or
// tags, no duplicate keys, no value that silently becomes another. A caller
// parses a file, then takes it apart with the tree's own readers; every fault
// found on the way is collected, so that an author sees all of them at once:
//
//	root, err := source.Parse("parts.yaml", text)
//	if err != nil {
//		return err // Problems, each with file:line:col
//	}
//	var ps source.Problems
//	root.Keys("", &ps, "kind", "id", "cogs_t")
//	id, ok := root.Get("id").ReadText("id", &ps)
//	values := root.ReadRecord(table, "", []string{"kind", "id"}, &ps)
//	return ps.Err()
//
// A problem has a code that programs can rely on, begins and ends at places, and
// is marshalled under short names. Of a file that is nothing but faults the first
// [MaxProblems] are kept, and how many there were.
//
// How large a text may be is said by [Limits], which each door has of its own.
//
// [ParseLine] reads a line of JSONL in place of a file, [FromGo] Go values.
//
// A table of package rules/fact is the one list from which a kind of record is
// read, checked, hinted at and documented.
//
// The package does not know what the fields mean, and it never reads a file
// by itself: it is given the bytes.
package source
