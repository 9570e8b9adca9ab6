package rules_test

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// samplePack has an expression in every place that can hold one.
const samplePack = `
pack: sample
rules:
  - id: sample/all
    title: "é漢😀 All is well"
    why: W
    when: stated(sail.reefs) && stated(mast.stays) && (sail.cloth == 'canvas' || mast.stays > 1)
    let:
      half_m: mast.height_m / 2
      over: sail.area_m2 - 2.5 * half_m
    fail_if: over > 10 && sail.panels_m2.exists(p, p > half_m || near(p, over, 0.5))
    warn_if: "!sail.wet && sail.maker in ['ann', 'bob'] && max(sail.panels_m2) > abs(over) ? over > 1 : sail.panels_m2[0] > 3"
    say: "It is {over:.1} m2 over, with {sail.reefs} reefs; '{sail.cloth + ' of ' + sail.maker}' and \"{half_m}\"."
    pass: All {count(sail.panels_m2)} panels
    remedy: "{over > 2 ? 'Take a reef in' : 'Let it be'}"
    caution: Mind the {mast.stays} stays
    needs:
      - {what: "rope of {half_m:.2}", value: over * 2, unit: m, when: sail.wet || mast.stays == 0}
    basis: {practice: P}
steps:
  - id: hoist
    when: stated(sail.area_m2) && sail.area_m2 > 1
    do: Hoist {sail.area_m2} m2
    unless: sail.wet && mast.stays > 9
    value: "{mast.height_m:.1} m"
    unstated: "Not stated; {sail.reefs} reefs want 9 m"
    check: The mast bends less than {mast.height_m / 10:.2} m
    because: It has {mast.stays} stays
    caution: Mind {sail.cloth}
`

// TestPlaces misspells every name of the sample pack in every manner of writing.
func TestPlaces(t *testing.T) {
	tried := checkPlaces(t, vocabulary(t), samplePack, !testing.Short())
	for _, m := range manners() {
		if tried[m] < 25 && !testing.Short() {
			t.Errorf("only %d names were tried in the manner %s", tried[m], m)
		}
	}
}

// place is a scalar of a rule or step that holds expressions.
type place struct {
	list string // rules or steps
	item *source.Node
	key  string
	node *source.Node
	text bool // expressions stand in braces
}

// checkPlaces holds, for every expression of a rule file, that a name which
// nobody knows is reported at its own place and nowhere else: each name, number
// and word in turn is made such a name, and the file is written anew with the
// scalar in another style. Dense tries every style with each name, with LF and
// CRLF in turn; else each name is tried in one manner. It counts the tries.
func checkPlaces(t *testing.T, v *rules.Vocabulary, text string, dense bool) map[manner]int {
	t.Helper()
	root, err := source.Parse("sample.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	tried := map[manner]int{}
	all := manners()
	turn := 0
	for _, p := range placesOf(root) {
		before := strings.Join(strings.Fields(p.node.Text), " ")
		if p.text {
			before = "é漢😀 " + before
		}
		for _, c := range misspell(before, p.text) {
			turn++
			for i, m := range all {
				wanted := i == turn%len(all)
				if dense {
					wanted = m.crlf == (turn%2 == 0)
				}
				if wanted && m.fits(c.text) {
					tried[m]++
					p.check(t, v, c, m)
				}
			}
		}
	}
	return tried
}

// check loads one file with one name misspelt.
func (p place) check(t *testing.T, v *rules.Vocabulary, c misspelt, m manner) {
	t.Helper()
	w := &fileWriter{manner: m, target: p.node, text: c.text, at: c.at}
	w.item(p.list, p.item)
	_, err := rules.Load(rules.Config{Vocabulary: v, Files: files("written.yaml", w.file()), Drawings: slices.Concat(drawings(), compat.Drawings())})
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) != 1 {
		t.Errorf("%s of %s, %s: %s: want one problem, got %v\n%s", p.key, p.item.Get("id").Text, m, c.text, err, w.file())
		return
	}
	if line, col := w.position(); ps[0].Pos.Line != line || ps[0].Pos.Col != col {
		t.Errorf("%s of %s, %s: %s: at %d:%d, reported as %s\n%s", p.key, p.item.Get("id").Text, m, c.text, line, col, ps[0], w.file())
	}
	if c.end == len([]rune(c.text)) {
		return // the writer knows no place behind its text
	}
	w = &fileWriter{manner: m, target: p.node, text: c.text, at: c.end}
	w.item(p.list, p.item)
	if line, col := w.position(); ps[0].End.Line != line || ps[0].End.Col != col {
		t.Errorf("%s of %s, %s: %s: ends at %d:%d, not %s\n%s", p.key, p.item.Get("id").Text, m, c.text, line, col, ps[0].End, w.file())
	}
}

