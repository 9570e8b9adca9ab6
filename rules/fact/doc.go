// Package fact says what a fact is, wherever it comes from: a [Field] describes
// it, a [Table] lists the fields of one kind of record, a [Value] is what one
// record holds of it, a [Lack] why a computed one has none, and a [Verdict] what
// somebody says of facts.
//
//	cogs := fact.NewTable(
//		fact.Field{Name: "cogs_t", Type: fact.Wholes, Unit: "t", Min: 7, Max: 60, Cap: 16, Rising: true},
//		fact.Field{Name: "pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 8},
//	)
//	values := []fact.Value{fact.Nums([]float64{11, 13, 15}), fact.Num(3.65)}
//	if i, ok := cogs.Index("pitch_mm"); ok {
//		fmt.Println(cogs.Fields()[i].Unit, values[i])
//	}
//	fmt.Println(fact.Suggest("pich_mm", cogs.Names())) // did you mean "pitch_mm"?
//
// From the table alone facts are read, checked, hinted at, put into the
// vocabulary of rules and documented. The package reads nothing itself, knows no
// file format and nothing of what the fields mean; it imports no other package of
// the project.
package fact
