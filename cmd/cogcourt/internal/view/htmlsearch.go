package view

import (
	"cmp"
	"html/template"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

// htmlFit is what fits a mix.
type htmlFit struct {
	Name, Sentence string
	Choices        []htmlChoice
	Rest           []row
	Foot           string
}

// htmlChoice is one choice of parts.
type htmlChoice struct {
	Verdict rules.Verdict
	Mark    template.HTML
	Parts   []string
	Lines   []string
	Figure  *htmlFigure // the error left at each cog; nil where it cannot be drawn
}

// FitHTML writes a page with what fits a mix, the best first, each choice with the error
// that it leaves at the cogs. The reports are those of the mix with each choice. It
// writes nothing where the page cannot be made.
func FitHTML(w io.Writer, a fit.Answer, reports []compat.Report, currency string) error {
	p := searchPrinter{currency: currency}
	name := cmp.Or(a.Mix, "a mix without a name")
	page := &htmlFit{Name: name, Sentence: fitHead(a, cmp.Or(a.Mix, "the mix"))}
	for _, r := range fitRows(a) {
		page.Rest = append(page.Rest, row{Capital(r.Word), r.Text})
	}
	for i, c := range a.Choices {
		made := htmlChoice{Verdict: c.Verdict(), Mark: markOf(c.Verdict()), Lines: p.choiceLines(c)}
		for _, line := range p.partLines(c, nil) {
			made.Parts = append(made.Parts, Capital(line))
		}
		if i < len(reports) {
			made.Figure = errorOf(reports[i], i)
			page.Foot = footOf(reports[i])
		}
		page.Choices = append(page.Choices, made)
	}
	return htmlPage{Title: "What fits " + name, Fit: page}.print(w)
}

// errorOf draws the error that a choice leaves.
func errorOf(r compat.Report, number int) *htmlFigure {
	p, _ := picture.Draw("error", r.Outline(), picture.Options{Prefix: "c" + rules.Decimal(float64(number+1), 0) + "-"})
	if !p.Drawn {
		return nil
	}
	f := figureOf(p)
	return &f
}

// htmlRules is the reference of rules.
type htmlRules struct {
	Title, Packs, Hash string
	Groups             []htmlGroup
}

// htmlGroup is the rules that share the front of their ids.
type htmlGroup struct {
	Name  string
	Rules []htmlRule
}

type htmlRule struct {
	ID, Title, Gives, Why string
	Rows                  []row
}

// RulesHTML writes the reference of rules, each with its limits and what it rests on, as
// a page. It writes nothing where the page cannot be made.
func RulesHTML(w io.Writer, set *rules.Set) error {
	page := &htmlRules{Title: counted(len(set.Rules()), "rule", "rules"), Packs: packsText(set), Hash: set.Hash()}
	for _, r := range set.Rules() {
		name, _, _ := strings.Cut(r.ID, "/")
		i := slices.IndexFunc(page.Groups, func(g htmlGroup) bool { return g.Name == name })
		if i < 0 {
			i, page.Groups = len(page.Groups), append(page.Groups, htmlGroup{Name: name})
		}
		page.Groups[i].Rules = append(page.Groups[i].Rules, ruleOf(set, r))
	}
	return htmlPage{Title: "Rules", Rules: page}.print(w)
}

// ruleOf is one rule of the reference.
func ruleOf(set *rules.Set, r *rules.Rule) htmlRule {
	var rows []row
	for _, l := range r.Lets() {
		rows = append(rows, row{"Let", l.Name + " = " + l.Text})
	}
	rows = append(rows, row{"When", r.WhenText}, row{"Fails if", r.FailIf}, row{"Warns if", r.WarnIf}, row{"Mend", r.Remedy},
		row{"Beware", r.Caution})
	if r.Draw.Name != "" {
		rows = append(rows, row{"Drawn", drawn(r.Draw)})
	}
	for _, b := range r.Basis {
		rows = append(rows, row{"Basis", string(b.Kind) + ": " + basisText(set.Citations(), b)})
	}
	return htmlRule{ID: r.ID, Title: full(Capital(r.Title)), Gives: gives(r), Why: r.Why, Rows: rowsOf(rows...)}
}
