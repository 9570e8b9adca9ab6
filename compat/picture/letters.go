package picture

import (
	"math"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// advance is how wide the printable characters of ASCII are, in thousandths of the size,
// in the widest of the fonts that the style names (read from its file); all others are
// reckoned as wide as the widest sign. Bold letters are up to an eighth wider.
var advance = [...]uint16{
	318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337, 636, 636, 636, 636, 636, 636, 636, 636, 636, 636,
	337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,
	611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974,
	634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
}

const bolder = 1.13

// width is how wide a text is, as a part of its size.
func width(text string, bold bool) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case r >= ' ' && int(r)-' ' < len(advance):
			w += float64(advance[r-' '])
		case r == minus, r == times:
			w += 838
		case r == '°':
			w += 500
		default:
			w += 1000
		}
	}
	if bold {
		w *= bolder
	}
	return w / 1000
}

const (
	minus = '\u2212'
	times = '\u00d7'
)

// fit cuts a text that is wider than so many times its size.
func fit(text string, most float64, bold bool) string {
	if width(text, bold) <= most {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && width(string(runes)+"...", bold) > most {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "..."
}

// wrapped breaks a text into lines of at most so many times its size. A word that is
// longer than a line is cut.
func wrapped(text string, most float64) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		word = fit(word, most, false)
		switch {
		case line == "":
			line = word
		case width(line+" "+word, false) <= most:
			line += " " + word
		default:
			out = append(out, line)
			line = word
		}
	}
	return append(out, line)
}

// dec is a number with so many decimals and a true minus.
func dec(x float64, decimals int) string {
	return strings.Replace(rules.Decimal(x, decimals), "-", string(minus), 1)
}

// signed is a number with its sign; what rounds to 0 has none.
func signed(x float64, decimals int) string {
	text := dec(x, decimals)
	switch {
	case x > 0 && strings.ContainsAny(text, "123456789"):
		return "+" + text
	case !strings.ContainsAny(text, "123456789"):
		return strings.TrimPrefix(text, string(minus))
	}
	return text
}

// plain is a number as it is, with at most two decimals: of teeth, none.
func plain(n compat.Number) string {
	if !n.Known {
		return "?"
	}
	return dec(n.Value, -1)
}

// cell is a number of a table, and what a table says where it is not known.
func cell(n compat.Number, decimals int) string {
	if !n.Known {
		return "not known"
	}
	text := dec(n.Value, decimals)
	switch {
	case n.Assumed:
		return text + " (assumed)"
	case n.Usual:
		return text + " (usual)"
	}
	return text
}

// nice is the step of an axis that shows about so many numbers over a range.
func nice(span, wanted float64) float64 {
	step := span / wanted
	power := math.Pow(10, math.Floor(math.Log10(step)))
	for _, k := range []float64{1, 2, 5} {
		if k*power >= step*(1-1e-9) {
			return k * power
		}
	}
	return 10 * power
}

// lower makes a sentence the rest of another.
func lower(s string) string {
	_, size := utf8.DecodeRuneInString(s)
	return strings.ToLower(s[:size]) + s[size:]
}

// sentences joins what is said with blanks between; empty ones are left out.
func sentences(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, " ")
}

// takenText says what was taken for granted behind a drawing; empty for nothing.
func takenText(taken []string) string {
	if len(taken) == 0 {
		return ""
	}
	const most = 3
	text := "Not stated, and taken as usual: " + strings.Join(taken[:min(most, len(taken))], "; ")
	if more := len(taken) - most; more > 0 {
		text += "; and " + rules.Decimal(float64(more), 0) + " more"
	}
	return text + "."
}

// cogName names a cog by its teeth, or by its place where nobody counted them.
func cogName(o compat.Outline, i int) string { return cogOf(o, i, "no. ") }

// theCog is the same in a sentence.
func theCog(o compat.Outline, i int) string {
	if o.Cogs[i].Teeth.Known {
		return "the " + cogName(o, i)
	}
	return "cog " + cogName(o, i)
}

// cogLabel is the same where there is little room.
func cogLabel(o compat.Outline, i int) string { return cogOf(o, i, "#") }

func cogOf(o compat.Outline, i int, place string) string {
	if t := o.Cogs[i].Teeth; t.Known {
		return dec(t.Value, -1)
	}
	return place + rules.Decimal(float64(i+1), 0)
}
