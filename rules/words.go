package rules

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Words says in words what a fact is, for people who do not write rules: the first
// clause of its description and, of what somebody can measure or read, what it is a
// fact of: "the thickness of a cog (cassette)". An object is named by its own
// description; what has none keeps its name.
func (v *Vocabulary) Words(name string) string {
	if ref, ok := v.Find(name); ok && ref.Field().Doc != "" {
		text := firstClause(ref.Field().Doc)
		if ref.Field().How == "" {
			return text
		}
		return text + " (" + strings.ReplaceAll(ref.Object.Name(), "_", " ") + ")"
	}
	if i, ok := v.Index(name); ok && v.objects[i].Doc() != "" {
		return firstClause(v.objects[i].Doc())
	}
	return name
}

// firstClause is a sentence up to the first sign that ends a clause, as the rest of
// another sentence.
func firstClause(doc string) string {
	for i, r := range doc {
		if !strings.ContainsRune(",;:.", r) {
			continue
		}
		if rest := doc[i+1:]; rest == "" || rest[0] == ' ' {
			doc = doc[:i]
			break
		}
	}
	first, size := utf8.DecodeRuneInString(doc)
	if second, _ := utf8.DecodeRuneInString(doc[size:]); unicode.IsUpper(second) || second == '-' {
		return doc
	}
	return string(unicode.ToLower(first)) + doc[size:]
}

// inWords joins what facts are.
func (v *Vocabulary) inWords(names []string) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = v.Words(n)
	}
	return join(words)
}
