package figures

import (
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// How a cell suits the holder that it is for.
const (
	cellFits       = "fits"
	cellWeaker     = "weaker"     // the same size with less charge
	cellCharged    = "charged"    // the same size, but one that is charged and has more volts
	cellTaken      = "taken"      // the same, and the part states that it bears them
	cellOtherSize  = "other-size" // a button of another size
	cellOther      = "other"      // another name, of which nothing is known
	fullLithium    = 4.2          // V, of a charged cell of this kind
	takerRear      = "derailleur"
	takerShifter   = "controller"
	chargerSame    = "same"
	chargerOther   = "other"
	buttonDiameter = 4 // digits of a button cell's name: its diameter and height
)

var cellFitWords = []string{cellFits, cellWeaker, cellCharged, cellTaken, cellOtherSize, cellOther}

// button splits the name of a lithium button cell into its kind and its size.
func button(form string) (kind, size string) {
	for _, kind := range []string{"cr", "br", "lir"} {
		size, ok := strings.CutPrefix(form, kind)
		if ok && len(size) == buttonDiameter && strings.Trim(size, "0123456789") == "" {
			return kind, size
		}
	}
	return "", ""
}

// suits says how a cell suits a holder that is made for another form.
func suits(form, taken string, limit *fact.Value) string {
	kind, size := button(form)
	wanted, of := button(taken)
	switch {
	case form == taken || kind == "cr" && wanted == "br" && size == of:
		return cellFits
	case kind == "" || wanted == "":
		return cellOther
	case size != of:
		return cellOtherSize
	case kind == "br":
		return cellWeaker
	case kind == "lir" && limit != nil && limit.Num >= fullLithium:
		return cellTaken
	case kind == "lir":
		return cellCharged
	}
	return cellOther
}

var cellReads = []input{cellForm, rearCell, rearCellLimit, shifterCell, shifterCellLimit, controllerForm}

var figCellTaker = &figure{
	Field: fact.Field{Name: "cell_for", Type: fact.Choice, Choices: []string{takerRear, takerShifter},
		Doc: "The part that the cell is for: the rear derailleur, or the controller where it suits that better and the controller has no cell of its own in the mix."},
	reads: cellReads, kinds: []wanted{{&cellForm}, {&rearCell, &shifterCell}},
	measure: (*measuring).cellTaker,
}

// cellTaker asks for no part that states nothing of what it takes, but for a
// derailleur to which the cell could belong.
func (m *measuring) cellTaker(v *fact.Value) {
	m.peek(&controllerForm)
	rear, shifter := m.peek(&rearCell), m.peek(&shifterCell)
	byRear := rear != nil || m.peek(&rearCellLimit) != nil
	byShifter := (shifter != nil || m.peek(&shifterCellLimit) != nil) && !m.there(&controllerForm)
	form := m.peek(&cellForm)
	switch {
	case byRear && byShifter && form == nil:
		m.lack(&cellForm)
	case byRear && byShifter && rear != nil && shifter != nil && nearer(form.Text, shifter.Text, rear.Text):
		v.Text = takerShifter
	case byRear:
		v.Text = takerRear
	case byShifter && !(m.there(&rearCell) && form != nil && shifter != nil && isButton(form.Text) != isButton(shifter.Text)):
		v.Text = takerShifter
	default:
		m.lack(&rearCell)
	}
}

func isButton(form string) bool {
	kind, _ := button(form)
	return kind != ""
}

// nearer says whether a cell suits one holder better than another: by its name,
// else by being a button as that one's are.
func nearer(form, one, other string) bool {
	rank := func(taken string) int {
		switch fit := suits(form, taken, nil); {
		case fit == cellFits:
			return 0
		case fit == cellWeaker || fit == cellCharged:
			return 1
		case isButton(form) == isButton(taken):
			return 2
		}
		return 3
	}
	return rank(one) < rank(other)
}

var figCellFit = &figure{
	Field: fact.Field{Name: "cell_fit", Type: fact.Choice, Choices: cellFitWords,
		Doc: "How the cell suits the part that it is for: fits; weaker, taken or charged of a button of the same size and another kind; other-size of a button; other of names of which nothing is known."},
	reads: []input{cellForm, rearCell, rearCellLimit, shifterCell, shifterCellLimit}, figures: []*figure{figCellTaker},
	measure: func(m *measuring, v *fact.Value) {
		taker, form := m.figure(figCellTaker), m.need(&cellForm)
		taken, limit := &rearCell, &rearCellLimit
		if taker.Text == takerShifter {
			taken, limit = &shifterCell, &shifterCellLimit
		}
		if t := m.need(taken); !m.lacking() {
			v.Text = suits(form.Text, t.Text, m.peek(limit))
		}
	},
}

var figCellLimit = &figure{
	Field: fraction("cell_limit_v", "V", "The most volts that the part bears which the cell is for."),
	reads: []input{rearCellLimit, shifterCellLimit}, figures: []*figure{figCellTaker},
	measure: func(m *measuring, v *fact.Value) {
		limit := &rearCellLimit
		if m.figure(figCellTaker).Text == takerShifter {
			limit = &shifterCellLimit
		}
		if l := m.need(limit); !m.lacking() {
			v.Num = l.Num
		}
	},
}

var figControllerFit = &figure{
	Field: fact.Field{Name: "controller_cell_fit", Type: fact.Choice, Choices: cellFitWords,
		Doc: "How the controller's own cell suits the controller, by the words of cell_fit."},
	reads: []input{controllerForm, shifterCell, shifterCellLimit}, kinds: []wanted{{&controllerForm}, theShifter},
	measure: func(m *measuring, v *fact.Value) {
		if form, taken := m.need(&controllerForm), m.need(&shifterCell); !m.lacking() {
			v.Text = suits(form.Text, taken.Text, m.peek(&shifterCellLimit))
		}
	},
}

var figChargerForCell = &figure{
	Field: fact.Field{Name: "charger_for_cell", Type: fact.Choice, Choices: []string{chargerSame, chargerOther, unstated},
		Doc: "Whether the charger takes the cell: same where it is for its form, a button of the same size included, or for its chemistry; other by its form; else unstated."},
	reads: []input{chargerForm, chargerChemistry, cellForm, cellChemistry}, kinds: []wanted{{&chargerForm}, {&cellForm}},
	measure: chargerTakes(&cellForm, &cellChemistry),
}

var figChargerForController = &figure{
	Field: fact.Field{Name: "charger_for_controller_cell", Type: fact.Choice, Choices: []string{chargerSame, chargerOther, unstated},
		Doc: "Whether the charger takes the controller's own cell, by the words of charger_for_cell."},
	reads: []input{chargerForm, chargerChemistry, controllerForm, controllerChemistry}, kinds: []wanted{{&chargerForm}, {&controllerForm}},
	measure: chargerTakes(&controllerForm, &controllerChemistry),
}

// chargerTakes says whether a charger takes a cell. One for its chemistry does, in
// whatever form it is stated: of "other form" and "same chemistry" the worse counts,
// for a cell that is not to be charged burns in a slot that it can be pressed into.
func chargerTakes(cell, inside *input) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		v.Text = unstated
		if a, b := m.peek(inside), m.peek(&chargerChemistry); a != nil && b != nil && a.Text == b.Text {
			v.Text = chargerSame
			return
		}
		form, takes := m.peek(cell), m.peek(&chargerForm)
		if form == nil || takes == nil {
			return
		}
		_, size := button(form.Text)
		_, of := button(takes.Text)
		v.Text = chargerOther
		if form.Text == takes.Text || size != "" && size == of {
			v.Text = chargerSame
		}
	}
}

