package hostile

import (
	"encoding/binary"
	"fmt"
	"strings"
	"unicode/utf16"
)

// hiddenRunes are characters that no file may hold in the open: they draw, move, turn
// round or hide text.
var hiddenRunes = []rune{
	0x00, 0x01, 0x07, 0x08, 0x0b, 0x0c, 0x1b, 0x7f, 0x80, 0x85, 0x90, 0x9b, 0x9d, 0xad, 0x61c, 0x6dd, 0x180e, 0x200b, 0x200c, 0x200d,
	0x200e, 0x200f,
	0x2028, 0x2029, 0x202a, 0x202d, 0x202e, 0x2060, 0x2066, 0x2069, 0xfeff, 0xfff9, 0xfffb, 0xffff, 0x1d173, 0xe0001, 0xe0041, 0xe007f,
}

// badBytes are no UTF-8.
var badBytes = []string{
	"\xc0\xaf", "\xc1\x9c", "\xe0\x80\xaf", "\xed\xa0\x80", "\xed\xbf\xbf", "\xf0\x80\x80\xaf", "\xf4\x90\x80\x80",
	"\xf8\x88\x80\x80\x80", "\x80", "\xbf\xbf",
	"\xc3", "\xe2\x82", "\xf0\x9f\x98", "\xfe", "\xff", "\xe9t\xe9",
}

// encodings are texts that other programs read otherwise than they look.
func (g *generator) encodings() {
	for _, d := range append(yamlDoors(), jsonDoors()...) {
		for i := range 12 {
			r := hiddenRunes[(i*7+g.IntN(7))%len(hiddenRunes)]
			c := d.holding("encoding", fmt.Sprintf("%d %U", i, r), g.inserted(d, string(r)), refused)
			g.add(c)
		}
		for i := range 6 {
			b := badBytes[(i*3+g.IntN(3))%len(badBytes)]
			c := d.holding("encoding", fmt.Sprintf("%d %x", i, b), g.inserted(d, b), refused)
			c.Says = "byte 0x[0-9A-F]{2} is not UTF-8"
			g.add(c)
		}
		g.wholeEncodings(d)
	}
}

// inserted puts what is no part of any text in front of a random letter of a sound one.
func (g *generator) inserted(d door, bad string) string {
	sound := []rune(d.head + quoted(d, "quiet as the lake at dawn") + d.tail)
	// A byte order mark may begin a file.
	at := 1 + g.IntN(len(sound)-1)
	return string(sound[:at]) + string(mark) + bad + string(sound[at:])
}

// quoted writes a text as a door takes it.
func quoted(d door, text string) string {
	if strings.HasSuffix(d.name, "json") {
		return `"` + text + `"`
	}
	return text
}

// wholeEncodings are sound texts in another encoding.
func (g *generator) wholeEncodings(d door) {
	sound := d.head + quoted(d, "quiet") + d.tail
	lines := d.form == Lines
	for name, order := range inOrder(map[string]binary.AppendByteOrder{"little": binary.LittleEndian, "big": binary.BigEndian}) {
		text, wide := []byte{}, []byte{}
		for _, u := range utf16.Encode([]rune("\ufeff" + sound)) {
			text, wide = order.AppendUint16(text, u), order.AppendUint32(wide, uint32(u))
		}
		c := d.holding("encoding", "UTF-16 "+name, string(text), refused)
		if c.Says = "is UTF-16"; lines {
			c.Says = "UTF-16|not UTF-8|control character"
		}
		g.add(c)
		g.add(d.holding("encoding", "UTF-16 without a mark, "+name, string(text[2:]), refused))
		g.add(d.holding("encoding", "UTF-32 "+name, string(wide), refused))
	}
	g.add(d.holding("encoding", "a byte order mark in front", "\ufeff"+sound, d.status))
	named := d.input
	d.input = ""
	two := d.holding("encoding", "two byte order marks", string(mark)+"\ufeff"+sound, refused)
	g.add(two)
	g.cases[len(g.cases)-1].before("\ufeff")
	d.input = named
	g.add(d.holding("encoding", "a byte order mark of another encoding", "\x2b\x2f\x76\x38"+sound, refused))
	if !strings.HasSuffix(d.name, "json") {
		g.add(d.holding("encoding", "ends of lines of another system", strings.ReplaceAll(sound, "\n", "\r\n"), d.status))
		g.add(d.holding("encoding", "ends of lines of an old system", strings.ReplaceAll(sound, "\n", "\r"), d.status))
		g.add(d.holding("encoding", "a tab in front", strings.ReplaceAll(sound, "\n  ", "\n\t"), d.status, refused))
	}
	if !lines {
		g.add(d.holding("encoding", "the end is cut off", sound+string(mark)+"\xe2\x82", refused))
	}
}

// drawing are texts that do something on a terminal or in a browser, as they come out of
// quotes in a file.
var drawing = []string{
	"\x1b[2J\x1b[31mred", "\x1b]8;;http://x.example\x1b\\link\x1b]8;;\x1b\\", "\x1b]0;title\x07", "\x1b]52;c;aGk=\x07", "\u009b31m",
	"\u009d8;;x\u009c",
	"\u0090q\u009c", "a\rb", "a\bb\x7f", "a\tb", "a\nb\n\nPASS", "\x00", "\u202ednert\u202c", "\u2066x\u2069", "\u200b\u200d\u200c",
	"\ufeffx", "\u2028\u2029\u0085", "\u00ad\u061c\u180e",
	"\u3164\u115f\u1160", "\U000e0041\U000e007f", "\ue000\U000f0000", "Z\u0351\u036b\u0343" + many("\u0301", 190), many("\u4e2d", 190),
	many("w", 190),
	"<script>alert(1)</script>", "</title><script>alert(1)</script>", "<img src=x onerror=alert(1)>", "\"><svg onload=alert(1)>",
	"' onmouseover='alert(1)",
	"javascript:alert(1)", "</style><script>alert(1)</script>", "{{.}}{{template \"x\"}}", "$ {{jndi:ldap://x}}", "%s%n%d%!",
	"](http://x) **b** `c` <http://x>", "=1+1", "@SUM(1)", "\\u001b[31m", "$(id)`id`",
}

