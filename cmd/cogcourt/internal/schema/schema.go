// Package schema prints JSON Schemas (draft 2020-12) of cogcourt's files and of
// what it answers, made from the same field tables and types that read and print
// them. Editors use them
// to complete names and to show what a field means while a file is written.
//
// A schema says less than the reader: not that a list rises, that it has one
// entry fewer than another, that a name exists or an expression can be read. What
// a schema refuses, the reader refuses too.
package schema

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// object is a JSON object; encoding/json writes its keys in order.
type object = map[string]any

const draft = "https://json-schema.org/draft/2020-12/schema"

// Names lists what there is a schema of.
func Names() []string {
	return []string{"parts", "mix", "cart", "rules", "report", "change", "cart-report", "sheet",
		"values", "ask", "fit", "swap", "audit", "outline"}
}

// Of gives a schema by name; false for a name that is not there.
func Of(name string) (any, bool) {
	switch name {
	case "parts":
		return partsSchema(), true
	case "mix":
		return mixSchema(), true
	case "cart":
		return cartSchema(), true
	case "rules":
		return rulesSchema(), true
	case "report":
		return answer(compat.Report{}, "What cogcourt says of one mix.", "Report of cogcourt"), true
	case "change":
		return answer(compat.Change{}, "What another mix makes new, worse, better or gone.", "Comparison of cogcourt"), true
	case "cart-report":
		return answer(cart.Report{}, "What becomes of the lines of a cart, and what they change on which bicycle.", "Cart report of cogcourt"), true
	case "values":
		return answer(compat.Valued{}, "Over which values of one fact a mix passes, warns, fails or stays open.", "Values of cogcourt"), true
	case "ask":
		return answer(compat.Asked{}, "The questions that decide a mix.", "Questions of cogcourt"), true
	case "fit":
		return answer(fit.Answer{}, "Which parts of some kinds go on a mix.", "Choices of cogcourt"), true
	case "swap":
		return answer(fit.Mending{}, "The smallest exchange of parts that mends a mix.", "Mending of cogcourt"), true
	case "audit":
		return answer(fit.Audit{}, "What in a catalogue goes with what.", "Audit of cogcourt"), true
	case "outline":
		return answer(compat.Outline{}, "All that is drawn of a report.", "Outline of cogcourt"), true
	case "sheet":
		return answer(compat.Sheet{}, "How a mix is set up.", "Setup sheet of cogcourt"), true
	}
	return nil, false
}

// closed is an object with these entries and no other.
func closed(doc string, properties object, required ...string) object {
	out := object{"type": "object", "properties": properties, "additionalProperties": false}
	if doc != "" {
		out["description"] = doc
	}
	if len(required) > 0 {
		out["required"] = required
	}
	return out
}

// text is a text that says something.
func text(doc string) object {
	return object{"type": "string", "description": doc, "pattern": `\S`}
}

// anything is an entry that nobody reads.
func anything(doc string) object { return object{"description": doc} }

func list(doc string, items any) object {
	return object{"type": "array", "description": doc, "items": items}
}

func words(doc string, choices ...string) object {
	return object{"type": "string", "description": doc, "enum": choices}
}

// describe is a field's doc with its other names, its unit and how to measure it.
func describe(f fact.Field) string {
	doc := fact.AlsoCalled(f.Doc, f.Also)
	if f.Unit != "" {
		doc += " In " + f.Unit + "."
	}
	if f.How != "" {
		doc += " " + f.How
	}
	return doc
}

// tolerant is the text of a number with its tolerance, such as 3.65 ± 0.02.
const tolerant = `^\s*-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?\s*(±|\+/-) *(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)? *$`

// number is a number of a range, or a text of a number and its tolerance.
func number(f fact.Field) object {
	if f.Type == fact.Whole || f.Type == fact.Wholes {
		return object{"type": "integer", "minimum": f.Min, "maximum": f.Max}
	}
	plain := object{"type": "number", "minimum": f.Min, "maximum": f.Max}
	return object{"anyOf": []any{plain, object{"type": "string", "pattern": tolerant}}}
}

