package source

import (
	"fmt"
	"math/rand"
	"strings"
)

// scalarFile writes a file with one random scalar, and tells how to find it.
func scalarFile(rnd *rand.Rand) (file, text string, find func(*Node) *Node) {
	first := func(n *Node) *Node { return n.Get("größe") }
	pick := func(xs ...string) string { return xs[rnd.Intn(len(xs))] }
	if rnd.Intn(7) == 0 {
		text = pick("", "\n", "{\"é\": \"日本😀\",\n ") + ""
		if strings.HasPrefix(text, "{") {
			return "x.json", text + `"größe": ` + jsonText(rnd) + "}", first
		}
		return "x.json", text + jsonText(rnd), func(n *Node) *Node { return n }
	}
	depth := rnd.Intn(5)
	open, under := "", "größe"
	find = first
	switch depth {
	case 0:
		open, find = pick("", "--- "), func(n *Node) *Node { return n }
		under = "" // continuation lines may begin anywhere
	case 1:
		open, under = "größe: ", " "
	case 2:
		open, under = "- größe: ", "   "
		find = func(n *Node) *Node { return n.Items[0].Get("größe") }
	case 3:
		open, under = "é:\n- - größe: x\n  -   ", "    "
		find = func(n *Node) *Node { return n.Get("é").Items[0].Items[1] }
	case 4:
		open, under = "- {é: [日本😀, ", "  "
		find = func(n *Node) *Node { return n.Items[0].Get("é").Items[1] }
	}
	text = pick("", "# 日本😀\n", "\n\n", "# x\n# é\n") + open
	if depth == 0 && strings.HasPrefix(open, "-") {
		text = "---\n"
	}
	kind := rnd.Intn(5)
	if depth == 4 {
		kind = rnd.Intn(3)
	}
	text += scalar(rnd, kind, under)
	if depth == 4 {
		text += "]}"
	}
	text += pick("", "\n", "\n\n", " # é\n")
	if rnd.Intn(2) == 0 {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return "x.yaml", text, find
}

// scalar writes one of five styles; continuation lines are indented.
func scalar(rnd *rand.Rand, kind int, indent string) string {
	switch kind {
	case 0:
		return flowed(rnd, indent, []string{"a", "x:y", "é", "日本", "😀", "b#c", "-", "'", "\"", "\\n", "1.5"})
	case 1:
		return "'" + flowed(rnd, indent, []string{"a", ": ", "é", "日", "😀", " # ", "''", "''''", "\"", "\\", "{", "  ", "\t"}) + "'"
	case 2:
		return `"` + flowed(rnd, indent, []string{"a", ": ", "é", "日", "😀", " # ", `\"`, `\\`, `\n`, `\t`, `\u00e9`, `\x41`, `\U0001f600`, `\0`, `\_`, `\L`,
			`\a\b`, `\v\f`, `\r\N`, `\P`, `\e`, `\ `, "\\\t", "\\\n" + indent + " ", "\\\n\n" + indent, "'", "  ", "\t"}) + `"`
	}
	return blocked(rnd, indent)
}

// flowed joins pieces by blanks and folded line breaks.
func flowed(rnd *rand.Rand, indent string, pieces []string) string {
	var b strings.Builder
	for range 1 + rnd.Intn(8) {
		b.WriteString(pieces[rnd.Intn(len(pieces))])
		switch rnd.Intn(6) {
		case 0:
			b.WriteString(" ")
		case 1:
			b.WriteString(strings.Repeat(" ", rnd.Intn(3)))
		case 2:
			b.WriteString(strings.Repeat(" ", rnd.Intn(3)) + "\n" + indent + strings.Repeat(" ", rnd.Intn(3)))
		case 3:
			b.WriteString("\t\n" + strings.Repeat(" ", rnd.Intn(3)) + "\n" + strings.Repeat("\n", rnd.Intn(2)) + indent + " ")
		}
	}
	return b.String()
}

// blocked writes a literal or folded text with any header.
func blocked(rnd *rand.Rand, indent string) string {
	margin := len(indent) + rnd.Intn(3)
	var b strings.Builder
	b.WriteString([]string{"|", ">"}[rnd.Intn(2)])
	chomp := []string{"", "+", "-"}[rnd.Intn(3)]
	number := ""
	if rnd.Intn(3) == 0 {
		number = fmt.Sprint(1 + rnd.Intn(3))
	}
	if rnd.Intn(2) == 0 {
		chomp, number = number, chomp
	}
	b.WriteString(chomp + number + []string{"", " ", " # é"}[rnd.Intn(3)] + "\n")
	pieces := []string{"a", "é x", "日本", "😀😀", "# no", "b: c", "- d", "\\n", "'", "\t"}
	for range 1 + rnd.Intn(6) {
		switch rnd.Intn(5) {
		case 0:
			b.WriteString(strings.Repeat(" ", rnd.Intn(margin+3)))
		case 1:
			b.WriteString(strings.Repeat(" ", margin+rnd.Intn(3)) + "\t" + pieces[rnd.Intn(len(pieces))])
		default:
			b.WriteString(strings.Repeat(" ", margin+rnd.Intn(2)*rnd.Intn(3)) + pieces[rnd.Intn(len(pieces))] + strings.Repeat(" ", rnd.Intn(2)))
		}
		b.WriteString("\n")
	}
	s := b.String()
	if rnd.Intn(4) == 0 {
		s = strings.TrimSuffix(s, "\n")
	}
	return s
}

// jsonText writes a random JSON string.
func jsonText(rnd *rand.Rand) string {
	pieces := []string{"a", "é", "日", "😀", `\"`, `\\`, `\/`, `\n`, `\t`, `\b`, `\u00e9`, `\ud83d\ude00`, " ", ":", "\\u0000"}
	var b strings.Builder
	for range 1 + rnd.Intn(8) {
		b.WriteString(pieces[rnd.Intn(len(pieces))])
	}
	return `"` + b.String() + `"`
}
