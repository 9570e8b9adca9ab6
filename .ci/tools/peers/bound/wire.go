package main

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules/fact"
)

// What a client of the JSON would write down in Go, in the order of the keys.
type (
	reportOut struct {
		SchemaVersion int                   `json:"schema_version"`
		Tool          string                `json:"tool"`
		Rules         compat.RuleSet        `json:"rules"`
		Catalog       string                `json:"catalog"`
		Mix           string                `json:"mix"`
		Scope         string                `json:"scope"`
		Parts         []partOut             `json:"parts"`
		Verdict       string                `json:"verdict"`
		Complete      bool                  `json:"complete"`
		Absent        []string              `json:"absent"`
		Findings      []findingOut          `json:"findings"`
		Figures       any                   `json:"figures"`
		Usual         []usualOut            `json:"usual"`
		Worst         map[string][2]float64 `json:"worst"`
		NotApplied    []notAppliedOut       `json:"not_applied"`
		NotJudged     []compat.NotJudged    `json:"not_judged"`
		Missing       []compat.Missing      `json:"missing"`
		Needs         []needOut             `json:"needs"`
		Cautions      []string              `json:"cautions"`
	}
	partOut struct {
		Kind  string `json:"kind"`
		ID    string `json:"id"`
		Name  string `json:"name"`
		Basis string `json:"basis"`
	}
	findingOut struct {
		Rule     string         `json:"rule"`
		Verdict  string         `json:"verdict"`
		Adjusted *adjustOut     `json:"adjusted"`
		Text     string         `json:"text"`
		Why      string         `json:"why"`
		Remedy   string         `json:"remedy"`
		Caution  string         `json:"caution"`
		Safety   bool           `json:"safety"`
		Basis    basisOut       `json:"basis"`
		Parts    []string       `json:"parts"`
		Used     []usedOut      `json:"used"`
		Values   map[string]any `json:"values"`
		Assumed  []string       `json:"assumed"`
		Usual    []string       `json:"usual"`
		Leans    *leanOut       `json:"leans"`
		Missing  []string       `json:"missing"`
		Marginal *marginOut     `json:"marginal"`
		Error    string         `json:"error"`
	}
	basisOut struct {
		Geometry string `json:"geometry,omitempty"`
		Memory   string `json:"memory,omitempty"`
		Practice string `json:"practice,omitempty"`
		Source   string `json:"source,omitempty"`
	}
	leanOut struct {
		Nominal string         `json:"nominal"`
		By      []string       `json:"by"`
		Open    bool           `json:"open"`
		Ask     string         `json:"ask"`
		FailsAt []report.Point `json:"fails_at"`
		HoldsAt []report.Point `json:"holds_at"`
	}
	marginOut struct {
		Nominal string   `json:"nominal"`
		By      []string `json:"by"`
		Open    bool     `json:"open"`
	}
	adjustOut struct {
		From   string `json:"from"`
		Reason string `json:"reason"`
		By     string `json:"by"`
		Until  string `json:"until"`
	}
	usedOut struct {
		Name    string `json:"name"`
		Value   any    `json:"value"`
		Unit    string `json:"unit"`
		Assumed bool   `json:"assumed"`
		Usual   bool   `json:"usual"`
	}
	usualOut struct {
		Name   string  `json:"name"`
		Value  any     `json:"value"`
		Least  float64 `json:"least"`
		Most   float64 `json:"most"`
		Unit   string  `json:"unit"`
		Source string  `json:"source"`
	}
	notAppliedOut struct {
		Rule   string   `json:"rule"`
		Reason string   `json:"reason"`
		Names  []string `json:"names"`
	}
	needOut struct {
		What  string  `json:"what"`
		Value float64 `json:"value"`
		Unit  string  `json:"unit"`
		Thing string  `json:"thing"`
	}

	cartOut struct {
		SchemaVersion int            `json:"schema_version"`
		Tool          string         `json:"tool"`
		Rules         compat.RuleSet `json:"rules"`
		Cart          string         `json:"cart"`
		Verdict       string         `json:"verdict"`
		Complete      bool           `json:"complete"`
		Lines         []lineOut      `json:"lines"`
		Bikes         []bikeOut      `json:"bikes"`
		Mendings      []any          `json:"mendings"`
	}
	lineOut struct {
		Line     int      `json:"line"`
		ID       string   `json:"id"`
		SKU      string   `json:"sku"`
		Name     string   `json:"name"`
		Quantity int      `json:"quantity"`
		Bike     string   `json:"bike"`
		Use      string   `json:"use"`
		Bikes    []string `json:"bikes"`
		Spare    int      `json:"spare"`
		Note     string   `json:"note"`
	}
	bikeOut struct {
		Bike      string    `json:"bike"`
		BikeIndex int       `json:"bike_index"`
		Change    changeOut `json:"change"`
		Report    reportOut `json:"report"`
	}
	changeOut struct {
		SchemaVersion int          `json:"schema_version"`
		Tool          string       `json:"tool"`
		Before        sideOut      `json:"before"`
		After         sideOut      `json:"after"`
		New           []changedOut `json:"new"`
		Worse         []changedOut `json:"worse"`
		Better        []changedOut `json:"better"`
		Gone          []changedOut `json:"gone"`
		Same          []changedOut `json:"same"`
	}
	sideOut struct {
		Mix      string         `json:"mix"`
		Scope    string         `json:"scope"`
		Verdict  string         `json:"verdict"`
		Complete bool           `json:"complete"`
		Rules    compat.RuleSet `json:"rules"`
	}
	changedOut struct {
		Rule    string     `json:"rule"`
		Before  string     `json:"before"`
		After   string     `json:"after"`
		Text    string     `json:"text"`
		Remedy  string     `json:"remedy"`
		Caution string     `json:"caution"`
		Safety  bool       `json:"safety"`
		Causes  [][]string `json:"causes"`
		Lines   [][]int    `json:"lines"`
	}
)