var figCellPrimary = &figure{
	Field: fact.Field{Name: "cell_primary", Type: fact.Flag, Doc: "Whether the cell cannot be recharged: as stated, else by the name of its form, where that tells."},
	reads: []input{cellPrimary, cellForm}, kinds: []wanted{{&cellForm}},
	measure: onlyOnce(&cellPrimary, &cellForm),
}

var figControllerPrimary = &figure{
	Field: fact.Field{Name: "controller_cell_primary", Type: fact.Flag, Doc: "Whether the controller's own cell cannot be recharged: as stated, else by the name of its form, where that tells."},
	reads: []input{controllerPrimary, controllerForm}, kinds: []wanted{{&controllerForm}},
	measure: onlyOnce(&controllerPrimary, &controllerForm),
}

// onlyOnce says whether a cell is used up once: a button is by its kind, alkaline and
// silver ones too. A round cell or a pack has to say.
func onlyOnce(primary, form *input) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		stated, name := m.peek(primary), m.peek(form)
		if stated != nil {
			v.Num = stated.Num
			return
		}
		if name == nil {
			m.lack(primary)
			return
		}
		switch kind, _ := button(name.Text); {
		case kind == "cr" || kind == "br" || name.Text == "lr44" || name.Text == "sr44":
			v.Num = 1
		case kind == "":
			m.lack(primary)
		}
	}
}

