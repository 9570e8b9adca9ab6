// Package rules compiles and evaluates rule files: checks written as text, with
// the reason, the sentence and the examples that belong to each. It knows
// nothing of bicycles. What the rules may speak of is a [Vocabulary] of
// [Object] tables that the caller gives; the facts are one [Record] an object.
//
// This is a whole rule file:
//
//	pack: harbour
//	edition: 1
//	sources:
//	  - {id: log, what: "The harbour's log of 1921, page 40", status: read}
//	rules:
//	  - id: sail/area
//	    title: The sail suits the mast
//	    why: A tall sail on a short mast capsizes the boat.
//	    when: stated(sail.reefs) && sail.cloth != 'nylon'
//	    let:
//	      over: sail.area_m2 - 2 * mast.height_m
//	    fail_if: over > 10
//	    warn_if: over > 0 || sail.panels_m2.exists(p, p > 9)
//	    say: "The sail is {over:.1} m2 over what a mast of {mast.height_m} m bears."
//	    remedy: "A sail of at most {2 * mast.height_m:.0} m2."
//	    basis: {source: log}
//	    examples:
//	      - {name: fits, given: {sail: {area_m2: 9, reefs: 1, cloth: canvas, panels_m2: [4, 5]}, mast: {height_m: 5}}, want: pass}
//	      - {name: too much, given: {sail: {area_m2: 25, reefs: 1, cloth: canvas}, mast: {height_m: 5}}, want: fail}
//	      - {name: not measured, given: {sail: {reefs: 1, cloth: canvas}, mast: {height_m: 5}}, want: unknown, missing: [sail.area_m2]}
//	      - {name: no mast, given: {sail: {area_m2: 9, reefs: 1, cloth: canvas}}, want: not_applied}
//
// Texts print facts and let-names between braces. Of several sentences one that
// lacks a fact is left out; a text of which nothing would be left says "(not
// stated)" in its place.
//
// [Load] reads such files into a [Set], whole or not at all, and reports all
// that is wrong at its place in the file. [Set.Evaluate] gives a [Result]: a
// [Finding] for each rule that applies, with a [Verdict], and for each other
// rule the [Reason]. Texts are filled in only when they are asked for.
// [Set.Prove] runs the examples of the rules; package rules/prove says how well they
// pin the rules down.
//
// What a rule gives; the first line that matches wins:
//
//	when is false                                        not applied: when
//	  and it asks for a fact that is not stated          not applied: unstated
//	when, else fail_if, else warn_if cannot be decided
//	  and a part that it would need is not there         not applied: absent
//	  and a figure would mean nothing here               not applied: figure
//	  and facts are not stated                           Unknown, naming them
//	  and something goes wrong, such as a division by 0  Unknown, with the error
//	fail_if is true                                      Fail
//	  and hangs on a value that nobody stated            Warn, saying so
//	warn_if is true                                      Warn
//	else                                                 Pass
//
// So a fail_if that cannot be decided is never answered by a true warn_if, and
// nothing passes because facts are missing. What is decided already asks for no
// more facts: true || unknown is true.
//
// Expressions are CEL with a closed list of functions; package
// rules/internal/expr says which. Where a field of names has a table of known
// words (fact.Known), known(kind.field) tells them from free ones:
//
//	fail_if: known(sail.cloth) && known(mast.wood) && !(mast.wood in ['oak', 'ash'])
//	warn_if: "!known(sail.cloth)"
//
// A rule that can be seen names its drawing, of those that the caller lists in
// Config.Drawings, and the limits that are to be drawn there: numbers of its own
// conditions, so that what is drawn is what is judged.
//
//	draw: plan                        # or
//	draw: {heel: {warn: 20, fail: 30}}
//
// A file may also hold adjust:, by which a named
// person changes what one rule's findings are given as until a day, and steps:,
// the instructions of a setup sheet:
//
//	steps:
//	  - id: hoist
//	    with: [sail, mast]       # these must be there; without: these must not
//	    unless: sail.wet         # when: must be true, unless: must not be true
//	    do: Hoist the sail.
//	    value: "{mast.height_m:.1} m"
//	    unstated: Not stated; read it from the mast's foot.
//	    check: the foot is taut
//	    because: a slack foot flaps
//	    measured: [rig.heel_deg] # for the record of the finished job
//	    stopped_by: [sail/*]     # where one of these rules fails, the work ends here
//
// So a step has its place by what is there, and not by who stated its value.
//
// The package reads no clock but for adjustments, writes nothing, evaluates no
// rule that could take long, and has no has(), no loops in loops and no files
// that include others. It does not order findings, nor sum them up: that is for
// who knows what the rules are about.
package rules
