package picture_test

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// all is everything that a reader sees of an outline.
func all(o compat.Outline) string {
	var b strings.Builder
	for _, p := range everything(o) {
		fmt.Fprintln(&b, p.SVG, p.Caption, p.Table)
	}
	return b.String() + strings.Join(picture.Plot(o), "\n")
}

// copied is an outline that can be changed without the other.
func copied(t *testing.T, o compat.Outline) compat.Outline {
	t.Helper()
	text, err := json.Marshal(o)
	if err != nil {
		t.Fatal(err)
	}
	var out compat.Outline
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestEveryFieldIsRead changes an outline in each of its fields, and looks whether any
// drawing, caption, table or plot of the demo is another one then: what nobody reads has
// no place there. It marshals and comes back the same, too.
func TestEveryFieldIsRead(t *testing.T) {
	read := map[string]bool{}
	for _, name := range append(demo.Mixes(), "nothing") {
		o := (compat.Report{}).Outline()
		if name != "nothing" {
			o = demoOutline(t, name)
		}
		o.Guide.Measured = o.Guide.Gap // the demo's are not measured
		before := all(o)
		if all(copied(t, o)) != before {
			t.Errorf("%s: another one after JSON", name)
		}
		changed := copied(t, o)
		eachField(reflect.ValueOf(&changed).Elem(), "Outline", func(field string) {
			if !read[field] {
				read[field] = all(changed) != before
			}
		})
	}
	for field, is := range read {
		if !is {
			t.Errorf("nothing that is drawn hangs on %s", field)
		}
	}
	if len(read) < 50 {
		t.Errorf("only %d fields were tried", len(read))
	}
}

// eachField changes one field after another and puts it back. Numbers are tried by
// their value, and whether one is known, assumed or usual as fields of their type.
func eachField(v reflect.Value, name string, try func(field string)) {
	with := func(field string, to any) {
		old := reflect.ValueOf(v.Interface())
		v.Set(reflect.ValueOf(to).Convert(v.Type()))
		try(field)
		v.Set(old)
	}
	switch v.Kind() {
	case reflect.Float64:
		with(name, v.Float()*1.07+0.01)
		with(name, v.Float()+1.07) // a count or a place in a list
	case reflect.Bool:
		with(name, !v.Bool())
	case reflect.String:
		with(name, v.String()+" changed")
	case reflect.Uint8: // a verdict
		with(name, (v.Uint()+1)%4)
	case reflect.Slice:
		for i := range v.Len() {
			eachField(v.Index(i), name+"[]", try)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			field := name + "." + v.Type().Field(i).Name
			if v.Type() == reflect.TypeFor[compat.Number]() && i > 0 {
				field = "Number." + v.Type().Field(i).Name
			}
			eachField(v.Field(i), field, try)
		}
	}
}
