package rules_test

import (
	"fmt"
	"regexp"
	"strings"

	"example.org/cogcourt/rules/source"
)

// manner is a way to write a scalar into a file.
type manner struct {
	style string // plain, single, double, escaped, literal or folded
	flow  bool   // the whole item on one line, behind text that is not ASCII
	crlf  bool
}

func (m manner) String() string {
	return fmt.Sprintf("%s, flow %t, CRLF %t", m.style, m.flow, m.crlf)
}

// manners are all ways to write a scalar. Blocks have no place in a flow, and
// plain scalars would end at a comma.
func manners() []manner {
	var out []manner
	for _, crlf := range []bool{false, true} {
		for _, style := range []string{"plain", "single", "double", "escaped", "literal", "folded"} {
			out = append(out, manner{style, false, crlf})
		}
		for _, style := range []string{"single", "double", "escaped"} {
			out = append(out, manner{style, true, crlf})
		}
	}
	return out
}

// fileWriter writes a tree as a YAML file again, with one scalar changed, and
// remembers where a code point of that scalar came to stand.
type fileWriter struct {
	strings.Builder
	manner manner
	target *source.Node
	text   string // what is written for the target
	at     int    // the code point of it that is looked for
	found  int    // its byte offset in the file; -1 before it is written
}

// item writes one item of a list with this key.
func (w *fileWriter) item(key string, n *source.Node) {
	w.found = -1
	w.WriteString("pack: places\n" + key + ":\n  - ")
	if w.manner.flow {
		w.flow(n)
	} else {
		w.block(n, 4)
	}
	w.WriteString("\n")
}

// position gives line and column of the code point that is looked for.
func (w *fileWriter) position() (line, col int) {
	before := w.String()[:w.found]
	line = strings.Count(before, "\n") + 1
	return line, len([]rune(before[strings.LastIndex(before, "\n")+1:])) + 1
}

// file gives the file with the line breaks that are wanted.
func (w *fileWriter) file() string {
	if w.manner.crlf {
		return strings.ReplaceAll(w.String(), "\n", "\r\n")
	}
	return w.String()
}

// kept says which entries of a rule or step are written as they are: examples
// cost time, and sources and other steps are not in the file.
func kept(key string) bool {
	return key != "examples" && key != "basis" && key != "waive" && key != "after" && key != "stopped_by"
}

const someBasis = `basis: {practice: "é漢😀"}`

func (w *fileWriter) block(n *source.Node, indent int) {
	pad := "\n" + strings.Repeat(" ", indent)
	switch n.Kind {
	case source.Map:
		for _, p := range n.Pairs {
			if kept(p.Key.Text) {
				w.WriteString(pad + p.Key.Text + ": ")
				w.block(p.Value, indent+2)
			} else if p.Key.Text == "basis" {
				w.WriteString(pad + someBasis)
			}
		}
	case source.List:
		for _, item := range n.Items {
			w.WriteString(pad + "- ")
			w.block(item, indent+2)
		}
	default:
		w.scalar(n, pad)
	}
}

func (w *fileWriter) flow(n *source.Node) {
	switch n.Kind {
	case source.Map:
		w.WriteString("{")
		for _, p := range n.Pairs {
			if kept(p.Key.Text) {
				w.WriteString(p.Key.Text + ": ")
				w.flow(p.Value)
				w.WriteString(", ")
			} else if p.Key.Text == "basis" {
				w.WriteString(someBasis + ", ")
			}
		}
		w.WriteString("}")
	case source.List:
		w.WriteString("[")
		for _, item := range n.Items {
			w.flow(item)
			w.WriteString(", ")
		}
		w.WriteString("]")
	default:
		w.scalar(n, "")
	}
}

// scalar writes a scalar, the one that is looked for in its manner.
func (w *fileWriter) scalar(n *source.Node, pad string) {
	switch {
	case n == w.target:
		w.styled(pad)
	case n.Kind == source.Text:
		w.WriteString(quoted(strings.ReplaceAll(n.Text, "\n", " ")))
	default:
		w.WriteString(n.Text)
	}
}

// styled writes the text that is looked at. Lines are broken at blanks where no
// quotes stand, in which a line break would not be a blank.
func (w *fileWriter) styled(pad string) {
	open, shut := "", ""
	switch w.manner.style {
	case "single":
		open, shut = "'", "'"
	case "double", "escaped":
		open, shut = `"`, `"`
	case "literal":
		open = "|-" + pad
	case "folded":
		open = ">-" + pad
	}
	breaks := pad != "" && !strings.ContainsAny(w.text, `'"`)
	w.WriteString(open)
	runes := []rune(w.text)
	for i, r := range runes {
		if i == w.at {
			w.found = w.Len()
		}
		if r == ' ' && breaks && w.manner.style != "escaped" && i%3 == 0 && runes[i+1] != '-' { // which would begin a list
			w.WriteString(pad)
			continue
		}
		w.WriteString(w.glyph(i, r))
	}
	w.WriteString(shut)
}

// glyph writes one code point.
func (w *fileWriter) glyph(i int, r rune) string {
	switch {
	case w.manner.style == "single" && r == '\'':
		return "''"
	case w.manner.style == "escaped" && i%2 == 0 && r < 0x80:
		return fmt.Sprintf(`\x%02x`, r)
	case w.manner.style == "escaped" && i%2 == 0:
		return fmt.Sprintf(`\U%08X`, r)
	case (w.manner.style == "double" || w.manner.style == "escaped") && (r == '"' || r == '\\'):
		return `\` + string(r)
	}
	return string(r)
}

var notPlain = regexp.MustCompile("^[-?:,\\[\\]{}#&*!|>'\"%@`]|: | #|:$|^(true|false|null|~)$|^[-+.0-9]*$")

// fits says whether the text can be written in a style.
func (m manner) fits(text string) bool {
	return m.style != "plain" || !notPlain.MatchString(text)
}
