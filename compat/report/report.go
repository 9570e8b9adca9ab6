package report

import "example.org/cogcourt/rules/fact"

// Report is what is said of one mix, schema_version 1. Keys may be added, but none
// changes its meaning.
type Report struct {
	SchemaVersion int                   `json:"schema_version" const:"1"`
	Tool          string                `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Rules         RuleSet               `json:"rules" doc:"The rules that were used."`
	Catalog       string                `json:"catalog" doc:"What the catalogue is called."`
	Mix           string                `json:"mix" doc:"What the mix is called."`
	Scope         string                `json:"scope" words:"scope" doc:"A cart is judged by what is in it, a bike lacks what is not there."`
	Parts         []Part                `json:"parts" doc:"The parts of the mix."`
	Verdict       fact.Verdict          `json:"verdict" doc:"The verdict."`
	Complete      bool                  `json:"complete" doc:"Nothing is undecided, not judged of the drive or, of a bike, absent."`
	Absent        []string              `json:"absent" doc:"Kinds of parts that a whole bicycle would need."`
	Findings      []Finding             `json:"findings" doc:"Fails, unknowns, warnings and passes, in this order."`
	Figures       Figures               `json:"figures" facts:"figures" doc:"What was worked out; what has no value is left out."`
	Usual         []Usual               `json:"usual" doc:"Values that nobody stated, usual ones of a class or of a count, with their spread."`
	Worst         map[string][2]float64 `json:"worst" doc:"Bounds of figures that rest on toleranced facts."`
	NotApplied    []NotApplied          `json:"not_applied" doc:"Rules that had nothing to say."`
	NotJudged     []NotJudged           `json:"not_judged" doc:"What the mix has and no rule judges."`
	Missing       []Missing             `json:"missing" doc:"Facts that would decide something."`
	Needs         []Need                `json:"needs" doc:"What to order."`
	Cautions      []string              `json:"cautions" doc:"What to keep in mind, whatever the verdict."`
}

// RuleSet names the rules that made a report.
type RuleSet struct {
	Packs []Pack `json:"packs" doc:"The packs."`
	Hash  string `json:"hash" doc:"It is another one where any rule is." pattern:"^sha256:[0-9a-f]{64}$"`
	Count int    `json:"count" doc:"How many rules they are."`
}

// Pack is a name under which rules are kept and published, with its edition.
type Pack struct {
	Pack    string `json:"pack" doc:"Its name." pattern:"\\S"`
	Edition int    `json:"edition" doc:"It counts up when the pack changes."`
}

// Part is a part of a mix.
type Part struct {
	Kind  string `json:"kind" words:"kind" doc:"The kind of part."`
	ID    string `json:"id" doc:"The word that mixes refer to; empty for a part that is described in place."`
	Name  string `json:"name" doc:"What people call the part."`
	Basis string `json:"basis" words:"basis" doc:"Where the values come from."`
}

// Finding is what one rule says of the mix.
type Finding struct {
	Rule     string            `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Verdict  fact.Verdict      `json:"verdict" doc:"The verdict."`
	Adjusted *Adjusted         `json:"adjusted" doc:"The decision that changed the verdict."`
	Text     string            `json:"text" doc:"What was found, with its numbers." pattern:"\\S"`
	Why      string            `json:"why" doc:"Why it matters." pattern:"\\S"`
	Remedy   string            `json:"remedy" doc:"What would mend it; empty for a pass."`
	Caution  string            `json:"caution" doc:"What to beware of; empty for most."`
	Safety   bool              `json:"safety" doc:"Whether it must not be adjusted below warn."`
	Basis    map[string]string `json:"basis" doc:"What the rule rests on."`
	Parts    []string          `json:"parts" doc:"The kinds of parts that it is about."`
	Used     []Used            `json:"used" doc:"The stated facts that the rule's conditions read."`
	Values   map[string]any    `json:"values" doc:"The let-names of the rule that are a number, a word or a flag here, for sentences of one's own."`
	Assumed  []string          `json:"assumed" doc:"What these hang on that nobody stated."`
	Usual    []string          `json:"usual" doc:"The usual facts that these rest on."`
	Leans    *Lean             `json:"leans" doc:"That it does not hold over all that is usual of them."`
	Missing  []string          `json:"missing" doc:"The facts that would decide an unknown."`
	Marginal *Margin           `json:"marginal" doc:"That it hangs on tolerances."`
	Error    string            `json:"error" doc:"What went wrong; empty for most."`
}