// placesOf lists the scalars of a file that hold expressions.
func placesOf(root *source.Node) []place {
	var out []place
	for _, rule := range items(root, "rules") {
		p := place{list: "rules", item: rule}
		out = append(out, p.within(rule, false, "when", "fail_if", "warn_if")...)
		out = append(out, p.within(rule, true, "say", "pass", "remedy", "caution")...)
		if let := rule.Get("let"); let != nil {
			for _, line := range let.Pairs {
				out = append(out, p.within(let, false, line.Key.Text)...)
			}
		}
		for _, need := range items(rule, "needs") {
			out = append(out, p.within(need, true, "what")...)
			out = append(out, p.within(need, false, "value", "when")...)
		}
	}
	for _, step := range items(root, "steps") {
		p := place{list: "steps", item: step}
		out = append(out, p.within(step, false, "when", "unless")...)
		out = append(out, p.within(step, true, "do", "value", "unstated", "check", "because", "caution")...)
	}
	return out
}

// within gives those entries of a map that are there; a number or flag has no
// name that could be misspelt.
func (p place) within(n *source.Node, text bool, keys ...string) []place {
	var out []place
	for _, key := range keys {
		if child := n.Get(key); child != nil && child.Kind == source.Text {
			out = append(out, place{p.list, p.item, key, child, text})
		}
	}
	return out
}

func items(n *source.Node, key string) []*source.Node {
	if list := n.Get(key); list != nil {
		return list.Items
	}
	return nil
}

// misspelt is a text in which one name is one that nobody knows.
type misspelt struct {
	text string
	at   int // the code point at which that name begins
	end  int // the one behind it
}

var (
	// tokens are the names, numbers and texts of an expression.
	tokens = regexp.MustCompile(`'[^']*'|"[^"]*"|[A-Za-z_][A-Za-z0-9_]*|[0-9]+(\.[0-9]+)?`)
	// loopName is where a loop gives a name to the entries of its list.
	loopName = regexp.MustCompile(`\.(all|exists)\(\s*$`)
	// braces are the expressions of a text, with their decimals.
	braces = regexp.MustCompile(`\{((?:'[^']*'|"[^"]*"|[^}'"])*?)(:\.[0-9])?\}`)
)

// misspell makes each name of an expression, or of the expressions of a text,
// one that nobody knows. A number or a word becomes a name.
func misspell(text string, inBraces bool) []misspelt {
	if !inBraces {
		return misspellFrom(text, 0, len(text))
	}
	var out []misspelt
	for _, m := range braces.FindAllStringSubmatchIndex(text, -1) {
		out = append(out, misspellFrom(text, m[2], m[3])...)
	}
	return out
}

// misspellFrom does so for the expression between two byte offsets.
func misspellFrom(text string, from, to int) []misspelt {
	var out []misspelt
	for _, m := range tokens.FindAllStringIndex(text[from:to], -1) {
		begin, end := from+m[0], from+m[1]
		token := text[begin:end]
		switch {
		case token == "true" || token == "false" || token == "in" || loopName.MatchString(text[from:begin]):
			continue
		case token[0] == '\'' || token[0] == '"' || '0' <= token[0] && token[0] <= '9':
			token = "nobody"
		default:
			token += "zzq"
		}
		at := len([]rune(text[:begin]))
		out = append(out, misspelt{text[:begin] + token + text[end:], at, at + len(token)})
	}
	return out
}
