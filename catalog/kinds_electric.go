package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// Cell is the field table of what powers a motor or a controller.
var Cell = newKind("cell", "The cell or battery of the derailleur, or the only one.", cellFields())

// ControllerCell is the same table for the cell of the controller on the bar,
// where that is another one than the derailleur's.
var ControllerCell = newKind("controller_cell", "The cell of the controller on the bar, where the derailleur has one "+
	"of its own.", cellFields())

func cellFields() []fact.Field {
	return []fact.Field{
		{Name: "form", Type: fact.Name, Known: cellNames(),
			Doc:    "The form of the cell, such as cr2032; a cell of another form does not sit right even where it goes in.",
			How:    "Read the code stamped into the cell, in small letters.",
			Effort: fact.Low, Also: []string{"battery type", "battery size", "cell size"}},
		chemistry("What is inside the cell: lithium-manganese, lithium-carbon, alkaline, silver-oxide, li-ion, "+
			"nickel-metal-hydride and the like.",
			"Read it from the cell: a code that begins with cr is lithium-manganese, br lithium-carbon, lr alkaline, lir li-ion."),
		{Name: "nominal_v", Type: fact.Fraction, Unit: "V", Min: 0.5, Max: 60,
			Doc:    "The nominal voltage of the cell.",
			How:    "Read it from the cell; a fresh one shows a little more on a meter.",
			Effort: fact.Low, Also: []string{"voltage", "battery voltage", "cell voltage"}},
		{Name: "primary", Type: fact.Flag,
			Doc:    "Whether the cell is used up once; a primary cell must never be charged.",
			How:    "Look for a warning against charging; cells without the word rechargeable are primary.",
			Effort: fact.Low, Also: []string{"disposable", "rechargeable", "single use"}},
	}
}

// Charger is the field table of chargers.
var Charger = newKind("charger", "The charger of a cell that can be charged.", []fact.Field{
	chemistry("The chemistry of the cells that it charges, by the same words as on cells.",
		"Read it from the plate on the charger."),
	{Name: "form", Type: fact.Name, Known: cellNames(),
		Doc:    "The form of the cells that it takes.",
		How:    "Read it from the charger's slot or manual.",
		Effort: fact.Low, Also: []string{"battery type", "battery size", "cell size"}},
	{Name: "min_c", Type: fact.Fraction, Unit: "C", Min: -40, Max: 60,
		Doc:    "The lowest temperature at which it may charge.",
		How:    "Read it from the manual; for li-ion cells it is usually 0.",
		Effort: fact.Low, Also: []string{"lowest temperature", "min temperature", "minimum temperature"}},
	{Name: "max_c", Type: fact.Fraction, Unit: "C", Min: -20, Max: 90,
		Doc:    "The highest temperature at which it may charge.",
		How:    "Read it from the manual; for li-ion cells it is usually 45.",
		Effort: fact.Low, Also: []string{"highest temperature", "max temperature", "maximum temperature"}},
})

func chemistry(doc, how string) fact.Field {
	return fact.Field{Name: "chemistry", Type: fact.Name, Known: chemistryNames(), Doc: doc, How: how,
		Effort: fact.Low, Also: []string{"battery chemistry", "cell chemistry"}}
}
