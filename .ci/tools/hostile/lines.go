package hostile

import (
	"fmt"
	"strings"
)

// lines are streams of mixes.
func (g *generator) lines() {
	const good = `{"chain": "towrope-12", "cassette": "lantern-12-10-52"}`
	const m = string(mark)
	args := []string{"check", "--format", "jsonl", "-"}
	add := func(name, text string, want ...int) {
		g.add(Case{Family: "line", Name: name, Args: args, Stdin: text, Want: want, Form: Lines})
	}
	for name, bad := range inOrder(map[string]string{
		"text behind the value":   `{"chain": "towrope-12"}` + m + `,"scope": "bike"`,
		"a value behind":          `{"chain": "towrope-12"} ` + m + `{"chain": "towrope-12"}`,
		"a bracket behind":        `{"chain": "towrope-12"}` + m + `]`,
		"a word behind":           `{"chain": "towrope-12"} ` + m + `x`,
		"a zero behind":           `{"chain": "towrope-12"}` + m + "\x00",
		"a list":                  m + `[]`,
		"a text":                  m + `"x"`,
		"a number":                m + `1`,
		"nothing":                 m + `null`,
		"a comment":               m + `# x`,
		"YAML":                    m + `mix: a`,
		"one name twice":          `{"chain": "towrope-12", ` + m + `"chain": "towrope-12"}`,
		"an unclosed map":         m + `{"chain": "towrope-12"`,
		"an unclosed text":        `{"chain": ` + m + `"towrope-12}`,
		"a part that is not here": `{"chain": ` + m + `"nowhere"}`,
		"a part twice as large":   `{"chain": {"speeds": ` + m + `99}}`,
		"a kind of nothing":       `{"chain": "towrope-12", ` + m + `"chian": "x"}`,
		"a mark of order":         m + "\ufeff" + good,
		"the end of a line":       `{"chain": "tow` + m + "\u2028" + `rope"}`,
		"a tab in a text":         `{"chain": "tow` + m + "\t" + `rope"}`,
		"a cart":                  m + `{"cart": "a", "lines": []}`,
	}) {
		for _, at := range []int{0, 1 + g.IntN(40)} {
			if at == 0 && name == "a mark of order" { // a file may begin with one
				continue
			}
			add(fmt.Sprintf("%s on line %d", name, at+1), many(good+"\n", at)+bad+"\n"+many(good+"\n", 3), refused)
		}
		add(name+" without an end", bad, refused)
		if name == "a mark of order" {
			g.cases = g.cases[:len(g.cases)-1]
		}
	}
	add("nothing at all", "", fine)
	add("ends of lines", many("\n", 20_000), fine)
	add("blanks", many(" \t \r\n", 5000), fine)
	add("no end", good, fine)
	add("ends of another system", many(good+"\r\n", 5), fine)
	add("ends of an old system", good+"\r"+m+good, refused)
	add("2000 lines that are none", many("x\n", 2000), refused)
	add("a line beyond all length", many("x", 2<<20)+"\n"+good+"\n", refused)
	add("a mix beyond all length", `{"chain": "`+many("x", 2<<20)+`"}`+"\n"+good, refused)
	add("a mix just within", good[:len(good)-1]+many(" ", 1<<20-len(good)-1)+"}\n", fine)
	add("bytes", strings.Repeat("\xff\xfe\x00\n", 300), refused)
	add("lines of floods", many(`{"chain": {`+strings.TrimSuffix(counted(500, `"k%d":1,`), ",")+"}}\n", 5), refused)
	add("100 lines of one kind of fault", many(`{"chain": {"speeds": 99}}`+"\n", 100), refused)
}

