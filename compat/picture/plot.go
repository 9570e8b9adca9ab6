package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Nobody sees less than this, in mm: where no error reaches it there is nothing to plot.
const leastPlotted = 0.02

// mostPlotted is how many cogs 80 columns are enough for, with a blank between numbers.
const mostPlotted = 14

// plotGutter is the columns before a plot.
const plotGutter = 10

// Plot draws the error left at each cog with characters of ASCII, at most 80 columns wide,
// for as many as 13 cogs: o passes, ! warns, X fails, ? is not judged; dots are the limit
// up to which it passes, a line that beyond which it fails. It has no lines where there is
// nothing to be seen: no error of 0.02 mm, or none that is known, or more cogs than there
// are columns for.
func Plot(o compat.Outline) []string {
	o = sound(o)
	most := 0.0
	for _, c := range o.Cogs {
		most = max(most, math.Abs(c.Error.Value))
	}
	if most < leastPlotted || len(o.Cogs) > mostPlotted {
		return nil
	}
	p := plot{o: o, most: most, column: min(6, (80-plotGutter)/len(o.Cogs))}
	p.levels()
	p.grid()
	for i := range o.Cogs {
		p.point(i)
	}
	return p.lines()
}

// plot is rows of characters, the spokes up.
type plot struct {
	o      compat.Outline
	most   float64
	column int      // the width of a cog's
	heads  []string // of the rows
	at     []float64
	rows   [][]byte
	zero   int // its row
}

// levels are the heights of the rows, in parts of a cog's own limits: beyond the fail
// limit, that limit, the pass limit, half of it, and nothing. Without limits they are
// parts of the worst error.
func (p *plot) levels() {
	c := p.o.Cogs[0]
	up := []float64{1, 0.5}
	if c.Warn.Known && c.Fail.Known {
		up = []float64{c.Fail.Value / c.Warn.Value, 1, 0.5}
		if slices.ContainsFunc(p.o.Cogs, func(c compat.OutlineCog) bool { return math.Abs(c.Error.Value) > 1.15*c.Fail.Value }) {
			up = append([]float64{up[0] * 1.3}, up...)
		}
	}
	p.zero = len(up)
	p.at = append(slices.Clone(up), 0)
	for _, x := range slices.Backward(up) {
		p.at = append(p.at, -x)
	}
	p.rows = make([][]byte, len(p.at))
	p.heads = make([]string, len(p.at))
}

// unit is what an error of a cog is a part of.
func (p *plot) unit(i int) float64 {
	if c := p.o.Cogs[i]; c.Warn.Known && c.Fail.Known {
		return c.Warn.Value
	}
	return p.most
}

// even says whether all cogs have the same limits, so that a row is a number of mm.
func (p *plot) even() bool {
	for i := range p.o.Cogs {
		if math.Abs(p.unit(i)-p.unit(0)) > 1e-6 {
			return false
		}
	}
	return true
}

func (p *plot) grid() {
	c := p.o.Cogs[0]
	limited := c.Warn.Known && c.Fail.Known
	for r, at := range p.at {
		fill, word := " ", ""
		switch {
		case r == p.zero:
			fill, word = "-", "0"
		case limited && math.Abs(math.Abs(at)-1) < 1e-9:
			fill, word = ".", "warns"
		case limited && math.Abs(math.Abs(at)-c.Fail.Value/c.Warn.Value) < 1e-9:
			fill, word = "_", "fails"
		case !limited && math.Abs(math.Abs(at)-1) < 1e-9:
			word = "worst"
		}
		if word != "" && r != p.zero && p.even() {
			word = fmt.Sprintf("%+.2f", at*p.unit(0))
		}
		p.heads[r] = word
		p.rows[r] = []byte(strings.Repeat(fill, p.column*len(p.o.Cogs)))
	}
}

// middle is the place of a cog's column where its point stands: under the last but one
// of its letters.
func (p *plot) middle(i int) int { return p.column*i + p.column - 2 }

// point puts a cog's mark into the nearest row, and a stem from the line of no error.
func (p *plot) point(i int) {
	c := p.o.Cogs[i]
	if !c.Error.Known {
		return
	}
	is := c.Error.Value / p.unit(i)
	row := p.zero
	for r, at := range p.at {
		if math.Abs(at-is) < math.Abs(p.at[row]-is)-1e-9 {
			row = r
		}
	}
	way := 1
	if row < p.zero {
		way = -1
	}
	for r := p.zero + way; r*way < row*way; r += way {
		p.rows[r][p.middle(i)] = '|'
	}
	p.rows[row][p.middle(i)] = plotMark(c.Verdict)
}

func plotMark(v rules.Verdict) byte {
	switch v {
	case rules.Pass:
		return 'o'
	case rules.Warn:
		return '!'
	case rules.Fail:
		return 'X'
	}
	return '?'
}

func (p *plot) lines() []string {
	var out []string
	add := func(head, row string) {
		out = append(out, strings.TrimRight(fmt.Sprintf("%*s %s", plotGutter-1, head, row), " "))
	}
	for r, row := range p.rows {
		add(p.heads[r], string(row))
	}
	var teeth, mm strings.Builder
	for _, c := range p.o.Cogs {
		name := "?"
		if c.Teeth.Known {
			name = fmt.Sprintf("%.0f", c.Teeth.Value)
		}
		fmt.Fprintf(&teeth, "%*s", p.column, name)
		fmt.Fprintf(&mm, "%*s", p.column, p.number(c.Error))
	}
	add("teeth", teeth.String())
	add("mm", mm.String())
	return out
}

// number is an error as short as its column asks for.
func (p *plot) number(n compat.Number) string {
	if !n.Known {
		return "none"
	}
	text := fmt.Sprintf("%+.2f", n.Value+0)
	if text == "+0.00" || text == "-0.00" {
		return "0"
	}
	if p.column < 6 {
		if math.Abs(n.Value) >= 0.995 {
			return fmt.Sprintf("%+.1f", n.Value)
		}
		text = text[:1] + text[2:]
	}
	return text
}
