// Package expr compiles and evaluates the expressions of rule files. It is the
// only package that imports the CEL engine, and none of the engine's types
// leaves it.
//
// A [Language] is made from the objects that expressions may read. It admits a
// closed list of functions: everything else, has() included, is refused on
// load. Expressions are checked against the tables of the objects, their cost
// is proven to be bounded by the caps of the lists, and what is wrong is
// reported as an [Issue] at the name itself, with the nearest right name.
//
// Beside the operators of CEL the functions are abs, min, max, sum, first, last,
// count, size, near, known, list.all, list.exists, text.startsWith and, in a when,
// stated. known(kind.field) is true of a name that stands in the field's table of
// known words, and of a list of names where each does. Whole numbers and fractions mix in arithmetic and order; a quotient is
// a fraction; fractions are never compared for equality. Lists hold values of
// one kind, loops do not nest, and no text grows beyond a bound.
//
// An expression is compiled twice: by the engine, which knows how unstated
// facts and errors travel, and, where it only reads numbers, texts and flags,
// into closures that answer while every fact that they need is stated. Whenever
// a closure meets a fact that is not, or an error, the engine evaluates the
// whole expression again and its answer counts. So the closures can save time
// but never decide what is unknown.
//
// A [Frame] holds the records and the values of let-names for one check.
package expr
