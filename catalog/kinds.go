package catalog

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// kinds lists every kind of part in the order in which reports name them: from
// the cogs forward to the crank, then what all of it is bolted to.
var kinds = []*rules.Object{
	Cassette, Chain, ChainConnector,
	RearDerailleur, RearShifter, FrontDerailleur, FrontShifter,
	Crankset, Chainring, BottomBracket,
	Hub, Axle, Frame, HangerLink, ChainGuide, ChainTensioner, Cockpit, Brake, Wheel, Rotor,
	Cell, ControllerCell, Charger,
}

// kindIndex finds the index of a kind by its name; it is never written again.
var kindIndex = indexKinds()

func indexKinds() map[string]int {
	index := make(map[string]int, len(kinds))
	for i, k := range kinds {
		index[k.Name()] = i
	}
	return index
}

// Kinds gives every kind of part in the order in which reports name them.
func Kinds() []*rules.Object { return slices.Clone(kinds) }

// Kind finds a kind by the word that files and rules use, such as cassette.
func Kind(name string) (*rules.Object, bool) {
	i, ok := kindIndex[name]
	if !ok {
		return nil, false
	}
	return kinds[i], true
}

// KindIndex gives the index of a kind in Kinds, for callers that keep one thing
// a kind in an array.
func KindIndex(name string) (int, bool) {
	i, ok := kindIndex[name]
	return i, ok
}

// KindNames gives the names of all kinds, in their order.
func KindNames() []string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = k.Name()
	}
	return names
}

// SuggestKind gives the sentence of a hint for a word that is no kind.
func SuggestKind(word string) string {
	named := make([]fact.Named, len(kinds))
	for i, k := range kinds {
		named[i] = fact.Named{Name: k.Name(), Also: k.Also()}
	}
	return cmp.Or(fact.SuggestNamed(word, named), fieldsAlso().Suggest(word), "known are "+strings.Join(KindNames(), ", "))
}

// fieldsAlso leads from the names that the trade has for fields to the fields, for
// who takes what is a field here for a part.
var fieldsAlso = sync.OnceValue(func() *fact.Others {
	var named []fact.Named
	for _, k := range kinds {
		for _, f := range k.Table().Fields() {
			named = append(named, fact.Named{Name: k.Name() + "." + f.Name, Also: f.Also})
		}
	}
	return fact.NewOthers(named)
})

// newKind makes the object of a kind from its field table.
func newKind(name, doc string, fields []fact.Field) *rules.Object {
	return rules.NewObject(name, doc, fields...).Called(kindsAlso[name]...)
}

// The fields below stand in the tables of several kinds with one meaning.

const (
	maxCogs  = 16 // cogs of a cassette
	maxSteps = 16 // clicks of a shifter and steps of a motor, spare ones included
	maxRings = 4  // rings of a crankset
)

func actuation() fact.Field {
	return fact.Field{Name: "actuation", Type: fact.Choice, Choices: []string{"cable", "motor"},
		Doc:    "What moves it: a cable that is pulled, or a motor that is told to.",
		How:    "Look for a cable anchor bolt; a part with a cell or a plug instead is driven by a motor.",
		Effort: fact.Low, Also: []string{"electronic", "electronic shifting", "mechanical", "gear cable", "shift cable"}}
}

func radio() fact.Field {
	return fact.Field{Name: "radio", Type: fact.Name,
		Doc:    "The protocol family that it speaks, by radio or by wire; parts of one family understand each other, others do not.",
		How:    "Read the family from the box or the manual and give it one short name, the same on every part of that family.",
		Effort: fact.Low, Also: []string{"wireless", "protocol", "wireless protocol"}}
}

func indexFamily(set string) fact.Field {
	return fact.Field{Name: "index_family", Type: fact.Name,
		Doc:    "The set whose " + set + " its maker sells to index together; parts that state the same family are taken at their maker's word.",
		How:    "Read in the maker's table which shifter, derailleur and cassette belong together, and give that set one short name.",
		Effort: fact.Low, Also: []string{"groupset", "group"}}
}

func indexSets() fact.Field {
	return fact.Field{Name: "index_sets", Type: fact.Names, Cap: 8,
		Doc: "The published sets of shifter, derailleur and cassette that it belongs to: where the three share one, that is " +
			"published to work.",
		How:    "Read which classes a trade table names together, and give that set one short name on all three.",
		Effort: fact.Low}
}

func ridesSets() fact.Field {
	return fact.Field{Name: "index_sets_warn", Type: fact.Names, Cap: 8,
		Doc:    "The same of sets that are ridden and not quite right: where the three share one, that warns.",
		How:    "As index_sets, for sets of which riders say that they shift less well.",
		Effort: fact.Low}
}

