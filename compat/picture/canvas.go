package picture

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// pt is a point of a drawing, in px to the right and downwards.
type pt struct{ x, y float64 }

func (p pt) to(x, y float64) pt { return pt{p.x + x, p.y + y} }

// anchor says which end of a text its point is.
type anchor uint8

const (
	begin anchor = iota
	middle
	end
)

// box is where a text lies, with the text.
type box struct {
	from, to pt
	text     string
}

// meets says whether two boxes lie over each other, be it by a hair.
func (b box) meets(o box) bool {
	return b.from.x < o.to.x && o.from.x < b.to.x && b.from.y < o.to.y && o.from.y < b.to.y
}

// canvas is a drawing on its way. Boxes of its texts are kept while it is drawn, so
// that the next is put beside them.
type canvas struct {
	b     []byte
	size  pt
	unit  float64 // the size of its texts as a part of that of a page's drawings
	boxes []box
	lines []box    // that a text is not to be crossed by, where it has another place
	left  []string // texts for which there was no room
}

// The sizes of texts, in px.
const (
	textSize = 13
	noteSize = 12
)

func newCanvas(width, height float64) *canvas { return &canvas{size: pt{width, height}, unit: 1} }

// num writes a number of a drawing, with a hundredth where texts are that small.
func (c *canvas) num(x float64) {
	decimals := 1
	if c.unit < 0.5 {
		decimals = 2
	}
	c.b = appendNum(c.b, x, decimals)
}

// appendNum writes a number with at most so many decimals.
func appendNum(to []byte, x float64, decimals int) []byte {
	scale := math.Pow10(decimals)
	return strconv.AppendFloat(to, math.Round(x*scale)/scale+0, 'f', -1, 64)
}

// attr writes an attribute that is a number.
func (c *canvas) attr(name string, x float64) {
	c.b = append(c.b, ' ')
	c.b = append(c.b, name...)
	c.b = append(c.b, '=', '"')
	c.num(x)
	c.b = append(c.b, '"')
}

// open begins an element of a class.
func (c *canvas) open(element, class string) {
	c.b = append(c.b, '<')
	c.b = append(c.b, element...)
	if class != "" {
		c.b = append(c.b, ` class="`...)
		c.b = append(c.b, class...)
		c.b = append(c.b, '"')
	}
}

func (c *canvas) shut() { c.b = append(c.b, "/>"...) }

func (c *canvas) line(class string, a, b pt) { c.path(class, c.from(a).line(b)) }

func (c *canvas) rect(class string, a, b pt) {
	c.open("rect", class)
	c.attr("x", min(a.x, b.x))
	c.attr("y", min(a.y, b.y))
	c.attr("width", math.Abs(b.x-a.x))
	c.attr("height", math.Abs(b.y-a.y))
	c.shut()
}

func (c *canvas) circle(class string, at pt, r float64) {
	c.open("circle", class)
	c.attr("cx", at.x)
	c.attr("cy", at.y)
	c.attr("r", r)
	c.shut()
}

// teeth draws a ring of so many dashes, from one radius to another.
func (c *canvas) teeth(at pt, count, root, tip float64) {
	c.open("circle", "teeth")
	c.attr("cx", at.x)
	c.attr("cy", at.y)
	c.attr("r", (root+tip)/2)
	c.attr("stroke-width", tip-root)
	c.attr("pathLength", 2*count)
	c.shut()
}

func (c *canvas) path(class string, p *trail) {
	c.open("path", class)
	c.b = append(c.b, ` d="`...)
	c.b = append(c.b, p.b...)
	c.b = append(c.b, `"/>`...)
}

// trail is a path on its way.
type trail struct {
	b        []byte
	decimals int
}

// from begins a path.
func (c *canvas) from(a pt) *trail {
	t := &trail{decimals: 1}
	if c.unit < 0.5 {
		t.decimals = 2
	}
	return t.point('M', a)
}

func (t *trail) point(command byte, a pt) *trail {
	t.b = append(t.b, command)
	t.b = appendNum(t.b, a.x, t.decimals)
	t.b = append(t.b, ' ')
	t.b = appendNum(t.b, a.y, t.decimals)
	return t
}

func (t *trail) move(a pt) *trail { return t.point('M', a) }

func (t *trail) line(a pt) *trail { return t.point('L', a) }

// through begins a path that goes through points.
func (c *canvas) through(points []pt) *trail {
	t := c.from(points[0])
	for _, p := range points[1:] {
		t.line(p)
	}
	return t
}

