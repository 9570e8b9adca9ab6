package source

import (
	"cmp"
	"fmt"
)

// Limits say how large a text may be that comes in by one door: a catalogue holds what
// a whole shop sells, and a mix one bicycle. A zero field stands for the widest limit, and
// none is wider. They keep the worst that a hostile text can ask for to a bounded amount of
// memory and time; the cost of reading is linear in the text.
type Limits struct {
	Bytes  int    // the size of a file, or of a line where each is a text
	Values int    // values and names together; a YAML text may come to it by its remarks and signs
	Hint   string // what to do with more than that; nothing for: split it into several files
}

// MaxBytes and maxValues are the widest limits. They allow a catalogue of 10,000 parts
// with a dozen fields and a list each.
const (
	MaxBytes  = 8 << 20
	maxValues = 500_000
)

// whole gives the limits with what they leave open.
func (m Limits) whole() Limits {
	return Limits{
		Bytes:  min(cmp.Or(m.Bytes, MaxBytes), MaxBytes),
		Values: min(cmp.Or(m.Values, maxValues), maxValues),
		Hint:   cmp.Or(m.Hint, "split it into several files"),
	}
}

// tooLong is the problem of a text that is longer.
func (m Limits) tooLong(whole Pos) Problem {
	text, hint := fmt.Sprintf("is longer than %d bytes", m.Bytes), fmt.Sprintf("at most %s; %s", Size(m.Bytes), m.Hint)
	return Problem{Pos: whole, Code: TooLarge, Text: text, Hint: hint}
}

// tooMany is the problem of a text that holds more.
func (m Limits) tooMany(at Pos) Problem {
	return Problem{Pos: at, Code: TooMany, Text: fmt.Sprintf("has more than %d values", m.Values), Hint: m.Hint}
}

// Size writes a number of bytes as sentences do: 8 MiB, 256 KiB, 100 bytes.
func Size(n int) string {
	switch {
	case n >= 1<<20 && n%(1<<20) == 0:
		return fmt.Sprintf("%d MiB", n>>20)
	case n >= 1<<10 && n%(1<<10) == 0:
		return fmt.Sprintf("%d KiB", n>>10)
	}
	return fmt.Sprintf("%d bytes", n)
}
