package figures

import (
	"math"
	"slices"

	"example.org/cogcourt/rules/fact"
)

// Spacers behind a cassette by what the counter knows: the height class of the
// cassette and the class of the body. A range where pages differ; sold is the one
// that shops have, alone or as a sum. What stands too high without any spacer wants
// less than nothing.
type spacerRow struct{ least, most, sold float64 }

var (
	bodyClasses = []string{"7", "8-10", "road-11"}
	bodyPlaces  = []int{0, 1, 2} // of these, to be cut: read only
	bodyLengths = []float64{31, 34.95, 36.75}
	bodyNear    = []float64{0.6, 0.3, 0.3} // of a stated length to its class

	spacerRows = map[string][3]spacerRow{
		"7":       {{0, 0, 0}, {4, 4.5, 4.5}, {5.9, 6.4, 6.35}},
		"flat":    {{-3.95, -3.95, 0}, {0, 0, 0}, {1.85, 1.85, 1.85}},
		"thin-10": {{-2.95, -2.95, 0}, {1, 1, 1}, {2.85, 2.85, 2.85}},
		"road-11": {{-5.8, -5.8, 0}, {-1.85, -1.85, 0}, {0, 0, 0}},
	}
	driverRow = spacerRow{1.85, 1.85, 1.85} // a short driver cassette on the long driver
)

// How far what is fitted may be off what is wanted, in mm: to pass, and to warn.
const (
	littleLess, littleMore = -0.3, 0.45
	muchLess, muchMore     = -0.8, 0.95
)

var figSpacerOff = &figure{
	Field: mm("spacer_off_mm", "The spacers behind the cassette less those that are wanted by class. Where class or body is not "+
		"named, over all that it may be: as long as all agree. None stated counts as none (assumed where one is wanted)."),
	reads: spacerReads, kinds: []wanted{theCassette, theHub}, chain: true,
	measure: spacing(func(r spacerFit) float64 { return r.off }),
}

var figSpacerWanted = &figure{
	Field: mm("spacer_wanted_mm", "The spacers that are wanted behind the cassette by class, as they are sold; 0 for none."),
	reads: spacerReads, kinds: []wanted{theCassette, theHub}, chain: true,
	measure: spacing(func(r spacerFit) float64 { return r.row.sold }),
}

var spacerReads = append(slices.Clip(lockringReads), bodyClass)

// spacerFit is one combination of class and body with what is fitted there.
type spacerFit struct {
	row     spacerRow
	off     float64
	assumed bool // nobody states a spacer, and one could mend it
}

// rank is 0 where the row holds, 1 where it warns, 2 where it fails; what a spacer
// could mend that nobody stated only warns.
func (f spacerFit) rank() int {
	switch {
	case f.off >= littleLess-1e-9 && f.off <= littleMore+1e-9:
		return 0
	case f.assumed || f.off >= muchLess-1e-9 && f.off <= muchMore+1e-9:
		return 1
	}
	return 2
}

// spacing picks a number out of the row that decides.
func spacing(pick func(spacerFit) float64) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		if !m.lockringHolds() {
			return
		}
		if m.stated(&mountHeight) != nil && m.peek(&bodyLength) != nil {
			m.needless(decidedByMM)
			return
		}
		rows := m.spacerRows()
		if m.lacking() {
			return
		}
		fit, ok := m.decides(rows)
		if !ok {
			return
		}
		if fit.assumed {
			m.suppose(takesNoSpacer)
		}
		v.Num = pick(fit)
	}
}

// decides chooses among the rows that were tried: where all hold or all fail, the
// one that is nearest to doing otherwise; where none fails, the one that is furthest
// off. Where they disagree, what would tell them apart is asked for.
func (m *measuring) decides(rows []spacerRow) (spacerFit, bool) {
	var ranks [3]int
	var best [3]spacerFit
	for _, row := range rows {
		fit := m.fit(row)
		k := fit.rank()
		further := math.Abs(fit.off) > math.Abs(best[k].off)
		if ranks[k] == 0 || k < 2 && further || k == 2 && !further {
			best[k] = fit
		}
		ranks[k]++
	}
	switch {
	case ranks[2] == len(rows):
		return best[2], true
	case ranks[2] == 0 && ranks[1] > 0:
		return best[1], true
	case ranks[2] == 0:
		return best[0], true
	}
	if m.peek(&bodyClass) == nil && m.peek(&bodyLength) == nil {
		m.lack(&bodyClass)
	}
	if m.peek(&heightClass) == nil && len(m.heightClasses()) > 1 {
		m.lack(&heightClass)
	}
	return spacerFit{}, false
}

