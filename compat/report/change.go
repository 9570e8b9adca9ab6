package report

import "example.org/cogcourt/rules/fact"

// Change is what differs between the reports of two mixes, schema_version 1.
type Change struct {
	SchemaVersion int       `json:"schema_version" const:"1"`
	Tool          string    `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Before        Side      `json:"before" doc:"The first mix."`
	After         Side      `json:"after" doc:"The second mix."`
	New           []Changed `json:"new" doc:"Findings of rules that had nothing to say before."`
	Worse         []Changed `json:"worse" doc:"Findings with a graver verdict."`
	Better        []Changed `json:"better" doc:"Findings with a milder verdict."`
	Gone          []Changed `json:"gone" doc:"Findings of rules that have nothing to say any more."`
	Same          []Changed `json:"same" doc:"Findings of one verdict in both that do not pass."`
}

// Side is one of the two mixes of a change.
type Side struct {
	Mix      string       `json:"mix" doc:"What the mix is called."`
	Scope    string       `json:"scope" words:"scope" doc:"A cart is judged by what is in it, a bike lacks what is not there."`
	Verdict  fact.Verdict `json:"verdict" doc:"The verdict."`
	Complete bool         `json:"complete" doc:"Nothing was left undecided and, of a bike, nothing is absent."`
	Rules    RuleSet      `json:"rules" doc:"The rules that were used."`
}

// Changed is one finding of a change.
type Changed struct {
	Rule    string     `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Before  string     `json:"before" words:"standing" doc:"The verdict before; empty for a new finding."`
	After   string     `json:"after" words:"standing" doc:"The verdict after; empty for one that is gone."`
	Text    string     `json:"text" doc:"What was found, with its numbers." pattern:"\\S"`
	Remedy  string     `json:"remedy" doc:"What would mend it; empty for a pass."`
	Caution string     `json:"caution" doc:"What to beware of; empty for most."`
	Safety  bool       `json:"safety" doc:"Whether it must not be adjusted below warn."`
	Causes  [][]string `json:"causes" doc:"What brings it about: each list does so by itself, what stands in one does it together."`
	Lines   [][]int    `json:"lines" doc:"The causes as lines of a cart, from 1; empty where there is no cart."`
}

// Sheet is the setup sheet of a mix, schema_version 1.
type Sheet struct {
	SchemaVersion int          `json:"schema_version" const:"1"`
	Tool          string       `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Rules         RuleSet      `json:"rules" doc:"The rules that were used."`
	Mix           string       `json:"mix" doc:"What the mix is called."`
	Verdict       fact.Verdict `json:"verdict" doc:"The verdict of the mix."`
	Assumed       []Assumption `json:"assumed" doc:"Values that nobody stated, to be looked at first."`
	Stops         []Stop       `json:"stops" doc:"The faults of a mix that fails, the one at which the sheet ends first."`
	Steps         []Step       `json:"steps" doc:"The steps, in the order in which they are done."`
	Bolts         []Bolt       `json:"bolts" doc:"The bolts in the mix and what is wanted of each; none where the sheet ends before them."`
	Cautions      []string     `json:"cautions" doc:"What to keep in mind, whatever the verdict."`
}

// Stop is a fault that ends the work, and where.
type Stop struct {
	Rule string `json:"rule" doc:"The rule that fails." pattern:"\\S"`
	Text string `json:"text" doc:"What was found." pattern:"\\S"`
	Step string `json:"step" doc:"The step at which the work ends; it is not on the sheet, nor is what comes behind it."`
}

// Step is one step of a sheet.
type Step struct {
	ID       string    `json:"id" doc:"The word that other steps refer to."`
	Part     string    `json:"part" words:"step part" doc:"When it is done."`
	Do       string    `json:"do" doc:"What to do." pattern:"\\S"`
	Value    string    `json:"value" doc:"The value for this mix; empty for a step without one."`
	Check    string    `json:"check" doc:"How to see that it is right."`
	Because  string    `json:"because" doc:"Why, in one clause."`
	Caution  string    `json:"caution" doc:"What to beware of; empty for most."`
	Missing  []Missing `json:"missing" doc:"Facts without which the value cannot be said."`
	Measured []string  `json:"measured" doc:"Facts that are measured in it, for the record of the finished job."`
}

// OverBolts is the id of the step that goes over all bolts.
const OverBolts = "torques"

// GoesOverBolts says whether the step goes over all bolts of the sheet.
func (s Step) GoesOverBolts() bool { return s.ID == OverBolts }

// Bolt is a bolt of the mix and what is wanted of it.
type Bolt struct {
	Bolt   string `json:"bolt" doc:"What is tightened." pattern:"\\S"`
	Wanted string `json:"wanted" doc:"Its torque as the sheet gives it, or where it is to be read." pattern:"\\S"`
	Fact   string `json:"fact" doc:"The measured fact that takes what it was tightened to; empty where there is none."`
}

// Assumption is a value that stands in for one that nobody stated.
type Assumption struct {
	Name  string `json:"name" doc:"The fact or figure." pattern:"\\S"`
	Value any    `json:"value" doc:"Its value."`
	Unit  string `json:"unit" doc:"Its unit; empty where it has none."`
	Doc   string `json:"doc" doc:"What it is."`
	Said  string `json:"said" doc:"What is taken as usual, in words with value and unit." pattern:"\\S"`
}
