package source

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"unicode/utf8"
)

// TreeFS is a file system that keeps the trees of its files, as Trees wrote them: what
// is part of a program need not be parsed whenever it starts.
type TreeFS interface {
	fs.FS
	Trees() string
}

// A tree is written with a line for each line of its file, so that one can be read
// beside the other and a line that is put in stays a line:
//
//	m1:2 t1:5 t8:11
//	t1:5
//	l3:1 m5:2 t5:2 t9:8
//	t5:5 n11:4
//	+2
//
// stands for
//
//	label: ferry fleet
//	rules:
//	  - id: bar/clamp
//	    limit: 31.8
//
// with two lines behind it that have no node. A node is a letter, the column that it
// begins in, and how much it holds: pairs of a map, entries of a list, bytes of a
// scalar that stands in the file as it is read, or else its text in quotes. Letters are m map,
// l list, z null, b flag, n number; t plain text, s and d text in single and double
// quotes, i and f indented text, literal and folded. A comment behind a plain scalar is
// a #, a tight one two.

// treeHead is the line above a tree: the file's name, the hash of its bytes and how many
// nodes there are.
func treeHead(name string, text []byte) string {
	sum := sha256.Sum256(text)
	return "tree " + name + " " + hex.EncodeToString(sum[:]) + " "
}

// Trees writes the trees of YAML files down, for [TreeFS]. The error is Problems where
// a file does not parse.
func Trees(files []File) (string, error) {
	var b strings.Builder
	for _, f := range files {
		root, err := Parse(f.Name, f.Text)
		if err != nil {
			return "", err
		}
		var w treeWriter
		w.node(root, -1)
		if w.lost = w.lost || root.from.json || root.from.text != string(f.Text) || strings.Contains(root.from.text, "\r"); w.lost {
			return "", fmt.Errorf("the tree of %s cannot be kept", f.Name)
		}
		fmt.Fprintf(&b, "%s%d%s\n\n", treeHead(f.Name, f.Text), w.count, w.out.String())
	}
	return b.String(), nil
}

var (
	kindLetters  = [...]byte{Null: 'z', Bool: 'b', Number: 'n', Text: 't', List: 'l', Map: 'm'}
	styleLetters = [...]byte{stylePlain: 't', styleSingle: 's', styleDouble: 'd', styleLiteral: 'i', styleFolded: 'f'}
)

type treeWriter struct {
	out   strings.Builder
	line  int
	count int  // of nodes
	lost  bool // something cannot be written
}

// to goes on to a line of the file.
func (w *treeWriter) to(line int) {
	if line < w.line {
		w.lost = true
	}
	if line == w.line {
		w.out.WriteByte(' ')
		return
	}
	if empty := line - w.line - 1; empty > 0 {
		fmt.Fprintf(&w.out, "\n+%d", empty)
	}
	w.out.WriteByte('\n')
	w.line = line
}

func (w *treeWriter) node(n *Node, indent int) {
	w.to(n.Pos.Line)
	w.count++
	if int(n.indent) != indent || int(n.at) != n.from.offset(n.Pos.Line, n.Pos.Col) {
		w.lost = true
	}
	letter := kindLetters[n.Kind]
	if n.Kind == Text {
		letter = styleLetters[n.style]
	}
	w.out.WriteByte(letter)
	fmt.Fprintf(&w.out, "%d", n.Pos.Col)
	switch n.Kind {
	case Map:
		fmt.Fprintf(&w.out, ":%d", len(n.Pairs))
		for _, p := range n.Pairs {
			w.node(p.Key, n.Pos.Col-1)
			w.node(p.Value, n.Pos.Col-1)
		}
		return
	case List:
		fmt.Fprintf(&w.out, ":%d", len(n.Items))
		for _, item := range n.Items {
			w.node(item, n.Pos.Col-1)
		}
		return
	}
	if from := n.start(); strings.HasPrefix(n.from.text[from:], n.Text) && n.style < styleLiteral {
		fmt.Fprintf(&w.out, ":%d", len(n.Text))
	} else {
		w.out.WriteString(strconv.Quote(n.Text))
	}
	if n.TightComment {
		w.out.WriteString("##")
	} else if n.Comment {
		w.out.WriteString("#")
	}
	if n.Plain != (n.style == stylePlain) || (n.Kind != Text && !n.Plain) {
		w.lost = true
	}
}

// Tree gives the tree of the file that its file system keeps, nil where it keeps none
// or the file is another by now. It is what Parse gives.
func (f File) Tree() *Node {
	if f.trees == "" {
		return nil
	}
	head := treeHead(f.Name, f.Text)
	at := strings.Index(f.trees, head)
	if at < 0 || at > 0 && f.trees[at-1] != '\n' {
		return nil
	}
	written, _, _ := strings.Cut(f.trees[at+len(head):], "\n\n")
	size := strings.IndexByte(written, '\n')
	if size < 0 {
		return nil
	}
	count, err := strconv.Atoi(written[:size])
	l, ps := Limits{}.admit(Pos{File: f.Name}, f.Text)
	if err != nil || len(ps) > 0 || count < 1 || count > len(written) {
		return nil
	}
	r := treeReader{l: l, rest: written[size:], nodes: make([]Node, 0, count)}
	root := r.node(-1)
	if r.bad || r.rest != "" || len(r.nodes) != count {
		return nil
	}
	return root
}