// cellFacts are what one kind of cell states.
type cellFacts struct{ form, inside, volts, primary *input }

var (
	theCell       = cellFacts{&cellForm, &cellChemistry, &cellVolts, &cellPrimary}
	controllerOwn = cellFacts{&controllerForm, &controllerChemistry, &controllerVolts, &controllerPrimary}
)

// chargedChemistry are those of cells that can be charged.
var chargedChemistry = []string{"li-ion", "nickel-metal-hydride", "lead"}

// rechargeable says whether a cell can be charged, by its word, by what is inside it
// or by its name.
func (m *measuring) rechargeable(c cellFacts) bool {
	primary, form, inside := m.peek(c.primary), m.peek(c.form), m.peek(c.inside)
	switch {
	case primary != nil:
		return primary.Num == 0
	case inside != nil && slices.Contains(chargedChemistry, inside.Text):
		return true
	case form == nil:
		return false
	}
	kind, _ := button(form.Text)
	return kind == "lir"
}

// judged says whether the volts of a cell are in question: where both numbers are
// stated, and else of one that can be charged.
func (m *measuring) judged(c cellFacts, limit *input) bool {
	if m.rechargeable(c) {
		return true
	}
	m.need(c.volts)
	m.need(limit)
	return !m.lacking()
}

// fits says that a cell is not one of the wrong size, which is told of by its form.
func fits(fit *fact.Value) bool {
	return fit == nil || fit.Text != cellCharged && fit.Text != cellOtherSize
}

// Sentences for cells.
const (
	othersCell = "the cell is the other part's"
	formTells  = "the cell does not fit: its form is the fault"
)

// Which cell the volts of a controller are judged by.
const (
	cellOnly = "only"
	cellOwn  = "own"
)

var figCellJudged = &figure{
	Field: fact.Field{Name: "cell_judged", Type: fact.Flag, Doc: "Stated where the cell is the rear derailleur's and its volts are in question: both numbers are stated, or it can be charged, and it fits."},
	reads: []input{cellForm, cellChemistry, cellVolts, cellPrimary, rearCellLimit}, figures: []*figure{figCellTaker, figCellFit},
	maybe: []*figure{figCellTaker, figCellFit}, kinds: []wanted{{&cellForm}},
	measure: func(m *measuring, v *fact.Value) {
		taker, fit := m.known(figCellTaker), m.known(figCellFit)
		switch {
		case taker == nil:
			m.figure(figCellTaker)
		case taker.Text != takerRear:
			m.needless(othersCell)
		case !fits(fit):
			m.needless(formTells)
		case m.judged(theCell, &rearCellLimit):
			v.Num = 1
		}
	},
}

var figControllerJudged = &figure{
	Field: fact.Field{Name: "controller_judged", Type: fact.Choice, Choices: []string{cellOwn, cellOnly},
		Doc: "The cell by which the volts of the controller are judged, stated where cell_judged would be: its own, or the only one where that is the controller's."},
	reads: []input{cellForm, cellChemistry, cellVolts, cellPrimary, controllerForm, controllerChemistry, controllerVolts,
		controllerPrimary, shifterCell, shifterCellLimit},
	figures: []*figure{figCellTaker, figCellFit, figControllerFit}, maybe: []*figure{figCellTaker, figCellFit, figControllerFit},
	kinds:   []wanted{{&cellForm, &controllerForm}, theShifter},
	measure: (*measuring).controllerJudged,
}

func (m *measuring) controllerJudged(v *fact.Value) {
	cell, fit, which := controllerOwn, m.known(figControllerFit), cellOwn
	taker := m.known(figCellTaker)
	if !m.there(&controllerForm) {
		cell, fit, which = theCell, m.known(figCellFit), cellOnly
		if taker == nil {
			m.figure(figCellTaker)
			return
		}
		if taker.Text != takerShifter {
			m.needless(othersCell)
			return
		}
	}
	takes := m.peek(&shifterCell) != nil || m.peek(&shifterCellLimit) != nil
	switch {
	case !takes:
		m.lack(&shifterCellLimit)
	case !fits(fit):
		m.needless(formTells)
	case m.judged(cell, &shifterCellLimit):
		v.Text = which
	}
}
