package hostile

import (
	"fmt"
	"strings"
)

// payload is a value, or a whole text, with the mark where the fault is planted.
type payload struct {
	name, text string
	says       string
}

var many = strings.Repeat

// structures are values that a parser chokes on: aliases, depth, marks of other readers.
func (g *generator) structures() {
	for _, d := range yamlDoors() {
		for _, p := range g.yamlBombs() {
			c := d.around("structure", p.name, p.text, refused)
			c.Says = p.says
			g.add(c)
		}
		for _, p := range g.yamlWhole(d) {
			c := d.holding("structure", p.name, p.text, refused)
			c.Says = p.says
			g.flood(c, d)
		}
	}
	for _, d := range jsonDoors() {
		for _, p := range g.jsonBombs(d) {
			if d.form == Lines && strings.Contains(p.text, "\n") {
				continue // that are two lines
			}
			c := d.around("structure", p.name, p.text, refused)
			c.Says = p.says
			g.flood(c, d)
		}
	}
}

// yamlBombs are values below a note.
func (g *generator) yamlBombs() []payload {
	const m = string(mark)
	deep := 33 + g.IntN(60)
	bomb := "{a: " + m + "&a [x, x, x, x, x, x, x, x, x]"
	for c := 'b'; c < 'k'; c++ {
		bomb += fmt.Sprintf(", %c: &%c [%s]", c, c, strings.TrimSuffix(many(fmt.Sprintf("*%c, ", c-1), 9), ", "))
	}
	return []payload{
		{"aliases of aliases", bomb + "}", "anchors are not allowed"},
		{"an anchor", m + "&a x", "anchors are not allowed: &a"},
		{"an alias of nothing", m + "*a", ""},
		{"an anchor that holds itself", m + "&a [*a]", "anchors are not allowed"},
		{"a merge key", "{" + m + "<<: {a: 1}}", "merge keys are not allowed"},
		{"a merge of a merge", "{" + m + "<<: [{<<: {a: 1}}, {b: 1}]}", "merge keys are not allowed"},
		{"a tag", m + "!!binary aGk=", "tags are not allowed"},
		{"a tag of another language", m + "!!python/object/apply:os.system [id]", "tags are not allowed"},
		{"a lone tag", m + "! x", "tags are not allowed"},
		{"a map as a name", "{" + m + "{a: 1}: 2}", "cannot be a name"},
		{"a list as a name", "{" + m + "[a]: 2}", "cannot be a name"},
		{"a name that is none", "{" + m + "\"\": 2}", "has no name"},
		{"the same name twice", "{a: 1, " + m + "a: 2}", `"a" stands twice`},
		{"the same name in two spellings", "{a: 1, " + m + `"\x61": 2}`, `"a" stands twice`},
		{"lists in lists", many("[", 31) + m + many("[", deep-31) + many("]", deep), "more than 32 deep"},
		{"maps in maps", many("{a: ", 31) + m + many("{a: ", deep-31) + "1" + many("}", deep), "more than 32 deep"},
		{"dashes", "\n" + m + many("- ", 300+g.IntN(5000)), "indented by more than 256"},
		{"questions", "\n" + m + many("? ", 300+g.IntN(5000)), "indented by more than 256"},
		{"indented", "\n  - a\n" + m + many(" ", 300+g.IntN(5000)) + "- a", "indented by more than 256"},
		{"a list that is not closed", m + many("[", 1+g.IntN(20)) + "a", "not closed"},
		{"a map that is not closed", m + "{a: " + many("{b: ", g.IntN(20)), "not closed"},
		{"a quote that is not closed", m + `"` + many("x\n ", g.IntN(3000)), "quote that opens here"},
		{"a long name", "\n  " + m + many("k", 1025+g.IntN(9000)) + ": 1", "1024"},
	}
}

// yamlWhole are whole texts.
func (g *generator) yamlWhole(d door) []payload {
	const m = string(mark)
	sound := d.head + "quiet\n"
	return []payload{
		{"a second document", sound + m + "---\n" + sound, "a second document"},
		{"a directive", m + "%YAML 1.1\n---\n" + sound, ""},
		{"a directive that redefines tags", m + "%TAG ! tag:x,2000:\n---\n" + sound, ""},
		{"nothing", "", "empty"},
		{"blanks", many(" \n", g.IntN(5000)), "empty"},
		{"comments", many("# c\n", 1+g.IntN(5000)), "empty"},
		{"no value", "~\n", ""},
		{"a list", "- a\n", ""},
		{"a text", "a\n", ""},
		{"a number", "1\n", ""},
		{"an anchor at the top", m + "&a\n" + sound, "anchors are not allowed"},
		{"binary", "\x7fELF\x02\x01\x01\x00" + many("\x00", 100), "control character"},
		{"too long", "# " + many("x", d.bytes()) + "\n" + sound, `is longer than \d+ bytes \(at most \d MiB; `},
		{"comments beyond all count", sound + many("#\n", d.most), `has more than \d+000 values \(`},
		{"signs beyond all count", d.head + "[" + many("a,", d.most) + "a]", `has more than \d+000 values \(`},
	}
}