// mixIn is a mix as a file holds it: a part a kind by its id, or described in place.
type mixIn struct {
	Mix   string `json:"mix"`
	Scope string `json:"scope"`
	Parts any    `json:"parts"`
	Bench any    `json:"bench"`
}

// cartIn is a cart as a file holds it.
type cartIn struct {
	Cart  string   `json:"cart"`
	Bikes []mixIn  `json:"bikes"`
	Lines []lineIn `json:"lines"`
}

type lineIn struct {
	ID       string `json:"id"`
	SKU      string `json:"sku"`
	Name     string `json:"name"`
	Quantity int    `json:"quantity"`
	Bike     string `json:"bike"`
}

// field is one field of a struct that is made while the program runs.
func field(name string, of reflect.Type, tag string) reflect.StructField {
	return reflect.StructField{Name: "F" + strings.ToUpper(name[:1]) + name[1:], Type: of, Tag: reflect.StructTag(`json:"` + name + tag + `"`)}
}

// figuresOut is a struct of every figure, as one who knows the table would write it.
func figuresOut() reflect.Type {
	var out []reflect.StructField
	for _, f := range compat.FigureFields() {
		out = append(out, field(f.Name, reflect.PointerTo(typeOf(f.Type)), ",omitempty"))
	}
	return reflect.StructOf(out)
}

func typeOf(t fact.Type) reflect.Type {
	switch t {
	case fact.Flag:
		return reflect.TypeFor[bool]()
	case fact.Choice, fact.Name:
		return reflect.TypeFor[string]()
	case fact.Fractions, fact.Wholes:
		return reflect.TypeFor[[]float64]()
	case fact.Names:
		return reflect.TypeFor[[]string]()
	}
	return reflect.TypeFor[float64]()
}

// partsIn is a struct of every kind, each an id or a part described in place.
func partsIn() reflect.Type {
	var out []reflect.StructField
	for _, kind := range catalog.KindNames() {
		out = append(out, field(kind, reflect.TypeFor[any](), ""))
	}
	return reflect.StructOf(out)
}

// benchIn is a struct of what is measured.
func benchIn() reflect.Type {
	var out []reflect.StructField
	for _, f := range figures.Bench.Table().Fields() {
		out = append(out, field(f.Name, typeOf(f.Type), ""))
	}
	return reflect.StructOf(out)
}

// inTypes are made once, as a compiler would.
var (
	partsType   = partsIn()
	benchType   = benchIn()
	figuresType = figuresOut()
)

// ready gives a mix that encoding/json fills by its structs.
func ready() mixIn { return mixIn{Parts: reflect.New(partsType).Interface()} }

// known reads a report back, to be encoded again and again.
func known(text []byte) (reportOut, error) {
	r := reportOut{Figures: reflect.New(figuresType).Interface()}
	err := json.Unmarshal(text, &r)
	r.settle()
	return r, err
}

// settle gives numbers and lists of any the types that a program has them in.
func (r *reportOut) settle() {
	for i := range r.Findings {
		for k := range r.Findings[i].Used {
			r.Findings[i].Used[k].Value = settled(r.Findings[i].Used[k].Value)
		}
	}
	for i := range r.Usual {
		r.Usual[i].Value = settled(r.Usual[i].Value)
	}
}

func settled(v any) any {
	list, ok := v.([]any)
	if !ok || len(list) == 0 {
		return v
	}
	if _, words := list[0].(string); words {
		out := make([]string, len(list))
		for i := range list {
			out[i] = list[i].(string)
		}
		return out
	}
	out := make([]float64, len(list))
	for i := range list {
		out[i] = list[i].(float64)
	}
	return out
}

// encoder writes as the library's JSON stands: < and > as they are.
type encoder struct {
	to  bytes.Buffer
	enc *json.Encoder
}

func newEncoder() *encoder {
	e := &encoder{}
	e.enc = json.NewEncoder(&e.to)
	e.enc.SetEscapeHTML(false)
	return e
}

// encode gives the bytes until the next call.
func (e *encoder) encode(v any) ([]byte, error) {
	e.to.Reset()
	err := e.enc.Encode(v)
	return bytes.TrimSuffix(e.to.Bytes(), []byte("\n")), err
}
