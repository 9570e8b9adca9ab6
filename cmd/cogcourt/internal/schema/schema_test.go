package schema

import (
	"encoding/json"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// read gives a schema as an editor gets it.
func read(t *testing.T, name string) map[string]any {
	t.Helper()
	s, ok := Of(name)
	if !ok {
		t.Fatalf("there is no schema of %s", name)
	}
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// at follows keys into a schema; nil where one is not there.
func at(v any, keys ...string) any {
	for _, k := range keys {
		object, _ := v.(map[string]any)
		v = object[k]
	}
	return v
}

// TestEveryFieldIsThere holds that each field stands in the schemas of parts, of
// mixes and, as a fact of an example, of rules, with what its table says of it.
func TestEveryFieldIsThere(t *testing.T) {
	parts, mix, rules := read(t, "parts"), read(t, "mix"), read(t, "rules")
	given := at(rules, "properties", "rules", "items", "properties", "examples", "items", "properties", "given", "properties")
	for _, kind := range catalog.Kinds() {
		places := map[string]any{
			"parts": at(parts, "$defs", kind.Name(), "properties"),
			"mix":   at(mix, "$defs", kind.Name(), "properties"),
			"rules": at(given, kind.Name(), "properties"),
		}
		for where, properties := range places {
			holdsFields(t, where, kind, properties)
		}
		if at(mix, "properties", "parts", "properties", kind.Name()) == nil {
			t.Errorf("a mix cannot have a %s", kind.Name())
		}
	}
	for _, name := range []string{"bench", "figures"} {
		holdsFields(t, "rules", objectOf(name), at(given, name, "properties"))
	}
}

func holdsFields(t *testing.T, where string, object *rules.Object, properties any) {
	t.Helper()
	for _, f := range object.Table().Fields() {
		s := at(properties, f.Name)
		if s == nil {
			t.Errorf("%s: %s.%s is missing", where, object.Name(), f.Name)
			continue
		}
		if at(s, "description") != describe(f) {
			t.Errorf("%s: %s.%s has another description", where, object.Name(), f.Name)
		}
		// The first of several forms is the one that an editor proposes.
		if forms := list2(at(s, "anyOf")); len(forms) > 0 && (f.Type == fact.Choice || f.Type == fact.Names) {
			s = forms[0]
		}
		var choices []string
		for _, c := range list2(at(s, "enum")) {
			choices = append(choices, c.(string))
		}
		if f.Type == fact.Choice && !slices.Equal(choices, f.Choices) {
			t.Errorf("%s: %s.%s may be %v", where, object.Name(), f.Name, choices)
		}
		if longest, _ := at(s, "maxItems").(float64); f.Cap > 0 && int(longest) != f.Cap {
			t.Errorf("%s: %s.%s holds %v entries", where, object.Name(), f.Name, longest)
		}
	}
}

func list2(v any) []any {
	list, _ := v.([]any)
	return list
}

// TestEveryEntryIsThere holds that each entry of a cart stands in its schema with
// its limits, and that its bicycles are mixes.
func TestEveryEntryIsThere(t *testing.T) {
	s, mix := read(t, "cart"), read(t, "mix")
	for _, place := range []struct {
		object  any
		entries []cart.Entry
	}{{s, cart.Entries()}, {at(s, "properties", "lines", "items"), cart.LineEntries()}} {
		properties, _ := at(place.object, "properties").(map[string]any)
		if len(properties) != len(place.entries) || at(place.object, "additionalProperties") != false {
			t.Errorf("%v for %v", properties, place.entries)
		}
		for _, e := range place.entries {
			is := properties[e.Name]
			if at(is, "description") != e.Doc {
				t.Errorf("%s has another description", e.Name)
			}
			limit, _ := limitOf(is).(float64)
			if int(limit) != e.Max {
				t.Errorf("%s goes to %v, not to %d", e.Name, limit, e.Max)
			}
		}
	}
	bike := at(s, "properties", "bikes", "items", "properties")
	if !reflect.DeepEqual(bike, at(mix, "properties")) || !reflect.DeepEqual(at(s, "$defs"), at(mix, "$defs")) {
		t.Error("a bicycle of a cart is no mix")
	}
}

// limitOf is the highest number or the longest list.
func limitOf(s any) any {
	if limit := at(s, "maximum"); limit != nil {
		return limit
	}
	return at(s, "maxItems")
}

// TestHeads holds that each schema says its draft and its title, and that names
// and schemas go together.
func TestHeads(t *testing.T) {
	for _, name := range Names() {
		s := read(t, name)
		if s["$schema"] != draft || s["title"] == "" || s["additionalProperties"] != false {
			t.Errorf("%s: %v, %v", name, s["$schema"], s["title"])
		}
	}
	if _, ok := Of("bicycle"); ok {
		t.Error("there is a schema of bicycles")
	}
}

// TestNamesField holds the shape of a list of names, and that editions count from 1.
func TestNamesField(t *testing.T) {
	whole := field(fact.Field{Name: "fits", Type: fact.Names, Cap: 3, Doc: "What it fits."})
	forms := whole["anyOf"].([]any)
	out, single := forms[0].(object), forms[1].(object)
	if out["type"] != "array" || out["uniqueItems"] != true || out["maxItems"] != 3 || out["minItems"] != 1 || whole["description"] != "What it fits." {
		t.Errorf("a list of names is %v", out)
	}
	pattern := field(fact.Field{Type: fact.Name})["pattern"]
	if at(map[string]any(out), "items") == nil || out["items"].(object)["pattern"] != pattern || single["pattern"] != pattern {
		t.Errorf("its entries are %v, and one alone %v", out["items"], single)
	}
	if least := at(read(t, "rules"), "properties", "edition", "minimum"); least != 1.0 {
		t.Errorf("the least edition is %v", least)
	}
}

// TestKnownNames holds that a schema shows the known words with what they are, and
// takes other names as well; of a closed list it takes the other spellings.
func TestKnownNames(t *testing.T) {
	properties := at(read(t, "parts"), "$defs", "hub", "properties")
	forms := list2(at(properties, "freehub", "anyOf"))
	if len(forms) != 2 || at(forms[1], "pattern") == nil {
		t.Fatalf("the body is %v", at(properties, "freehub"))
	}
	first := list2(at(forms[0], "oneOf"))[0]
	f, _ := catalog.Hub.Table().Index("freehub")
	if k := catalog.Hub.Table().Fields()[f].Known[0]; at(first, "const") != k.Name || at(first, "description") != k.Doc {
		t.Errorf("the first known body is %v", first)
	}
	if class := list2(at(properties, "body_class", "anyOf")); len(class) != 2 || at(class[1], "const") != 7.0 {
		t.Errorf("a body for 7 may be %v", class)
	}
	axle := list2(at(properties, "axle", "anyOf"))
	if len(axle) != 2 || !regexp.MustCompile(at(axle[1], "pattern").(string)).MatchString("skewer") {
		t.Errorf("an axle may be %v", axle)
	}
}

// TestOtherNamesAreDescribed holds that who looks for a name of the trade in an editor
// finds the kind and the field that it stands for.
func TestOtherNamesAreDescribed(t *testing.T) {
	for path, want := range map[string]string{
		"rear_derailleur": "rear mech", "rear_derailleur.guide_pulley_t": "jockey wheel", "chain_connector": "quick link", "hub.over_locknut_mm": "axle spacing",
	} {
		kind, field, isField := strings.Cut(path, ".")
		for _, name := range []string{"parts", "mix"} {
			of := at(read(t, name), "$defs", kind)
			if isField {
				of = at(of, "properties", field)
			}
			if doc, _ := at(of, "description").(string); !strings.Contains(doc, " Also called ") || !strings.Contains(doc, want) {
				t.Errorf("%s of %s says %q", path, name, doc)
			}
		}
	}
	chain, _ := at(read(t, "mix"), "properties", "parts", "properties", "chain_connector", "description").(string)
	wear, _ := at(read(t, "mix"), "properties", "bench", "anyOf").([]any)
	if text, err := json.Marshal(wear); err != nil || !strings.Contains(string(text), "Also called stretch") || !strings.Contains(chain, "master link") {
		t.Errorf("the bench is %s (%v), a connector %q", text, err, chain)
	}
}
