// Package prove measures how well the examples of a set of rules pin the rules
// down: which outcomes and which side of each condition they reach, and which
// small changes of a rule none of them would notice. For what is not reached it
// looks for the example that an author would have to write:
//
//	covered, err := prove.Coverage(set)
//	if err != nil {
//		log.Fatal(err)
//	}
//	for _, c := range covered {
//		for _, gap := range c.Gaps {
//			fmt.Println(gap.Pos, c.Rule.ID, gap.Text, gap.Closing)
//		}
//	}
//
// A rule that goes wrong reaches nothing and notices nothing: an error never
// closes a gap and never tells a changed rule from the rule as it is. Whether the
// examples are right in themselves is for Set.Prove of package rules to say,
// which a program does before it takes rules into use.
package prove