// Adjusted is the decision that changed a verdict.
type Adjusted struct {
	From   fact.Verdict `json:"from" doc:"The verdict before."`
	Reason string       `json:"reason" doc:"Why."`
	By     string       `json:"by" doc:"Who decided."`
	Until  string       `json:"until" doc:"The last day, UTC." format:"date"`
}

// Used is a fact that a rule's conditions read.
type Used struct {
	Name    string `json:"name" doc:"Its name." pattern:"\\S"`
	Value   any    `json:"value" doc:"Its value; of a list, which moves as one, the first entry that carries a tolerance."`
	Unit    string `json:"unit" doc:"Its unit; empty where it has none."`
	Assumed bool   `json:"assumed" doc:"Nobody stated it: a convention stands in."`
	Usual   bool   `json:"usual" doc:"Nobody stated it: it is usual, or rests on what is."`
}

// Lean says that a finding does not hold over all that is usual.
type Lean struct {
	Nominal fact.Verdict `json:"nominal" doc:"The verdict by the usual values."`
	By      []string     `json:"by" doc:"The usual facts that decide, each of itself where one does."`
	Open    bool         `json:"open" doc:"They are too many to be tried over their spread."`
	Ask     string       `json:"ask" doc:"The fact that tells which of two kinds of parts with that count it is; empty where they agree."`
	FailsAt []Point      `json:"fails_at" doc:"Values at which it fails, of usual facts that are elsewhere than usual."`
	HoldsAt []Point      `json:"holds_at" doc:"Values at which it does not."`
}

// Point is a value of one fact.
type Point struct {
	Name  string  `json:"name" doc:"The fact."`
	Value float64 `json:"value" doc:"Its value; of a list, which moves as one, the first entry that carries a tolerance."`
}

// Margin says that a finding hangs on tolerances.
type Margin struct {
	Nominal fact.Verdict `json:"nominal" doc:"The verdict by the numbers as stated; pass for a rule that they do not concern."`
	By      []string     `json:"by" doc:"The toleranced facts that decide."`
	Open    bool         `json:"open" doc:"They are too many: the worst case was not worked out, and a pass is none."`
}

// Usual is a value that nobody stated.
type Usual struct {
	Name   string  `json:"name" doc:"The fact." pattern:"\\S"`
	Value  any     `json:"value" doc:"The usual value."`
	Least  float64 `json:"least" doc:"The least that is published; 0 of what is no number."`
	Most   float64 `json:"most" doc:"The most that is published; 0 of what is no number."`
	Unit   string  `json:"unit" doc:"Its unit; empty where it has none."`
	Source string  `json:"source" doc:"The id of a source, or memory; empty of what a class is by its name."`
}

// NotApplied is a rule that had nothing to say.
type NotApplied struct {
	Rule   string   `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Reason string   `json:"reason" words:"reason" doc:"Why it was not applied."`
	Names  []string `json:"names" doc:"Parts or facts that are not there, or the sentence of a figure."`
}

// NotJudged is something that the mix has and no rule judges.
type NotJudged struct {
	What    string `json:"what" doc:"What is not judged." pattern:"\\S"`
	Text    string `json:"text" doc:"Why, or what to do instead." pattern:"\\S"`
	Caution string `json:"caution" doc:"What to beware of; empty for most."`
	Drive   bool   `json:"drive" doc:"It is of the drive itself: the report is not complete."`
}

// Missing is a fact that nobody stated and that would decide something.
type Missing struct {
	Name  string   `json:"name" doc:"Its name." pattern:"\\S"`
	Doc   string   `json:"doc" doc:"What it is."`
	How   string   `json:"how" doc:"How to measure or find it."`
	Unit  string   `json:"unit" doc:"Its unit; empty where it has none."`
	Rules []string `json:"rules" doc:"The rules that it would decide."`
}

// Need is something to order.
type Need struct {
	What  string  `json:"what" doc:"The thing." pattern:"\\S"`
	Value float64 `json:"value" doc:"Its measure; 0 for a thing without one."`
	Unit  string  `json:"unit" doc:"The unit of the measure."`
	Thing string  `json:"thing" doc:"Needs of one thing are one line of an order; empty for a line of its own."`
}