// word is an identifier. One that is written as a number is one as it stands.
func word(pattern, doc string, longest int) object {
	out := object{"type": []string{"string", "number"}, "pattern": pattern, "maxLength": longest}
	if doc != "" {
		out["description"] = doc
	}
	return out
}

// name is a free identifier.
func name() object { return word(`^([a-z0-9-]|[0-9]\.[0-9])+$`, "", fact.MaxName) }

// names is a free identifier of a field, which shows the words that it knows and
// takes others as well.
func names(f fact.Field) object {
	if len(f.Known) == 0 {
		return name()
	}
	var all []object
	for _, k := range f.Known {
		all = append(all, object{"const": k.Name, "description": k.Doc})
	}
	return object{"anyOf": append([]any{object{"oneOf": all}}, name())}
}

// choices is one of a closed list of words. An editor proposes these; the reader
// also takes other spellings of them, and a number for a word that is written as one.
func choices(f fact.Field) object {
	list := object{"type": "string", "enum": f.Choices}
	var also []string
	for _, k := range f.Known {
		for _, spelling := range k.Also {
			also = append(also, regexp.QuoteMeta(spelling))
		}
	}
	var more []any
	if len(also) > 0 {
		more = append(more, object{"type": "string", "pattern": "^(" + strings.Join(also, "|") + ")$"})
	}
	for _, c := range f.Choices {
		if n, err := strconv.Atoi(c); err == nil {
			more = append(more, object{"const": n})
		}
	}
	if len(more) == 0 {
		return list
	}
	return object{"anyOf": append([]any{list}, more...)}
}

// field is the schema of one field.
func field(f fact.Field) object {
	var out object
	switch f.Type {
	case fact.Flag:
		out = object{"type": "boolean"}
	case fact.Choice:
		out = choices(f)
	case fact.Name:
		out = names(f)
	case fact.Names:
		list := object{"type": "array", "items": names(f), "minItems": 1, "maxItems": f.Cap, "uniqueItems": true}
		out = object{"anyOf": []any{list, names(f)}}
	case fact.Fractions, fact.Wholes:
		out = object{"type": "array", "items": number(f), "minItems": 1, "maxItems": f.Cap}
		if f.Rising {
			out["uniqueItems"] = true
		}
	default:
		out = number(f)
	}
	out["description"] = describe(f)
	return out
}

// fields gives the properties of a table, the fields that must be there, and the
// pairs of which only one may.
func fields(o *rules.Object) (properties object, required []fact.Field, not []any) {
	properties = object{}
	for _, f := range o.Table().Fields() {
		properties[f.Name] = field(f)
		if f.Required {
			required = append(required, f)
		}
		if f.Excludes != "" {
			not = append(not, object{"not": object{"required": []string{f.Name, f.Excludes}}})
		}
	}
	return properties, required, not
}

// wanted is that a field is there, or another that will do, unless a description is
// one of those that need not say it.
func wanted(f fact.Field, unless object) object {
	forms := []any{object{"required": []string{f.Name}}}
	if f.Instead != "" {
		forms = append(forms, object{"required": []string{f.Instead}})
	}
	return object{"anyOf": append(forms, unless)}
}

// about are the entries that every description of a part may have.
func about() object {
	label := func(doc string) object {
		out := text(doc)
		out["maxLength"] = catalog.MaxText
		return out
	}
	return object{
		"name":  label("What people call the part."),
		"maker": label("Who makes it."),
		"sku":   word(`\S`, "The seller's number.", catalog.MaxText),
		"price": object{"type": []string{"string", "number"}, "pattern": `^[0-9]{1,9}(\.[0-9]{1,2})?$`, "minimum": 0, "exclusiveMaximum": 1e9,
			"description": "A decimal number with at most two decimals, in the catalogue's currency."},
	}
}

