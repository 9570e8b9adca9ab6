package source

import (
	"fmt"
	"math"
	"strconv"
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

// counts says what the number counts, as a part of a sentence.
func (s span) counts() string {
	switch s.unit {
	case "":
		return ""
	case "t":
		return " of teeth"
	}
	return " in " + s.unit
}

// String says what the number may be, for hints.
func (s span) String() string {
	text := "a number"
	if s.whole {
		text = "a whole number"
	}
	text += s.counts()
	if s.min < s.max {
		text += " from " + spell(s.min) + " to " + spell(s.max)
	}
	return text
}

// number reads a number within a span, and its tolerance.
func (n *Node) number(path string, s span, ps *Problems) (num, tol float64, ok bool) {
	if n == nil || n.Kind != Number && n.Kind != Text {
		n.wrongKind(path, "a number", "write "+s.String(), ps)
		return 0, 0, false
	}
	text, margin, at, toleranced := tolerance(n.Text)
	if n.Kind == Number {
		text, toleranced = n.Text, false
	}
	if n.Kind == Text && !toleranced || !shaped(text) {
		n.wrongKind(path, s.kind(), numberHint(n.Text, s), ps)
		return 0, 0, false
	}
	num, wrong := float(text)
	code := NoNumber
	if wrong == "" {
		wrong, code = s.fault(num, text)
	}
	if wrong != "" {
		n.Refuse(ps, path, wrong, "write "+s.String()).Code = code
		return 0, 0, false
	}
	if !toleranced {
		return num, 0, true
	}
	tol, wrong, hint := s.margin(margin, num)
	if wrong != "" {
		p := n.Refuse(ps, path, fault.Clip(margin)+" "+wrong, hint)
		p.Pos, p.Code = n.At(at), BadTolerance
		return 0, 0, false
	}
	return num, tol, true
}

// margin reads the tolerance of a number, which keeps it within the span.
func (s span) margin(text string, num float64) (tol float64, wrong, hint string) {
	if !shaped(text) {
		return 0, "is no tolerance", s.marginHint()
	}
	tol, wrong = float(text)
	switch {
	case wrong != "":
	case s.whole:
		wrong = "is a tolerance, which a whole number cannot have"
	case tol < 0:
		wrong = "is negative, which a tolerance cannot be"
	case s.min < s.max && tol > s.max-s.min:
		wrong = "is a tolerance wider than the whole range"
	case s.min < s.max && tol > s.widest(num):
		return 0, s.leaves(num, tol), s.widestHint(num)
	}
	return tol, wrong, s.marginHint()
}

// widest is the widest tolerance that a number can have. It is rounded as the
// arithmetic of rules is, so that 2.1 has the whole 0.1 down to 2.
func (s span) widest(num float64) float64 {
	const decimals = 1e9
	return math.Round(min(num-s.min, s.max-num)*decimals) / decimals
}

// leaves says by which of its ends a tolerance leaves the span.
func (s span) leaves(num, tol float64) string {
	if num-tol < s.min {
		return fmt.Sprintf("is a tolerance that reaches down to %s, and the least is %s", short(num-tol), spell(s.min))
	}
	return fmt.Sprintf("is a tolerance that reaches up to %s, and the most is %s", short(num+tol), spell(s.max))
}

// widestHint tells the widest tolerance that the number can have.
func (s span) widestHint(num float64) string {
	least, most := spell(s.min), spell(s.max)
	if tol := s.widest(num); tol > 0 {
		return fmt.Sprintf("%s can have a tolerance of %s at most, so that it stays within %s to %s", spell(num), spell(tol), least, most)
	}
	return fmt.Sprintf("%s is at the end of the range from %s to %s and has no room for a tolerance: leave it out", spell(num), least, most)
}

// short writes what was worked out, without the last digits that arithmetic adds.
func short(x float64) string {
	s := strings.TrimRight(strconv.FormatFloat(x, 'f', 9, 64), "0")
	return strings.TrimSuffix(s, ".")
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
func (s span) fault(x float64, text string) (string, Code) {
	switch {
	case s.whole && !whole(text):
		return text + " is no whole number", WrongKind
	case s.whole && math.Abs(x) >= mostWhole:
		return "is too large for a whole number", NoNumber
	case s.min < s.max && x < s.min:
		return fmt.Sprintf("%s is below the least, %s", spell(x), spell(s.min)), OutOfRange
	case s.min < s.max && x > s.max:
		return fmt.Sprintf("%s is above the most, %s", spell(x), spell(s.max)), OutOfRange
	}
	return "", ""
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
		if unit := s.counts(); unit != "" {
			return "write the number" + unit + " alone"
		}
		return "write the number alone, without a unit"
	}
	return "write " + s.String()
}
