package compat_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
)

// zeros are what a program may hold before it has filled it in.
func zeros() map[string]any {
	return map[string]any{
		"Report": compat.Report{}, "Change": compat.Change{}, "Sheet": compat.Sheet{}, "Checker": &compat.Checker{}, "Mix": compat.Mix{},
		"Finding": compat.Finding{}, "ChangedFinding": compat.ChangedFinding{}, "Standing": compat.Standing{}, "RuleSet": compat.RuleSet{},
		"Figures": figures.Figures{}, "Facts": figures.Facts{}, "Part": catalog.Part{}, "Catalog": &catalog.Catalog{},
		"cart.Report": cart.Report{}, "cart.LineResult": cart.LineResult{}, "Live": &cart.Live{}, "Cart": cart.Cart{},
	}
}

// Every method of a zero value that takes nothing answers, and none panics.
func TestZeroValuesAnswer(t *testing.T) {
	called := 0
	for name, v := range zeros() {
		value := reflect.ValueOf(v)
		for i := range value.NumMethod() {
			method := value.Method(i)
			if method.Type().NumIn() != 0 {
				continue
			}
			called++
			func() {
				defer func() {
					if p := recover(); p != nil {
						t.Errorf("%s.%s: %v", name, value.Type().Method(i).Name, p)
					}
				}()
				method.Call(nil)
			}()
		}
	}
	if called < 50 {
		t.Errorf("only %d methods were called", called)
	}
}

// What a shop marshals unfilled is JSON without a null where a list belongs, and
// never a pass.
func TestZeroValuesMarshal(t *testing.T) {
	for _, v := range []any{compat.Report{}, compat.Change{}, compat.Sheet{}, cart.Report{}, []compat.Report{{}}} {
		text, err := json.Marshal(v)
		if err != nil {
			t.Errorf("%T: %v", v, err)
			continue
		}
		if strings.Contains(string(text), "null") || strings.Contains(string(text), `"pass"`) {
			t.Errorf("%T: %s", v, text)
		}
	}
}

// Whoever uses zero values together gets what nothing comes to.
func TestZeroValuesTogether(t *testing.T) {
	c := checker(t)
	m, err := compat.NewMix("a chain", compat.ScopeCart, part(t, "chain", map[string]any{"speeds": 12}))
	if err != nil {
		t.Fatal(err)
	}
	for name, r := range map[string]compat.Report{"no mix": c.Check(compat.Mix{}), "no rules": (&compat.Checker{}).Check(m), "nothing": (&compat.Checker{}).Check(compat.Mix{})} {
		if r.Verdict != rules.Unknown || r.Complete || len(r.Findings()) != 0 {
			t.Errorf("%s: %s, complete %v, %d findings", name, r.Verdict, r.Complete, len(r.Findings()))
		}
	}
	for name, change := range map[string]compat.Change{
		"from nothing": compat.Compare(compat.Report{}, c.Check(m)), "to nothing": compat.Compare(c.Check(m), compat.Report{}),
		"nothing": compat.Compare(compat.Report{}, compat.Report{}), "explained": compat.Explain(compat.Report{}, c.Check(m), nil),
	} {
		if len(change.Worse)+len(change.Better) != 0 {
			t.Errorf("%s: %+v", name, change)
		}
		if _, err := json.Marshal(change); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if s := (&compat.Checker{}).Sheet(m); len(s.Steps) != 0 || s.Verdict != rules.Unknown {
		t.Errorf("a sheet without rules has %d steps", len(s.Steps))
	}
	spans, err := (&compat.Checker{}).Values(m, "chain.outer_width_mm")
	if err != nil || len(spans) != 1 || spans[0].From != 3.5 || spans[0].To != 14 || spans[0].Verdict != rules.Unknown || spans[0].Alone != rules.Unknown {
		t.Errorf("without rules a width is %+v, %v", spans, err)
	}
	if _, err := (&cart.Live{}).CheckCart(t.Context(), "cart.yaml", []byte("lines: []\n")); err == nil {
		t.Error("a Live without rules judges a cart")
	}
	if _, err := (cart.Cart{}).Check(t.Context(), &compat.Checker{}, nil); err == nil {
		t.Error("a cart without a catalogue is judged")
	}
	report, err := (cart.Cart{Lines: []cart.Line{{ID: "x"}}}).Check(t.Context(), &compat.Checker{}, &catalog.Catalog{})
	if err != nil || report.Verdict != rules.Unknown || report.Complete {
		t.Errorf("%+v, %v", report, err)
	}
}

// part makes a part.
func part(t *testing.T, kind string, fields map[string]any) catalog.Part {
	t.Helper()
	p, err := catalog.New(kind, fields)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
