package view

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// The facts that a table of gears reads beside the figures.
var (
	cogsRef    = catalog.Cassette.Ref("cogs_t")
	hubKindRef = catalog.Hub.Ref("kind_of_hub")
)

// figure gives a figure by its name, or what it lacks.
type figure func(name string) (fact.Value, fact.Lack)

// gears are the gears of one bicycle. Ratios are turns of the sprocket for one of the
// crank.
type gears struct {
	rings  []float64   // in teeth, the largest first
	cogs   []float64   // in teeth, the smallest first
	ratios [][]float64 // of each ring with each cog
	metres float64     // that one turn of the wheel goes; 0 where nobody stated its size
	hub    bool        // the hub has gears of its own
	lowest, highest,
	wide, step float64 // the ratios at the ends, and the range and the largest step in percent; a step of 0 is none
}

// gearsOf reads the gears out of the figures; there are none where the ratios have no
// value.
func gearsOf(m compat.Mix, of figure) (gears, bool) {
	list, _ := of("gear_ratios")
	cogs := m.Facts().Value(cogsRef).List
	if len(list.List) == 0 || len(cogs) == 0 || len(list.List)%len(cogs) != 0 {
		return gears{}, false
	}
	number := func(name string) float64 {
		v, _ := of(name)
		return v.Num
	}
	g := gears{cogs: cogs, hub: m.Facts().Value(hubKindRef).Text == "internal", lowest: number("lowest_ratio"),
		highest: number("highest_ratio"), wide: number("range_percent"), step: number("largest_step_percent")}
	for row := range slices.Chunk(list.List, len(cogs)) {
		g.ratios = append(g.ratios, row)
		g.rings = append(g.rings, math.Round(row[0]*cogs[0]))
	}
	if g.highest > 0 {
		g.metres = number("development_high_m") / g.highest
	}
	return g, true
}

// span says in a sentence or two what the gears reach.
func (g gears) span() string {
	text := "For one turn of the crank the wheel turns " + between(g.lowest, g.highest) + " times"
	if g.metres > 0 {
		text += " and goes " + between(g.lowest*g.metres, g.highest*g.metres) + " m"
	}
	if g.highest > g.lowest {
		text += fmt.Sprintf("; the highest gear is %.0f %% of the lowest", g.wide)
	}
	if g.step > 0 {
		text += fmt.Sprintf(", the largest step %.0f %%", g.step)
	}
	text += "."
	if g.metres == 0 {
		text += " Metres want a wheel with its bead seat and tyre."
	}
	if g.hub {
		text += " The gears in the hub come on top."
	}
	return text
}

// between gives two ends, or the one where they are the same.
func between(least, most float64) string {
	if from, to := cell(least), cell(most); from != to {
		return from + " to " + to
	}
	return cell(least)
}

// cell prints a ratio or metres with three figures.
func cell(x float64) string {
	switch {
	case x < 10:
		return fmt.Sprintf("%.2f", x)
	case x < 100:
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}

// How the table of gears stands: the columns of a number, how far the steps are set in
// so that each stands between its two cogs, and how many numbers go on a line then.
const (
	cellWidth = 5
	stepsAt   = gutter + 3
	rowCells  = (width - stepsAt) / cellWidth
)

// table gives the lines of the gears: the cogs, the step from each to the next, and of
// each ring ratios and metres. More cogs than a line holds go on below.
func (g gears) table() []string {
	var out []string
	row := func(word string, values []float64, show func(float64) string) {
		line := fmt.Sprintf("%-*s", gutter, word)
		for _, v := range values {
			line += fmt.Sprintf("%*s", cellWidth, show(v))
		}
		out = append(out, strings.TrimRight(line, " "))
	}
	whole := func(x float64) string { return fmt.Sprintf("%.0f", x) }
	for from := 0; from < len(g.cogs); from += rowCells {
		to := min(from+rowCells, len(g.cogs))
		row("  cog", g.cogs[from:to], whole)
		if steps := g.steps(from, min(to, len(g.cogs)-1)); len(steps) > 0 {
			row(fmt.Sprintf("%-*s", stepsAt, "  step %"), steps, whole)
		}
		for i, ring := range g.rings {
			row("ring "+whole(ring), g.ratios[i][from:to], cell)
			if g.metres > 0 {
				metres := make([]float64, to-from)
				for j := range metres {
					metres[j] = g.ratios[i][from+j] * g.metres
				}
				row("  metres", metres, cell)
			}
		}
	}
	return out
}

// steps are the changes from cogs to the next larger ones, in percent of the smaller.
func (g gears) steps(from, to int) []float64 {
	var out []float64
	for i := from; i < to; i++ {
		out = append(out, 100*(g.cogs[i+1]/g.cogs[i]-1))
	}
	return out
}

// print prints what the gears reach, and all of them.
func (g gears) print(w io.Writer) {
	block(w, "gears", g.span())
	fmt.Fprintln(w, strings.Join(g.table(), "\n"))
}

// gears prints the gears of the mix, or which facts they want.
func (p *printer) gears() {
	g, there := gearsOf(p.report.Mix, p.report.Figures.Value)
	if there {
		fmt.Fprintln(p.w)
		g.print(p.w)
		return
	}
	if _, lack := p.report.Figures.Value("gear_ratios"); len(lack.Missing) > 0 {
		words := make([]string, len(lack.Missing))
		for i, name := range lack.Missing {
			words[i] = p.report.Words(name)
		}
		fmt.Fprintln(p.w)
		block(p.w, "gears", "Not worked out, for nobody stated "+listed(words)+".")
	}
}

// gearsChanged says what a change makes of the gears; nothing where it leaves them.
func (p *printer) gearsChanged(c compat.Change) {
	before, was := gearsOf(c.Before.Mix, c.Before.Figures.Value)
	after, is := gearsOf(c.After.Mix, c.After.Figures.Value)
	if !was && !is || was && is && before.line() == after.line() {
		return
	}
	fmt.Fprintln(p.w)
	if was && is {
		block(p.w, "gears", "The lowest gear "+becomes(before.lowest, after.lowest)+", the highest "+becomes(before.highest, after.highest)+".")
	} else {
		block(p.w, "gears", "")
	}
	for _, side := range []struct {
		word  string
		gears gears
		known bool
	}{{"before", before, was}, {"after", after, is}} {
		text := "Not worked out: not all rings and cogs are known."
		if side.known {
			text = side.gears.line()
		}
		under(p.w, side.word, text)
	}
}

// becomes says by how much a gear is another one.
func becomes(before, after float64) string {
	switch change := math.Round(100 * (after/before - 1)); {
	case change > 0:
		return fmt.Sprintf("becomes %.0f %% higher", change)
	case change < 0:
		return fmt.Sprintf("becomes %.0f %% lower", -change)
	}
	return "stays"
}

// line names rings and cogs, and what they reach.
func (g gears) line() string {
	teeth := func(list []float64) string {
		out := make([]string, len(list))
		for i, t := range list {
			out[i] = fmt.Sprintf("%.0f", t)
		}
		return strings.Join(out, ", ")
	}
	return verb(len(g.rings), "Ring ", "Rings ") + teeth(g.rings) + "; " + verb(len(g.cogs), "cog ", "cogs ") + teeth(g.cogs) + ". " + g.span()
}
