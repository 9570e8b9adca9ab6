package cart

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// pairing finds out which line of a cart is for which bicycle: as the line says;
// where there is one bicycle only, for that; else where it brings no fault and
// would bring one elsewhere. What is still open then is ambiguous.
type pairing struct {
	checker *compat.Checker
	bikes   []compat.Mix
	lines   []LineResult     // the answer
	parts   [][]catalog.Part // what each line brings; none of one that is ignored or ambiguous
	fitted  [][]int          // the lines by bicycle, in their order
	ids     []string         // of the catalogue; listed when a hint is wanted
	hints   int
}

// mostHints bounds how many lines are held against every id of a catalogue, which
// takes a millisecond or two each.
const mostHints = 5

// open is the use of a line while it is being paired.
const open Use = 0xff

// newPairing resolves the lines and lists the bicycles.
func newPairing(c *compat.Checker, cart Cart, from *catalog.Catalog) *pairing {
	p := &pairing{
		checker: c, bikes: slices.Clone(cart.Bikes),
		lines: make([]LineResult, len(cart.Lines)), parts: make([][]catalog.Part, len(cart.Lines)),
	}
	for i, line := range cart.Lines {
		line.Quantity = max(line.Quantity, 1)
		p.lines[i] = LineResult{Line: line, Use: open}
		p.parts[i] = p.resolve(&p.lines[i], from)
	}
	if len(p.bikes) == 0 {
		p.bikes = ownBikes(cart)
	}
	p.fitted = make([][]int, len(p.bikes))
	return p
}

// paired finds out which line is for which bicycle.
func (cart Cart) paired(ctx context.Context, with *compat.Checker, from *catalog.Catalog) (*pairing, error) {
	if err := cart.faults(from); err != nil {
		return nil, err
	}
	p := newPairing(with, cart, from)
	return p, p.pair(ctx)
}

// report begins the report of the lines, which are paired.
func (p *pairing) report(name string) Report {
	return Report{Name: name, Lines: p.lines, rules: p.checker.RuleSet(), Complete: true}
}

// each goes over the bicycles that the lines change: the place of each, how it is and how
// it will be, and the lines as differences.
func (p *pairing) each(ctx context.Context, do func(place int, bike, then compat.Mix, lines []compat.Difference) error) error {
	for i, bike := range p.bikes {
		if err := ctx.Err(); err != nil {
			return err
		}
		if parts, lines := p.fittedTo(i); len(lines) > 0 {
			if err := do(i, bike, bike.Refit(parts...), lines); err != nil {
				return err
			}
		}
	}
	return nil
}

// ownBikes makes the bicycles of a cart that knows none: one for each name that
// its lines are for, or one of all lines.
func ownBikes(cart Cart) []compat.Mix {
	var out []compat.Mix
	taken := map[string]bool{}
	for _, l := range cart.Lines {
		if l.Bike != "" && !taken[l.Bike] {
			taken[l.Bike] = true
			out = append(out, compat.Mix{}.Named(l.Bike))
		}
	}
	if out == nil {
		out = append(out, compat.Mix{}.Named(cart.Name))
	}
	return out
}

// resolve finds the parts that a line stands for. One that stands for none is
// ignored, and says so: a misspelt id must not pass for a bell.
func (p *pairing) resolve(l *LineResult, from *catalog.Catalog) []catalog.Part {
	if part, ok := from.Part(l.ID); ok {
		return []catalog.Part{part}
	}
	set := from.BySKU(l.SKU)
	if l.SKU == "" || len(set) == 0 {
		l.Use, l.Note = Ignored, "the catalogue has no such part"
		if near := p.near(l.ID, from); near != "" {
			l.Note += "; is " + near + " meant?"
		}
		return nil
	}
	for i, part := range set {
		for _, other := range set[:i] {
			if other.Kind() == part.Kind() {
				l.Use = Ambiguous
				l.Note = fmt.Sprintf("the number stands for %s and for %s, say which by id", other.ID(), part.ID())
				return nil
			}
		}
	}
	return set
}

// near gives the id that is most probably meant by one that is not there.
func (p *pairing) near(id string, from *catalog.Catalog) string {
	if id == "" || p.hints == mostHints {
		return ""
	}
	p.hints++
	if p.ids == nil {
		for part := range from.All() {
			p.ids = append(p.ids, part.ID())
		}
	}
	return fact.Nearest(id, p.ids)
}

