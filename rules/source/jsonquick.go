package source

import (
	"strings"
	"sync"
)

// parseQuick reads what is sound JSON and holds nothing unusual, in one pass and into
// few pieces of memory. It says no to anything else: an escape, an entry without a name
// or that stands twice, a number near the ends of what can be held, and every fault.
// Then encoding/json decides what the text is, and words what is wrong with it. Texts
// and names are pieces of the file's text.
func parseQuick(l *layout) (*Node, bool) {
	q := quickJSON{l: l, text: l.text, around: arounds.Get().(*around)}
	defer q.around.free()
	if l.lent == nil {
		q.nodes = make([]Node, 0, min(mostTokens(l.text), 4*chunkNodes))
	}
	q.blank()
	n := q.value(0)
	q.blank()
	l.used(len(q.nodes))
	if q.no || q.at < len(q.text) {
		return nil, false
	}
	return n, true
}

// mostTokens is at least as many as the values and names of a text: each is the first of
// all or stands behind one of these signs.
func mostTokens(text string) int {
	n := 1
	for i := range len(text) {
		switch text[i] {
		case ',', ':', '[', '{':
			n++
		}
	}
	return n
}

// quickJSON is a text on its way to be a tree.
type quickJSON struct {
	l    *layout
	text string
	at   int
	no   bool // something unusual was met

	line  int // from 0
	begin int // of the line, in bytes
	more  int // bytes of the line that only continue a character

	count int // of values, keys and closing brackets, as encoding/json's tokens are counted
	nodes []Node
	*around
}

// around is the entries so far of the lists and maps that the text stands in. Its memory
// serves again.
type around struct {
	items []*Node
	pairs []Pair
}

var arounds = sync.Pool{New: func() any { return new(around) }}

// mostKept is up to how many entries the memory is kept for: few texts have a list or map
// of more.
const mostKept = 256

func (a *around) free() {
	if cap(a.items) > mostKept || cap(a.pairs) > mostKept {
		return
	}
	clear(a.items[:cap(a.items)])
	clear(a.pairs[:cap(a.pairs)])
	a.items, a.pairs = a.items[:0], a.pairs[:0]
	arounds.Put(a)
}

// fail gives up.
func (q *quickJSON) fail() *Node {
	q.no = true
	return nil
}

// blank steps over what stands between values.
func (q *quickJSON) blank() {
	for ; q.at < len(q.text); q.at++ {
		switch q.text[q.at] {
		case ' ', '\t':
		case '\r':
			if q.at+1 < len(q.text) && q.text[q.at+1] == '\n' {
				continue
			}
			q.newLine()
		case '\n':
			q.newLine()
		default:
			return
		}
	}
}

// newLine begins a line behind the byte at which the text stands, unless the whole text
// is one line of a file.
func (q *quickJSON) newLine() {
	if q.l.only == 0 {
		q.line, q.begin, q.more = q.line+1, q.at+1, 0
	}
}

// peek is the next byte, 0 at the end.
func (q *quickJSON) peek() byte {
	if q.at < len(q.text) {
		return q.text[q.at]
	}
	return 0
}

// counted counts a token of the text.
func (q *quickJSON) counted() {
	if q.count++; q.count > q.l.limits.Values {
		q.no = true
	}
}

// node makes a node at the place where the text stands.
func (q *quickJSON) node(kind Kind) *Node {
	q.counted()
	if len(q.nodes) == cap(q.nodes) {
		q.nodes = q.l.room()
	}
	q.nodes = q.nodes[:len(q.nodes)+1]
	n := &q.nodes[len(q.nodes)-1]
	n.Kind, n.from, n.at = kind, q.l, int32(q.at)
	n.Pos = Pos{File: q.l.name, Line: max(q.l.only, 1) + q.line, Col: q.at - q.begin - q.more + 1}
	return n
}

