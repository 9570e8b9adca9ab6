package cart

import (
	"fmt"
	"runtime/debug"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// What goes wrong is of three sorts, which a server answers differently. Look for
// them with errors.As in this order:
//
//	*InternalError   a mistake in this program, or in code that was handed to it
//	*RuleError       the rule files of a candidate, or their examples
//	source.Problems  the input: mixes, carts and part files, each fault with its place
//
// A rule that breaks down while a mix is checked is no error of the check: its
// finding is Unknown, holds the error, and keeps the report from being complete.

// RuleError says why rules were not taken. Unwrap gives the source.Problems.
type RuleError struct {
	Problems source.Problems
}

// Error gives all problems, one a line.
func (e *RuleError) Error() string { return e.Problems.Error() }

// Unwrap gives the problems.
func (e *RuleError) Unwrap() error { return e.Problems }

// InternalError is a panic that was caught, so that one bad cart or candidate
// does not take a server down.
type InternalError struct {
	Doing string // what was being done
	Cause any    // what the panic held
	Stack string // where, for whoever mends it; not for customers
}

// Error says what broke down and why, without the stack.
func (e *InternalError) Error() string {
	return fmt.Sprintf("internal error while %s: %v", e.Doing, e.Cause)
}

// Unwrap gives the cause where it is an error.
func (e *InternalError) Unwrap() error {
	err, _ := e.Cause.(error)
	return err
}

// rescue turns a panic into an InternalError. It is deferred.
func rescue(doing string, err *error) {
	if cause := recover(); cause != nil {
		*err = &InternalError{Doing: doing, Cause: cause, Stack: string(debug.Stack())}
	}
}

// wrongExamples makes problems of examples that do not give what they say.
func wrongExamples(wrong []rules.Failure) source.Problems {
	var ps source.Problems
	for _, w := range wrong {
		text := fmt.Sprintf("the example %q gives %s and says %s", w.Example.Name, w.Got, w.Example.Want)
		ps.Add(w.Example.Pos, w.Rule.ID, text, w.Detail).Code = source.FailsExample
	}
	return ps
}
