package compat

import "example.org/cogcourt/compat/internal/wire"

// EscapeJSON writes the characters of JSON that draw, turn round or hide text
// where it is shown as \u escapes, as all JSON of this package does: DEL and the C1
// controls, marks of direction, blanks without width, tags. Whoever decodes it gets
// the same strings.
func EscapeJSON(text []byte) []byte { return wire.Escape(text) }
