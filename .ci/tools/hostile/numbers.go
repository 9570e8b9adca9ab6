package hostile

import (
	"fmt"
	"strings"
)

// badNumbers are no numbers, none that can be held, or none that a chain is wide. YAML
// reads some as texts: they are refused all the same.
func (g *generator) badNumbers() []string {
	digits := many("9", 20+g.IntN(2000))
	return []string{
		"1e999", "-1e999", "1e308", "1e400", "1e-400", "5e-324", "." + many("0", 400) + "1", digits, "-" + digits, digits + ".5", "1e" +
			digits,
		".nan", ".NaN", ".inf", "-.inf", "+.INF", "NaN", "nan", "Infinity", "-Infinity", "inf", "0x1F", "0X5", "0o17", "017", "0b101",
		"5_0", "5,5",
		"+5", "5.", ".5", "5e", "5e+", "--5", "5-", "1/2", "5:30", "1:30:15", "2026-01-01", "\u0665", "\uff15", "5\u00bd", "\u2212\u0035",
		"5mm", "5 mm", "5 +",
		"5.2 \u00b1", "\u00b1 5", "5.2 \u00b1 -1", "5.2 \u00b1 nan", "5.2 \u00b1 1e999", "5.2 \u00b1 1 \u00b1 1", "5.2 \u00b1 0x1",
		"5.2 \u00b1 9", "5.2 +/-",
		"5.2 \u00b1 1e-400", "5.2 \u00b1 " + digits, "nan \u00b1 1", "-5.2", "0", "-0.0", "-1e-9", fmt.Sprintf("%d", 1000+g.IntN(1e9)),
		"true", "yes", "[5.2]", "{a: 5.2}",
		"'5.2'", `"5.2"`, "1e3", "5.2.1", "5.2e1.1", "0.1e+99999999999999999999",
	}
}

// numbers are those at every door that takes one.
func (g *generator) numbers() {
	for i, n := range g.badNumbers() {
		name := fmt.Sprintf("%d:%.20s", i, n)
		plain := func(door, file, text string, args ...string) {
			g.behind(Case{Family: "number/" + door, Name: name, Args: args, Files: map[string]string{file: text}, Want: []int{refused}})
		}
		value := string(mark) + n
		plain("mix", "m.yaml", "mix: a\nparts:\n  chain:\n    outer_width_mm: "+value+"\n", "check", "m.yaml")
		plain("parts", "p/p.yaml", "parts:\n  - kind: chain\n    id: a\n    name: A\n    outer_width_mm: "+value+"\n", "parts", "--parts",
			"p")
		plain("bench", "m.yaml", "mix: a\nparts: {chain: towrope-12}\nbench:\n  chain_pitches: "+value+"\n", "check", "m.yaml")
		plain("example", "r/r.yaml", strings.TrimSuffix(soundRule, "}\n")+
			",\n      examples: [{name: e, want: warn, given: {chain: {outer_width_mm: 5, speeds: "+strings.ReplaceAll(value, ",",
			";")+"}}}]}\n", "rules", "--no-standard", "--rules", "r")
		if !strings.ContainsAny(n, "{[") {
			g.add(Case{Family: "number/arguments", Name: name, Args: []string{"check", "chain.outer_width_mm=" + n}, Want: []int{refused},
				Says: "^argument 1: "})
		}
		if n != "1e3" && n != "'5.2'" {
			plain("cart", "c.yaml", "cart: a\nlines:\n  - id: towrope-12\n    quantity: "+value+"\n", "cart", "c.yaml")
		}
		if i%2 == 0 {
			g.behind(Case{Family: "number/jsonl", Name: name, Args: []string{"check", "--format", "jsonl", "-"}, Want: []int{refused},
				Form:  Lines,
				Stdin: `{"chain": {"outer_width_mm": ` + strings.ReplaceAll(value, "'", `\`) + "}}\n"})
			plain("json", "m.json", `{"mix": "a", "parts": {"chain": {"outer_width_mm": `+strings.ReplaceAll(value, "'", `\`)+"}}}",
				"check", "m.json")
		}
	}
	for i, price := range []string{"-1", "0x10", "1.234", "99999999999999999999999", "NaN", "1'50", "1.5.", "\u0661", "[]"} {
		g.add(Case{Family: "number/price", Name: fmt.Sprint(i), Args: []string{"parts", "--parts", "p"}, Want: []int{refused},
			Files: map[string]string{
				"p/p.yaml": "currency: EUR\nparts:\n  - {kind: chain, id: a, name: A, price: " + string(mark) + price + "}\n"}})
	}
	for i, until := range []string{"2999-02-30", "99999999-01-01", "tomorrow", "0", "2999-1-1", "''", "[2999-01-01]"} {
		g.add(Case{Family: "number/until", Name: fmt.Sprint(i), Args: []string{"check", "--rules", "r", "demo:cart-chain-cassette"},
			Want:  []int{refused},
			Files: map[string]string{"r/r.yaml": strings.Replace(adjusting, "2999-01-01", string(mark)+until, 1)}})
	}
}

// behind takes a case of a number, of which the fault may be a piece: a tolerance, or what
// stands where JSON takes it for ended.
func (g *generator) behind(c Case) {
	g.add(c)
	_, number, _ := strings.Cut(c.Name, ":")
	if strings.ContainsAny(number, "\u00b1/: ") || strings.Contains(strings.TrimLeft(number, "-"), "-") || strings.Count(number, ".") > 1 {
		g.within(&g.cases[len(g.cases)-1])
	}
}
