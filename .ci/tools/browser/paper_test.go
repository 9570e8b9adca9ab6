package browser

import (
	"bytes"
	"compress/zlib"
	"context"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// The sizes of paper, in inches.
var papers = map[string][2]float64{"A4": {8.27, 11.69}, "Letter": {8.5, 11}}

const (
	controlBar = 50  // mm, of the paper gauge
	controlEnd = 4   // mm, of the strokes at its ends
	tolerance  = 0.1 // mm: no ruler shows less
	pointsAmm  = 72 / 25.4
)

// The bar of the paper gauge measures what it says on paper: a page is not shrunk when it
// is printed. A report takes few pages.
func TestPaper(t *testing.T) {
	sheet := pageOf(t, "sheet", "sheet", "--format", "html", "demo:ferry-motor")
	report := pageOf(t, "report", "check", "--format", "html", "demo:ferry-motor")
	tab := newTab(t)
	for name, size := range papers {
		tab.open(t, sheet)
		pdf := tab.printed(t, size)
		bars := barsIn(t, pdf)
		if len(bars) != 1 || math.Abs(bars[0]-controlBar) > tolerance {
			t.Errorf("on %s the control bar measures %v mm, not %d", name, bars, controlBar)
		}
		tab.open(t, report)
		if n := pagesIn(tab.printed(t, size)); n < 2 || n > 4 {
			t.Errorf("a report takes %d pages of %s", n, name)
		}
	}
}

// printed prints what is shown to PDF as a person would who changes nothing.
func (tab *tab) printed(t *testing.T, size [2]float64) []byte {
	t.Helper()
	var pdf []byte
	tab.do(t, chromedp.ActionFunc(func(on context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPaperWidth(size[0]).WithPaperHeight(size[1]).WithPrintBackground(false).Do(on)
		return err
	}))
	return pdf
}

func pagesIn(pdf []byte) int { return len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(pdf, -1)) }

// barsIn measures what looks like the control bar: a level line between two upright ones
// of the length of its ends, in mm.
func barsIn(t *testing.T, pdf []byte) []float64 {
	t.Helper()
	var out []float64
	read := 0
	for _, part := range bytes.Split(pdf, []byte("stream\n")) {
		packed, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue // it is no packed stream
		}
		text, err := io.ReadAll(packed)
		if err != nil {
			continue // nor is this one, which only begins so
		}
		read++
		out = append(out, newPlotter().bars(string(text))...)
	}
	if read == 0 {
		t.Fatal("the PDF has no stream that could be read")
	}
	return out
}

// plotter follows lines through a page's description.
type plotter struct {
	to    matrix
	saved []matrix
	at    [2]float64
	lines [][2]float64 // of the path so far, each by its way
	found []float64
}

// matrix is one of PDF: x' = a x + c y + e, y' = b x + d y + f.
type matrix [6]float64

func newPlotter() *plotter { return &plotter{to: matrix{1, 0, 0, 1, 0, 0}} }

// bars carries out the operators that move, draw and scale.
func (p *plotter) bars(text string) []float64 {
	var numbers []float64
	for _, word := range strings.Fields(text) {
		if x, err := strconv.ParseFloat(word, 64); err == nil {
			numbers = append(numbers, x)
			continue
		}
		p.operator(word, numbers)
		numbers = numbers[:0]
	}
	return p.found
}

func (p *plotter) operator(word string, n []float64) {
	switch {
	case word == "q":
		p.saved = append(p.saved, p.to)
	case word == "Q" && len(p.saved) > 0:
		p.to, p.saved = p.saved[len(p.saved)-1], p.saved[:len(p.saved)-1]
	case word == "cm" && len(n) == 6:
		p.to = p.to.after(matrix(n))
	case word == "m" && len(n) == 2:
		p.at = p.to.of(n[0], n[1])
	case word == "l" && len(n) == 2:
		to := p.to.of(n[0], n[1])
		p.lines = append(p.lines, [2]float64{to[0] - p.at[0], to[1] - p.at[1]})
		p.at = to
	case word == "S":
		p.stroke()
		p.lines = nil
	case word == "f", word == "f*", word == "n", word == "B":
		p.lines = nil
	}
}

// stroke looks at a path that is drawn.
func (p *plotter) stroke() {
	if len(p.lines) != 3 {
		return
	}
	upright := func(l [2]float64) bool {
		return math.Abs(l[0]) < 0.01 && math.Abs(math.Abs(l[1])/pointsAmm-controlEnd) < 0.5
	}
	if bar := p.lines[1]; upright(p.lines[0]) && upright(p.lines[2]) && math.Abs(bar[1]) < 0.01 {
		p.found = append(p.found, math.Abs(bar[0])/pointsAmm)
	}
}

// after is a matrix that is applied to what another one gives.
func (m matrix) after(n matrix) matrix {
	return matrix{
		n[0]*m[0] + n[1]*m[2], n[0]*m[1] + n[1]*m[3], n[2]*m[0] + n[3]*m[2], n[2]*m[1] + n[3]*m[3],
		n[4]*m[0] + n[5]*m[2] + m[4], n[4]*m[1] + n[5]*m[3] + m[5],
	}
}

func (m matrix) of(x, y float64) [2]float64 {
	return [2]float64{m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]}
}
