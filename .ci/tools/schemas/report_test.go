package schemas

import (
	"bytes"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/cogcourt/catalog/demo"
)

// mixes are texts whose reports hold what those of the demo do not: tolerances,
// a decision, an error, nothing at all.
var mixes = map[string]string{
	"a tolerance": `{mix: Close, parts: {cassette: {cogs_t: [11, 13, 15, 17, 19, 21, 23, 25, 27], pitch_mm: 4.34 ± 0.2},
  rear_shifter: {actuation: cable, pull_mm: 2.5 ± 0.1, clicks: 8}, rear_derailleur: {actuation: cable, ratio: 1.7 ± 0.05}}}`,
	"nothing": `{mix: Nothing, parts: {cell: {form: cr2032}}}`,
	"a bike":  `{mix: Half a bike, scope: bike, parts: {chain: {speeds: 12}}, bench: {chain_wear_percent: 0.9}}`,
}

// reports gives the reports of the demo and of the mixes above, each by itself.
func reports(t *testing.T) map[string]any {
	t.Helper()
	out := map[string]any{}
	read := func(name string, text []byte) {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = v
	}
	for _, name := range demo.Mixes() {
		read(name, tool(t, "", "check", "--format", "json", "demo:"+name))
	}
	for name, text := range mixes {
		read(name, tool(t, text, "check", "--format", "json", "-"))
	}
	return out
}

// TestReports holds every report against the schema of reports.
func TestReports(t *testing.T) {
	s := schema(t, "report")
	text := ""
	for name, r := range reports(t) {
		if err := s.Validate(r); err != nil {
			t.Errorf("%s: %s", name, brief(err))
		}
		text += string(jsonText(t, r))
	}
	for _, part := range []string{`"worst":{"`, `"marginal":{"`, `"absent":["`, `"needs":[{"`, `"missing":[{"`, `"reason":"absent"`, `"assumed":true`} {
		if !strings.Contains(text, part) {
			t.Errorf("no report holds %s", part)
		}
	}
	many := tool(t, "", "check", "--format", "json", "demo:ferry-motor", "demo:club-two-ring")
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(many))
	if list, ok := v.([]any); err != nil || !ok || len(list) != 2 {
		t.Fatalf("two mixes give %T, %v", v, err)
	}
	for _, r := range v.([]any) {
		if err := s.Validate(r); err != nil {
			t.Error(brief(err))
		}
	}
}

// carts are texts whose reports hold what that of the demo's order does not: a
// bicycle that the lines make, no bicycle at all, a spare line.
var carts = map[string]string{
	"nothing": `{cart: Nothing, note: [anything], bikes: [{mix: As it is, parts: {}}], lines: []}`,
	"ours": `lines: [{sku: WC-2012, bike: ours, quantity: 3, name: A chain, note: soon}, {sku: WC-2012, bike: ours}, {id: tiller-bar-flat, bike: hers}, ` +
		`{id: lantern-12-10-51, bike: ours}]`,
	"ambiguous": `{cart: Either, bikes: [{mix: A, scope: bike, parts: {chain: {speeds: 12}}, bench: {chain_wear_percent: 0.9}}, {mix: B, parts: {cell: {form: cr2032}}}], ` +
		`lines: [{id: tiller-bar-flat}, {sku: bell}, {id: towrope-12, bike: C}, {id: towrope-9, bike: A}]}`,
}

