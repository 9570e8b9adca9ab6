package source

// Code says what sort of fault a problem is, in a word that programs can rely on:
// texts and hints may be worded anew, a code keeps its meaning. Some are set by
// other packages alone, for what is wrong with a file that could be read.
type Code string

// The codes of problems.
const (
	Invalid      Code = "invalid"        // what none of the others says
	Unreadable   Code = "unreadable"     // a file or folder that is not there or cannot be opened
	Syntax       Code = "syntax"         // no YAML or JSON, or a part of YAML that is not allowed
	Character    Code = "character"      // a character that no text may hold, or another encoding
	Empty        Code = "empty"          // a file, list or text with nothing in it, or a name without a value
	TooLarge     Code = "too-large"      // a file, text or number that is longer or larger than can be
	TooMany      Code = "too-many"       // more entries, values or levels than may be
	Missing      Code = "missing"        // an entry that must be there
	UnknownEntry Code = "unknown-entry"  // the name of an entry that nothing goes by
	UnknownID    Code = "unknown-id"     // a reference to a part, rule, source, step or fact that is not there
	NoSuchChoice Code = "no-such-choice" // none of a closed list of words
	WrongKind    Code = "wrong-kind"     // a text where a list is wanted, and the like
	NoNumber     Code = "no-number"      // a number that is not written as one, or that cannot be held
	OutOfRange   Code = "out-of-range"   // below the least or above the most
	BadTolerance Code = "bad-tolerance"  // a tolerance that is none, or that leaves the range
	BadName      Code = "bad-name"       // an id or name of another form than its kind has
	BadOrder     Code = "bad-order"      // entries that do not rise, or steps that wait for each other
	Twice        Code = "twice"          // the same a second time
	Contradicts  Code = "contradicts"    // two entries that cannot both be true, or of which one is too many
	Expression   Code = "expression"     // a condition, value or text that does not compile, where no other code says why
	Cost         Code = "cost"           // expressions that could take too long
	FailsExample Code = "example"        // a rule that does not give what its example says
	BadAdjust    Code = "adjust"         // an adjustment that cannot be applied
	Internal     Code = "internal"       // a mistake in the program
	More         Code = "more"           // how many problems were left out
)