// value reads a value with all that it holds, at a depth.
func (q *quickJSON) value(depth int) *Node {
	if q.no {
		return nil
	}
	switch c := q.peek(); {
	case c == '"':
		return q.string()
	case c == '{' && depth < maxDepth:
		return q.object(depth)
	case c == '[' && depth < maxDepth:
		return q.list(depth)
	case c == '-' || '0' <= c && c <= '9':
		return q.number()
	}
	for _, word := range [...]struct {
		text string
		kind Kind
	}{{"true", Bool}, {"false", Bool}, {"null", Null}} {
		if strings.HasPrefix(q.text[q.at:], word.text) {
			n := q.node(word.kind)
			n.Plain, n.Text = true, word.text
			q.at += len(word.text)
			return n
		}
	}
	return q.fail()
}

// string reads a text without escapes.
func (q *quickJSON) string() *Node {
	n := q.node(Text)
	n.style = styleJSON
	for i := q.at + 1; i < len(q.text); i++ {
		switch c := q.text[i]; {
		case c == '"':
			n.Text = q.text[q.at+1 : i]
			q.at = i + 1
			return n
		case c < ' ' || c == '\\':
			return q.fail()
		case c&0xc0 == 0x80:
			q.more++
		}
	}
	return q.fail()
}

// number reads a number that can surely be held: one of few digits, without an
// exponent.
func (q *quickJSON) number() *Node {
	n := q.node(Number)
	end := q.at + 1
	for end < len(q.text) && (q.text[end] == '.' || '0' <= q.text[end] && q.text[end] <= '9') {
		end++
	}
	n.Plain, n.Text = true, q.text[q.at:end]
	if len(n.Text) > 24 || end < len(q.text) && (q.text[end] == 'e' || q.text[end] == 'E') || !shaped(n.Text) {
		return q.fail()
	}
	q.at = end
	return n
}

// next steps over what separates two entries, and is false behind the last one.
func (q *quickJSON) next(end byte) bool {
	q.blank()
	switch q.peek() {
	case ',':
		q.at++
		q.blank()
		return !q.no
	case end:
		q.counted()
		q.at++
		return false
	}
	q.no = true
	return false
}

// empty steps over the end of a list or map with nothing in it.
func (q *quickJSON) empty(end byte) bool {
	q.at++ // its begin
	q.blank()
	if q.peek() != end {
		return false
	}
	q.counted()
	q.at++
	return true
}

func (q *quickJSON) list(depth int) *Node {
	n := q.node(List)
	if q.empty(']') {
		return n
	}
	base := len(q.items)
	for again := true; again && !q.no; again = q.next(']') {
		item := q.value(depth + 1)
		q.items = append(q.items, item)
	}
	n.Items = append(make([]*Node, 0, len(q.items)-base), q.items[base:]...)
	q.items = q.items[:base]
	return n
}

func (q *quickJSON) object(depth int) *Node {
	n := q.node(Map)
	if q.empty('}') {
		return n
	}
	base := len(q.pairs)
	for again := true; again && !q.no; again = q.next('}') {
		if q.peek() != '"' {
			return q.fail()
		}
		key := q.string()
		q.blank()
		if q.no || q.peek() != ':' || key.Text == "" {
			return q.fail()
		}
		q.at++
		q.blank()
		value := q.value(depth + 1)
		q.pairs = append(q.pairs, Pair{key, value})
	}
	n.Pairs = append(q.l.entries(len(q.pairs)-base), q.pairs[base:]...)
	q.pairs = q.pairs[:base]
	q.no = q.no || repeats(n.Pairs)
	return n
}

// fewKeys is up to how many names are held against each other one by one.
const fewKeys = 24

// repeats says whether a name stands twice.
func repeats(pairs []Pair) bool {
	if len(pairs) > fewKeys {
		seen := make(map[string]bool, len(pairs))
		for _, p := range pairs {
			seen[p.Key.Text] = true
		}
		return len(seen) < len(pairs)
	}
	for i, p := range pairs {
		for _, q := range pairs[:i] {
			if p.Key.Text == q.Key.Text {
				return true
			}
		}
	}
	return false
}