// treeReader reads what treeWriter wrote. at is the offset of a line and column of the
// file, which only go on.
type treeReader struct {
	l             *layout
	rest          string
	line, col, at int
	nodes         []Node // all of them, with room for no more
	bad           bool
}

// next goes on to the place of the next node.
func (r *treeReader) next() {
	for r.rest != "" && (r.rest[0] == '\n' || r.rest[0] == ' ') {
		lines := 0
		if r.rest[0] == '\n' {
			lines = 1
		}
		if r.rest = r.rest[1:]; strings.HasPrefix(r.rest, "+") {
			r.rest = r.rest[1:]
			lines = r.number()
		}
		for ; lines > 0; lines-- {
			if end := strings.IndexByte(r.l.text[r.at:], '\n'); r.line > 0 && end >= 0 {
				r.at += end + 1
			} else if r.line > 0 {
				r.bad = true
				return
			}
			r.line, r.col = r.line+1, 1
		}
	}
}

// column goes on to a column of the line.
func (r *treeReader) column(col int) {
	for ; r.col < col && r.at < len(r.l.text); r.col++ {
		size := 1
		if r.l.text[r.at] >= utf8.RuneSelf {
			_, size = utf8.DecodeRuneInString(r.l.text[r.at:])
		}
		r.at += size
	}
	r.bad = r.bad || r.col != col
}

// number takes a number off.
func (r *treeReader) number() int {
	n, i := 0, 0
	for ; i < len(r.rest) && '0' <= r.rest[i] && r.rest[i] <= '9' && n < MaxBytes; i++ {
		n = n*10 + int(r.rest[i]-'0')
	}
	r.bad = r.bad || i == 0
	r.rest = r.rest[i:]
	return n
}

// sign takes a character off where it comes next.
func (r *treeReader) sign(c byte) bool {
	if r.rest == "" || r.rest[0] != c {
		return false
	}
	r.rest = r.rest[1:]
	return true
}

func (r *treeReader) node(indent int) *Node {
	r.next()
	if r.bad || r.rest == "" || len(r.nodes) == cap(r.nodes) {
		r.bad = true
		return &Node{}
	}
	letter := r.rest[0]
	r.rest = r.rest[1:]
	r.column(r.number())
	r.nodes = append(r.nodes, Node{Pos: Pos{r.l.name, r.line, r.col}, from: r.l, at: int32(r.at), indent: int32(indent)})
	n := &r.nodes[len(r.nodes)-1]
	switch letter {
	case 'm':
		n.Kind = Map
		n.Pairs = make([]Pair, 0, r.size())
		for len(n.Pairs) < cap(n.Pairs) && !r.bad {
			key := r.node(n.Pos.Col - 1)
			n.Pairs = append(n.Pairs, Pair{key, r.node(n.Pos.Col - 1)})
		}
	case 'l':
		n.Kind = List
		n.Items = make([]*Node, 0, r.size())
		for len(n.Items) < cap(n.Items) && !r.bad {
			n.Items = append(n.Items, r.node(n.Pos.Col-1))
		}
	default:
		r.scalar(letter, n)
	}
	return n
}

// size takes how much a node holds, which is no more than there is.
func (r *treeReader) size() int {
	r.bad = !r.sign(':') || r.bad
	n := r.number()
	if r.bad || n > len(r.rest)+len(r.l.text) {
		r.bad = true
		return 0
	}
	return n
}

// scalar reads what a scalar holds.
func (r *treeReader) scalar(letter byte, n *Node) {
	n.Kind = Text
	switch letter {
	case 'z':
		n.Kind = Null
	case 'b':
		n.Kind = Bool
	case 'n':
		n.Kind = Number
	case 't':
	case 's':
		n.style = styleSingle
	case 'd':
		n.style = styleDouble
	case 'i':
		n.style = styleLiteral
	case 'f':
		n.style = styleFolded
	default:
		r.bad = true
	}
	n.Plain = n.style == stylePlain
	if quoted, err := strconv.QuotedPrefix(r.rest); err == nil {
		r.rest = r.rest[len(quoted):]
		n.Text, err = strconv.Unquote(quoted)
		r.bad = r.bad || err != nil
	} else if from, size := n.start(), r.size(); from+size <= len(r.l.text) {
		n.Text = r.l.text[from : from+size]
	} else {
		r.bad = true
	}
	n.Comment = r.sign('#')
	n.TightComment = r.sign('#')
}