// spelt gives a text in ASCII alone, as a JSON string that YAML reads as well.
func spelt(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		case r < ' ' || r >= 0x7f:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}

// screen is a command that shows the texts of files.
type screen struct {
	name string
	args string
	form Form
	want int
}

// screens are most ways to show a name.
var screens = []screen{
	{"check", "check m.json", Text, fails},
	{"explain", "check --explain m.json", Text, fails},
	{"json", "check --format json m.json", JSON, fails},
	{"page", "check --format html m.json", Page, fails},
	{"outline", "check --format outline m.json", Lines, fails},
	{"sheet", "sheet m.json", Text, fails},
	{"sheet page", "sheet --format html m.json", Page, fails},
	{"markdown", "sheet --format markdown m.json", Text, fails},
	{"compare", "compare m.json n.json", Text, fine},
	{"compare page", "compare --format html n.json m.json", Page, fails},
	{"rule", "rule shop/one", Text, fine},
	{"rules page", "rules --format html", Page, fine},
	{"rules markdown", "rules --format markdown", Text, fine},
	{"prove", "prove", Text, fine},
	{"cart", "cart c.json", Text, fails},
	{"cart json", "cart --format json c.json", JSON, fails},
}

// escapes are texts within quotes, which may hold anything: what is shown of them must
// be harmless. Raw, no file may hold most of them.
func (g *generator) escapes() {
	for i, text := range drawing {
		for j, s := range screens {
			if (i+j)%3 != 0 { // a third of the table, every row and column of it
				continue
			}
			g.add(g.shown(fmt.Sprintf("%d", i), "x"+text+"y", s))
		}
	}
	for i, text := range drawing {
		g.add(Case{Family: "escape/argument", Name: fmt.Sprint(i), Args: []string{"check", "mix=x" + strings.ReplaceAll(text, "\x00",
			"0"), "chain=towrope-12"}, Want: []int{open}})
		g.add(Case{Family: "escape/unknown", Name: fmt.Sprint(i), Args: []string{"check", "./" + strings.ReplaceAll(text, "\x00", "0")},
			Want: []int{refused}})
		g.add(Case{Family: "escape/entry", Name: fmt.Sprint(i), Args: []string{"check", "m.json"}, Want: []int{refused},
			Files: map[string]string{
				"m.json": `{"mix": "a", "parts": {"chain": {"speeds": 9, ` + string(mark) + spelt(text) + ": 1}}}"}})
	}
}

// shown has a text in every place that people write into.
func (g *generator) shown(name, text string, s screen) Case {
	bad := spelt(text)
	args := strings.Fields(s.args)
	if strings.HasPrefix(s.args, "prove") || strings.HasPrefix(s.args, "rule") {
		args = append(args, "--no-standard", "--rules", "r")
	} else {
		args = append(args, "--no-standard", "--rules", "r", "--parts", "p")
	}
	put := func(form string) string { return strings.ReplaceAll(form, "BAD", bad) }
	return Case{Family: "escape/" + s.name, Name: name, Args: args, Want: []int{s.want}, Form: s.form, Files: map[string]string{
		"p/p.json": put(`{"catalog": BAD, "currency": BAD, "parts": [{"kind": "chain", "id": "rope", "name": BAD, "maker": BAD,` +
			` "sku": BAD, "speeds": 9,` +
			` "outer_width_mm": 7}, {"kind": "cassette", "id": "cogs", "name": BAD, "cogs_t": [11, 13]}]}`),
		"r/r.json": put(`{"pack": "shop", "note": BAD, "rules": [{"id": "shop/one", "title": BAD, "why": BAD, ` +
			`"fail_if": "chain.outer_width_mm > 6", "say": BAD,` +
			` "remedy": BAD, "caution": BAD, "needs": [{"what": BAD, "value": 1, "unit": BAD}], "basis": {"practice": BAD},` +
			` "examples": [{"name": BAD, "given":` +
			` {"chain": {"outer_width_mm": 7}}, "want": "fail"}]}],` +
			` "steps": [{"id": "one", "do": BAD, "value": BAD, "check": BAD, "because": BAD}]}`),
		"m.json": put(`{"mix": BAD, "note": BAD, "parts": {"chain": "rope", "cassette": {"name": BAD, "cogs_t": [11, 13]}}}`),
		"n.json": put(`{"mix": BAD, "parts": {"chain": {"name": BAD, "outer_width_mm": 5}, "cassette": "cogs"}}`),
		"c.json": put(`{"cart": BAD, "bikes": [{"mix": BAD, "parts": {"cassette": "cogs"}}], "lines": [{"id": "rope",` +
			` "name": BAD}, {"sku": BAD, "name": BAD, "bike": BAD}]}`),
	}}
}

// before puts text in front of all that the case holds; the place of its fault stays.
func (c *Case) before(text string) {
	c.Stdin = text + c.Stdin
	for name := range c.Files {
		c.Files[name] = text + c.Files[name]
	}
}