// jsonBombs are values below a note, and what stands behind one.
func (g *generator) jsonBombs(d door) []payload {
	const m = string(mark)
	deep := 33 + g.IntN(60)
	return []payload{
		{"lists in lists", many("[", 31) + m + many("[", deep-31) + many("]", deep), "more than 32 deep"},
		{"maps in maps", many(`{"a":`, 31) + m + many(`{"a":`, deep-31) + "1" + many("}", deep), "more than 32 deep"},
		{"lists without an end", many("[", 31) + m + many("[", 1000+g.IntN(200_000)), "more than 32 deep"},
		{"the same name twice", `{"a": 1, ` + m + `"a": 2}`, `"a" stands twice`},
		{"the same name in two spellings", `{"a": 1, ` + m + `"\u0061": 2}`, `"a" stands twice`},
		{"a name that is none", `{` + m + `"": 2}`, "has no name"},
		{"two commas", `[1,` + m + `,2]`, "nothing stands in front"},
		{"a comma at the end", `[1,` + m + `]`, ""},
		{"a colon", m + `:1`, ""},
		{"half of a pair", `"x` + m + `\ud800"`, "half of a surrogate pair"},
		{"halves in the wrong order", `"` + m + `\ude00\ud83d"`, "half of a surrogate pair"},
		{"an escape that is none", `"` + m + `\x41"`, ""},
		{"an end of a line in a text", "\"a" + m + "\nb\"", ""},
		{"single quotes", m + "'a'", ""},
		{"a comment", m + "// a\n1", ""},
		{"a word", m + "undefined", ""},
		{"a function", m + "function(){}", ""},
		{"text behind the value", `1} ` + m + `{"mix": "Other"`, "more text behind the end"},
		{"a bracket of the other kind", `[1` + m + `}`, ""},
		{"values beyond all count", "[" + many("1,", d.most) + "1]", `has more than \d+000 values \(`},
		{"too long", `"` + many("x", d.bytes()) + `"`, `is longer than \d+ bytes \(at most \d MiB; |over 1 MiB`},
	}
}

// floods are texts just within the limits that hold too much of one thing.
func (g *generator) floods() {
	for _, d := range yamlDoors() {
		n := d.most - 200
		for name, text := range inOrder(map[string]string{
			"a list in brackets": "[" + many("1,", n) + "1]",
			"a list of dashes":   "\n" + many("- 1\n", n),
			"a list of nothing":  "[" + many("{},", n/2) + "1]",
			"odd numbers":        "[" + many("0777,", n) + "1]",
			"a map in brackets":  "{" + counted(n/3, "k%d: 1, ") + "}",
			"a map of lines":     "\n" + counted(n/2, " k%d: 1\n"),
			"one name":           "{" + many("a: 1, ", n/3) + "}",
			"remarks":            "x" + many("\n#", n),
			"texts in quotes":    "[" + many(`"\u00e9",`, n) + "1]",
			"a text of lines":    "|\n" + many("  x\n", n),
			"a folded text":      ">\n" + many("  x\n\n", n/2),
			"long words":         "[" + many(many("x", 40)+",", n/4) + "1]",
		}) {
			want := []int{d.status}
			if name == "odd numbers" || name == "one name" || d.text && name != "remarks" && !strings.HasPrefix(name, "a text") &&
				!strings.HasPrefix(name, "a fold") {
				want = []int{refused}
			}
			g.flood(d.around("flood", name, text, want...), d)
		}
		g.flood(d.holding("flood", "entries that nobody knows", d.head+"x\n"+counted(n/2-10, "k%d: 1\n"), refused), d)
	}
	for _, d := range jsonDoors() {
		n := d.most - 200
		for name, text := range inOrder(map[string]string{
			"a list":            "[" + many("1,", n) + "1]",
			"a list of escapes": `[` + many(`"\n",`, n) + "1]",
			"one name":          "{" + many(`"a":1,`, n/2) + `"b":1}`,
			"names":             "{" + counted(n/2, `"k%d":1,`) + `"b":1}`,
			"halves of pairs":   "[" + many(`"\ud800",`, n) + "1]",
		}) {
			want := []int{d.status}
			if name == "one name" || name == "halves of pairs" || d.text {
				want = []int{refused}
			}
			g.flood(d.around("flood", name, text, want...), d)
		}
		g.flood(d.around("flood", "entries that nobody knows", `"x",`+strings.TrimSuffix(counted(n/2-10, `"k%d":1,`), ","), refused), d)
	}
}

// flood takes a flood. That of part files may cost what so much text costs.
func (g *generator) flood(c Case, d door) {
	if strings.HasPrefix(d.name, "parts") {
		for _, text := range c.Files {
			c.Bytes += len(text)
		}
	}
	g.add(c)
}

// counted repeats a line with its number.
func counted(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}
