package main

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// What a page may take, in bytes: it goes by mail, and over a phone.
const (
	mostOfReport = 80_000
	mostOfSheet  = 60_000
)

// element is one element of a page, with its attributes.
type element struct {
	name string
	attr map[string]string
}

// elementsOf reads a page as a browser would, but that every element must be closed. It
// gives the elements and the texts between them.
func elementsOf(t *testing.T, what, page string) (elements []element, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, []string{"meta", "input"}, xml.HTMLEntity
	var open []string
	var texts strings.Builder
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s is no page: %v", what, err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{token.Name.Local, map[string]string{}}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			elements, open = append(elements, e), append(open, e.name)
		case xml.EndElement:
			if n := len(open); n == 0 || open[n-1] != token.Name.Local {
				t.Fatalf("%s: </%s> closes %v", what, token.Name.Local, open)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			if n := len(open); n == 0 || open[n-1] != "style" {
				texts.Write(token)
			}
		}
	}
	if len(open) > 0 {
		t.Fatalf("%s: not closed: %v", what, open)
	}
	return elements, strings.Join(strings.Fields(texts.String()), " ")
}

// wholePage holds what goes for every page: it asks for nothing, its ids are its own and
// each link leads to one, every blank has a name, and nothing went wrong in making it.
func wholePage(t *testing.T, what, page string) (elements []element, text string) {
	t.Helper()
	elements, text = elementsOf(t, what, page)
	ids := map[string]bool{}
	for _, e := range elements {
		if id := e.attr["id"]; id != "" {
			if ids[id] {
				t.Errorf("%s: the id %s stands twice", what, id)
			}
			ids[id] = true
		}
	}
	for _, e := range elements {
		switch e.name {
		case "script", "img", "link", "iframe", "object", "form", "base":
			t.Errorf("%s has a %s", what, e.name)
		}
		for name, value := range e.attr {
			switch {
			case name == "href" && (!strings.HasPrefix(value, "#") || !ids[value[1:]]):
				t.Errorf("%s leads to %q", what, value)
			case name == "src", name == "style", strings.HasPrefix(name, "on"):
				t.Errorf("%s: %s=%q", what, name, value)
			}
		}
		for _, id := range strings.Fields(e.attr["aria-labelledby"]) {
			if !ids[id] {
				t.Errorf("%s has no id %s", what, id)
			}
		}
	}
	if m := regexp.MustCompile(`NaN|\bInf\b|%!|<nil>|ZgotmplZ|@import|url\(`).FindString(page); m != "" && !strings.Contains(text, m) {
		t.Errorf("%s has %q", what, m)
	}
	if view.Clean(strings.ReplaceAll(page, "\n", "")) != strings.ReplaceAll(page, "\n", "") {
		t.Errorf("%s has characters that nobody sees", what)
	}
	return elements, text
}

// Every mix of the demo is a page that says what the text says, within its size, and the
// same each time.
func TestDemoPages(t *testing.T) {
	for _, name := range demo.Mixes() {
		for what, most := range map[string]int{"check": mostOfReport, "sheet": mostOfSheet} {
			status, page, stderr := command1("", what, "--format", "html", "demo:"+name)
			_, again, _ := command1("", what, "demo:"+name, "--format", "html")
			asText, _, _ := command1("", what, "--plain", "demo:"+name)
			if page != again || status != asText || stderr != "" {
				t.Errorf("%s of %s: another page, or status %d for %d: %s", what, name, status, asText, stderr)
			}
			if len(page) > most {
				t.Errorf("%s of %s takes %d bytes of %d", what, name, len(page), most)
			}
			wholePage(t, what+" of "+name, page)
		}
	}
}