// basisOf is where values come from; usual ones are for part files.
func basisOf(usual bool) object {
	bases := slices.DeleteFunc(catalog.Bases(), func(b string) bool { return b == "usual" && !usual })
	return words("Where the values come from.", bases...)
}

// part is the schema of one part of a kind: more are the entries beside its fields,
// and with one of unless it need not state what a part by itself must.
func part(kind *rules.Object, more, unless object, must ...string) object {
	properties, required, rest := fields(kind)
	for name, s := range about() {
		properties[name] = s
	}
	for name, s := range more {
		properties[name] = s
	}
	out := closed(fact.AlsoCalled(kind.Doc(), kind.Also()), properties, must...)
	for _, f := range required {
		rest = append(rest, wanted(f, unless))
	}
	if rest = append(rest, besides(kind.Name())...); len(rest) > 0 {
		out["allOf"] = rest
	}
	return out
}

// spreading lets the numbers of a kind's properties go over a spread, as those of
// usual classes do.
func spreading(kind *rules.Object, properties object) {
	for _, f := range kind.Table().Fields() {
		if f.Type != fact.Fraction && f.Type != fact.Whole {
			continue
		}
		end := object{"type": "number", "minimum": f.Min, "maximum": f.Max}
		if f.Type == fact.Whole {
			end["type"] = "integer"
		}
		spread := closed("With basis usual: the usual value, and how far published ones lie from it.", object{
			"usual": end, "least": end, "most": end,
			"source": word(`^([a-z0-9-]|[0-9]\.[0-9])+$`, "An id of the sources, or memory.", fact.MaxName),
		}, "usual", "least", "most", "source")
		number := number(f)
		delete(number, "description")
		properties[f.Name] = object{"description": describe(f), "anyOf": []any{number, spread}}
	}
}

// zero is a number that is 0, with or without a tolerance.
func zero() object {
	return object{"anyOf": []any{object{"const": 0}, object{"type": "string", "pattern": `^\s*-?0(\.0+)?([eE][+-]?[0-9]+)?\s*[±+]`}}}
}

// besides is what the reader of a kind holds about fields together, as far as a
// schema can say it.
func besides(kind string) []any {
	if kind != "frame" {
		return nil
	}
	return []any{object{
		"if":   object{"properties": object{"rear_suspension": object{"const": "none"}}, "required": []string{"rear_suspension"}},
		"then": object{"properties": object{"chain_growth_mm": zero(), "growth_at_sag_mm": zero()}},
	}}
}

func partsSchema() any {
	defs := object{}
	var cases []any
	for _, k := range catalog.Kinds() {
		def := part(k, object{
			"kind": object{"const": k.Name()},
			"id": object{"type": []string{"string", "integer"}, "pattern": "^[a-z0-9-]+$", "description": "The word that mixes refer to.",
				"not": object{"type": "string", "pattern": "^" + catalog.UsualPrefix}},
			"basis": basisOf(true),
		}, object{"properties": object{"basis": object{"const": "usual"}}, "required": []string{"basis"}}, "kind", "id", "name")
		spreading(k, def["properties"].(object))
		defs[k.Name()] = def
		cases = append(cases, object{
			"if":   object{"properties": object{"kind": object{"const": k.Name()}}, "required": []string{"kind"}},
			"then": object{"$ref": "#/$defs/" + k.Name()},
		})
	}
	out := closed("Parts of a catalogue.", object{
		"catalog":  text("What the catalogue is called."),
		"currency": text("The currency of all prices."),
		"note":     text("Anything that a reader should know."),
		"parts": list("The parts.", object{
			"type": "object", "required": []string{"kind", "id", "name"},
			"properties": object{"kind": words("The kind of part.", catalog.KindNames()...)}, "allOf": cases,
		}),
	}, "parts")
	return head(out, "Part file of cogcourt", defs)
}

func head(out object, title string, defs object) object {
	out["$schema"], out["title"], out["$defs"] = draft, title, defs
	return out
}
