package catalog

import (
	"strconv"
	"strings"
)

// cents reads a decimal text, such as 41.50, as hundredths. It takes up to nine
// figures before the point and one or two after it, no sign and no exponent.
func cents(s string) (int64, bool) {
	whole, part, point := strings.Cut(s, ".")
	if point && part == "" || len(part) > 2 || whole == "" || len(whole) > 9 {
		return 0, false
	}
	part += strings.Repeat("0", 2-len(part))
	var sum int64
	for _, c := range []byte(whole + part) {
		if c < '0' || c > '9' {
			return 0, false
		}
		sum = 10*sum + int64(c-'0')
	}
	return sum, true
}

// plainDecimal writes a number without an exponent where it has one, as large
// numbers from Go values do.
func plainDecimal(s string) string {
	if !strings.ContainsAny(s, "eE") {
		return s
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
