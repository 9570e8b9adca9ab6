package schema

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/fact"
)

// shapes are the types whose JSON is described from themselves.
var shapes = map[string]shaped{"report": compat.Report{}, "change": compat.Change{}, "sheet": compat.Sheet{}, "outline": compat.Outline{},
	"cart report": cart.Report{}}

// Every key of every answer has a name and a sentence, and no tag is misspelt:
// one that nobody reads would say nothing.
func TestEveryKeyIsDescribed(t *testing.T) {
	for name, v := range shapes {
		seen := 0
		describedBy(t, name, reflect.TypeOf(v.Shape()), &seen)
		if seen < 20 {
			t.Errorf("%s has only %d keys", name, seen)
		}
	}
}

func describedBy(t *testing.T, path string, typ reflect.Type, seen *int) {
	t.Helper()
	switch typ.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
		describedBy(t, path, typ.Elem(), seen)
		return
	case reflect.Struct:
	default:
		return
	}
	switch v := reflect.Zero(typ).Interface().(type) {
	case worded:
		return
	case shaped:
		typ = reflect.TypeOf(v.Shape())
	}
	for i := range typ.NumField() {
		f := typ.Field(i)
		if !f.IsExported() {
			continue
		}
		*seen++
		at := path + "." + f.Name
		if name := f.Tag.Get("json"); name == "" || strings.ContainsAny(name, ",-") {
			t.Errorf("%s is called %q: every key is always there", at, name)
		}
		if f.Tag.Get("doc") == "" && f.Tag.Get("const") == "" {
			t.Errorf("%s has no doc", at)
		}
		for rest := string(f.Tag); rest != ""; {
			key, more, _ := strings.Cut(rest, `:"`)
			if !slices.Contains([]string{"json", "doc", "const", "words", "facts", "pattern", "format"}, key) {
				t.Errorf("%s has the tag %q, which nobody reads", at, key)
			}
			_, rest, _ = strings.Cut(more, `"`)
			rest = strings.TrimSpace(rest)
		}
		if f.Tag.Get("facts") == "" {
			describedBy(t, at, f.Type, seen)
		}
	}
}

// The words of an answer are those of the types and tables.
func TestWordsOfAnswers(t *testing.T) {
	report, change, sheet, cart := read(t, "report"), read(t, "change"), read(t, "sheet"), read(t, "cart-report")
	verdicts := []string{"unknown", "pass", "warn", "fail"}
	of := func(v any, keys ...string) any {
		var path []string
		for _, k := range keys {
			path = append(path, "properties", k)
			if at(v, append(path, "items")...) != nil {
				path = append(path, "items")
			}
		}
		return at(v, append(path, "enum")...)
	}
	for _, test := range []struct {
		name string
		got  any
		want []string
	}{
		{"report verdict", of(report, "verdict"), verdicts},
		{"finding", of(report, "findings", "verdict"), verdicts},
		{"scope", of(report, "scope"), []string{"cart", "bike"}},
		{"kind", of(report, "parts", "kind"), catalog.KindNames()},
		{"basis", of(report, "parts", "basis"), []string{"stated", "measured", "assumed", "usual"}},
		{"change", of(change, "new", "before"), append(verdicts, "")},
		{"use", of(cart, "lines", "use"), []string{"ambiguous", "fitted", "spare", "ignored"}},
		{"change of a cart", of(cart, "bikes", "change", "worse", "after"), append(verdicts, "")},
		{"step", of(sheet, "steps", "part"), []string{"bench", "ride", "later"}},
	} {
		var got []string
		for _, w := range list2(test.got) {
			got = append(got, w.(string))
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
	reasons := at(report, "properties", "not_applied", "items", "properties", "reason", "enum")
	if len(list2(reasons)) != 4 {
		t.Errorf("reasons %v", reasons)
	}
}

// A list of names is described as one.
func TestListOfNames(t *testing.T) {
	f := fact.Field{Name: "made_for", Type: fact.Names, Cap: 5, Doc: "Whom it is made for."}
	s := field(f)["anyOf"].([]any)[0].(object)
	items, _ := s["items"].(object)
	if s["type"] != "array" || s["maxItems"] != 5 || s["uniqueItems"] != true || items["pattern"] != name()["pattern"] {
		t.Errorf("%v", s)
	}
	if r := result(f); r["type"] != "array" || at(r, "items", "type") != "string" {
		t.Errorf("%v", r)
	}
}
