// Package report is what cogcourt answers with as JSON, for programs in Go that read it:
// the reports of a mix and of a cart, a change, and a setup sheet. It needs no rules and
// no engine, so that a client carries none.
//
//	var answer report.Cart
//	if err := json.Unmarshal(body, &answer); err != nil {
//		return err
//	}
//	for _, bike := range answer.Bikes {
//		for _, f := range bike.Change.Worse {
//			fmt.Println(bike.BikeIndex, f.Rule, f.After, f.Lines)
//		}
//	}
//
// The structs are those from which the JSON Schemas are made (cogcourt schema). What was
// read writes the same bytes again by its own MarshalJSON; json.Marshal goes over them
// once more and writes < > and & as escapes, as it does with the library's own reports.
// Every key is always there and no list is null. A key that is not known here, of a later
// version of the same schema_version, is left out.
//
// Beside json: the tags of a field are doc:, a sentence; const:, format: and pattern: as
// JSON Schema has them; words: and facts: name a list of words or of facts.
package report