// answers gives what the command prints of one sort, by what was asked: the
// changes between mixes of the demo, the setup sheets of all mixes, or the
// reports of all carts.
func answers(t *testing.T, sort string) map[string]any {
	t.Helper()
	out := map[string]any{}
	read := func(name, stdin string, args ...string) {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(tool(t, stdin, append(args, "--format", "json")...)))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = v
	}
	if sort == "cart-report" {
		for _, name := range demo.Orders() {
			read(name, "", "cart", "demo:"+name)
		}
		for name, text := range carts {
			read(name, text, "cart", "-")
		}
		return out
	}
	last := ""
	for _, name := range demo.Mixes() {
		switch {
		case sort == "sheet":
			read(name, "", "sheet", "demo:"+name)
		case last != "":
			read(last+" to "+name, "", "compare", "demo:"+last, "demo:"+name)
		}
		last = name
	}
	if sort == "change" { // where all is as before
		read(last+" to itself", "", "compare", "demo:"+last, "demo:"+last)
	}
	for name, text := range mixes {
		if sort == "sheet" {
			read(name, text, "sheet", "-")
		} else {
			read(name+" to "+last, text, "compare", "-", "demo:"+last)
			read(last+" to "+name, text, "compare", "demo:"+last, "-")
		}
	}
	return out
}

// TestOtherAnswers holds every change, sheet and report of a cart against its schema.
func TestOtherAnswers(t *testing.T) {
	for sort, parts := range map[string][]string{
		"change":      {`"new":[{`, `"worse":[{`, `"better":[{`, `"gone":[{`, `"same":[{`, `"causes":[["`, `"before":""`, `"after":""`},
		"cart-report": {`"use":"fitted"`, `"use":"spare"`, `"use":"ambiguous"`, `"use":"ignored"`, `"lines":[[`, `"bikes":[]`, `"change":{`},
		"sheet":       {`"steps":[{`, `"assumed":[{`, `"missing":[{`, `"part":"later"`},
	} {
		s, text := schema(t, sort), ""
		for name, v := range answers(t, sort) {
			if err := s.Validate(v); err != nil {
				t.Errorf("%s %s: %s", sort, name, brief(err))
			}
			text += string(jsonText(t, v))
		}
		for _, part := range parts {
			if !strings.Contains(text, part) {
				t.Errorf("no %s holds %s", sort, part)
			}
		}
	}
}

// TestAnswerSchemasAreStrict holds that an answer that lacks a key, has another
// one or a null where none may be, is refused: every key is always there and no
// list is null.
func TestAnswerSchemasAreStrict(t *testing.T) {
	for sort, least := range map[string]int{"report": 40, "change": 25, "cart-report": 90, "sheet": 20} {
		all := reports
		if sort != "report" {
			all = func(t *testing.T) map[string]any { return answers(t, sort) }
		}
		seen := map[string]bool{} // one finding is like another
		each := all(t)
		for _, name := range slices.Sorted(maps.Keys(each)) { // which comes first decides what is spoilt
			holdsStrictly(t, sort, name, each[name], seen)
		}
		if len(seen) < least {
			t.Errorf("%s: only %d keys were tried", sort, len(seen))
		}
	}
}

// holdsStrictly spoils an answer key by key.
func holdsStrictly(t *testing.T, sort, name string, r any, seen map[string]bool) {
	s := schema(t, sort)
	empty := []string{".adjusted", ".marginal", ".leans"}           // null where there is nothing to say
	free := []string{".figures.", ".worst.", ".basis.", ".values."} // what these hold depends on the mix
	number := regexp.MustCompile(`\d+`)
	for _, place := range spots(r, "") {
		isFree := false
		for _, f := range free {
			isFree = isFree || strings.Contains(place.path, f)
		}
		alike := number.ReplaceAllString(place.path, "")
		if place.object == nil || isFree || seen[alike] {
			continue
		}
		seen[alike] = true
		old := place.get()
		delete(place.object, place.key)
		if s.Validate(r) == nil {
			t.Errorf("%s without %s is accepted", name, place.path)
		}
		place.object[place.key] = nil
		mayBeNull := slices.ContainsFunc(empty, func(key string) bool { return strings.HasSuffix(place.path, key) })
		if old != nil && s.Validate(r) == nil && !mayBeNull {
			t.Errorf("%s with null for %s is accepted", name, place.path)
		}
		place.object[place.key] = old
		place.object["unheard_of"] = 1
		if s.Validate(r) == nil {
			t.Errorf("%s with another key beside %s is accepted", name, place.path)
		}
		delete(place.object, "unheard_of")
	}
}
