package main

import (
	"fmt"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// listRules prints one line a rule.
func listRules(args []string, s stream) int {
	o, status := line{name: "rules", args: args, formats: []string{"text", "markdown"}}.parse(s)
	if status >= 0 {
		return status
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	if o.format == "markdown" {
		view.RulesMarkdown(s.out, c.Rules())
		return exitOK
	}
	view.Rules(s.out, c.Rules())
	return exitOK
}

// showRule prints one rule whole.
func showRule(args []string, s stream) int {
	o, status := line{name: "rule", args: args, formats: []string{"text"}}.parse(s)
	if status >= 0 {
		return status
	}
	if len(o.args) != 1 {
		return usage(s, "rule", "name one rule; cogcourt rules lists them")
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	r, ok := c.Rules().Rule(o.args[0])
	if !ok {
		var ids []string
		for _, r := range c.Rules().Rules() {
			ids = append(ids, r.ID)
		}
		return usage(s, "rule", fmt.Sprintf("there is no rule %q", o.args[0])+suggest(o.args[0], ids))
	}
	view.Rule(s.out, c.Rules(), r)
	return exitOK
}

// words prints the vocabulary: everything, one object, or one field.
func words(args []string, s stream) int {
	o, status := line{name: "words", args: args, formats: []string{"text", "json", "markdown"}}.parse(s)
	if status >= 0 {
		return status
	}
	v, err := compat.Vocabulary()
	if err != nil {
		return complain(s, err)
	}
	if o.format != "text" && len(o.args) > 0 {
		return usage(s, "words", "json and markdown print every word; leave the arguments out")
	}
	if len(o.args) == 0 {
		if err := view.AllWords(s.out, v.Objects(), o.format); err != nil {
			return complain(s, err)
		}
		return exitOK
	}
	status = exitOK
	for _, word := range o.args {
		if !oneWord(s, v, word) {
			status = exitUsage
		}
	}
	return status
}

// oneWord prints an object or every field of a name, with or without its object.
func oneWord(s stream, v *rules.Vocabulary, word string) bool {
	if i, ok := v.Place(word); ok {
		view.Words(s.out, v.Objects()[i:i+1])
		return true
	}
	found := false
	var known []string
	for _, o := range v.Objects() {
		known = append(known, o.Name())
		for _, f := range o.Table().Fields() {
			known = append(known, f.Name)
			if word == f.Name || word == o.Name()+"."+f.Name {
				view.Word(s.out, o, f)
				found = true
			}
		}
	}
	if !found {
		_, last, _ := strings.Cut(word, ".")
		if last == "" {
			last = word
		}
		usage(s, "words", fmt.Sprintf("there is no word %q", word)+suggest(last, known))
	}
	return found
}

// parts prints one line a part of the catalogue.
func parts(args []string, s stream) int {
	o, status := line{name: "parts", args: args, formats: []string{"text"}}.parse(s)
	if status >= 0 {
		return status
	}
	cat, err := o.catalogue()
	if err != nil {
		return complain(s, err)
	}
	kinds := o.args
	if len(kinds) == 0 {
		for _, k := range catalog.Kinds() {
			kinds = append(kinds, k.Name())
		}
	}
	status = exitOK
	for _, kind := range kinds {
		if _, ok := catalog.Kind(kind); !ok {
			status = usage(s, "parts", fmt.Sprintf("there is no kind %q", kind))
			continue
		}
		view.Parts(s.out, kind, cat.OfKind(kind))
	}
	fmt.Fprintf(s.out, "%d parts in the catalogue: %s\n", cat.Len(), view.Clean(cat.Name()))
	return status
}

// version prints the tool's version.
func version(args []string, s stream) int {
	if len(args) > 0 {
		return usage(s, "version", "takes no arguments")
	}
	fmt.Fprintln(s.out, "cogcourt "+compat.Version)
	return exitOK
}