// closed goes back to where the path began.
func (t *trail) closed() *trail {
	t.b = append(t.b, 'Z')
	return t
}

// arc goes round a circle to a point: by more than half of it, and the way that clocks
// go.
func (t *trail) arc(r float64, far, clockwise bool, to pt) *trail {
	t.b = append(t.b, 'A')
	t.b = appendNum(t.b, r, t.decimals)
	t.b = append(t.b, ' ')
	t.b = appendNum(t.b, r, t.decimals)
	t.b = append(t.b, " 0 "...)
	t.b = append(t.b, flag(far), ' ', flag(clockwise))
	return t.point(' ', to)
}

func flag(is bool) byte {
	if is {
		return '1'
	}
	return '0'
}

// sizeOf is the size of a text of a class, in px: s is a side note.
func (c *canvas) sizeOf(class string) float64 {
	if slices.Contains(strings.Fields(class), "s") {
		return noteSize * c.unit
	}
	return textSize * c.unit
}

// boxOf is where a text would lie.
func (c *canvas) boxOf(class string, at spot, text string) box {
	size := c.sizeOf(class)
	w := width(text, slices.Contains(strings.Fields(class), "b")) * size
	x := at.x
	switch at.anchor {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	return box{pt{x, at.y - 0.8*size}, pt{x + w, at.y + 0.22*size}, text}
}

// spot is where a text may stand, by its base line.
type spot struct {
	pt
	anchor anchor
}

// text writes a text whose place is sure.
func (c *canvas) text(class string, at pt, a anchor, text string) {
	s := spot{at, a}
	c.write(class, s, c.boxOf(class, s, text))
}

func (c *canvas) write(class string, at spot, where box) {
	c.boxes = append(c.boxes, where)
	c.open("text", class)
	c.attr("x", at.x)
	c.attr("y", at.y)
	switch at.anchor {
	case middle:
		c.b = append(c.b, ` text-anchor="middle"`...)
	case end:
		c.b = append(c.b, ` text-anchor="end"`...)
	}
	c.b = append(c.b, '>')
	c.b = append(c.b, escaped(where.text)...)
	c.b = append(c.b, "</text>"...)
}

// place writes a text at the first of these spots at which it lies inside and over no
// other text, and no line that is kept crosses it; where each is crossed, at the first that
// is free. It is not ok, and nothing is written, where there is none.
func (c *canvas) place(class, text string, spots ...spot) (ok bool) {
	free := -1
	for i, s := range spots {
		b := c.boxOf(class, s, text)
		inside := b.from.x >= 0 && b.from.y >= 0 && b.to.x <= c.size.x && b.to.y <= c.size.y
		if !inside || slices.ContainsFunc(c.boxes, b.meets) {
			continue
		}
		if free < 0 {
			free = i
		}
		if !slices.ContainsFunc(c.lines, b.meets) {
			free = i
			break
		}
	}
	if free < 0 {
		c.left = append(c.left, text)
		return false
	}
	c.write(class, spots[free], c.boxOf(class, spots[free], text))
	return true
}

// keep notes where a line runs, so that texts are put beside it.
func (c *canvas) keep(a, b pt) {
	const each = 6
	n := math.Ceil(math.Hypot(b.x-a.x, b.y-a.y) / each)
	for k := 0.0; k < n; k++ {
		p := pt{a.x + (b.x-a.x)*k/n, a.y + (b.y-a.y)*k/n}
		q := pt{a.x + (b.x-a.x)*(k+1)/n, a.y + (b.y-a.y)*(k+1)/n}
		c.lines = append(c.lines, box{from: pt{min(p.x, q.x), min(p.y, q.y) - 1}, to: pt{max(p.x, q.x), max(p.y, q.y) + 1}})
	}
}

// dimension draws a measured way with its text in the middle, the line broken for it;
// a text that is too long stands at the first of the other spots that is free.
func (c *canvas) dimension(a, b pt, text string, others ...spot) {
	const tick = 4
	c.line("dim", a.to(0, -tick), a.to(0, tick))
	c.line("dim", b.to(0, -tick), b.to(0, tick))
	centre := pt{(a.x + b.x) / 2, a.y + 0.36*noteSize*c.unit}
	half := width(text, false)*noteSize*c.unit/2 + 4
	if b.x-a.x > 2*half+12 {
		if c.place("s i", text, spot{centre, middle}) {
			c.line("dim", a, pt{centre.x - half, a.y})
			c.line("dim", pt{centre.x + half, a.y}, b)
			return
		}
	}
	c.line("dim", a, b)
	c.place("s i", text, others...)
}
