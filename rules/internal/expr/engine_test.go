package expr

import (
	"strings"
	"testing"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/interpreter"

	"example.org/cogcourt/rules/fact"
)

// Tests of what this package depends on in its pinned engine. Where one of them
// turns red after a change of version, look at the code that it names.

// nothing is an activation without names.
type nothing struct{}

func (nothing) ResolveName(string) (any, bool) { return nil, false }
func (nothing) Parent() interpreter.Activation { return nil }

// TestEngineRecovers: Eval turns a panic into an error and no value, and leaves
// a frame that it was given open (Program.exec).
func TestEngineRecovers(t *testing.T) {
	env, err := cel.NewCustomEnv(cel.Function("burst", cel.Overload("burst", nil, cel.BoolType,
		cel.FunctionBinding(func(...ref.Val) ref.Val { panic("burst") }))))
	if err != nil {
		t.Fatal(err)
	}
	tree, iss := env.Compile("burst()")
	if iss.Err() != nil {
		t.Fatal(iss.Err())
	}
	prog, err := env.Program(tree)
	if err != nil {
		t.Fatal(err)
	}
	frame, err := interpreter.NewExecutionFrame(nothing{})
	if err != nil {
		t.Fatal(err)
	}
	defer frame.Close()
	for range 2 {
		v, _, err := prog.Eval(frame)
		if v != nil || err == nil || !strings.Contains(err.Error(), "burst") {
			t.Errorf("got %v, %v", v, err)
		}
		if _, ok := frame.Activation.(nothing); !ok {
			t.Error("the frame has lost what it reads from")
		}
	}
}

// TestEngineMergesUnknowns: operators and functions name every unstated fact,
// and Unknown wins over an error beside it (Decide).
func TestEngineMergesUnknowns(t *testing.T) {
	l := boatLanguage(t)
	f := NewFrames(l, 0).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(1), "knots": fact.Nums([]float64{1})}))
	for text, want := range map[string]string{
		"sail.area_m2 + mast.stays > 1.0":                          "sail.area_m2 mast",
		"near(sail.area_m2, 1.0, mast.height_m)":                   "sail.area_m2 mast",
		"sail.wet || mast.stays > 1":                               "sail.wet mast",
		"(sail.wet ? 1 : mast.stays) > 0":                          "sail.wet",
		"sail.wet && sail.reefs / (1 - 1) > 1":                     "sail.wet",
		"sail.reefs / (1 - 1) > 1 || sail.wet":                     "sail.wet",
		"sail.knots.all(k, k > 0 && sail.wet)":                     "sail.wet",
		"sail.panels_m2.exists(p, p > sail.area_m2)":               "sail.panels_m2",
		"sail.cloth in ['nylon', 'canvas'] && sail.maker != 'ann'": "sail.cloth sail.maker",
		"sail.panels_m2[sail.reefs] > 1.0":                         "sail.panels_m2",
		"sail.knots[mast.stays] > 1":                               "mast",
	} {
		got := must(t, l.NewScope(), text, Condition).Decide(f)
		var names []string
		for _, r := range got.Lacks {
			names = append(names, l.Name(r))
		}
		if got.State != Undecided || strings.Join(names, " ") != want {
			t.Errorf("%s: state %d, lacks %v, want %s", text, got.State, names, want)
		}
	}
}

// TestErrors holds the words of each error that an evaluation can end in.
func TestErrors(t *testing.T) {
	l := boatLanguage(t)
	f := NewFrames(l, 0).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(0), "area_m2": fact.Num(9e15), "knots": fact.Nums(nil), "panels_m2": fact.Nums([]float64{1})}))
	for text, want := range map[string]string{
		"1 / sail.reefs > 1":                        "division by zero",
		"1.0 / sail.reefs > 1":                      "division by zero",
		"1 % sail.reefs > 1":                        "division by zero",
		"sail.area_m2 * 2 > 1":                      "a number grows out of range",
		"-sail.area_m2 - sail.area_m2 < 1":          "a number grows out of range",
		"sail.area_m2 / 0.1 > 1":                    "a number grows out of range",
		"first(sail.knots) > 1":                     "an empty list has no such entry",
		"max(sail.knots) > 1":                       "an empty list has no such entry",
		"sail.panels_m2[1] > 1":                     "index out of bounds: 1",
		"sail.panels_m2[0 - 1] > 1":                 "index out of bounds: -1",
		"sail.panels_m2.all(p, p / sail.reefs > 1)": "division by zero",
		"sum([9007199254740991, 1]) > 1":            "a number grows out of range",
	} {
		got := must(t, l.NewScope(), text, Condition).Decide(f)
		if got.State != Faulty || got.Err != want {
			t.Errorf("%s: got %+v, want %q", text, got, want)
		}
	}
}

// TestAnswers holds the arithmetic: whole numbers and fractions mix, and a
// quotient is a fraction.
func TestAnswers(t *testing.T) {
	l := boatLanguage(t)
	f := NewFrames(l, 0).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{
		"reefs": fact.Num(33), "area_m2": fact.Num(2.5), "cloth": fact.Word("canvas"), "maker": fact.Word("ann-bob"),
		"knots": fact.Nums([]float64{3, 1, 2}), "panels_m2": fact.Nums([]float64{0.5, 1.5}), "wet": fact.Truth(false),
	}))
	for _, text := range []string{
		"near(sail.reefs / 2, 16.5, 0)", "near(7 / 2 * 2, 7, 0.0)", "sail.reefs + 0.5 > 33", "33.0 >= sail.reefs", "sail.reefs <= 33.0",
		"sail.reefs % 10 == 3", "(0 - 7) % 3 == -1", "-sail.reefs == -33", "abs(-sail.area_m2) > 2.4", "abs(1 - 3) == 2",
		"min(1, 2) == 1", "max(1, 2.5) > 2", "min(sail.knots) == 1", "max(sail.knots) == 3", "first(sail.knots) == 3", "last(sail.knots) == 2",
		"sum(sail.knots) == 6", "sum(sail.panels_m2) > 1.9", "count(sail.knots) == 3", "size(sail.panels_m2) == 2", "size('é漢') == 2", "size(sail.cloth) == 6",
		"2 in sail.knots", "!(4 in sail.knots)", "sail.reefs in [1, 33]", "sail.cloth in ['nylon', 'canvas']", "sail.cloth != 'nylon'", "sail.wet == false",
		"sail.maker.startsWith('ann')", "!sail.maker.startsWith('bob')", "sail.cloth + '-x' == 'canvas-x'", "(sail.wet ? 1 : 2) == 2",
		"sail.knots.all(k, k > 0)", "sail.knots.exists(k, k == 2)", "!sail.knots.exists(k, k > 3)", "sail.knots[2] == 2", "sail.panels_m2[0] < 1",
		"near(1, 1.05, 0.05001)", "!near(1, 1.06, 0.05)", "near(1, 2, 1)", "!near(sail.area_m2, 3, 0.4)", "near(3, sail.area_m2, 0.5)", "near(sail.reefs, sail.area_m2, 31)",
		"near(2.0, 1.5, 1)", "near(2, 1.5, 1)", "near(1.5, 2, 1)", "[].all(x, x > 1)",
	} {
		p := must(t, l.NewScope(), text, Condition)
		if got := p.Decide(f); got.State != True {
			t.Errorf("%s: %+v", text, got)
		}
		if got := p.exec(f); got != types.True {
			t.Errorf("%s: the engine says %v", text, got)
		}
	}
}
