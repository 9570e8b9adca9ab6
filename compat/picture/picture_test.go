package picture_test

import (
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// TestLabelsHaveRoom holds over the demo and over mixes that nobody thought of that no
// label lies over another or outside its drawing.
func TestLabelsHaveRoom(t *testing.T) {
	drawn, labels := map[string]int{}, 0
	for name, o := range outlines(t) {
		for _, p := range everything(o) {
			faults, n := p.Faults()
			for _, f := range faults {
				t.Errorf("%s, %s: %s", name, p.Title, f)
			}
			labels += n
			if slices.Contains(demo.Mixes(), name) && len(p.Left()) > 0 {
				t.Errorf("%s, %s: no room for %q", name, p.Title, p.Left())
			}
			if p.Drawn {
				drawn[p.Name]++
			}
		}
	}
	for _, d := range compat.Drawings() {
		if drawn[d.Name] < 25 {
			t.Errorf("%s was drawn %d times", d.Name, drawn[d.Name])
		}
	}
	if labels < 10_000 {
		t.Errorf("only %d labels", labels)
	}
}

var noNumber = regexp.MustCompile(`NaN|Inf|-0[" ]`)

// TestDrawingsAreWhole holds that each is well-formed, of numbers alone, the same every
// time, named for who cannot see it, and that a table has as many cells as its head.
func TestDrawingsAreWhole(t *testing.T) {
	for name, o := range outlines(t) {
		wholeDrawings(t, name, o)
	}
}

// wholeDrawings holds all drawings of an outline.
func wholeDrawings(t testing.TB, name string, o compat.Outline) {
	t.Helper()
	again := everything(o)
	for i, p := range everything(o) {
		all := p.SVG + p.Caption + strings.Join(p.Table.Head, " ")
		for _, row := range p.Table.Rows {
			all += strings.Join(row, " ")
			if len(row) != len(p.Table.Head) {
				t.Errorf("%s, %s: the row %q below %q", name, p.Title, row, p.Table.Head)
			}
		}
		if found := noNumber.FindString(all); found != "" || strings.Contains(p.SVG, `=""`) {
			t.Errorf("%s, %s has %q in it:\n%s", name, p.Title, found, all)
		}
		if p.SVG != again[i].SVG || p.Caption != again[i].Caption {
			t.Errorf("%s, %s is another one the second time", name, p.Title)
		}
		elements := parsed(t, p.SVG)
		if elements["title"] == "" || elements["desc"] != p.Caption || p.Caption == "" {
			t.Errorf("%s, %s: the title is %q, the description %q, the caption %q", name, p.Title, elements["title"], elements["desc"], p.Caption)
		}
		if _, lacks := o.Lack(p.Name); lacks == p.Drawn || !p.Drawn && !strings.HasPrefix(p.Caption, "Not drawn: ") {
			t.Errorf("%s, %s: something lacks: %t; drawn: %t, %q", name, p.Title, lacks, p.Drawn, p.Caption)
		}
		if strings.Contains(p.SVG, "<script") || strings.ContainsAny(p.SVG+p.Caption, "\u202e\u0007") || !utf8.ValidString(p.SVG) {
			t.Errorf("%s, %s: a name is more than text:\n%s", name, p.Title, p.SVG)
		}
	}
}

// parsed reads an svg element and gives the texts of its title and description. Only
// shapes and texts may be in it.
func parsed(t testing.TB, svg string) map[string]string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	texts, in := map[string]string{}, ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			return texts
		}
		if err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
		switch token := token.(type) {
		case xml.StartElement:
			in = token.Name.Local
			if !slices.Contains([]string{"svg", "title", "desc", "path", "rect", "circle", "text"}, in) {
				t.Errorf("an element %s", in)
			}
		case xml.CharData:
			texts[in] += string(token)
		}
	}
}

// TestIDs holds that the ids of two reports on one page differ by their prefix, and that
// those of the two views differ.
func TestIDs(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	seen := map[string]bool{}
	id := regexp.MustCompile(` id="([^"]+)"`)
	for _, prefix := range []string{"", "b-"} {
		for i, p := range picture.All(o, picture.Options{Prefix: prefix}) {
			if p.Wide != (i == 0) || p.Wide != strings.Contains(p.SVG, ` width="940"`) {
				t.Errorf("%s is wide: %t", p.Title, p.Wide)
			}
			for _, m := range id.FindAllStringSubmatch(p.SVG, -1) {
				if seen[m[1]] || !strings.HasPrefix(m[1], prefix) {
					t.Errorf("the id %s", m[1])
				}
				seen[m[1]] = true
			}
		}
	}
	if len(seen) != 24 {
		t.Errorf("%d ids", len(seen))
	}
}

// TestEveryDrawingIsDrawn holds that what rules may name is what is drawn.
func TestEveryDrawingIsDrawn(t *testing.T) {
	o := demoOutline(t, "ferry-motor")
	for _, d := range compat.Drawings() {
		if p, ok := picture.Draw(d.Name, o, picture.Options{}); !ok || !p.Drawn || p.Name != d.Name {
			t.Errorf("%s: drawn %t, as %q", d.Name, p.Drawn, p.Name)
		}
	}
	if _, ok := picture.Draw("rose", o, picture.Options{}); ok {
		t.Error("a drawing that there is not")
	}
}

// mostBytes is what all drawings of a report may weigh together, in bytes.
const mostBytes = 50_000

// TestDrawingsAreLight holds their weight.
func TestDrawingsAreLight(t *testing.T) {
	for name, o := range outlines(t) {
		sum := 0
		for _, p := range everything(o) {
			sum += len(p.SVG)
		}
		if sum > mostBytes {
			t.Errorf("%s: %d bytes", name, sum)
		}
	}
}

// BenchmarkAll draws the report of a whole bicycle, from its outline on.
func BenchmarkAll(b *testing.B) {
	o := demoOutline(b, "ferry-motor")
	b.ReportAllocs()
	for b.Loop() {
		picture.All(o, picture.Options{})
	}
}