// fit holds what is fitted against one row.
func (m *measuring) fit(row spacerRow) spacerFit {
	if s := m.peek(&benchSpacer); s != nil {
		return spacerFit{row: row, off: offRow(s.Num, row)}
	}
	if s := m.peek(&cassetteSpacer); s != nil {
		if f := (spacerFit{row: row, off: offRow(s.Num, row)}); f.rank() == 0 {
			return f
		}
	}
	off := offRow(0, row)
	return spacerFit{row: row, off: off, assumed: off < 0}
}

// offRow is how far a spacer is off what a row wants; 0 inside its range.
func offRow(spacer float64, row spacerRow) float64 {
	switch {
	case spacer < row.least:
		return spacer - row.least
	case spacer > row.most:
		return spacer - row.most
	}
	return 0
}

// shortDriver says whether a cassette for the short driver is on the long one: those
// for its own were sorted out.
func (m *measuring) shortDriver() bool {
	hub, cog := m.peek(&hubFreehub), m.peek(&cogFreehub)
	return hub != nil && cog != nil && hub.Text == "driver-10-long"
}

// spacerRows lists the rows that class and body leave open.
func (m *measuring) spacerRows() []spacerRow {
	if hub, cog := m.peek(&hubFreehub), m.peek(&cogFreehub); hub != nil && cog != nil && hub.Text == "driver-10-long" && slices.Contains(cog.Words(), "driver-10") {
		return []spacerRow{driverRow} // those for its own were sorted out
	}
	classes, bodies := m.heightClasses(), m.bodies()
	var rows []spacerRow
	for _, class := range classes {
		for _, b := range bodies {
			rows = append(rows, spacerRows[class][b])
		}
	}
	return rows
}

// From so many teeth of the largest cog, 10 and 11 cogs and 12 cogs of nine splines
// stand as high as 8 and 9.
const (
	flatFrom, flatTwelveFrom = 34, 42
)

// The classes that a cassette may be of without saying so: read only.
var (
	heightSeven = []string{"7"}
	heightFlat  = []string{"flat"}
	heightTen   = []string{"thin-10", "flat"}
	heightRoad  = []string{"road-11"}
)

// heightClasses gives the classes that the cassette may be of.
func (m *measuring) heightClasses() []string {
	if c := m.peek(&heightClass); c != nil {
		return []string{c.Text}
	}
	if m.asRoadTwelve() {
		return heightRoad
	}
	n := m.needCogCount()
	switch n {
	case 0:
		return nil
	case 7:
		return heightSeven
	case 8, 9:
		return heightFlat
	}
	largest := 0.0
	if c := m.need(&cogs).List; len(c) > 0 {
		largest = c[len(c)-1]
	}
	switch {
	case (n == 10 || n == 11) && largest >= flatFrom || n == 12 && largest >= flatTwelveFrom:
		return heightFlat
	case n == 10:
		return heightTen
	case n == 11:
		return heightRoad
	}
	m.lack(&heightClass)
	return nil
}

// asRoadTwelve says whether the cassette goes on its body as those of road twelve go on
// nine splines: they stand as high as road cassettes of eleven.
func (m *measuring) asRoadTwelve() bool {
	hub, cog := m.peek(&hubFreehub), m.peek(&cogFreehub)
	return hub != nil && cog != nil && slices.Contains(cog.Words(), "spline-road-12") && !slices.Contains(cog.Words(), hub.Text)
}

