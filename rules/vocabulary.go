package rules

import (
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Vocabulary is what rules may speak of: a fixed list of objects. It is
// immutable and safe to share.
type Vocabulary struct {
	objects []*Object
	partial []*fact.Table // their tables with nothing required, for examples
	lang    *expr.Language
}

// NewVocabulary makes a vocabulary of these objects. Facts are given to a rule
// set in the same order. Two objects of one name are an error.
func NewVocabulary(objects ...*Object) (*Vocabulary, error) {
	inner := make([]*expr.Object, len(objects))
	partial := make([]*fact.Table, len(objects))
	for i, o := range objects {
		inner[i], partial[i] = o.inner, o.Table().Partial()
	}
	lang, err := expr.NewLanguage(inner...)
	if err != nil {
		return nil, err
	}
	return &Vocabulary{objects: objects, partial: partial, lang: lang}, nil
}

// Objects gives the objects in their order. The slice is the vocabulary's own.
func (v *Vocabulary) Objects() []*Object { return v.objects }

// Index gives the index of an object in Objects, by its name.
func (v *Vocabulary) Index(name string) (int, bool) { return v.lang.Index(name) }

// Find gives a field by its full name, such as cassette.cogs_t.
func (v *Vocabulary) Find(name string) (Ref, bool) {
	for _, o := range v.objects {
		if len(name) > len(o.Name()) && name[len(o.Name())] == '.' && name[:len(o.Name())] == o.Name() {
			i, ok := o.Table().Index(name[len(o.Name())+1:])
			return Ref{o, i}, ok
		}
	}
	return Ref{}, false
}

func (v *Vocabulary) ref(r expr.Read) Ref { return Ref{v.objects[r.Object], r.Field} }

// suggest gives the hint for a word that names no object.
func (v *Vocabulary) suggest(word string) string { return fact.SuggestNamed(word, v.named()) }

// named lists the objects by their names, for hints.
func (v *Vocabulary) named() []fact.Named {
	out := make([]fact.Named, len(v.objects))
	for i, o := range v.objects {
		out[i] = fact.Named{Name: o.Name(), Also: o.Also()}
	}
	return out
}

// names lists all object names, for hints.
func (v *Vocabulary) names() []string {
	out := make([]string, len(v.objects))
	for i, o := range v.objects {
		out[i] = o.Name()
	}
	return out
}