// Whatever is put together, its page tells each rule that does not pass, has a blank for
// each fact that is missing and a box for each step, and leads from a finding to the
// drawing that its rule names, where that could be drawn.
func TestPagesOfAnything(t *testing.T) {
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	led := 0
	for i, m := range generated(t, 60) {
		if i%3 > 0 && testing.Short() {
			continue
		}
		what, r := fmt.Sprintf("mix %d", i), c.Check(m)
		page := reportsPage(t, r)
		elements, text := wholePage(t, what, page)
		for _, f := range r.Findings() {
			if !strings.Contains(text, f.Rule) {
				t.Errorf("%s: nothing of %s", what, f.Rule)
			}
			led += strings.Count(page, `href="#draw-`+f.Draw.Name+`"`)
		}
		if got, want := countOf(elements, "input"), len(r.Missing())+3; got != want {
			t.Errorf("%s: %d blanks for %d", what, got, want)
		}
		s := c.Sheet(m)
		var b strings.Builder
		if err := view.SheetHTML(&b, s); err != nil {
			t.Fatal(err)
		}
		elements, text = wholePage(t, "the sheet of "+what, b.String())
		boxes := 0
		for _, e := range elements {
			if e.attr["type"] == "checkbox" {
				boxes++
			}
		}
		if boxes != len(s.Steps)+len(s.Assumed) {
			t.Errorf("%s: %d boxes for %d steps and %d values", what, boxes, len(s.Steps), len(s.Assumed))
		}
		for _, step := range s.Steps {
			if !strings.Contains(text, strings.Join(strings.Fields(view.Clean(step.Do)), " ")) {
				t.Errorf("the sheet of %s: nothing of %s", what, step.ID)
			}
		}
	}
	if led == 0 {
		t.Error("no finding leads to its drawing")
	}
}

