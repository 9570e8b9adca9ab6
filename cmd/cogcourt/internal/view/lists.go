package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Rules prints each rule: id, what it can give, title.
func Rules(w io.Writer, set *rules.Set) {
	for _, r := range set.Rules() {
		wrap(w, fmt.Sprintf("%-28s %-10s  ", r.ID, gives(r)), 41, r.Title)
	}
	wrap(w, counted(len(set.Rules()), "rule", "rules")+" of ", 2, packsText(set))
	fmt.Fprintln(w, set.Hash())
}

// packsText names the packs of rules with their editions.
func packsText(set *rules.Set) string {
	var packs []string
	for _, p := range set.Packs() {
		packs = append(packs, fmt.Sprintf("%s edition %d", p.Pack, p.Edition))
	}
	return strings.Join(packs, ", ")
}

// gives names what a rule can give beside a pass, as its conditions have it.
func gives(r *rules.Rule) string {
	switch {
	case r.FailIf != "" && r.WarnIf != "":
		return "fail, warn"
	case r.FailIf != "":
		return "fail"
	}
	return "warn"
}

// Rule prints one rule whole.
func Rule(w io.Writer, set *rules.Set, r *rules.Rule) {
	wrap(w, r.ID+"  ", 2, fmt.Sprintf("(pack %s, %s)", r.Pack, r.Pos))
	wrap(w, "", 0, full(r.Title))
	fmt.Fprintln(w)
	wrap(w, "Why:      ", 10, r.Why)
	for _, l := range r.Lets() {
		wrap(w, "Let:      ", 12, l.Name+" = "+l.Text)
	}
	for _, c := range [][2]string{{"When:     ", r.WhenText}, {"Fails if: ", r.FailIf}, {"Warns if: ", r.WarnIf}} {
		if c[1] != "" {
			wrap(w, c[0], 10, c[1])
		}
	}
	wrap(w, "Mend:     ", 10, r.Remedy)
	if r.Caution != "" {
		wrap(w, "Beware:   ", 10, r.Caution)
	}
	if r.Draw.Name != "" {
		wrap(w, "Drawn:    ", 10, drawn(r.Draw))
	}
	for _, b := range r.Basis {
		wrap(w, "Basis:    ", 10, string(b.Kind)+": "+basisText(set.Citations(), b))
	}
	var reads []string
	for _, ref := range set.Reads(r) {
		reads = append(reads, ref.String())
	}
	wrap(w, "Reads:    ", 10, strings.Join(reads, ", "))
	for _, ex := range r.Examples() {
		wrap(w, "Example:  ", 10, fmt.Sprintf("%s: %s", ex.Want, ex.Name))
	}
}

// drawn says in which drawing a rule is seen, and which limits are drawn there.
func drawn(d rules.Draw) string {
	if len(d.Limits) == 0 {
		return d.Name
	}
	limits := make([]string, len(d.Limits))
	for i, l := range d.Limits {
		limits[i] = l.Name + " " + rules.Decimal(l.Value, -1)
	}
	return d.Name + " (" + strings.Join(limits, ", ") + ")"
}

// basisText gives a basis in words; the id of a source leads to what it is.
func basisText(sources []rules.Citation, b rules.Basis) string {
	if b.Kind != rules.BasisSource {
		return b.Text
	}
	i := slices.IndexFunc(sources, func(s rules.Citation) bool { return s.ID == b.Text })
	if i < 0 {
		return b.Text
	}
	s := sources[i]
	return fmt.Sprintf("%s (%s; %s)", strings.TrimSuffix(s.What, "."), s.Status, s.ID)
}

// Words prints objects with their fields.
func Words(w io.Writer, objects []*rules.Object) {
	for i, o := range objects {
		if i > 0 {
			fmt.Fprintln(w)
		}
		wrap(w, o.Name()+": ", 2, fact.AlsoCalled(o.Doc(), o.Also()))
		for _, f := range o.Table().Fields() {
			wrap(w, fmt.Sprintf("  %-29s ", f.Name), 32, full(Capital(typeText(f)))+" "+fact.AlsoCalled(f.Doc, f.Also))
		}
	}
}

// Word prints one field whole.
func Word(w io.Writer, o *rules.Object, f fact.Field) {
	wrap(w, o.Name()+"."+f.Name+"  ", 2, "("+typeText(f)+")")
	wrap(w, "  ", 2, f.Doc)
	if f.How != "" {
		wrap(w, "  How: ", 7, f.How)
	}
	if f.Effort != fact.NotSaid {
		wrap(w, "  Effort: ", 10, f.Effort.String()+"; "+effortDoc[f.Effort]+".")
	}
	if len(f.Also) > 0 {
		wrap(w, "  Also called ", 4, strings.Join(f.Also, ", ")+".")
	}
	knownWords(w, f)
	if f.Default != nil {
		wrap(w, "  Where it is not stated: ", 4, valueText(*f.Default, f)+".")
	}
	if f.Excludes != "" {
		wrap(w, "  Says the same as ", 4, f.Excludes+"; state one of the two.")
	}
}

// knownWords prints the words that a field of names knows, with their other
// spellings.
func knownWords(w io.Writer, f fact.Field) {
	switch {
	case len(f.Known) == 0:
		return
	case f.Type == fact.Choice:
		fmt.Fprintln(w, "  Its words:")
	default:
		fmt.Fprintln(w, "  Known names; others may be stated too:")
	}
	for _, k := range f.Known {
		wrap(w, fmt.Sprintf("    %-22s ", k.Name), 27, knownDoc(k))
	}
}

// knownDoc is what a known word is, and how else it is spelt.
func knownDoc(k fact.Known) string {
	if len(k.Also) == 0 {
		return k.Doc
	}
	return k.Doc + " (also " + strings.Join(k.Also, ", ") + ")"
}

// typeText says what a field holds, in an author's words.
func typeText(f fact.Field) string {
	switch f.Type {
	case fact.Flag:
		return "true or false"
	case fact.Choice:
		return "one of " + strings.Join(f.Choices, ", ")
	case fact.Name:
		return "name"
	case fact.Names:
		return "name, or list of names"
	}
	text := map[fact.Type]string{
		fact.Fraction: "number", fact.Whole: "whole number",
		fact.Fractions: "list of numbers", fact.Wholes: "list of whole numbers",
	}[f.Type]
	if f.Unit != "" {
		text += ", " + unitText(f.Unit)
	}
	if ranged(f) {
		text += fmt.Sprintf(", %s to %s", rules.Decimal(f.Min, -1), rules.Decimal(f.Max, -1))
	}
	return text
}

// Parts prints the parts of a kind: id, maker and name, price.
func Parts(w io.Writer, kind string, list []catalog.Part) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintln(w, kind)
	for _, p := range list {
		wrap(w, fmt.Sprintf("  %-26s %8s  ", p.ID(), p.Price()), 39, strings.TrimSpace(p.Maker()+" "+p.Name()))
	}
}

// Catalogue prints what a catalogue is and in which currency its prices are.
func Catalogue(w io.Writer, c *catalog.Catalog) {
	text := counted(c.Len(), "part", "parts") + " in the catalogue"
	if c.Name() != "" {
		text += ": " + c.Name()
	}
	if c.Currency() != "" {
		text += "; prices in " + c.Currency()
	}
	wrap(w, "", 2, text)
}
