// Command mutants changes the code that decides verdicts in one small place at a time,
// and runs the project's quick tests against each change: what they do not notice, they
// do not hold.
//
//	go run ./mutants -list                # every change, with its number
//	go run ./mutants -n 400 -seed 1       # a sample; what survives is printed at the end
//	go run ./mutants -only 17,1204 -full  # these alone, with every test
//	go run ./mutants -only 17 -in rules -run '^TestLean'   # against some tests: seconds
//	go run ./mutants -most 20s            # what no test has noticed by then counts as surviving
//	go run ./mutants -unmet               # the changes that no test meets
//
// All changes are written into one copy of the module, and a variable of the
// environment chooses which of them is made, so that the tests are built once. Changes
// are: a comparison that takes its limit in or leaves it out, or is turned; and for or;
// a condition that is always or never true; plus for minus, times for over; a number that
// is a tenth or one larger; least for greatest; a flag turned; an assignment, a step
// or a call left out. How much memory is taken, and that it serves again, is left alone.
//
// A seed draws changes by what the code says where they are, not by their numbers: it
// draws the same as long as that code stays, so that what a sample taught is held.
//
// Before that each top-level test is run once by itself with nothing changed, and the
// copy writes down which changes would make a difference on the spot: a condition taken
// as true makes none where it is true. A change then meets those tests alone. The others
// do with it what they do without, so that the outcome is that of all tests. What is
// worked out as a package is made belongs to every test of every program that holds it.
// A change that no test meets survives as well, and is told apart as UNMET.
//
// Survivors whose reason was looked into stand in known.txt. They count as survivors and
// are not tried again, but with -known.
package main
