package schema

import (
	"encoding/json"
	"fmt"
	"reflect"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// What cogcourt prints as JSON is described from the types that are printed, so
// that no key can be forgotten here: see compat.Report.Shape for their tags.

// shaped is a type whose JSON has the form of another one.
type shaped interface{ Shape() any }

// worded is a type of which each value is one of a few words.
type worded interface{ Words() []string }

// answer is the schema of what is printed for a value.
func answer(v shaped, doc, title string) any {
	out := formOf(reflect.TypeOf(v))
	out["description"] = doc
	return head(out, title, object{})
}

// formOf is the schema of a type's JSON.
func formOf(t reflect.Type) object {
	if t.Kind() == reflect.Pointer {
		return orNull("", formOf(t.Elem()))
	}
	switch v := reflect.Zero(t).Interface().(type) {
	case shaped:
		return formOf(reflect.TypeOf(v.Shape()))
	case worded:
		return object{"type": "string", "enum": v.Words()}
	}
	switch t.Kind() {
	case reflect.Struct:
		return formOfStruct(t)
	case reflect.Slice:
		return object{"type": "array", "items": formOf(t.Elem())}
	case reflect.Array:
		return object{"type": "array", "items": formOf(t.Elem()), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Map:
		return object{"type": "object", "additionalProperties": formOf(t.Elem())}
	case reflect.String:
		return object{"type": "string"}
	case reflect.Bool:
		return object{"type": "boolean"}
	case reflect.Int, reflect.Int64:
		return object{"type": "integer"}
	case reflect.Float64:
		return object{"type": "number"}
	case reflect.Interface: // a fact's value
		return object{"type": []string{"number", "string", "boolean", "array"}}
	}
	panic(fmt.Sprintf("schema: nothing is known of the JSON of a %s", t)) // a mistake in the program
}

// formOfStruct is the schema of an object with every key and no other.
func formOfStruct(t reflect.Type) object {
	properties := object{}
	var names []string
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue // it is not printed
		}
		name := f.Tag.Get("json")
		names = append(names, name)
		properties[name] = formOfField(f)
	}
	return closed("", properties, names...)
}

// formOfField is the schema of a field, by its type and its tags.
func formOfField(f reflect.StructField) object {
	var out object
	if value, ok := f.Tag.Lookup("const"); ok {
		out = object{"const": constant(value)}
	} else if list, ok := f.Tag.Lookup("words"); ok {
		out = object{"type": "string", "enum": wordsOf(list)}
	} else if _, ok := f.Tag.Lookup("facts"); ok {
		out = closed("", figures())
	} else {
		out = formOf(f.Type)
	}
	for tag, key := range map[string]string{"doc": "description", "pattern": "pattern", "format": "format"} {
		if text, ok := f.Tag.Lookup(tag); ok {
			out[key] = text
		}
	}
	return out
}

// constant is the value of a tag: a number, or a word.
func constant(text string) any {
	if n := json.Number(text); json.Valid([]byte(n)) {
		return n
	}
	return text
}

// wordsOf gives a list of words by the name that a tag has for it.
func wordsOf(list string) []string {
	switch list {
	case "kind":
		return catalog.KindNames()
	case "basis":
		return catalog.Bases()
	case "scope":
		return compat.ScopeCart.Words()
	case "reason":
		return rules.ReasonWhen.Words()
	case "standing":
		return compat.Standing{}.Words()
	case "use":
		return cart.Fitted.Words()
	case "step part":
		return rules.Sections()
	}
	panic(fmt.Sprintf("schema: there is no list of words %q", list)) // a mistake in the program
}

// figures are the figures as a report has them.
func figures() object {
	out := object{}
	for _, f := range compat.FigureFields() {
		out[f.Name] = result(f)
	}
	return out
}

// result is a figure as a report has it.
func result(f fact.Field) object {
	out := object{"description": f.Doc}
	switch f.Type {
	case fact.Fractions, fact.Wholes:
		out["type"], out["items"] = "array", object{"type": "number"}
	case fact.Names:
		out["type"], out["items"] = "array", object{"type": "string"}
	case fact.Flag:
		out["type"] = "boolean"
	case fact.Choice, fact.Name:
		out["type"] = "string"
	default:
		out["type"] = "number"
	}
	return out
}
