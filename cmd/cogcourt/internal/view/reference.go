package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// AllWords prints the whole vocabulary as text, json or markdown.
func AllWords(w io.Writer, objects []*rules.Object, format string) error {
	switch format {
	case "json":
		return wordsJSON(w, objects)
	case "markdown":
		wordsMarkdown(w, objects)
	default:
		Words(w, objects)
	}
	return nil
}

// wordJSON is one field of the vocabulary.
type wordJSON struct {
	Name    string   `json:"name"`
	Kind    string   `json:"kind"`
	Type    string   `json:"type"`
	Unit    string   `json:"unit"`
	Min     *float64 `json:"min"`
	Max     *float64 `json:"max"`
	Longest int      `json:"longest"`
	Choices []string `json:"choices"`
	Doc     string   `json:"doc"`
	How     string   `json:"how"`

	Also     []string    `json:"also"`
	Effort   string      `json:"effort"`
	KindAlso []string    `json:"kind_also"`
	Known    []knownJSON `json:"known"`
}

// knownJSON is one word that a field of names knows.
type knownJSON struct {
	Name string   `json:"name"`
	Also []string `json:"also"`
	Doc  string   `json:"doc"`
}

func knownList(f fact.Field) []knownJSON {
	out := make([]knownJSON, len(f.Known))
	for i, k := range f.Known {
		out[i] = knownJSON{k.Name, append([]string{}, k.Also...), k.Doc}
	}
	return out
}

var typeNames = map[fact.Type]string{
	fact.Fraction: "number", fact.Whole: "whole", fact.Flag: "flag", fact.Choice: "choice",
	fact.Name: "name", fact.Fractions: "numbers", fact.Wholes: "wholes", fact.Names: "names",
}

func wordsJSON(w io.Writer, objects []*rules.Object) error {
	out := []wordJSON{}
	for _, o := range objects {
		for _, f := range o.Table().Fields() {
			out = append(out, wordOf(o, f))
		}
	}
	return Indented(w, out)
}

// wordOf is a field with all that is said of it.
func wordOf(o *rules.Object, f fact.Field) wordJSON {
	word := wordJSON{Name: o.Name() + "." + f.Name, Kind: o.Name(), Type: typeNames[f.Type], Unit: f.Unit,
		Longest: f.Cap, Choices: append([]string{}, f.Choices...), Doc: f.Doc, How: f.How, Known: knownList(f),
		Also: append([]string{}, f.Also...), Effort: f.Effort.String(), KindAlso: append([]string{}, o.Also()...)}
	if ranged(f) {
		word.Min, word.Max = &f.Min, &f.Max
	}
	return word
}

// kindOf is an object by itself.
func kindOf(o *rules.Object) wordJSON {
	return wordJSON{Name: o.Name(), Kind: o.Name(), Type: "kind", Choices: []string{}, Doc: o.Doc(), Also: append([]string{}, o.Also()...),
		KindAlso: append([]string{}, o.Also()...), Known: []knownJSON{}}
}

// ranged says whether a field has a range to show: computed figures have none.
func ranged(f fact.Field) bool {
	return f.Type != fact.Flag && f.Type != fact.Choice && f.Type != fact.Name && f.Type != fact.Names && f.Min > -1e6
}

func wordsMarkdown(w io.Writer, objects []*rules.Object) {
	fmt.Fprint(w, "# Words\n\nWhat parts state and rules may speak of. Made by `cogcourt words --format markdown`; do not edit.\n\n"+
		"The effort of getting a value is low ("+effortDoc[fact.Low]+"), some ("+effortDoc[fact.Some]+") or much ("+effortDoc[fact.Much]+").\n")
	for _, o := range objects {
		fmt.Fprintf(w, "\n## %s\n\n%s\n\n| word | holds | what it is | how to get it |\n|---|---|---|---|\n",
			o.Name(), escape(fact.AlsoCalled(o.Doc(), o.Also())))
		for _, f := range o.Table().Fields() {
			fmt.Fprintf(w, "| `%s` | %s | %s | %s |\n", f.Name, escape(typeText(f)), escape(fact.AlsoCalled(f.Doc, f.Also)), escape(howText(f)))
		}
	}
	knownMarkdown(w, objects)
}

