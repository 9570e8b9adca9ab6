package fact

// Type says what a field holds.
type Type uint8

// The types of fields. Whole numbers and fractions are kept apart because rules
// compare whole numbers for equality and fractions only within a tolerance.
const (
	Fraction  Type = iota + 1 // a finite number, which may carry a tolerance
	Whole                     // a whole number
	Flag                      // true or false
	Choice                    // one of a closed list of words
	Name                      // a free identifier: a-z, 0-9, -, and . between digits
	Fractions                 // a list of finite numbers
	Wholes                    // a list of whole numbers
	Names                     // a list of free identifiers, each once
)

// Field describes one entry of a record: it is read, checked, hinted at, put
// into the vocabulary of the rules and documented from this description alone.
type Field struct {
	Name string // lower case with its unit at the end, such as pitch_mm
	Type Type
	Unit string // mm, t, N m, deg, percent, pitches, V, N, C; empty if it has none
	Doc  string // what it is, one sentence
	How  string // how to measure or find it, one sentence; empty if nobody would

	Also   []string // other names that the trade has for it, in lower case and the singular; blanks join their words
	Effort Effort   // what measuring or finding it takes; said of each field that says how

	// Supposes names what a computed value takes for granted where nobody stated it,
	// as in "nobody stated whether a spacer is there"; empty where it does not.
	Supposes string

	Min, Max float64  // the range of a number and of each number of a list, both ends included
	Cap      int      // the longest list; 0 for what is no list
	Choices  []string // the closed list of a Choice
	Known    []Known  // the words that are known for a Name or Names, which takes others too; of a Choice, its own
	Default  *Value   // what an unstated field holds; nil for most

	Required bool   // a record without it is refused
	Instead  string // another field that will do where this one is required
	Excludes string // another field that says the same; stating both is refused
	Rising   bool   // a list whose entries must strictly rise
	Sorted   bool   // a list that is sorted on reading, largest first
	OneLess  string // a list with one entry fewer than this other list

	spelt *spelt // the spellings of Known; nil where there are none, and outside of a table
}
