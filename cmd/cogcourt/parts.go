package main

import (
	"fmt"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// parts prints the parts of the catalogue or the usual classes, a line or two each,
// and all that is known of those that are named by their ids.
func parts(o options, s stream) int {
	switch {
	case o.audit && (o.usual || len(o.args) > 0):
		return usage(s, "parts", "--audit is of the whole catalogue, and goes with neither --usual nor a kind or id")
	case o.audit:
		return auditParts(o, s)
	case len(o.rules) > 0 || o.noStandard || o.noUsual:
		return usage(s, "parts", "--rules, --no-standard and --no-usual go with --audit, which asks the rules")
	}
	cat := compat.Usual()
	if !o.usual {
		own, err := o.catalogue()
		if err != nil {
			return complain(s, err)
		}
		cat = own
	}
	kinds, whole, fault := chosen(cat, o.args)
	if fault != "" {
		return usage(s, "parts", fault)
	}
	citations, err := citationsOf(whole, o.format)
	if err != nil {
		return complain(s, err)
	}
	if o.format == "json" {
		if err := partsAsJSON(s, cat, o.args, citations); err != nil {
			return complain(s, err)
		}
		return exitOK
	}
	for i, p := range whole {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		view.Part(s.out, p, citations)
	}
	if len(kinds) == 0 {
		return exitOK
	}
	if len(whole) > 0 {
		fmt.Fprintln(s.out)
	}
	for _, kind := range kinds {
		view.Parts(s.out, kind, cat.OfKind(kind))
	}
	view.Catalogue(s.out, cat)
	return exitOK
}

// chosen tells kinds from ids; with neither, all kinds are meant.
func chosen(cat *catalog.Catalog, args []string) (kinds []string, whole []catalog.Part, fault string) {
	if len(args) == 0 {
		return catalog.KindNames(), nil, ""
	}
	for _, word := range args {
		if _, ok := catalog.Kind(word); ok {
			kinds = append(kinds, word)
			continue
		}
		p, ok := partOf(cat, word)
		if !ok {
			return nil, nil, noPart(cat, word)
		}
		whole = append(whole, p)
	}
	return kinds, whole, ""
}

// partOf finds a part by its id, a usual class whatever the catalogue.
func partOf(cat *catalog.Catalog, id string) (catalog.Part, bool) {
	if strings.HasPrefix(id, catalog.UsualPrefix) {
		cat = compat.Usual()
	}
	return cat.Part(id)
}

// noPart says that a word is neither a kind nor an id, with the nearest one.
func noPart(cat *catalog.Catalog, word string) string {
	var ids []string
	if strings.HasPrefix(word, catalog.UsualPrefix) {
		cat = compat.Usual()
	}
	for _, p := range cat.Parts() {
		ids = append(ids, p.ID())
	}
	fault := fmt.Sprintf("there is neither a kind nor a part %q", word)
	if hint := near(word, catalog.KindNames()); hint != "" {
		return fault + hint
	}
	if id := fact.Nearest(word, ids); id != "" {
		return fmt.Sprintf("%s; did you mean %q?", fault, id)
	}
	return fault + "; kinds " + catalog.SuggestKind(word)
}

// citationsOf gives what the ids of sources stand for. The rules are read for it only
// where something is cited.
func citationsOf(whole []catalog.Part, format string) ([]rules.Citation, error) {
	cited := format == "json"
	for _, p := range whole {
		cited = cited || p.Basis() == "usual"
	}
	if !cited {
		return nil, nil
	}
	c, err := compat.New(compat.Config{})
	if err != nil {
		return nil, err
	}
	return c.Rules().Citations(), nil
}

// partsAsJSON prints parts whole: one that is named by its id as an object, anything
// else as a list.
func partsAsJSON(s stream, cat *catalog.Catalog, args []string, citations []rules.Citation) error {
	kinds, whole, _ := chosen(cat, args)
	if len(whole) == 1 && len(kinds) == 0 {
		return view.Indented(s.out, view.PartJSON(whole[0], citations))
	}
	for _, kind := range kinds {
		whole = append(whole, cat.OfKind(kind)...)
	}
	list := []any{}
	for _, p := range whole {
		list = append(list, view.PartJSON(p, citations))
	}
	return view.Indented(s.out, list)
}