// bodies gives the classes that the body may be of, by their places: an unnamed one
// is tried as the two that are sold today.
func (m *measuring) bodies() []int {
	if c := m.peek(&bodyClass); c != nil {
		for i, name := range bodyClasses {
			if name == c.Text {
				return bodyPlaces[i : i+1]
			}
		}
	}
	length := m.peek(&bodyLength)
	if length == nil {
		return bodyPlaces[1:]
	}
	for i, l := range bodyLengths {
		if near(length.Num, l, bodyNear[i]) {
			return bodyPlaces[i : i+1]
		}
	}
	m.lack(&mountHeight) // a body of no class: the calliper decides
	return nil
}

// What class and body leave open of the spacers that are wanted.
const (
	rowsOne     = "one"
	rowsRing    = "ring"          // of ten cogs: whether they came with a ring of their own
	rowsLong    = "long"          // the body: on the longer one there is one wanted
	rowsBoth    = "both"          // the body: on either there is one wanted
	rowsAll     = "both-and-ring" // body and ring
	rowsLongest = "only-long"     // the body: the shorter one is too short
)

var figSpacerRows = &figure{
	Field: fact.Field{Name: "spacer_rows", Type: fact.Choice, Choices: []string{rowsOne, rowsRing, rowsLong, rowsBoth, rowsAll, rowsLongest},
		Doc: "What class and body leave open of the spacers wanted behind the cassette: nothing (one); whether ten cogs came with a " +
			"ring of 1.0 mm (ring); of an unnamed body, whether it is the longer one, on which a spacer is wanted (long), on either of " +
			"them (both, or with the ring as well both-and-ring), or which alone goes (only-long)."},
	reads: rowReads, kinds: []wanted{theCassette, theHub}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		classes, open := m.openRows()
		if m.lacking() {
			return
		}
		short, ring := spacerRows[classes[0]][1], len(classes) > 1
		switch {
		case !open && ring:
			v.Text = rowsRing
		case !open:
			v.Text = rowsOne
		case ring:
			v.Text = rowsAll
		case short.least < 0:
			v.Text = rowsLongest
		case short.sold == 0:
			v.Text = rowsLong
		default:
			v.Text = rowsBoth
		}
	},
}

var figSpacerLong = &figure{
	Field: mm("spacer_long_mm", "The spacers wanted by class on the longer body, of 36.75 mm, where the body is not named."),
	reads: rowReads, kinds: []wanted{theCassette, theHub}, chain: true,
	measure: onBody(2),
}

var figSpacerShort = &figure{
	Field: mm("spacer_short_mm", "The spacers wanted by class on the shorter body, of 34.95 mm, where the body is not named and any are wanted there."),
	reads: rowReads, kinds: []wanted{theCassette, theHub}, chain: true,
	measure: onBody(1),
}

var rowReads = append(lockringReads[:7:7], heightClass, bodyClass)

// onBody gives the spacers wanted on a body that may be it.
func onBody(place int) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		classes, open := m.openRows()
		if m.lacking() {
			return
		}
		if v.Num = spacerRows[classes[0]][place].sold; !open || place == 1 && v.Num == 0 {
			m.needless(bodyNamed)
		}
	}
}

const bodyNamed = "the body is named, or it is the one that wants no spacer"

// openRows gives the classes that the cassette may be of, and says whether the body is
// not named.
func (m *measuring) openRows() (classes []string, open bool) {
	if !m.lockringHolds() {
		return nil, false
	}
	if m.stated(&mountHeight) != nil && m.peek(&bodyLength) != nil {
		m.needless(decidedByMM)
		return nil, false
	}
	if m.shortDriver() {
		return []string{"flat"}, false // of these there is one length
	}
	return m.heightClasses(), len(m.bodies()) > 1
}

// spacerInboard is how far spacers keep the cogs from the spokes for certain. One that
// comes with the cassette is left in its box where the body is too short for it, so
// that it counts only where both heights tell that it is fitted.
func (m *measuring) spacerInboard() float64 {
	if m.peek(&benchSpacer) == nil && (m.stated(&mountHeight) == nil || m.peek(&bodyLength) == nil) {
		m.suppose(takesNoSpacer)
		return 0
	}
	return m.spacer()
}
