package source

import (
	"fmt"
	"math"
	"strings"

	"example.org/cogcourt/rules/source/internal/fault"
)

// span is what a number may be. The zero value allows any finite number; min
// and max bound it where they differ.
type span struct {
	whole    bool
	unit     string
	min, max float64
}

// String says what the number may be, for hints.
func (s span) String() string {
	text := "a number"
	if s.whole {
		text = "a whole number"
	}
	if s.unit != "" {
		text += " in " + s.unit
	}
	if s.min < s.max {
		text += " from " + spell(s.min) + " to " + spell(s.max)
	}
	return text
}

// number reads a number within a span, and its tolerance.
func (n *Node) number(path string, s span, ps *Problems) (num, tol float64, ok bool) {
	if n == nil || n.Kind != Number && n.Kind != Text {
		n.refuse(path, "a number", "write "+s.String(), ps)
		return 0, 0, false
	}
	text, margin, at, toleranced := tolerance(n.Text)
	if n.Kind == Number {
		text, toleranced = n.Text, false
	}
	if n.Kind == Text && !toleranced || !shaped(text) {
		n.refuse(path, s.kind(), numberHint(n.Text, s), ps)
		return 0, 0, false
	}
	num, wrong := float(text)
	if wrong == "" {
		wrong = s.fault(num, text)
	}
	if wrong != "" {
		ps.Add(n.Pos, path, wrong, "write "+s.String())
		return 0, 0, false
	}
	if !toleranced {
		return num, 0, true
	}
	if tol, wrong = s.margin(margin); wrong != "" {
		ps.Add(n.At(at), path, fault.Clip(margin)+" "+wrong, s.marginHint())
		return 0, 0, false
	}
	return num, tol, true
}

// margin reads the tolerance of a number.
func (s span) margin(text string) (tol float64, wrong string) {
	if !shaped(text) {
		return 0, "is no tolerance"
	}
	if tol, wrong = float(text); wrong != "" {
		return 0, wrong
	}
	switch {
	case s.whole:
		return 0, "is a tolerance, which a whole number cannot have"
	case tol < 0:
		return 0, "is negative, which a tolerance cannot be"
	case s.min < s.max && tol > s.max-s.min:
		return 0, "is a tolerance wider than the whole range"
	}
	return tol, ""
}

func (s span) marginHint() string {
	if s.whole {
		return "write " + s.String()
	}
	return "write " + s.String() + ", with its tolerance as in 3.65 ± 0.02"
}

func (s span) kind() string {
	if s.whole {
		return "a whole number"
	}
	return "a number"
}

// fault says what is wrong with a number, given as it is written as well, or "".
func (s span) fault(x float64, text string) string {
	switch {
	case s.whole && !whole(text):
		return text + " is no whole number"
	case s.whole && math.Abs(x) >= mostWhole:
		return "is too large for a whole number"
	case s.min < s.max && x < s.min:
		return fmt.Sprintf("%s is below the least, %s", spell(x), spell(s.min))
	case s.min < s.max && x > s.max:
		return fmt.Sprintf("%s is above the most, %s", spell(x), spell(s.max))
	}
	return ""
}

// numberHint explains a text where a number is wanted.
func numberHint(text string, s span) string {
	if shaped(text) {
		return "write it without quotes: " + text
	}
	if point := strings.Replace(text, ",", ".", 1); shaped(point) {
		return "write " + point + " with a point"
	}
	if fields := strings.Fields(text); len(fields) == 2 && shaped(fields[0]) {
		if s.unit != "" {
			return "write the number alone; it is in " + s.unit
		}
		return "write the number alone, without a unit"
	}
	return "write " + s.String()
}