// arguments are mixes on the line, and command lines that are none.
func (g *generator) arguments() {
	add := func(name string, args []string, want ...int) *Case {
		g.add(Case{Family: "argument", Name: name, Args: args, Want: want})
		return &g.cases[len(g.cases)-1]
	}
	long := 100_000 + g.IntN(20_000)
	for name, arg := range inOrder(map[string]string{
		"a long name": "mix=" + many("x", long), "a name of blanks": "mix=" + many(" ", long), "an unknown kind": many("k", long) + "=1",
		"an unknown field": "chain." + many("f", long) + "=1",
		"a long id":        "chain=" + many("x", long), "many ids": "chain=" + many("a,", long/2) + "a", "a list": "cassette.cogs_t=" +
			many("11,", long/3) + "12", "brackets": "cassette.cogs_t=" + many("[", long),
		"a long number": "chain.speeds=" + many("9", long), "a map": "chain.speeds={" + many("a: 1,", long/5) + "}",
		"an anchor": "chain.speeds=&a 9", "an alias": "chain.speeds=*a", "a tag": "chain.speeds=!!int 9",
		"two documents": "chain.speeds=9\n---\n9", "a merge": "chain.speeds={<<: 9}", "ends of lines": "chain.speeds=9\nmix: b",
		"bytes": "chain.speeds=\xff\xfe", "a control character": "chain.speeds=\x1b[31m",
		"a hidden character": "chain.speeds=9\u200b", "a name of bytes": "mix=\xff\xfe", "a quote": "chain.speeds=\"9",
		"nothing behind": "chain.speeds=", "nothing in front": "=9", "only": "=", "dots": "chain..speeds=9",
		"a dot": "chain.=9", "bench": "bench=1", "a field of the mix": "mix.name=1", "a path": "chain=../../etc/passwd",
		"a remark": "chain.speeds=9 #4", "a scope": "scope=" + many("b", 300),
		"a null": "chain.speeds=~", "a flag": "chain.speeds=true", "a dash": "chain.speeds=- 9", "a question": "chain.speeds=? 9",
		"a percent": "chain.speeds=%9", "an at": "chain.speeds=@9", "a long path": many("d/", 2000) + "m.yaml",
	}) {
		c := add(name, []string{"check", arg}, refused)
		switch name {
		case "a long name", "a name of blanks":
			c.Args = append(c.Args, "chain=towrope-12")
			if c.Want = []int{open}; name == "a name of blanks" {
				c.Want = []int{refused}
			}
		case "a name of bytes":
			c.Args = append(c.Args, "chain=towrope-12")
		}
	}
	var same, kinds, files []string
	for i := range 3000 {
		same, kinds, files = append(same, "chain.speeds=9"), append(kinds, fmt.Sprintf("k%d=1", i)), append(files, fmt.Sprintf("f%d.yaml",
			i))
	}
	add("60000 arguments", append([]string{"check"}, strings.Fields(many("a=1 ", 60_000))...), refused)
	add("60000 that say the same", append([]string{"check"}, strings.Fields(many("hub=a ", 60_000))...), refused)
	add("3000 times the same", append([]string{"check"}, same...), refused)
	add("3000 kinds that are none", append([]string{"check"}, kinds...), refused)
	add("3000 files that are not there", append([]string{"check"}, files...), refused)
	for name, line := range inOrder(map[string][]string{
		"no command": {}, "an unknown command": {"chekc"}, "a path": {"../../bin/sh"}, "an unknown flag": {"check", "--" + many("f",
			long)}, "an unknown format": {"check", "--format", many("f", long)},
		"a flag without a value": {"check", "--rules"}, "an empty argument": {"check", ""}, "an empty folder": {"check", "--parts", "",
			"demo:ferry-motor"}, "an escape": {"\x1b[31m"}, "bytes": {"\xff\xfe"},
		"a flag that turns round": {"check", "--\u202e"}, "a number that is none": {"prove", "--min", "nan%"}, "a huge number": {"fit",
			"--limit", many("9", 400), "demo:ferry-motor"}, "twice the input": {"check", "-", "-"},
		"a rule that is none": {"rule", many("../", 1000)}, "a pattern of death": {"prove", "--run", "(" + many("a*)*(", 2000)},
		"a brief word":          {"check", "--format", "jsonl", "--brief", "\x1b", "-"},
		"a schema that is none": {"schema", "\u202e"}, "no mix": {"check"}, "a budget": {"fit", "--budget", "1e999", "--kind", "chain",
			"demo:ferry-motor"}, "a budget of nothing": {"fit", "--budget", "NaN", "--kind", "chain", "demo:ferry-motor"},
		"a rule to write": {"new", "a b/\x1b"}, "too many": {"compare", "a", "b", "c"},
	}) {
		add("misused: "+name, line, misused)
	}
}