func rollerClass(what string) fact.Field {
	return fact.Field{Name: "roller_class", Type: fact.Choice, Choices: []string{"standard", "large"},
		Doc:    what + ": standard is about 7.75 mm across, large is the bigger roller of a few road groups.",
		How:    "Read it from the part's own sheet, or measure one roller with a caliper: clearly over 7.9 mm is large.",
		Effort: fact.Some, Also: []string{"roller diameter", "roller size"}}
}

func cellForm() fact.Field {
	return fact.Field{Name: "cell", Type: fact.Name, Known: cellNames(),
		Doc:    "The form of the cell that it takes, such as cr2032.",
		How:    "Read the form from the lid of the cell's compartment or from the cell that came out of it.",
		Effort: fact.Low, Also: []string{"battery", "battery type", "battery size", "coin cell", "button cell"}}
}

func cellLimit() fact.Field {
	return fact.Field{Name: "cell_max_v", Type: fact.Fraction, Unit: "V", Min: 0.5, Max: 60,
		Doc: "The highest nominal voltage of a cell that it stands.",
		How: "Read the voltage beside the cell's compartment or in the manual; where only the cell is named, take that cell's " +
			"nominal voltage.",
		Effort: fact.Low, Also: []string{"voltage", "battery voltage", "max battery voltage"}}
}

func clampTorque(of string) fact.Field {
	return fact.Field{Name: "clamp_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of the bolt of " + of + ".",
		How:    "Read it from the clamp or the manual; the marking of the bar wins where it is lower.",
		Effort: fact.Low, Also: []string{"clamp bolt"}}
}

func anchorTorque() fact.Field {
	return fact.Field{Name: "anchor_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of the bolt that holds the cable.",
		How:    "Read it from the manual; the part's own marking wins over any table.",
		Effort: fact.Low, Also: []string{"pinch bolt", "anchor bolt", "cable anchor bolt", "cable bolt", "gear cable bolt"}}
}

func mountTorque() fact.Field {
	return fact.Field{Name: "mount_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of the bolt that holds the derailleur.",
		How:    "Read it from the bolt's head or the manual; the part's own marking wins over any table.",
		Effort: fact.Low, Also: []string{"mounting bolt", "hanger bolt", "fixing bolt"}}
}

func axleTorque() fact.Field {
	return fact.Field{Name: "axle_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of the through axle or of the axle nuts.",
		How:    "Read it from the axle's lever or end, or from the hub's sheet.",
		Effort: fact.Low, Also: []string{"axle nut", "wheel nut"}}
}

func pullClass() fact.Field {
	return fact.Field{Name: "pull_class", Type: fact.Choice, Choices: []string{"road", "mountain"},
		Doc: "The class of front cable pull: road levers and cages move less or more cable for a change of ring than those of " +
			"mountain bicycles.",
		How:    "Read from the sheet for which bicycles it is sold; a lever for drop bars is nearly always road.",
		Effort: fact.Low, Also: []string{"pull type"}}
}

func clampDiameter() fact.Field {
	return fact.Field{Name: "clamp_diameter_mm", Type: fact.Fraction, Unit: "mm", Min: 15, Max: 40,
		Doc:    "The diameter of the handlebar where the clamp sits.",
		How:    "Measure the bar with a caliper where the clamp goes: 22.2 mm on straight bars, about 23.8 mm on drop bars.",
		Effort: fact.Some, Also: []string{"bar diameter", "handlebar diameter", "clamp size"}}
}

func overLocknut(of string, also ...string) fact.Field {
	return fact.Field{Name: "over_locknut_mm", Type: fact.Fraction, Unit: "mm", Min: 90, Max: 220,
		Doc: of,
		How: "Measure with a caliper between the two faces that touch the insides of the dropouts, or between those insides " +
			"with the wheel out.",
		Effort: fact.Some, Also: append([]string{"axle spacing", "rear spacing", "over locknut dimension", "old"}, also...)}
}

func axle() fact.Field {
	return fact.Field{Name: "axle", Type: fact.Choice, Choices: []string{"quick", "through"}, Known: axleNames(),
		Doc:    "How the wheel is held: quick for a skewer or nuts in open dropouts, through for an axle that screws through closed ones.",
		How:    "Look at the dropout: open at the bottom or the back is quick, a closed hole is through.",
		Effort: fact.Low, Also: []string{"axle type", "skewer", "quick release", "qr", "thru axle", "through axle"}}
}

func assistRated(what string) fact.Field {
	return fact.Field{Name: "assist_rated", Type: fact.Flag,
		Doc:    "Whether its maker rates the " + what + " for bicycles with a motor that pulls through the chain.",
		How:    "Look for the maker's mark or line for electric bicycles on the box or the sheet.",
		Effort: fact.Low, Also: []string{"e-bike", "e-bike rated", "pedelec"}}
}
