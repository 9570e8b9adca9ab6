package expr

import (
	"slices"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// woods are words of a field of names, and spellings of them.
func woods() []fact.Known {
	return []fact.Known{{Name: "oak-9", Doc: "hard", Also: []string{"9-oak"}}, {Name: "ash", Doc: "light"}, {Name: "old-timber", Doc: "found"}}
}

func woodLanguage(t *testing.T) *Language {
	t.Helper()
	l, err := NewLanguage(
		NewObject("mast", "The mast.", fact.NewTable(
			fact.Field{Name: "wood", Type: fact.Name, Known: woods()}, fact.Field{Name: "spare", Type: fact.Name, Known: woods()},
			fact.Field{Name: "woods", Type: fact.Names, Cap: 4, Known: woods()}, fact.Field{Name: "maker", Type: fact.Name},
			fact.Field{Name: "rig", Type: fact.Choice, Choices: []string{"gaff", "lug"}}, fact.Field{Name: "height_m", Type: fact.Fraction})))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestKnown holds what known() says of stated, strange and unstated names, by the
// closures and by the engine.
func TestKnown(t *testing.T) {
	l := woodLanguage(t)
	f := NewFrames(l, 0).Open()
	defer f.Close()
	one := func(word string) fact.Value { return fact.Word(word) }
	for _, row := range []struct {
		text   string
		values map[string]fact.Value
		want   State
	}{
		{"known(mast.wood)", map[string]fact.Value{"wood": one("oak-9")}, True},
		{"known(mast.wood)", map[string]fact.Value{"wood": one("oak-8")}, False},
		{"!known(mast.wood)", map[string]fact.Value{"wood": one("heron")}, True},
		{"known(mast.wood)", nil, Undecided},
		{"known(mast.wood) && known(mast.spare)", map[string]fact.Value{"spare": one("heron")}, False},
		{"known(mast.woods)", map[string]fact.Value{"woods": fact.Texts("ash", "oak-9")}, True},
		{"known(mast.woods)", map[string]fact.Value{"woods": fact.Texts("ash", "heron")}, False},
		{"known(mast.woods)", nil, Undecided},
	} {
		f.Put(0, set(l.objects[0], row.values))
		f.Renew()
		p := must(t, l.NewScope(), row.text, Condition)
		if got := p.Decide(f); got.State != row.want {
			t.Errorf("%s of %v: %v, want %v", row.text, row.values, got.State, row.want)
		}
		if v, ok := p.Quickly(f); ok && v != (row.want == True) {
			t.Errorf("%s of %v: the closures say %v", row.text, row.values, v)
		}
		if v, ok := p.exec(f).Value().(bool); (row.want == True || row.want == False) && (!ok || v != (row.want == True)) {
			t.Errorf("%s of %v: the engine says %v", row.text, row.values, p.exec(f))
		}
	}
	f.Put(0, set(l.objects[0], map[string]fact.Value{"wood": one("ash")}))
	f.Renew()
	if _, ok := must(t, l.NewScope(), "known(mast.wood)", Condition).Quickly(f); !ok {
		t.Error("the closures leave a stated name to the engine")
	}
	if got := l.Name(must(t, l.NewScope(), "known(mast.woods)", Condition).Reads()[0]); got != "mast.woods" {
		t.Errorf("known() reads %s", got)
	}
}

// TestKnownRefused holds what known() is refused for, and at which place.
func TestKnownRefused(t *testing.T) {
	s := woodLanguage(t).NewScope()
	for text, want := range map[string]Issue{
		"known(mast.maker)":           {At: 0, Text: "known() cannot tell of mast.maker", Hint: "it has no table of known words; compare it with stated ones"},
		"  known(mast.rig)":           {At: 2, Text: "known() cannot tell of mast.rig", Hint: "it takes no other words than its own; leave known() out"},
		"known(mast.height_m)":        {At: 0, Text: "known() cannot tell of mast.height_m", Hint: "it has no table of known words; compare it with stated ones"},
		"known('ash')":                {At: 0, Text: "known() takes one kind.field", Hint: "write known(kind.field)"},
		"known(mast)":                 {At: 0, Text: "known() takes one kind.field", Hint: "write known(kind.field)"},
		"known(mast.wood, 1)":         {At: 0, Text: "known() takes one kind.field", Hint: "write known(kind.field)"},
		"known(mast.wod)":             {At: 11, Text: `mast has no field "wod"`, Hint: `did you mean "wood"?`},
		"mast.wood == '9-oak'":        {At: 13, Text: `mast.wood is never "9-oak"`, Hint: `it is kept as "oak-9"`},
		"mast.wood == 'old-timbre'":   {At: 13, Text: `mast.wood is never "old-timbre"`, Hint: `did you mean "old-timber"?`},
		"'oldtimber' in mast.woods":   {At: 0, Text: `mast.woods is never "oldtimber"`, Hint: `did you mean "old-timber"?`},
		"mast.wood in ['ash','9oak']": {At: 20, Text: `mast.wood is never "9oak"`, Hint: `did you mean "oak-9"?`},
	} {
		p, issues := s.Compile(text, Condition)
		if p != nil || len(issues) != 1 || issues[0].At != want.At || issues[0].Text != want.Text || issues[0].Hint != want.Hint {
			t.Errorf("%s: %+v, want %+v", text, issues, want)
		}
	}
	for _, text := range []string{"mast.wood == 'oak-8'", "mast.wood == 'heron'", "mast.maker == 'oldtimber'", "mast.rig == 'lug'"} {
		must(t, s, text, Condition)
	}
}

// TestKnownMutants holds that known() itself is kept, and that no mutant asks it of
// what it cannot tell of.
func TestKnownMutants(t *testing.T) {
	s := woodLanguage(t).NewScope()
	for text, want := range map[string][]string{
		"!known(mast.wood)": {"the ! is dropped"},
		"known(mast.wood) && mast.maker == 'ann'": {"&& becomes ||", "the term mast.maker == \"ann\" is dropped", "the term known(mast.wood) is dropped",
			"== becomes !=", "'ann' becomes 'other-ann'"},
		"known(mast.wood) && mast.spare == 'ash'": {"&& becomes ||", "the term mast.spare == \"ash\" is dropped", "the term known(mast.wood) is dropped",
			"== becomes !=", "'ash' becomes 'other-ash'", "mast.wood and mast.spare are exchanged"},
		"mast.wood == 'old-timber'": {"== becomes !=", "'old-timber' becomes 'other-old-timber'"},
	} {
		mutants, err := s.Mutants(text)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, m := range mutants {
			got = append(got, m.Change)
			must(t, s, m.Text, Condition)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestKnownCost holds that the bound counts the words of the table, and of a list
// each of its names.
func TestKnownCost(t *testing.T) {
	s := woodLanguage(t).NewScope()
	one := must(t, s, "known(mast.wood)", Condition).Cost()
	in := must(t, s, "mast.wood in ['oak-9', 'ash', 'old-timber']", Condition).Cost()
	list := must(t, s, "known(mast.woods)", Condition).Cost()
	if one != in || list < 4*one {
		t.Errorf("a name costs %d, written out %d, a list of 4 costs %d", one, in, list)
	}
}
