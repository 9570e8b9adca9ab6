package source

import (
	"cmp"
	"math"
	"strconv"
	"strings"
)

// mostWhole is above all whole numbers that a float64 tells from their neighbours.
const mostWhole = 1 << 53

// shaped reports whether a text is a number as JSON writes them.
func shaped(s string) bool {
	s = strings.TrimPrefix(s, "-")
	whole := digits(s)
	if whole == 0 || whole > 1 && s[0] == '0' {
		return false
	}
	s = s[whole:]
	if strings.HasPrefix(s, ".") {
		part := digits(s[1:])
		if part == 0 {
			return false
		}
		s = s[1+part:]
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		s = s[1:]
		if s != "" && (s[0] == '+' || s[0] == '-') {
			s = s[1:]
		}
		return s != "" && digits(s) == len(s)
	}
	return s == ""
}

// digits counts the digits that a text begins with.
func digits(s string) int {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return n
}

// heldHint is for numbers of the right shape that are beyond what can be held.
const heldHint = "look at its digits and its exponent: nothing on a bicycle is that large or that near to 0"

// float reads a number of JSON's shape. It says what is wrong where the number
// is too large or too near to zero to be held.
func float(s string) (x float64, fault string) {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, "is too large a number"
	}
	if x != 0 {
		return x, ""
	}
	mantissa, _, _ := strings.Cut(strings.ToLower(s), "e")
	if strings.ContainsAny(mantissa, "123456789") {
		return 0, "is too small a number to tell from 0"
	}
	return 0, "" // -0 as well
}

// whole reports whether a number of JSON's shape is whole to the last digit. Its
// float64 would not tell: that of 3.00000000000000000001 is 3.
func whole(s string) bool {
	if digits(s) == len(s) { // nearly all of them
		return true
	}
	mantissa, exponent, _ := strings.Cut(strings.ToLower(strings.TrimPrefix(s, "-")), "e")
	before, after, _ := strings.Cut(mantissa, ".")
	all := before + after
	shift, err := strconv.Atoi(cmp.Or(exponent, "0"))
	if point := len(before) + shift; err == nil && point < len(all) {
		return strings.Trim(all[max(point, 0):], "0") == ""
	}
	return err == nil || strings.Trim(all, "0") == ""
}

// odd finds plain scalars that some YAML readers take for a number and others
// for a text, or for another number: 0777, 1_000, 0x1f, .5, +1, .nan, 1e400. It
// says what is wrong and how to write it.
func odd(s string) (fault, hint string) {
	if s == "" || !strings.ContainsRune("+-.0123456789", rune(s[0])) {
		return "", ""
	}
	if shaped(s) {
		if _, fault := float(s); fault != "" {
			return fault, heldHint
		}
		return "", ""
	}
	sign, body := "", s
	if s[0] == '-' || s[0] == '+' {
		body = s[1:]
		sign = strings.TrimPrefix(s[:1], "+")
	}
	switch strings.ToLower(body) {
	case ".nan", ".inf":
		return "is no finite number", "leave the entry out where there is no number"
	}
	plain := respell(body)
	if plain == "" {
		return "", ""
	}
	return "is not written as a plain number",
		"write " + sign + plain + `, or "` + s + `" in quotes if it is a text`
}

// respell gives the plain form of an odd number without its sign, or "" where
// the text is no number of any kind.
func respell(body string) string {
	if !strings.ContainsAny(body, "0123456789") || strings.IndexByte("_+-eE", body[0]) >= 0 {
		return ""
	}
	s := strings.ReplaceAll(body, "_", "")
	if len(s) > 2 && s[0] == '0' && strings.ContainsRune("xXoObB", rune(s[1])) {
		if n, err := strconv.ParseUint(s, 0, 64); err == nil {
			return strconv.FormatUint(n, 10)
		}
		return ""
	}
	for len(s) > 1 && s[0] == '0' && '0' <= s[1] && s[1] <= '9' {
		s = s[1:]
	}
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	s = strings.TrimSuffix(s, ".")
	if !shaped(s) {
		return ""
	}
	if _, fault := float(s); fault != "" {
		return ""
	}
	return s
}

// tolerance splits a number written with its tolerance, such as 3.65 ± 0.02.
// The last result is the code point at which the tolerance begins.
func tolerance(s string) (num, tol string, at int, ok bool) {
	for _, sign := range []string{"±", "+/-"} {
		before, after, found := strings.Cut(s, sign)
		if !found {
			continue
		}
		tol = strings.TrimLeft(after, " ")
		at = len([]rune(s)) - len([]rune(tol))
		return strings.TrimSpace(before), strings.TrimRight(tol, " "), at, true
	}
	return "", "", 0, false
}

// spell writes a number as files do: without an exponent, no digit too many.
func spell(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
