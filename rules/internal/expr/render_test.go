package expr

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"

	"example.org/cogcourt/rules/fact"
)

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{0, Shortest, "0"}, {math.Copysign(0, -1), Shortest, "0"}, {-0.001, Shortest, "0"}, {-0.001, 2, "0.00"},
		{3, Shortest, "3"}, {30, Shortest, "30"}, {3.5, Shortest, "3.5"}, {3.456, Shortest, "3.46"}, {-3.456, Shortest, "-3.46"},
		{0.125, Shortest, "0.13"}, {2.675, Shortest, "2.68"}, {-2.675, Shortest, "-2.68"}, {1.005, 2, "1.01"},
		{0.5, 0, "1"}, {1.5, 0, "2"}, {-0.5, 0, "-1"}, {-0.4, 0, "0"},
		{3, 1, "3.0"}, {3.04999, 1, "3.0"}, {3.05, 1, "3.1"}, {1.0 / 3, 6, "0.333333"},
		{1e12, 0, "1000000000000"}, {1e12 + 0.25, Shortest, "1000000000000.25"}, {maxWhole, 0, "9007199254740991"}, {1e15, 1, "1000000000000000.0"},
	} {
		if got := Decimal(c.x, c.decimals); got != c.want {
			t.Errorf("%v with %d decimals prints %s, not %s", c.x, c.decimals, got, c.want)
		}
	}
}

// Whole numbers with a point in them are what strconv prints of the rounded number.
func TestDecimalAsStrconv(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 20_000 {
		x, decimals := random.NormFloat64()*math.Pow10(random.IntN(19)-3), random.IntN(8)-1
		if random.IntN(2) == 0 {
			x = math.Round(x*1000) / 1000
		}
		places := decimals
		if decimals == Shortest {
			places = 2
		}
		scale := math.Pow10(places)
		r := math.Round(x*scale+math.Copysign(min(math.Abs(x*scale)*1e-12, 1e-6), x)) / scale
		if math.Abs(r) >= 1e15 {
			r = x
		}
		want := strconv.FormatFloat(r, 'f', places, 64)
		if decimals == Shortest {
			want = strings.TrimSuffix(strings.TrimRight(want, "0"), ".")
		}
		if got := Decimal(x, decimals); r != 0 && got != want {
			t.Fatalf("%v with %d decimals prints %s, not %s", x, decimals, got, want)
		}
	}
}

func TestRender(t *testing.T) {
	l := boatLanguage(t)
	f := NewFrames(l, 0).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{
		"area_m2": fact.Num(12.346), "reefs": fact.Num(3), "cloth": fact.Word("canvas"), "wet": fact.Truth(true),
		"panels_m2": fact.Nums([]float64{1, 2.5, 3.456}), "knots": fact.Nums([]float64{1, 20}),
	}))
	for _, c := range []struct {
		text     string
		decimals int
		want     string
	}{
		{"sail.area_m2", Shortest, "12.35"}, {"sail.area_m2", 1, "12.3"}, {"sail.reefs", 2, "3"}, {"sail.reefs / 2", Shortest, "1.5"},
		{"sail.cloth", Shortest, "canvas"}, {"sail.cloth + ', dry'", Shortest, "canvas, dry"}, {"sail.wet", Shortest, "yes"}, {"!sail.wet", 1, "no"},
		{"sail.panels_m2", Shortest, "1, 2.5, 3.46"}, {"sail.panels_m2", 1, "1.0, 2.5, 3.5"}, {"sail.knots", 1, "1, 20"},
		{"[1.25, 2.0]", 1, "1.3, 2.0"}, {"sail.panels_m2[1]", Shortest, "2.5"},
		{"sail.wet ? 'wet' : 'dry'", Shortest, "wet"},
		{"sail.cloth + (sail.wet ? ', ' + sail.cloth : '') + '.'", Shortest, "canvas, canvas."}, {"'a' + (sail.wet ? '' : 'b' + 'c') + 'd'", 0, "ad"},
		{"sail.cloth + sail.maker", Shortest, "(not stated)"}, {"sail.wet ? 'wet ' + sail.maker : 'dry'", Shortest, "(not stated)"},
		{"sail.maker", Shortest, "(not stated)"}, {"mast.stays + 1", Shortest, "(not stated)"}, {"sail.wet && mast.stays > 1", Shortest, "(not stated)"},
		{"sail.reefs / (1 - 1)", Shortest, NotComputed}, {"sail.panels_m2[9]", Shortest, NotComputed},
	} {
		p := must(t, l.NewScope(), c.text, Value)
		if got := p.Render(f, c.decimals); got != c.want {
			t.Errorf("%s prints %q, not %q", c.text, got, c.want)
		}
	}
}

// TestProgramFacts holds what a program tells of itself.
func TestProgramFacts(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("over", 0, must(t, s, "sail.area_m2 - 2 * mast.height_m", Value))
	p := must(t, s, "stated(mast.stays) && sail.reefs > 1 && over > sail.area_m2", When)
	var reads, stated string
	for _, r := range p.Reads() {
		reads += l.Name(r) + " "
	}
	for _, r := range p.Stated() {
		stated += l.Name(r) + " "
	}
	if reads != "sail.reefs sail.area_m2 mast.height_m " || stated != "mast.stays " {
		t.Errorf("reads %s, asks for %s", reads, stated)
	}
	if p.Cost() == 0 || p.Cost() > 50 {
		t.Errorf("costs %d", p.Cost())
	}
	for text, want := range map[string]string{
		"sail.wet": "true or false", "sail.reefs": "a whole number", "over": "a fraction", "sail.cloth": "a text", "sail.knots": "a list",
	} {
		p := must(t, s, text, Value)
		if p.Type() != want || p.IsNumber() != (text == "sail.reefs" || text == "over") {
			t.Errorf("%s is %s, number %t", text, p.Type(), p.IsNumber())
		}
	}
}

// TestNumbersIsAList holds the engine's view of a list of facts against the
// engine's own list.
func TestNumbersIsAList(t *testing.T) {
	n := numbers{xs: []float64{1, 2}, whole: true}
	own := types.NewRefValList(types.DefaultTypeAdapter, []ref.Val{types.Int(1), types.Int(2)})
	if n.Equal(own) != types.True || own.Equal(n) != types.True || n.Type() != own.Type() || n.Size() != own.Size() {
		t.Error("the lists differ")
	}
	if n.Get(types.Int(1)) != types.Int(2) || n.Contains(types.Int(2)) != types.True || n.Contains(types.Int(3)) != types.False {
		t.Error("the entries differ")
	}
	if !types.IsError(n.Get(types.Int(2))) {
		t.Error("there is no third entry")
	}
	if longer := n.Add(own).(traits.Lister); longer.Size() != types.Int(4) {
		t.Errorf("joined they have %v entries", longer.Size())
	}
	if n.ConvertToType(types.ListType).(traits.Lister).Size() != types.Int(2) || len(n.Value().([]ref.Val)) != 2 {
		t.Error("it converts to another list")
	}
	if _, ok := unboxList(types.NewStringList(types.DefaultTypeAdapter, []string{"a"})); ok {
		t.Error("a list of texts is no list of numbers")
	}
}
