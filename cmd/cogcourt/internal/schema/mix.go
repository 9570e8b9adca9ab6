package schema

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

func mixSchema() any {
	mix, defs := mixObject()
	return head(mix, "Mix file of cogcourt", defs)
}

// mixObject is the schema of a mix and what it refers to.
func mixObject() (mix, defs object) {
	defs = object{}
	properties := object{}
	for _, k := range catalog.Kinds() {
		defs[k.Name()] = part(k, object{"id": below(), "basis": basisOf(false)}, object{"required": []string{"id"}})
		properties[k.Name()] = object{
			"description": fact.AlsoCalled(k.Doc(), k.Also()) + " An id of the catalogue, a description in place, or what is stated over the part of an id.",
			"oneOf":       []any{object{"type": "string", "pattern": "^[a-z0-9-]+$"}, object{"$ref": "#/$defs/" + k.Name()}},
		}
	}
	bench := benchObject()
	measured, _, not := fields(bench)
	for _, name := range []string{"cog_positions_mm", "step_positions_mm"} {
		measured[name].(object)["prefixItems"] = []any{zero()}
	}
	benchSchema := closed("", measured)
	if len(not) > 0 {
		benchSchema["allOf"] = not
	}
	return closed("The parts that are to work together on one bicycle.", object{
		"mix":   text("What the mix is called."),
		"scope": words("A cart is judged by what is in it, a bike lacks what is not there.", compat.ScopeCart.Words()...),
		"note":  anything("Anything that a reader should know."),
		"parts": closed("One part a kind.", properties),
		"bench": orNull(bench.Doc(), benchSchema),
	}, "mix", "parts"), defs
}

// below names the part that the other fields are stated over: by an id, or by the ids
// of usual classes that make one part together.
func below() object {
	class := object{"type": "string", "pattern": "^" + catalog.UsualPrefix + "[a-z0-9-]+$"}
	return object{
		"description": "The part that all else is stated over, by its id, or the usual classes that make it together.",
		"oneOf":       []any{object{"type": "string", "pattern": "^[a-z0-9-]+$"}, object{"type": "array", "items": class, "minItems": 1, "uniqueItems": true}},
	}
}

func cartSchema() any {
	mix, defs := mixObject()
	out := entries("What is ordered, and the bicycles that it is for.", cart.Entries())
	line := entries("One line.", cart.LineEntries())
	var names []any
	for _, e := range cart.LineEntries() {
		if e.Names {
			names = append(names, object{"required": []string{e.Name}})
		}
	}
	line["anyOf"] = names
	for name, items := range map[string]object{"bikes": mix, "lines": line} {
		out["properties"].(object)[name].(object)["items"] = items
	}
	return head(out, "Cart file of cogcourt", defs)
}

// entries is the schema of an object with these entries.
func entries(doc string, list []cart.Entry) object {
	properties := object{}
	var required []string
	for _, e := range list {
		properties[e.Name] = entry(e)
		if e.Required {
			required = append(required, e.Name)
		}
	}
	return closed(doc, properties, required...)
}

// entry is the schema of one entry.
func entry(e cart.Entry) object {
	switch e.Type {
	case source.Text:
		return text(e.Doc)
	case source.Number:
		return object{"type": "integer", "minimum": e.Min, "maximum": e.Max, "description": e.Doc}
	case source.List:
		return object{"type": "array", "maxItems": e.Max, "description": e.Doc}
	}
	return anything(e.Doc)
}

// benchObject finds the bench among the objects of the vocabulary.
func benchObject() *rules.Object { return objectOf("bench") }

func objectOf(name string) *rules.Object {
	v, err := compat.Vocabulary()
	if err != nil {
		panic(fmt.Sprintf("schema: %v", err)) // the program's own tables clash
	}
	i, _ := v.Index(name)
	return v.Objects()[i]
}
