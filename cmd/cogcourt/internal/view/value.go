package view

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// valueText prints a value with its unit; see shown.
func valueText(v fact.Value, f fact.Field) string {
	switch f.Type {
	case fact.Flag:
		return shown(v.Num != 0, f.Unit)
	case fact.Choice, fact.Name:
		return shown(v.Text, f.Unit)
	case fact.Fractions, fact.Wholes:
		return shown(v.List, f.Unit)
	case fact.Names:
		return shown(v.Words(), f.Unit)
	}
	return shown(v.Num, f.Unit)
}

// shown prints a text, flag, number or list of numbers with its unit, no more
// exact than anybody measures: two decimals of what has a unit, four of what has
// none.
func shown(value any, unit string) string {
	decimals := 4
	if unit != "" {
		decimals = 2
	}
	var text string
	switch v := value.(type) {
	case bool:
		text = map[bool]string{true: "yes", false: "no"}[v]
	case float64:
		text = number(v, decimals)
	case []float64:
		each := make([]string, len(v))
		for i, x := range v {
			each[i] = number(x, decimals)
		}
		text = "[" + strings.Join(each, ", ") + "]"
	case []string:
		text = "[" + strings.Join(v, ", ") + "]"
	default:
		text = fmt.Sprint(v)
	}
	return strings.TrimSpace(text + " " + unitText(unit))
}

// number prints with at most so many decimals and no zeros at the end.
func number(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// unitText is a unit in words where its sign says little.
func unitText(unit string) string {
	switch unit {
	case "t":
		return "teeth"
	case "pitches":
		return "half-inch links"
	case "deg":
		return "degrees"
	}
	return unit
}