// effortDoc says what each effort means.
var effortDoc = [...]string{
	fact.NotSaid: "",
	fact.Low:     "read off or counted, under two minutes, a ruler at most",
	fact.Some:    "a caliper or a wheel out, up to ten minutes",
	fact.Much:    "parts off, a gauge or a question to the maker, more than ten minutes",
}

// howText is how to measure a field and what that takes.
func howText(f fact.Field) string {
	if f.Effort == fact.NotSaid {
		return f.How
	}
	return f.How + " Effort: " + f.Effort.String() + "."
}

// knownMarkdown prints each table of known words once, under the fields that it is of.
func knownMarkdown(w io.Writer, objects []*rules.Object) {
	var tables []fact.Field
	of := map[string][]string{}
	for _, o := range objects {
		for _, f := range o.Table().Fields() {
			key := strings.Join(f.KnownNames(), " ")
			if len(of[key]) == 0 && key != "" {
				tables = append(tables, f)
			}
			of[key] = append(of[key], "`"+o.Name()+"."+f.Name+"`")
		}
	}
	fmt.Fprint(w, "\n## Known names\n\nNames of these fields are read from any of their spellings; a slip of one is refused.\n")
	for _, f := range tables {
		fmt.Fprintf(w, "\n%s:\n\n| name | list | what it is | also read from |\n|---|---|---|---|\n", strings.Join(of[strings.Join(f.KnownNames(), " ")], ", "))
		for _, k := range f.Known {
			fmt.Fprintf(w, "| `%s` | %s | %s | %s |\n", k.Name, openness(f), escape(k.Doc), escape(strings.Join(k.Also, ", ")))
		}
	}
}

// openness says whether a field takes other names than those that it knows.
func openness(f fact.Field) string {
	if f.Type == fact.Choice {
		return "closed"
	}
	return "open"
}

// RulesMarkdown prints the reference of rules.
func RulesMarkdown(w io.Writer, set *rules.Set) {
	fmt.Fprint(w, "# Rules\n\nMade by `cogcourt rules --format markdown`; do not edit.\n\n| rule | gives beside pass | looks whether |\n|---|---|---|\n")
	for _, r := range set.Rules() {
		fmt.Fprintf(w, "| `%s` | %s | %s |\n", r.ID, gives(r), escape(lower(r.Title)))
	}
	for _, r := range set.Rules() {
		fmt.Fprintf(w, "\n## %s\n\n%s. %s\n\n", r.ID, escape(r.Title), escape(r.Why))
		for _, l := range r.Lets() {
			fmt.Fprintf(w, "- let %s = %s\n", code(l.Name), code(l.Text))
		}
		for _, c := range [][2]string{{"when", r.WhenText}, {"fails if", r.FailIf}, {"warns if", r.WarnIf}} {
			if c[1] != "" {
				fmt.Fprintf(w, "- %s %s\n", c[0], code(c[1]))
			}
		}
		fmt.Fprintf(w, "- mend: %s\n", escape(oneLine(r.Remedy)))
		if r.Draw.Name != "" {
			fmt.Fprintf(w, "- drawn in %s\n", escape(drawn(r.Draw)))
		}
		for _, b := range r.Basis {
			fmt.Fprintf(w, "- rests on %s: %s\n", b.Kind, escape(basisText(set.Citations(), b)))
		}
	}
}

// code marks a text as code, which markdown shows as it is.
func code(s string) string {
	s = Clean(oneLine(s))
	if strings.Contains(s, "`") {
		return "`` " + s + " ``"
	}
	return "`" + s + "`"
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// escape keeps a text from being read as markdown: a table's bars and markup.
func escape(s string) string {
	return strings.NewReplacer("|", `\|`, "<", "&lt;", "*", `\*`, "_", `\_`, "`", "\\`").Replace(Clean(oneLine(s)))
}
