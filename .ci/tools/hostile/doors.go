package hostile

import "strings"

// door is a way in for a text: a file, or a line of many.
type door struct {
	name  string
	file  string // empty for the standard input
	input string // what the command calls that; stdin where nothing stands here
	most  int    // values that it lets in
	args  []string
	also  map[string]string // files beside it

	head, tail string // YAML around a value of any kind; empty where only JSON comes in
	json       string // the same in JSON
	text       bool   // the value must be a text
	status     int    // of what is sound
	form       Form
}

// Sound texts of a few lines.
const (
	soundMix   = "mix: Ferry 7\nparts:\n  cassette: lantern-12-10-52\n  chain: towrope-12\n"
	soundParts = "parts:\n  - {kind: chain, id: rope, name: Rope, speeds: 12}\n"
	soundRule  = "pack: shop\nrules:\n  - {id: shop/one, title: t, why: w, warn_if: chain.speeds > 13," +
		" say: s, remedy: r, basis: {practice: p}}\n"
	soundCart = "cart: Order\nlines:\n  - {id: towrope-12}\n"
	adjusting = "pack: shop\nadjust:\n  - {rule: chain/length, to: warn, reason: calm, by: the shop, until: 2999-01-01}\n"
	jsonMix   = `{"mix": "Ferry 7", "parts": {"cassette": "lantern-12-10-52", "chain": "towrope-12"}`
	jsonParts = `{"parts": [{"kind": "chain", "id": "rope", "name": "Rope", "speeds": 12}]`
	jsonRule  = `{"pack": "shop", "rules": [{"id": "shop/one", "title": "t", "why": "w", "warn_if": "chain.speeds > 13", "say": "s",` +
		` "remedy": "r", "basis": {"practice": "p"}}]`
	jsonCart   = `{"cart": "Order", "lines": [{"id": "towrope-12"}]`
	jsonAdjust = `{"pack": "shop", "adjust": [{"rule": "chain/length", "to": "warn", "reason": "calm",` +
		` "by": "the shop", "until": "2999-01-01"}]`
)

// doors are those for a whole text, in YAML and in JSON. Notes are read by no rule, so
// that a value there is the parser's and the door's matter alone.
func doors() []door {
	const note, jsonNote = "note: ", `, "note": `
	return []door{
		{name: "mix", most: 20_000, file: "m.yaml", args: []string{"check", "m.yaml"}, head: soundMix + note, json: jsonMix + jsonNote},
		{name: "parts", most: 500_000, file: "p/p.yaml", args: []string{"parts", "--parts", "p"}, head: soundParts + note,
			json: jsonParts + jsonNote, text: true},
		{name: "rules", most: 60_000, file: "r/r.yaml", args: []string{"rules", "--no-standard", "--rules", "r"}, head: soundRule + note,
			json: jsonRule + jsonNote},
		{name: "adjust", most: 60_000, file: "r/r.yaml", args: []string{"check", "--rules", "r", "demo:cart-chain-cassette"},
			head: adjusting + note,
			json: jsonAdjust + jsonNote},
		{name: "cart", most: 50_000, file: "c.yaml", args: []string{"cart", "c.yaml"}, head: soundCart + note, json: jsonCart + jsonNote,
			status: open},
		{name: "stdin", most: 20_000, args: []string{"check", "-"}, head: soundMix + note, json: jsonMix + jsonNote},
		{name: "jsonl", most: 20_000, args: []string{"check", "--format", "jsonl", "-"}, json: jsonMix + jsonNote, form: Lines},
	}
}

// bytes is how long a text the door lets in.
func (d door) bytes() int {
	if d.most > 100_000 {
		return 8 << 20
	}
	return 1 << 20
}

// inJSON gives a door as it is for JSON.
func (d door) inJSON() door {
	d.name += " json"
	d.head, d.tail = d.json, "}"
	if d.file != "" {
		file := strings.TrimSuffix(d.file, ".yaml") + ".json"
		args := make([]string, len(d.args))
		for i, a := range d.args {
			args[i] = a
			if a == d.file {
				args[i] = file
			}
		}
		d.file, d.args = file, args
	}
	if d.file == "" && d.form == Text {
		d.input = "stdin.json" // what the command calls it
	}
	return d
}

// holding makes a case of a whole text at a door.
func (d door) holding(family, name, text string, want ...int) Case {
	c := Case{Family: family + "/" + d.name, Name: name, Args: d.args, Files: map[string]string{}, Want: want, Form: d.form}
	for file, text := range d.also {
		c.Files[file] = text
	}
	if d.file == "" {
		c.Stdin, c.input = text, d.input
		return c
	}
	c.Files[d.file] = text
	return c
}

// around makes a case of a value at a door.
func (d door) around(family, name, value string, want ...int) Case {
	return d.holding(family, name, d.head+value+d.tail, want...)
}

// yamlDoors and jsonDoors are those that take the format.
func yamlDoors() []door {
	var out []door
	for _, d := range doors() {
		if d.head != "" {
			d.tail = "\n"
			out = append(out, d)
		}
	}
	return out
}

func jsonDoors() []door {
	var out []door
	for _, d := range doors() {
		out = append(out, d.inJSON())
	}
	return out
}
