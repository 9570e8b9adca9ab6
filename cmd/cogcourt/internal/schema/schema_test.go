package schema

import (
	"encoding/json"
	"reflect"
	"slices"
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
	out := field(fact.Field{Name: "fits", Type: fact.Names, Cap: 3, Doc: "What it fits."})
	if out["type"] != "array" || out["uniqueItems"] != true || out["maxItems"] != 3 || out["minItems"] != 1 || out["description"] != "What it fits." {
		t.Errorf("a list of names is %v", out)
	}
	if at(map[string]any(out), "items") == nil || out["items"].(object)["pattern"] != field(fact.Field{Type: fact.Name})["pattern"] {
		t.Errorf("its entries are %v", out["items"])
	}
	if least := at(read(t, "rules"), "properties", "edition", "minimum"); least != 1.0 {
		t.Errorf("the least edition is %v", least)
	}
}
