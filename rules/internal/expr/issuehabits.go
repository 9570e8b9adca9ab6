package expr

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// phrases are what people write who know other languages, where more than one sign
// of it shows. The place is that of the first group, or of the whole.
var phrases = []struct {
	pattern *regexp.Regexp
	hint    string
}{
	{regexp.MustCompile(`!==`), "write !="},
	{regexp.MustCompile(`===`), "write =="},
	{regexp.MustCompile(`\*\*|\^`), "there are no powers; write x * x"},
	{regexp.MustCompile(`(?i)(^|[^a-z0-9_.])(if)\b`), "write condition ? one : other"},
	{regexp.MustCompile(`(?i)\b(between)\b`), "write 1 < x && x < 3"},
	{regexp.MustCompile(`(?i)\b(not\s+in)\b`), "write !(x in [...])"},
	{regexp.MustCompile(`\bin\s*(\()`), "write a list in brackets, such as in ['a', 'b']"},
	{regexp.MustCompile(`(\?)\.`), "an unstated fact makes a rule unknown by itself; leave the ? out"},
	{regexp.MustCompile("`"), "write plain quotes"},
	{regexp.MustCompile(`(;)\s*$`), "leave the ; out"},
	{regexp.MustCompile(`[0-9]\s*(%)\s*($|[)&|<>=,:?])`), "write the number without its unit"},
	{regexp.MustCompile(`[0-9]\s*\b(mm|cm|t|teeth|deg|kg|g|n|nm|v|s|c|percent|pitches)\b`), "write the number without its unit"},
}

// phrase looks for one of them in an expression that the parser refuses. The texts
// in it are left out.
func (s *Scope) phrase(text string) (Issue, bool) {
	plain, is, whole := withoutTexts(text)
	if !whole {
		return is, is.Text != ""
	}
	place := func(m []int) int {
		at := m[0]
		for i := len(m) - 2; i > 0; i -= 2 {
			if m[i] >= 0 && plain[m[i]:m[i+1]] != "" && strings.TrimSpace(plain[m[i]:m[i+1]]) != "" {
				at = m[i]
			}
		}
		return utf8.RuneCountInString(plain[:at])
	}
	for _, p := range phrases {
		if m := p.pattern.FindStringSubmatchIndex(plain); m != nil {
			return Issue{At: place(m), Text: unreadable, Hint: p.hint}, true
		}
	}
	for _, m := range twoWords.FindAllStringSubmatchIndex(plain, -1) {
		joined := plain[m[2]:m[3]] + "_" + plain[m[4]:m[5]]
		if _, object := s.lang.index[joined]; object {
			return Issue{At: utf8.RuneCountInString(plain[:m[2]]), Text: unreadable, Hint: "did you mean \"" + joined + "\"?"}, true
		}
	}
	return Issue{}, false
}

// unreadable is what is said where the parser stops.
const unreadable = "the expression cannot be read here"

var twoWords = regexp.MustCompile(`\b([a-z][a-z0-9_]*) +([a-z][a-z0-9_]*)\b`)

var badEscape = regexp.MustCompile(`^\\([abfnrtv\\?"'` + "`" + `]|x[0-9a-fA-F]{2}|u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|[0-3][0-7]{2})`)

// withoutTexts blanks the texts of an expression. It is not whole where one of
// them is not closed, or holds an escape that is none, which is an issue.
func withoutTexts(text string) (plain string, is Issue, whole bool) {
	runes := []rune(text)
	var quote rune
	for i := 0; i < len(runes); i++ {
		c := runes[i]
		switch {
		case quote == 0 && (c == '\'' || c == '"'):
			quote = c
		case quote == 0:
			continue
		case c == '\\':
			escape := badEscape.FindString(string(runes[i:]))
			if escape == "" || surrogate.MatchString(escape) {
				return "", Issue{At: i, Text: "this escape in a text stands for no character", Hint: "write the character itself"}, false
			}
			for range escape { // an escape is plain letters, a byte each
				runes[i] = blanked
				i++
			}
			i--
		case c == quote:
			quote = 0
		}
		runes[i] = blanked
	}
	return string(runes), Issue{}, quote == 0
}

// blanked stands for the letters of a text: it is no letter, blank or operator.
const blanked = '\x01'

var surrogate = regexp.MustCompile(`^\\(u[dD][89a-fA-F]|U0000[dD][89a-fA-F])`)

