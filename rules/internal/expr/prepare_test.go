package expr

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
)

// preparable are expressions that use all that the language has, in one rule: those
// behind a colon are let-names, usable by those below them.
var preparable = []struct {
	name, text string
	role       Role
}{
	{"", "stated(sail.area_m2) && sail.area_m2 > 3.5", When},
	{"high", "mast.height_m * 2 - 0.25", Value},
	{"", "high >= abs(-7) && !(sail.wet || sail.reefs % 2 == 0)", Condition},
	{"", "sail.maker in ['ann', 'bob'] ? min(high, 2) : max(sail.panels_m2)", Value},
	{"", "sail.knots.exists(each, each > sail.reefs) || sail.panels_m2.all(each, near(each, high, 0.1))", Condition},
	{"", "sail.maker.startsWith('a') && 'bob' in sail.makers && sail.panels_m2[1] >= 0.0", Condition},
	{"words", "sail.wet ? 'it\\'s \\t\"é ' + sail.maker : 'dry'", Value},
	{"", "words != 'dry' && first(sail.knots) + last(sail.knots) + sum(sail.knots) > count(sail.knots)", Condition},
}

// compileAll compiles them in a scope, and gives the programs.
func compileAll(t *testing.T, s *Scope) []*Program {
	t.Helper()
	var out []*Program
	for i, e := range preparable {
		p := must(t, s, e.text, e.role)
		if e.name != "" {
			s.Let(e.name, i, p)
		}
		out = append(out, p)
	}
	return out
}

// prepared compiles them and gives their lines.
func prepared(t *testing.T, l *Language) string {
	t.Helper()
	var lines strings.Builder
	s := l.NewScope()
	s.Prepare(func(line string, err error) {
		if err != nil {
			t.Error(err)
		}
		lines.WriteString(line)
	})
	compileAll(t, s)
	return lines.String()
}

// TestPreparedSame holds what is made of prepared lines against what is made of
// texts: all that a program tells, and what the engine and the closures say where
// facts are stated, where some are not, and where objects are absent.
func TestPreparedSame(t *testing.T) {
	l := boatLanguage(t)
	lines := prepared(t, l)
	if n := strings.Count(lines, "\n"); n != len(preparable) {
		t.Fatalf("%d lines of %d expressions:\n%s", n, len(preparable), lines)
	}
	s := l.NewScope()
	s.Recall(lines)
	parsed, recalled := compileAll(t, l.NewScope()), compileAll(t, s)
	full := map[string]fact.Value{"area_m2": fact.Num(4), "reefs": fact.Num(3), "panels_m2": fact.Nums([]float64{2, 2.05}),
		"knots": fact.Nums([]float64{4, 5}), "cloth": fact.Word("nylon"), "maker": fact.Word("ann"), "wet": fact.Truth(true)}
	sails := []*Record{nil, set(l.objects[0], full), set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(2)})}
	masts := []*Record{nil, set(l.objects[1], map[string]fact.Value{"height_m": fact.Num(1.1)})}
	frames := NewFrames(l, len(preparable))
	for i, a := range parsed {
		b := recalled[i]
		if a.typ.String() != b.typ.String() || a.cost != b.cost || a.size != b.size || (a.fact == nil) != (b.fact == nil) ||
			!slices.Equal(a.reads, b.reads) || !slices.Equal(a.stated, b.stated) {
			t.Errorf("%s: %+v and %+v", preparable[i].text, a, b)
		}
		for _, sail := range sails {
			for _, mast := range masts {
				f := frames.Open()
				f.Put(0, sail)
				f.Put(1, mast)
				x, y := a.exec(f), b.exec(f)
				u, open := x.(*types.Unknown)
				w, also := y.(*types.Unknown)
				if open != also || open && !slices.Equal(l.reads(u.IDs()), l.reads(w.IDs())) || !open && !same(x, y) {
					t.Errorf("%s: the engine says %v and %v", preparable[i].text, x, y)
				}
				v, ok := a.quickValue(f)
				if w, also := b.quickValue(f); ok != also || ok && !same(v, w) {
					t.Errorf("%s: the closures say %v and %v", preparable[i].text, v, w)
				}
				f.Close()
			}
		}
	}
}

