package main

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// listRules prints a line or two for each rule.
func listRules(o options, s stream) int {
	if len(o.args) > 0 {
		return usage(s, "rules", "takes no arguments; cogcourt rule "+o.args[0]+" shows one rule")
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	if o.sources {
		view.Sources(s.out, c.Rules())
		return exitOK
	}
	if o.format == "markdown" {
		view.RulesMarkdown(s.out, c.Rules())
		return exitOK
	}
	view.Rules(s.out, c.Rules())
	return exitOK
}

// showRule prints one rule whole.
func showRule(o options, s stream) int {
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
		return usage(s, "rule", fmt.Sprintf("there is no rule %q", o.args[0])+near(o.args[0], ids))
	}
	view.Rule(s.out, c.Rules(), r)
	return exitOK
}

// words prints the vocabulary: everything, one object, or one field.
func words(o options, s stream) int {
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
	status := exitOK
	for i, word := range o.args {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		if !oneWord(s, v, word) {
			status = exitUsage
		}
	}
	return status
}

// oneWord prints an object or every field of a name, with or without its object.
func oneWord(s stream, v *rules.Vocabulary, word string) bool {
	if i, ok := v.Index(word); ok {
		view.Words(s.out, v.Objects()[i:i+1])
		return true
	}
	found := 0
	for _, o := range v.Objects() {
		for _, f := range o.Table().Fields() {
			if word != f.Name && word != o.Name()+"."+f.Name {
				continue
			}
			if found > 0 {
				fmt.Fprintln(s.out)
			}
			view.Word(s.out, o, f)
			found++
		}
	}
	if found == 0 {
		usage(s, "words", fmt.Sprintf("there is no word %q", word)+wordHint(v, word))
	}
	return found > 0
}

// wordHint says what an unknown word can have been meant for, and else which
// words speak of it.
func wordHint(v *rules.Vocabulary, word string) string {
	if hint := near(word, nearWords(v, word)); hint != "" {
		return hint
	}
	var speaking []string
	for _, o := range v.Objects() {
		for _, f := range o.Table().Fields() {
			_, known := f.KnownName(word)
			if known || len(word) > 2 && strings.Contains(strings.ToLower(f.Doc), strings.ToLower(word)) {
				speaking = append(speaking, o.Name()+"."+f.Name)
			}
		}
	}
	if len(speaking) == 0 {
		return " (cogcourt words lists them)"
	}
	const most = 6
	return "; of it speak " + strings.Join(speaking[:min(most, len(speaking))], ", ")
}

// nearWords lists what an unknown word can have been meant for: names with a dot
// for a word with one, all names without it.
func nearWords(v *rules.Vocabulary, word string) []string {
	var known []string
	for _, o := range v.Objects() {
		if !strings.Contains(word, ".") {
			known = append(known, o.Name())
		}
		for _, f := range o.Table().Fields() {
			if strings.Contains(word, ".") {
				known = append(known, o.Name()+"."+f.Name)
			} else if !slices.Contains(known, f.Name) {
				known = append(known, f.Name)
			}
		}
	}
	return known
}