// What several functions of other languages come to here.
const (
	roundedTexts = "only texts round: {over:.0}"
	mixedNumbers = "whole numbers and fractions mix by themselves"
)

// calls are functions of other languages, and what does the same here.
var calls = map[string]string{
	"len": "write size(list)", "length": "write size(list)",
	"any": "write list.exists(each, condition)", "some": "write list.exists(each, condition)",
	"every":    "write list.all(each, condition)",
	"filter":   "write list.exists(each, condition) or list.all(each, condition)",
	"map":      "write list.exists(each, condition) or list.all(each, condition)",
	"contains": "write 'word' in list, or text.startsWith(text)", "includes": "write 'word' in list",
	"matches":  "write text.startsWith(text), or in with a list of words",
	"endsWith": "write in with a list of words",
	"lower":    "names are in lower case already",
	"round":    roundedTexts, "floor": roundedTexts, "ceil": roundedTexts,
	"int": mixedNumbers, "double": mixedNumbers,
	"avg": "write sum(list) / size(list)", "mean": "write sum(list) / size(list)",
	"if": "write condition ? one : other", "IF": "write condition ? one : other",
}

// wordHint helps who wrote a bare word: true or false of another language, or a
// word that belongs in quotes. It gives the word, whose hyphens are no operators.
func (s *Scope) wordHint(p positions, at int, name string) (hint, word string) {
	switch strings.ToLower(name) {
	case "yes", "true", "on":
		return "write true, or the fact alone", name
	case "no", "false", "off":
		return "write false, or ! in front of the fact", name
	case "null", "nil", "undefined":
		return noNull, name
	}
	if word = hyphened.FindString(string(p.text[at:])); len(word) < len(name) {
		word = "" // the name goes on with what no word has, such as _
	}
	for _, o := range s.lang.objects {
		for _, f := range o.Table.Fields() {
			switch {
			case word != "" && slices.Contains(f.Choices, word):
				return "write the word in quotes: '" + word + "'", word
			case slices.Contains(f.Choices, name):
				return "write the word in quotes: '" + name + "'", name
			}
		}
	}
	if strings.Contains(word, "-") && word != name {
		return "write the name in quotes: '" + word + "'", word
	}
	return "", ""
}

// partOfWord says whether a fault lies within a word with hyphens that was
// reported already: without its quotes it reads as a difference of names.
func (p positions) partOfWord(is Issue, before []Issue) bool {
	if len(before) == 0 {
		return false
	}
	last := before[len(before)-1]
	return last.Code == source.UnknownID && is.At > last.At && is.At < last.End
}

var hyphened = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*`)

const noNull = "an unstated fact makes a rule unknown by itself; write stated(kind.field) in when:"

// typeHint helps where an operator cannot take what it is given.
func (s *Scope) typeHint(p positions, node ast.Expr, args string) string {
	if node.Kind() != ast.CallKind || node.AsCall().IsMemberFunction() {
		return ""
	}
	c := node.AsCall()
	name := c.FunctionName()
	switch _, order := orderFuncs[name]; {
	case strings.Contains(args, "uint"):
		return "write 1 in place of 1u"
	case strings.Contains(args, "null"):
		return noNull
	case order && c.Args()[0].Kind() == ast.CallKind && orderFuncs[c.Args()[0].AsCall().FunctionName()] != nil:
		return "write 0 < x && x < 3"
	case name == operators.LogicalNot:
		return "put what is not to hold in brackets, such as !(x > 0)"
	case order || name == operators.Equals || name == operators.NotEquals:
		return s.sideHint(c.Args())
	}
	return ""
}

// sideHint looks at what stands against a fact.
func (s *Scope) sideHint(sides []ast.Expr) string {
	for i, side := range sides {
		if text, ok := literalText(side); ok && numberToken.FindString(text) == text && text != "" {
			return "write the number without quotes"
		}
		r, ok := readOf(s.lang, sides[1-i])
		if !ok || side.Kind() != ast.LiteralKind {
			continue
		}
		f := s.lang.Field(r)
		if f.Type == fact.Flag {
			return "write " + s.lang.Name(r) + " alone, or ! in front of it"
		}
		if _, flag := side.AsLiteral().(types.Bool); flag && f.Type == fact.Choice && len(f.Choices) > 0 {
			return "it is one of " + strings.Join(f.Choices, ", ") + "; write == '" + f.Choices[0] + "'"
		}
	}
	return ""
}
