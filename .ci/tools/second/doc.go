// Package second judges mixes a second time, by an evaluator that shares nothing with
// the library's but the figures and the texts of the rules. It is plain cel-go in an
// environment of its own: facts are maps in which every number is a double, what nobody
// stated is a pattern of attributes of a partial evaluation, and what is missing is read
// off the trails of attributes that the engine leaves. Arithmetic rounds through decimal
// text, let-names are worked out first and handed in, stated() looks into a map of flags,
// known() into a table. The outcomes, the corners of tolerances and the spread of usual
// values are read anew from DEVELOPERS.md.
//
//	j, err := second.New(checker.Rules(), day)
//	if err != nil {
//		return err
//	}
//	for _, d := range j.Compare(checker, mix) {
//		fmt.Println(d) // what the two do not agree on
//	}
//
// Where the spread of usual values decides, the library looks for the places at which a
// rule turns along lines that figures declare; this package throws points at the whole
// box, and goes to the places that the library names. So a rule that is said to hold
// everywhere is tried at places that no declaration chose.
//
// Which stated facts a figure was worked out with is what the library says; that every fact
// which moves a figure is among these is held for each mix.
//
// Rules writes random rules over the whole vocabulary by a grammar, Aimed those of which
// the limits lie among the numbers of mixes, Mixes draws mixes with gaps, tolerances,
// classes and measured facts. ./long runs any number of pairs, and
// ./faults puts faults into a copy of the library and counts which are found.
package second
