package view

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

//go:embed page
var pageFiles embed.FS

// stationery is what all pages are made with.
type stationery struct {
	templates *template.Template
	head      template.HTML
}

// pages are read when the first page is made, so that no other command pays for them.
var pages = sync.OnceValues(func() (s stationery, err error) {
	own, err := pageFiles.ReadFile("page/page.css")
	if err == nil {
		s.head = headWith(picture.Style() + string(own))
		s.templates, err = template.ParseFS(pageFiles, "page/*.html")
	}
	return s, err
})

// headWith is a style, and the policy that lets a browser take this style and nothing
// else: no script, no picture, no style that a name brings along, no request.
func headWith(style string) template.HTML {
	sum := sha256.Sum256([]byte(style))
	return template.HTML(`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-` +
		base64.StdEncoding.EncodeToString(sum[:]) + `'; base-uri 'none'; form-action 'none'">` + "\n<style>" + style + "</style>")
}

// htmlPage is one file: reports, or one of the others.
type htmlPage struct {
	Head     template.HTML
	Title    string
	Contents *htmlContents // where there are several reports
	Reports  []htmlReport
	Sheet    *htmlSheet
	Change   *htmlChange
	Fit      *htmlFit
	Rules    *htmlRules
}

// htmlContents leads to each of several reports.
type htmlContents struct {
	Title, Sum string
	Lines      []htmlLine
}

type htmlLine struct {
	ID, Name string
	Verdict  rules.Verdict
	Mark     template.HTML
	Brief    string
}

// htmlHead is what stands above all: the name, the verdict and a sentence.
type htmlHead struct {
	Over, Name      string
	Verdict         rules.Verdict
	Mark            template.HTML
	Sentence, Lacks string
	Blanks          []string // to write on
}

// row is a word and a text behind it.
type row struct{ Word, Text string }

// Class gives what is shown otherwise, or left out on paper, a name.
func (r row) Class() string {
	switch r.Word {
	case "Beware":
		return "beware"
	case "Because":
		return "because"
	}
	return ""
}

// rowsOf leaves out the rows that have no text.
func rowsOf(rows ...row) []row {
	var out []row
	for _, r := range rows {
		if strings.TrimSpace(r.Text) != "" {
			out = append(out, r)
		}
	}
	return out
}

// markOf is the sign of a verdict: its parts are our own, no text is in it.
func markOf(v rules.Verdict) template.HTML { return template.HTML(picture.Mark(v)) }

// headOf heads a report or a sheet.
func (p *printer) headOf(what string) htmlHead {
	m := p.report.Mix
	return htmlHead{
		Over: fmt.Sprintf("%s: %s of %s", what, m.Scope(), counted(len(m.Parts()), "part", "parts")), Name: nameOf(m),
		Verdict: p.report.Verdict, Mark: markOf(p.report.Verdict), Sentence: p.sentence(), Lacks: p.absentText(),
		Blanks: []string{"Date", "Bicycle no.", "Checked by"},
	}
}

// footOf says what a page rests on, so that the same can be printed again. No date is in
// it: the same mix by the same rules gives the same file.
func footOf(r compat.Report) string {
	set := r.RuleSet()
	return fmt.Sprintf("Advice from the numbers that people stated. %s, cogcourt %s, %s",
		counted(set.Count, "rule", "rules"), compat.Version, set.Hash)
}

// print writes a page, and nothing where it cannot be made; what could not be written is
// for who watches the writer. Characters that nobody sees
// are made visible in all of it, wherever they came from; line breaks are the page's own
// or a blank.
func (h htmlPage) print(w io.Writer) error {
	made, err := pages()
	if err != nil {
		return err
	}
	h.Head = made.head
	var text strings.Builder
	if err := made.templates.ExecuteTemplate(&text, "page", h); err != nil {
		return err
	}
	var out strings.Builder
	out.Grow(text.Len())
	for line := range strings.Lines(text.String()) {
		out.WriteString(Clean(strings.TrimSuffix(line, "\n")))
		out.WriteByte('\n')
	}
	_, _ = io.WriteString(w, out.String())
	return nil
}
