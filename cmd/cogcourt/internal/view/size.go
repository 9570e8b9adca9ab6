package view

// Size is how much a terminal shows. The zero Size is that of what is none, or
// does not say.
type Size struct{ Rows, Columns int }