// pair fits every line that it can.
func (p *pairing) pair(ctx context.Context) error {
	said := make([][]int, len(p.bikes))
	var free []int
	for i := range p.lines {
		l := &p.lines[i]
		switch bike := p.bike(l.Bike); {
		case l.Use != open:
		case bike >= 0:
			said[bike] = append(said[bike], i)
		case l.Bike == "":
			free = append(free, i)
		default:
			p.ambiguous(i, fmt.Sprintf("no bicycle is called %q", l.Bike))
		}
	}
	for bike, lines := range said {
		p.fitAll(bike, lines)
	}
	err := p.pairFree(ctx, free)
	for bike := range p.fitted {
		slices.Sort(p.fitted[bike])
	}
	p.count()
	return err
}

// bike finds a bicycle by name. A line that names none is for the only one.
func (p *pairing) bike(name string) int {
	if name == "" {
		if len(p.bikes) == 1 {
			return 0
		}
		return -1
	}
	return slices.IndexFunc(p.bikes, func(m compat.Mix) bool { return m.Name() == name })
}

// ambiguous names a line as such.
func (p *pairing) ambiguous(line int, note string) {
	p.lines[line].Use, p.lines[line].Note = Ambiguous, note
	p.parts[line] = nil
}

// mostNamed is how many lines are named that clash with one: of a thousand lines each
// would name all others.
const mostNamed = 5

// fitAll fits lines to the bicycle that they are for. Different parts of one kind
// cannot all be fitted, and which one is meant nobody can know.
func (p *pairing) fitAll(bike int, lines []int) {
	clashes := map[int][]string{}
	for _, i := range lines {
		for _, j := range lines {
			if i == j || clash(p.parts[i], p.parts[j]) == "" {
				continue
			}
			if len(clashes[i]) == mostNamed {
				clashes[i] = append(clashes[i], "others")
				break
			}
			clashes[i] = append(clashes[i], fmt.Sprintf("line %d", j+1))
		}
	}
	for _, i := range lines {
		if with, ok := clashes[i]; ok {
			p.ambiguous(i, fmt.Sprintf("%s brings another part of the same kind for %s", strings.Join(with, " and "), p.bikeName(bike)))
			continue
		}
		p.fit(bike, i)
	}
}

func (p *pairing) bikeName(bike int) string { return calledBike(p.bikes[bike].Name()) }

// clash gives the kind of which two lines bring different parts, or "".
func clash(a, b []catalog.Part) string {
	for _, x := range a {
		for _, y := range b {
			if x.Kind() == y.Kind() && x != y {
				return x.Kind()
			}
		}
	}
	return ""
}

// fit fits one of a line to a bicycle, where earlier lines have not fitted the
// same already.
func (p *pairing) fit(bike, line int) {
	there := p.partsFor(bike)
	if !slices.ContainsFunc(p.parts[line], func(part catalog.Part) bool { return !slices.Contains(there, part) }) {
		return
	}
	p.fitted[bike] = append(p.fitted[bike], line)
	l := &p.lines[line]
	l.Bikes = append(l.Bikes, p.bikes[bike].Name())
}

// count says of each line what is fitted and what is left over.
func (p *pairing) count() {
	for i := range p.lines {
		l := &p.lines[i]
		if l.Use != open {
			continue
		}
		l.Spare = l.Quantity - len(l.Bikes)
		l.Use = Fitted
		if len(l.Bikes) == 0 {
			l.Use = Spare
		}
	}
}

// partsFor gives the parts that a bicycle gets.
func (p *pairing) partsFor(bike int) (parts []catalog.Part) {
	for _, i := range p.fitted[bike] {
		parts = append(parts, p.parts[i]...)
	}
	return parts
}

// fittedTo gives the parts that a bicycle gets, and the lines as differences.
func (p *pairing) fittedTo(bike int) (parts []catalog.Part, lines []compat.Difference) {
	for _, i := range p.fitted[bike] {
		d := compat.Difference{Name: fmt.Sprintf("line %d", i+1), Line: i + 1}
		for _, part := range p.parts[i] {
			d.Kinds = append(d.Kinds, part.Kind())
		}
		lines = append(lines, d)
	}
	return p.partsFor(bike), lines
}