// TestPreparedIsUsed tells by a line with another limit that lines are used, and by
// broken ones that they are not: then the text is parsed.
func TestPreparedIsUsed(t *testing.T) {
	l := boatLanguage(t)
	const text = "sail.area_m2 > 3.5"
	var line string
	s := l.NewScope()
	s.Prepare(func(kept string, _ error) { line = kept })
	must(t, s, text, Condition)
	f := NewFrames(l, 1).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(4)}))
	holds := func(line string, text string, role Role) bool {
		s := l.NewScope()
		s.Recall(line)
		return must(t, s, text, role).Holds(f)
	}
	other := strings.Replace(line, "double 3.5", "double 4.5", 1)
	if other == line || holds(other, text, Condition) {
		t.Fatalf("the line %q is not used", other)
	}
	for name, line := range map[string]string{
		"another text":   strings.Replace(other, "3.5", "3.6", 1),
		"another role":   strings.Replace(other, "condition", "when", 1),
		"no cost":        strings.Replace(other, "\t3\t", "\tx\t", 1),
		"cut":            other[:len(other)-8],
		"more behind":    strings.TrimSuffix(other, "\n") + " l9:int 1\n",
		"no such object": strings.ReplaceAll(other, "sail sail", "sale sale"),
		"no such field":  strings.Replace(other, "double area_m2", "double area_m3", 1),
		"another type":   strings.Replace(other, "double area_m2", "int area_m2", 1),
		"no such type":   strings.Replace(other, ":bool", ":bull", 1),
		"unknown letter": strings.Replace(other, "c3:", "x3:", 1),
		"many arguments": strings.Replace(other, "_ff 2", "_ff 900", 1),
		"a let-name":     strings.Replace(other, "s2:double area_m2 i1:sail sail", "i2:double high", 1),
	} {
		if line == other || !holds(line, text, Condition) {
			t.Errorf("%s: %q is used", name, line)
		}
	}
}

// TestLetBelowALoop: a loop may use a name that becomes a let-name below it.
func TestLetBelowALoop(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	p := must(t, s, "sail.knots.exists(k, k > 0 && sail.wet)", Condition)
	s.Let("k", 0, must(t, s, "0 - 5", Value))
	f := NewFrames(l, 1).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"knots": fact.Nums([]float64{1})}))
	if got := p.Decide(f); got.State != Undecided || len(got.Lacks) != 1 {
		t.Errorf("the loop reads the let-name: %v", got)
	}
}

// TestMark holds that whatever expressions are checked against changes the mark.
func TestMark(t *testing.T) {
	mark := func(change func(sail *fact.Field, mast *Object)) string {
		t.Helper()
		field := fact.Field{Name: "cloth", Type: fact.Choice, Choices: []string{"canvas", "nylon"}}
		mast := NewObject("mast", "A mast.", fact.NewTable(fact.Field{Name: "height_m", Type: fact.Fraction}))
		change(&field, mast)
		l, err := NewLanguage(NewObject("sail", "A sail.", fact.NewTable(field)), mast)
		if err != nil {
			t.Fatal(err)
		}
		return l.Mark()
	}
	seen := map[string]string{}
	for name, change := range map[string]func(*fact.Field, *Object){
		"as it is": func(*fact.Field, *Object) {},
		"name":     func(f *fact.Field, _ *Object) { f.Name = "weave" },
		"type":     func(f *fact.Field, _ *Object) { f.Type, f.Choices = fact.Whole, nil },
		"list":     func(f *fact.Field, _ *Object) { f.Type, f.Choices, f.Cap = fact.Names, nil, 3 },
		"cap":      func(f *fact.Field, _ *Object) { f.Type, f.Choices, f.Cap = fact.Names, nil, 4 },
		"choices":  func(f *fact.Field, _ *Object) { f.Choices = []string{"canvas"} },
		"known":    func(f *fact.Field, _ *Object) { f.Type, f.Choices, f.Known = fact.Name, nil, woods() },
		"object":   func(_ *fact.Field, o *Object) { *o = *NewObject("boom", "A boom.", o.Table) },
	} {
		m := mark(change)
		if m == "" || seen[m] != "" {
			t.Errorf("%s: the mark %q is that of %q", name, m, seen[m])
		}
		seen[m] = name
	}
}

// TestEngineWanted holds the version that this module's own tests are taken to have.
func TestEngineWanted(t *testing.T) {
	text, err := os.ReadFile("../../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), engineModule+" "+engineWanted+"\n") || !strings.HasPrefix(string(text), "module "+ownModule+"\n") {
		t.Errorf("go.mod does not want %s %s", engineModule, engineWanted)
	}
}
