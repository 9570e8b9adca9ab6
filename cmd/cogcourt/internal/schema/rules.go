package schema

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// expression is an expression of a rule: numbers and flags are read as such.
func expression(doc string) object {
	return object{"type": []string{"string", "number", "boolean"}, "pattern": `\S`, "description": doc}
}

// exampleSchema is one example of a rule.
func exampleSchema() object {
	given := object{}
	for _, k := range catalog.Kinds() {
		given[k.Name()] = partial(k.Name())
	}
	for _, name := range []string{"figures", "bench"} {
		given[name] = partial(name)
	}
	return closed("Facts, and what the rule must give for them.", object{
		"name":    text("What is special about it."),
		"given":   closed("Facts of parts, figures or both.", given),
		"want":    words("What the rule must give.", "pass", "warn", "fail", "unknown", "not_applied"),
		"missing": list("For unknown: facts that must be named.", text("A fact, such as cassette.pitch_mm.")),
	}, "name", "want")
}

// basisSchema is what a rule rests on.
func basisSchema() object {
	basis := closed("What the rule rests on. Memory alone may only warn.", object{
		"source":   text("Ids of sources, with spaces between."),
		"practice": text("Common practice, in a sentence."),
		"geometry": text("A formula, in a sentence."),
		"memory":   text("What is remembered and not checked."),
	})
	basis["minProperties"] = 1
	return basis
}

// drawSchema is where a rule is drawn: the name of a drawing, or of one with limits.
func drawSchema() object {
	var names []string
	with := object{}
	for _, d := range compat.Drawings() {
		names = append(names, d.Name)
		limits := object{}
		for _, l := range d.Limits {
			limits[l] = object{"type": "number", "description": "A number of the rule's conditions, which is drawn as the limit " + l + "."}
		}
		if len(d.Limits) > 0 {
			with[d.Name] = closed(d.Doc, limits)
			with[d.Name].(object)["minProperties"] = 1
		}
	}
	limited := closed("A drawing with the rule's own limits.", with)
	limited["minProperties"], limited["maxProperties"] = 1, 1
	return object{"description": "The drawing that shows the rule.", "anyOf": []any{words("A drawing.", names...), limited}}
}

// needSchema is something to order.
func needSchema() object {
	return closed("Something to order with a warning or a fail.", object{
		"what":  text("The thing; may hold {expressions}."),
		"value": expression("Its measure."),
		"unit":  text("The unit of the measure."),
		"thing": text("The one thing of several rules, such as chain: they share a line of the order."),
		"when":  expression("When it is needed; without it, with every warning and fail."),
	}, "what")
}

// ruleSchema is one check.
func ruleSchema() object {
	rule := closed("One check.", object{
		"id":         object{"type": "string", "pattern": rules.IDPattern, "description": "group/name"},
		"title":      text("The good state, without a full stop."),
		"why":        text("Why it matters."),
		"when":       expression("Where the rule has something to say; stated(kind.field) may stand here only."),
		"let":        object{"type": "object", "description": "Names for expressions, each usable by those below it.", "propertyNames": object{"pattern": "^[a-z][a-z0-9_]*$"}, "additionalProperties": expression("An expression.")},
		"fail_if":    expression("The rule fails where this is true."),
		"warn_if":    expression("The rule warns where this is true and fail_if is not."),
		"say":        text("What was found, with its numbers as {expression} or {expression:.1}."),
		"pass":       text("What a pass says, with its numbers; without it the title."),
		"remedy":     text("What would mend it."),
		"needs":      list("What to order.", needSchema()),
		"caution":    text("What to beware of; may come out empty."),
		"safety":     object{"type": "boolean", "description": "Whether it must not be adjusted below warn."},
		"open_warns": object{"type": "boolean", "description": "Whether it warns, and is not open, where usual values decide it only here and there."},
		"draw":       drawSchema(),
		"basis":      basisSchema(),
		"examples":   list("Examples, one for each thing that the rule can give.", exampleSchema()),
		"waive": list("Mutants that may survive.", closed("", object{
			"in": text("The expression, such as fail_if."), "change": text("The change, as prove says it."), "reason": text("Why it may survive."),
		}, "in", "change", "reason")),
	}, "id", "title", "why", "say", "remedy", "basis")
	rule["anyOf"] = []any{object{"required": []string{"fail_if"}}, object{"required": []string{"warn_if"}}}
	return rule
}

func rulesSchema() any {
	return head(closed("Rules of a pack.", object{
		"pack":    object{"type": "string", "pattern": "^[a-z0-9-]+$", "description": "The name of the pack."},
		"edition": object{"type": "integer", "maximum": 1<<53 - 1, "minimum": 1, "description": "Counts up when the pack changes."},
		"note":    anything("Anything that a reader should know."),
		"rules":   list("The rules.", ruleSchema()),
		"steps":   list("Steps of the setup sheet.", step()),
		"sources": list("What the rules rest on.", closed("One source.", object{
			"id": text("The word that basis: refers to."), "what": text("Author, title and year, as far as known."),
			"status": words("How it is known.", "read", "read second-hand", "from memory", "computed"),
		}, "id", "what", "status")),
		"adjust": list("Decisions that change what a rule's warnings and fails are given as.", closed("", object{
			"rule": text("The rule's id."), "to": words("What they become.", "pass", "warn", "fail"),
			"reason": text("Why."), "by": text("Who decided."), "until": object{"type": "string", "format": "date", "description": "The last day, UTC."},
		}, "rule", "to", "reason", "by", "until")),
	}, "pack"), "Rule file of cogcourt", object{})
}

// step is one step of a setup sheet.
func step() object {
	return closed("One step of the setup sheet.", object{
		"id":         object{"type": "string", "pattern": "^[a-z0-9-]+$", "description": "The word that other steps refer to."},
		"part":       words("When it is done; at the bench where it is not said.", rules.Sections()...),
		"after":      list("Steps that come before it.", text("The id of a step.")),
		"with":       list("Kinds of parts that the mix must have.", kindWord()),
		"without":    list("Kinds of parts with which it has no place.", kindWord()),
		"when":       expression("The mixes that it is for: this must be true."),
		"unless":     expression("The mixes that it is not for: this must not be true, and may be open."),
		"do":         text("What to do; may hold {expressions}."),
		"value":      text("The value from the mix."),
		"unstated":   text("What is said where nobody stated the value: where it is read, and what is usual."),
		"measured":   list("Facts that are measured in it, for the record of the finished job.", text("A fact, such as bench.hanger_error_mm.")),
		"stopped_by": list("Rules that end the work here where they fail; group/* stands for all of a group.", text("The id of a rule, or group/*.")),
		"check":      text("How to see that it is right."),
		"because":    text("Why, in one clause."),
		"caution":    text("What to beware of; may come out empty."),
	}, "id", "do", "check", "because")
}

// kindWord is the name of a kind of part, or of what was measured.
func kindWord() object {
	return words("A kind of part.", append(catalog.KindNames(), benchObject().Name())...)
}

// partial is an object of which an example states only some facts.
func partial(name string) object {
	o := objectOf(name)
	properties, _, not := fields(o)
	out := closed(o.Doc(), properties)
	if len(not) > 0 {
		out["allOf"] = not
	}
	return out
}

// orNull is a schema or nothing.
func orNull(doc string, s object) object {
	out := object{"anyOf": []any{s, object{"type": "null"}}}
	if doc != "" {
		out["description"] = doc
	}
	return out
}
