package expr

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/decls"
	"github.com/google/cel-go/common/env"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
)

// Limits of one expression. An expression of a rule is a line or two; what is
// longer is refused before it can cost time: parsing long chains is quadratic.
const (
	maxRunes   = 2048 // code points
	maxNodes   = 400  // nodes of the tree
	maxNesting = 40   // depth of the tree
	maxText    = 64   // longest text of a fact
	maxGrown   = 1024 // longest text that an expression may join together

	// maxCost bounds one expression, in the engine's cost units; a unit takes
	// about 0.1 microseconds, so the bound is about a millisecond.
	maxCost = 10_000
)

// Read names a field of an object by their indexes; Field -1 is the object.
type Read struct{ Object, Field int }

// Language is the vocabulary and the functions that expressions may use. It is
// immutable and safe for use by many goroutines.
type Language struct {
	objects []*Object
	index   map[string]int // of the objects, by their names
	ids     map[int64]Read
	single  map[*types.Unknown][]Read // what each shared Unknown stands for
	base    *cel.Env
	taken   map[string]bool // names that already mean something
	maxList int
	others  func() *fact.Others // the other names of all fields, looked through once somebody errs
}

// NewLanguage makes a language of these objects, in this order. Objects whose
// names or ids clash, whose names mean something else, or which have a list
// without a cap are an error.
func NewLanguage(objects ...*Object) (*Language, error) {
	l := &Language{objects: objects, index: map[string]int{}, ids: map[int64]Read{}, single: map[*types.Unknown][]Read{}, maxList: 1}
	l.others = sync.OnceValue(l.otherNames)
	provider, err := newProvider(objects)
	if err != nil {
		return nil, err
	}
	opts := []cel.EnvOption{
		cel.CustomTypeProvider(provider), cel.CustomTypeAdapter(provider.Registry),
		cel.StdLib(cel.StdLibSubset(admitted())),
		cel.ParserExpressionSizeLimit(maxRunes), cel.ExpressionNodeLimit(maxNodes), cel.ParserRecursionLimit(maxNesting),
		cel.ASTValidators(cel.ValidateComprehensionNestingLimit(1)),
	}
	opts = append(append(opts, functions()...), cel.Macros(l.knownMacro()))
	if l.base, err = cel.NewCustomEnv(opts...); err != nil {
		return nil, err
	}
	l.taken = takenNames(l.base)
	vars := make([]*decls.VariableDecl, len(objects))
	for i, o := range objects {
		if err := l.add(i, o); err != nil {
			return nil, err
		}
		vars[i] = decls.NewVariable(o.Name, cel.ObjectType(o.Name))
	}
	l.base, err = l.base.Extend(cel.VariableDecls(vars...))
	return l, err
}

// otherNames leads from the names that the trade has for fields to the fields.
func (l *Language) otherNames() *fact.Others {
	var known []fact.Named
	for _, o := range l.objects {
		for _, f := range o.Table.Fields() {
			known = append(known, fact.Named{Name: o.Name + "." + f.Name, Also: f.Also})
		}
	}
	return fact.NewOthers(known)
}

// takenNames are the words that the engine keeps for itself, the names of its
// types and of the functions.
func takenNames(base *cel.Env) map[string]bool {
	taken := map[string]bool{}
	reserved := "as break const continue else false for function has if import in let loop namespace null package return " +
		"true var void while bool bytes double dyn int list map null_type string type uint"
	for _, name := range append(strings.Fields(reserved), functionNames()...) {
		taken[name] = true
	}
	for _, v := range base.Variables() {
		taken[v.Name()] = true
	}
	return taken
}

// add gives one object its index and enters the ids of its Unknowns, by which the
// engine's answers are read back. Two ids that clash would name the wrong fact.
func (l *Language) add(i int, o *Object) error {
	if _, twice := l.index[o.Name]; twice {
		return fmt.Errorf("the object %s stands twice in the vocabulary", o.Name)
	}
	if l.taken[o.Name] {
		return fmt.Errorf("an object cannot be called %s", o.Name)
	}
	l.index[o.Name] = i
	if at, clash := l.ids[o.absent.IDs()[0]]; clash {
		return fmt.Errorf("the ids of %s and %s clash", l.Name(at), o.Name)
	}
	l.ids[o.absent.IDs()[0]] = Read{i, -1}
	l.single[o.absent] = []Read{{i, -1}}
	for j, u := range o.unstated {
		if at, clash := l.ids[u.IDs()[0]]; clash {
			return fmt.Errorf("the ids of %s and %s clash", l.Name(at), o.Name)
		}
		l.ids[u.IDs()[0]] = Read{i, j}
		l.single[u] = []Read{{i, j}}
		f := o.Table.Fields()[j]
		if (f.Type == fact.Fractions || f.Type == fact.Wholes || f.Type == fact.Names) && f.Cap < 1 {
			return fmt.Errorf("%s is a list without a cap, so that no cost can be proven", l.Name(Read{i, j}))
		}
		l.maxList = max(l.maxList, f.Cap)
	}
	return nil
}

// admitted is what the language keeps of the engine's own library: logic,
// equality, membership and two macros. Arithmetic and order are this package's
// own, so that whole numbers and fractions mix.
func admitted() *env.LibrarySubset {
	subset := env.NewLibrarySubset().AddIncludedMacros("all", "exists")
	for _, name := range []string{
		operators.LogicalAnd, operators.LogicalOr, operators.LogicalNot, operators.Conditional,
		operators.NotStrictlyFalse, operators.Equals, operators.NotEquals,
	} {
		subset = subset.AddIncludedFunctions(env.NewFunction(name))
	}
	return subset.AddIncludedFunctions(
		env.NewFunction(operators.In, env.NewOverload("in_list", nil, nil)),
		env.NewFunction(operators.Index, env.NewOverload("index_list", nil, nil)))
}

// Index finds the index of an object by its name.
func (l *Language) Index(name string) (int, bool) {
	i, ok := l.index[name]
	return i, ok
}

// Name gives the name of what a read points at: cassette.cogs_t, or cassette.
func (l *Language) Name(r Read) string {
	o := l.objects[r.Object]
	if r.Field < 0 {
		return o.Name
	}
	return o.lacks[r.Field].Missing[0]
}

// Field describes what a read points at; the zero field for a whole object.
func (l *Language) Field(r Read) fact.Field {
	if r.Field < 0 {
		return fact.Field{}
	}
	return l.objects[r.Object].Table.Fields()[r.Field]
}

// lacks gives the facts that an Unknown stands for. Most stand for one, and
// finding that one allocates nothing.
func (l *Language) lacks(u *types.Unknown) []Read {
	if one, ok := l.single[u]; ok {
		return one
	}
	return l.reads(u.IDs())
}

// reads translates ids of the engine's Unknowns, in the order of the language.
func (l *Language) reads(ids []int64) []Read {
	out := make([]Read, 0, len(ids))
	for _, id := range ids {
		if r, ok := l.ids[id]; ok && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b Read) int { return cmp.Or(cmp.Compare(a.Object, b.Object), cmp.Compare(a.Field, b.Field)) })
	return out
}
