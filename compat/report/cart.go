package report

import "example.org/cogcourt/rules/fact"

// Cart is what is said of a cart, schema_version 1.
type Cart struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Rules         RuleSet       `json:"rules" doc:"The rules that were used."`
	Cart          string        `json:"cart" doc:"What the cart is called."`
	Verdict       fact.Verdict  `json:"verdict" doc:"The worst of the bicycles as they will be; at least unknown where a line is ambiguous."`
	Complete      bool          `json:"complete" doc:"Every bicycle's report is complete and no line is ambiguous."`
	Lines         []Line        `json:"lines" doc:"Every line of the cart, in its order."`
	Bikes         []Bike        `json:"bikes" doc:"The bicycles that the cart changes."`
	Mendings      []BikeMending `json:"mendings" doc:"What would mend the bicycles that fail; none where nobody asked."`
}

// Line is a line of a cart, and what became of it.
type Line struct {
	Line     int      `json:"line" doc:"Its number, from 1."`
	ID       string   `json:"id" doc:"The part's id, as the cart has it."`
	SKU      string   `json:"sku" doc:"The seller's number, as the cart has it."`
	Name     string   `json:"name" doc:"What the shop calls it."`
	Quantity int      `json:"quantity" doc:"How many are ordered."`
	Bike     string   `json:"bike" doc:"The bicycle that the line says it is for; empty for most."`
	Use      string   `json:"use" words:"use" doc:"What became of the line."`
	Bikes    []string `json:"bikes" doc:"The bicycles that it is fitted to."`
	Spare    int      `json:"spare" doc:"How many are left over."`
	Note     string   `json:"note" doc:"Why, in one sentence; empty where it goes without saying."`
}

// Bike is a bicycle that a cart changes.
type Bike struct {
	Bike      string `json:"bike" doc:"What the bicycle is called."`
	BikeIndex int    `json:"bike_index" doc:"Its place among the cart's bicycles, from 0; with the rule's id it names a finding, also where two bicycles have no name."`
	Change    Change `json:"change" doc:"What the cart changes on it, and which lines do."`
	Report    Report `json:"report" doc:"The report of the bicycle as it will be."`
}

// BikeMending is what would mend a bicycle of a cart.
type BikeMending struct {
	Bike      string  `json:"bike" doc:"What the bicycle is called."`
	BikeIndex int     `json:"bike_index" doc:"Its place among the cart's bicycles, from 0."`
	Mending   Mending `json:"mending" doc:"The smallest exchange of parts."`
}

// Mending is the smallest exchange of parts that mends a mix, schema_version 1.
type Mending struct {
	SchemaVersion int      `json:"schema_version" const:"1"`
	Tool          string   `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string   `json:"mix" doc:"What the mix is called."`
	Fails         []string `json:"fails" doc:"The rules that fail now."`
	Choices       []Choice `json:"choices" doc:"The exchanges that mend it, the cheapest first."`
	Replaced      int      `json:"replaced" doc:"How many parts each of them exchanges; 0 where there is none."`
	Fixed         []string `json:"fixed" doc:"Kinds of the mix that were not for exchange."`
	None          bool     `json:"none" doc:"It is proven that no exchange mends it."`
	Most          int      `json:"most" doc:"Where more parts would have to be exchanged: how many were at most; else 0."`
	Blocked       []string `json:"blocked" doc:"Where it is proven: rules that cannot hold together."`
	Cut           bool     `json:"cut" doc:"The budget ended a search: there may be an exchange that was not found, or a cheaper one."`
}

// Choice is parts that go together.
type Choice struct {
	Parts    []Chosen   `json:"parts" doc:"One of each kind, in their order."`
	Cents    int64      `json:"cents" doc:"What those cost together that have a price, in hundredths."`
	Unpriced int        `json:"unpriced" doc:"How many have none."`
	Warnings int        `json:"warnings" doc:"Findings that warn, of the rules that the choice can change."`
	Unknowns int        `json:"unknowns" doc:"And that are open."`
	Passes   int        `json:"passes" doc:"And that pass; where there is none of the three, no rule has anything to say of the choice."`
	Warns    []string   `json:"warns" doc:"The rules that warn."`
	Open     []string   `json:"open" doc:"The rules that are open."`
	Usual    []string   `json:"usual" doc:"Facts that nobody stated and that it rests on as they are usual."`
	Alike    [][]string `json:"alike" doc:"For each part the ids of others that do as well in its place, the cheapest first."`
}

// Chosen is a part of a choice.
type Chosen struct {
	Kind  string `json:"kind" doc:"Its kind." pattern:"\\S"`
	ID    string `json:"id" doc:"Its id; empty for one that is described in the mix."`
	Name  string `json:"name" doc:"What people call it."`
	Price string `json:"price" doc:"Its price as it states it; empty where it states none."`
	Kept  bool   `json:"kept" doc:"It is the part that the mix has already, and costs nothing."`
}
