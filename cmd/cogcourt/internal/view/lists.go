package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Rules prints one line a rule: id, what it can give, title.
func Rules(w io.Writer, set *rules.Set) {
	for _, r := range set.Rules() {
		gives := "warn"
		if r.FailIf != "" && r.WarnIf != "" {
			gives = "fail, warn"
		} else if r.FailIf != "" {
			gives = "fail"
		}
		fmt.Fprintf(w, "%-30s %-11s %s\n", Clean(r.ID), gives, Clean(r.Title))
	}
	var packs []string
	for _, p := range set.Packs() {
		packs = append(packs, fmt.Sprintf("%s edition %d", p.Pack, p.Edition))
	}
	fmt.Fprintf(w, "%d rules of %s, %s\n", len(set.Rules()), strings.Join(packs, ", "), set.Hash())
}

// Rule prints one rule whole.
func Rule(w io.Writer, set *rules.Set, r *rules.Rule) {
	fmt.Fprintf(w, "%s  (pack %s, %s)\n", Clean(r.ID), Clean(r.Pack), r.Pos)
	wrap(w, "", 0, r.Title+".")
	fmt.Fprintln(w)
	wrap(w, "Why:      ", 10, r.Why)
	for _, l := range r.Lets() {
		wrap(w, "let:      ", 12, l.Name+" = "+l.Text)
	}
	for _, c := range [][2]string{{"when:     ", r.WhenText}, {"fail if:  ", r.FailIf}, {"warn if:  ", r.WarnIf}} {
		if c[1] != "" {
			wrap(w, c[0], 10, c[1])
		}
	}
	wrap(w, "Mend:     ", 10, r.Remedy)
	if r.Caution != "" {
		wrap(w, "Beware:   ", 10, r.Caution)
	}
	for _, b := range r.Basis {
		wrap(w, "Basis:    ", 10, b.Kind+": "+basisText(set, b))
	}
	var reads []string
	for _, ref := range set.Reads(r) {
		reads = append(reads, ref.String())
	}
	wrap(w, "Reads:    ", 10, strings.Join(reads, ", "))
	for _, ex := range r.Examples() {
		wrap(w, "Example:  ", 10, fmt.Sprintf("%s gives %s", ex.Name, ex.Want))
	}
}

// basisText gives a basis in words; the id of a source leads to what it is.
func basisText(set *rules.Set, b rules.Basis) string {
	if b.Kind != "source" {
		return b.Text
	}
	i := slices.IndexFunc(set.Sources(), func(s rules.Source) bool { return s.ID == b.Text })
	if i < 0 {
		return b.Text
	}
	s := set.Sources()[i]
	return fmt.Sprintf("%s (%s; %s)", strings.TrimSuffix(s.What, "."), s.Status, s.ID)
}

// Words prints objects with their fields, a line each.
func Words(w io.Writer, objects []*rules.Object) {
	for i, o := range objects {
		if i > 0 {
			fmt.Fprintln(w)
		}
		wrap(w, o.Name()+": ", 2, o.Doc())
		for _, f := range o.Table().Fields() {
			wrap(w, fmt.Sprintf("  %-28s ", f.Name), 31, typeText(f)+". "+f.Doc)
		}
	}
}

// Word prints one field whole.
func Word(w io.Writer, o *rules.Object, f source.Field) {
	fmt.Fprintf(w, "%s.%s  (%s)\n", o.Name(), f.Name, typeText(f))
	wrap(w, "  ", 2, f.Doc)
	if f.How != "" {
		wrap(w, "  How: ", 7, f.How)
	}
}

// typeText says what a field holds, in an author's words.
func typeText(f source.Field) string {
	number := map[source.Type]string{
		source.Fraction: "number", source.Whole: "whole number",
		source.Fractions: "list of numbers", source.Wholes: "list of whole numbers",
	}[f.Type]
	switch f.Type {
	case source.Flag:
		return "true or false"
	case source.Choice:
		return strings.Join(f.Choices, ", ")
	case source.Name:
		return "name"
	}
	if f.Unit != "" {
		number += ", " + f.Unit
	}
	if f.Min > -1e6 {
		number += fmt.Sprintf(", %g to %g", f.Min, f.Max)
	}
	return number
}

// Parts prints one line a part of a kind.
func Parts(w io.Writer, kind string, list []catalog.Part) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintln(w, kind)
	for _, p := range list {
		fmt.Fprintf(w, "  %-28s %-38s %8s\n", Clean(p.ID()), Clean(strings.TrimSpace(p.Maker()+" "+p.Name())), p.Price())
	}
}

// valueText prints a value with its unit.
func valueText(v source.Value, f source.Field) string {
	text := v.String()
	if f.Type == source.Flag {
		text = map[bool]string{true: "yes", false: "no"}[v.Num != 0]
	}
	if f.Unit != "" {
		text += " " + f.Unit
	}
	return text
}