func reportsPage(t *testing.T, reports ...compat.Report) string {
	t.Helper()
	var b strings.Builder
	if err := view.ReportsHTML(&b, reports, 0, view.Style{}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func countOf(elements []element, name string) int {
	n := 0
	for _, e := range elements {
		if e.name == name {
			n++
		}
	}
	return n
}

// hostileNames are those of testdata/hostile.
func hostileNames(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/hostile/names.txt")
	if err != nil {
		t.Fatal(err)
	}
	names := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")[1:]
	if len(names) < 80 {
		t.Fatalf("only %d names", len(names))
	}
	return append(names, hostile...)
}

// A name stays text: a page has the elements and attributes that it has with a harmless
// one, and shows the name.
func TestHostileNamesStayText(t *testing.T) {
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	harmless, _ := elementsOf(t, "harmless", reportsPage(t, hostileReport(t, c, "Harmless")))
	for _, name := range hostileNames(t) {
		r := hostileReport(t, c, name)
		elements, text := wholePage(t, name, reportsPage(t, r))
		if len(elements) != len(harmless) {
			t.Errorf("%q: %d elements, %d with a harmless name", name, len(elements), len(harmless))
			continue
		}
		for i, e := range elements {
			if e.name != harmless[i].name || len(e.attr) != len(harmless[i].attr) {
				t.Errorf("%q makes %v of %v", name, e, harmless[i])
			}
		}
		if want := strings.Join(strings.Fields(view.Clean(strings.ReplaceAll(name, "\n", " "))), " "); strings.Count(text, want) < 2 {
			t.Errorf("%q is not shown as it is", name)
		}
	}
}

// hostileReport is that of a mix with this name, whose chain has it as well.
func hostileReport(t *testing.T, c *compat.Checker, name string) compat.Report {
	t.Helper()
	chain, err := catalog.New("chain", map[string]any{"name": name, "speeds": 9})
	if err != nil {
		t.Fatal(err)
	}
	cassette, err := catalog.New("cassette", map[string]any{"cogs_t": []int{11, 13, 15}, "pitch_mm": 4.34, "maker": name})
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.NewMix(name, compat.ScopeCart, chain, cassette)
	if err != nil {
		t.Fatal(err)
	}
	return c.Check(m)
}

// Several mixes are one page with contents that lead to each; what did not load is
// counted there.
func TestPageOfSeveral(t *testing.T) {
	status, page, stderr := command1("", "check", "--format", "html", "demo:ferry-motor", "missing.yaml", "demo:donated-undecided")
	if status != exitLoad || !strings.Contains(stderr, "missing.yaml") {
		t.Errorf("status %d: %s", status, stderr)
	}
	elements, text := wholePage(t, "three", page)
	if countOf(elements, "article") != 2 || countOf(elements, "style") != 1 || countOf(elements, "nav") != 1 {
		t.Error("it is not one page with two reports and contents")
	}
	if want := "2 mixes judged: 0 fail, 1 unknown, 1 warn, 0 pass. 1 mix did not load."; !strings.Contains(text, want) {
		t.Errorf("the contents do not say %q", want)
	}
	for _, id := range []string{"m1-report", "m2-report", "m1-draw-error"} {
		if !strings.Contains(page, `id="`+id+`"`) || !strings.Contains(page, `href="#`+id+`"`) {
			t.Errorf("nothing leads to %s", id)
		}
	}
	if status, page, _ := command1("", "check", "--format", "html", "missing.yaml"); status != exitLoad || page != "" {
		t.Errorf("of nothing a page was made, status %d", status)
	}
}

// A change has each drawing that it alters twice, a choice has its own, and the reference
// has every rule with its limits.
func TestOtherPages(t *testing.T) {
	of := func(args ...string) (page, text string) {
		t.Helper()
		_, page, stderr := command1("", append(args, "--format", "html")...)
		_, again, _ := command1("", append(args, "--format", "html")...)
		if page != again || stderr != "" {
			t.Errorf("%v: another page, or %s", args, stderr)
		}
		_, text = wholePage(t, args[0], page)
		return page, text
	}
	page, text := of("compare", "demo:fleet-three-faults", "demo:ferry-motor")
	for _, id := range []string{"before-error-t", "after-error-t", "before-length-t", "after-length-t"} {
		if strings.Count(page, `id="`+id+`"`) != 1 {
			t.Errorf("the change has no %s", id)
		}
	}
	if strings.Contains(page, "after-gears") || !strings.Contains(text, "The change leaves as they are: gear ladder.") {
		t.Error("the gears do not change, and are drawn")
	}
	for _, want := range []string{"drive/radio", "(fail to pass)", "2 worse, 15 new, 3 better, 3 gone", "Cause rear derailleur"} {
		if !strings.Contains(text, want) {
			t.Errorf("the change does not say %q", want)
		}
	}
	page, text = of("fit", "demo:fleet-three-faults", "--kind", "cassette")
	_, asText, _ := command1("", "fit", "demo:fleet-three-faults", "--kind", "cassette")
	asText, _, _ = strings.Cut(asText, "refused")
	choices := regexp.MustCompile(`cassette (\S+),`).FindAllStringSubmatch(asText, -1)
	if len(choices) < 3 || strings.Count(page, "<figure") != len(choices) {
		t.Errorf("%d drawings for %d choices", strings.Count(page, "<figure"), len(choices))
	}
	for _, c := range choices {
		if !strings.Contains(text, "Cassette "+c[1]+",") {
			t.Errorf("no choice %s", c[1])
		}
	}
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	page, text = of("rules")
	for _, r := range c.Rules().Rules() {
		if !strings.Contains(page, `id="`+r.ID+`"`) || !strings.Contains(text, strings.Join(strings.Fields(r.FailIf), " ")) {
			t.Errorf("the reference does not show %s", r.ID)
		}
	}
}

// A page says a verdict by its word and its sign, whatever it is.
func TestPageOfEachVerdict(t *testing.T) {
	for mix, want := range map[string]rules.Verdict{
		"club-two-ring": rules.Pass, "ferry-motor": rules.Warn, "fleet-three-faults": rules.Fail, "donated-undecided": rules.Unknown,
	} {
		_, page, _ := command1("", "check", "--format", "html", "demo:"+mix)
		head, _, _ := strings.Cut(page, "<section")
		if !strings.Contains(head, "<strong>"+want.String()+"</strong>") || !strings.Contains(head, `<p class="verdict `+want.String()+`"><svg`) {
			t.Errorf("%s does not head its page with %s", mix, want)
		}
	}
}

// BenchmarkPages makes pages as a command does, but for the first: what was parsed is kept.
func BenchmarkPages(b *testing.B) {
	c, cat, err := options{}.open()
	if err != nil {
		b.Fatal(err)
	}
	text, _ := demo.Mix("ferry-motor")
	m, err := compat.ReadMix("ferry-motor", text, cat)
	if err != nil {
		b.Fatal(err)
	}
	r, s := c.Check(m), c.Sheet(m)
	b.Run("report", func(b *testing.B) {
		for b.Loop() {
			if err := view.ReportsHTML(io.Discard, []compat.Report{r}, 0, view.Style{}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("sheet", func(b *testing.B) {
		for b.Loop() {
			if err := view.SheetHTML(io.Discard, s); err != nil {
				b.Fatal(err)
			}
		}
	})
}
