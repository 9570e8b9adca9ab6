package view

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// answer prints what a report comes to in one sentence, for who asked in one line:
// what does not go, what to measure first, or that no fault was found. It promises no
// more than the report does.
func answer(w io.Writer, r compat.Report) {
	p := printer{report: r, findings: r.Findings()}
	wrap(w, "", 0, p.answer())
	fmt.Fprintln(w)
}

func (p *printer) answer() string {
	switch p.report.Verdict {
	case rules.Fail:
		return "No: " + p.firstSaid(rules.Fail) + p.others(rules.Fail, "fault", "faults")
	case rules.Warn:
		return "No fault found, but: " + p.firstSaid(rules.Warn) + p.others(rules.Warn, "warning", "warnings")
	case rules.Pass:
		return p.passed()
	}
	return "Open: " + p.open()
}

// firstSaid is what the first finding of a verdict says, up to the end of its first
// sentence.
func (p *printer) firstSaid(v rules.Verdict) string {
	for _, f := range p.findings {
		if f.Verdict != v {
			continue
		}
		if f.Text == "" {
			return "wanted is: " + full(lower(f.Title))
		}
		return full(lower(firstSentence(f.Text)))
	}
	return "see below."
}

// others counts what else there is of a verdict.
func (p *printer) others(v rules.Verdict, one, many string) string {
	n := p.count(v) - 1
	switch {
	case n > 0 && p.bare:
		return " " + counted(n, "more "+one, "more "+many) + "."
	case n > 0:
		return " " + counted(n, "more "+one, "more "+many) + " below."
	}
	return ""
}

// passed says what was found where nothing was, and what that does not cover.
func (p *printer) passed() string {
	text := strings.TrimSuffix(p.sentence(), ".")
	supposing := 0
	for _, f := range p.findings {
		if len(f.Taken) > 0 {
			supposing++
		}
	}
	switch {
	case supposing == 0:
	case supposing == len(p.findings):
		text += "; " + verb(supposing, "it rests", "all of them rest") + " on what is usual"
	default:
		text += fmt.Sprintf("; %d of them %s on what is usual", supposing, verb(supposing, "rests", "rest"))
	}
	if n := len(p.report.NotJudged()); n > 0 {
		text += "; " + counted(n, "thing is", "things are") + " not judged"
	}
	return text + "."
}

// open says what to do first about what is not decided.
func (p *printer) open() string {
	if ask := p.report.Ask(); len(ask) > 0 {
		return p.measure(ask[0].Name, ask[0].How)
	}
	if missing := p.report.Missing(); len(missing) > 0 {
		m := missing[0]
		kind, _, fact := strings.Cut(m.Name, ".")
		if !fact {
			return "add the " + kindsText([]string{kind}) + "."
		}
		return p.measure(m.Name, m.How)
	}
	if p.broken() > 0 {
		return "a check went wrong." + p.advice()
	}
	if absent := p.report.Absent(); len(absent) > 0 {
		return "a whole bicycle also needs: " + kindsText(absent) + "."
	}
	if named := p.report.NotJudged(); len(named) > 0 {
		return full("not judged is " + lower(named[0].What))
	}
	return lower(p.sentence())
}

// measure says to find a fact out, how, and where to put it.
func (p *printer) measure(name, how string) string {
	kind, _, _ := strings.Cut(name, ".")
	text := "measure or look up " + strings.TrimSuffix(p.report.Words(name), " ("+kindsText([]string{kind})+")")
	if how != "" {
		text += " (" + lower(strings.TrimSuffix(firstSentence(how), ".")) + ")"
	}
	return text + " and add " + name + "=VALUE."
}

// firstSentence cuts a text behind its first sentence. An abbreviation is no end: no
// capital stands behind it.
func firstSentence(s string) string {
	for i, r := range s {
		if !strings.ContainsRune(".!?", r) || !strings.HasPrefix(s[i+1:], " ") {
			continue
		}
		if next, _ := utf8.DecodeRuneInString(s[i+2:]); unicode.IsUpper(next) {
			return s[:i+1]
		}
	}
	return s
}
