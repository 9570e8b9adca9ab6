package catalog

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// sample makes a random description that states every field of a kind but the
// second spellings and classes of a length, and holds all that a description must.
func sample(object *rules.Object, rng *rand.Rand) map[string]any {
	m := map[string]any{}
	for _, f := range object.Table().Fields() {
		if f.Excludes == "" {
			m[f.Name] = sampleValue(f, rng)
		}
	}
	if rings, ok := m["rings_t"].([]int); ok && m["ring_offset_mm"] != nil {
		m["ring_offset_mm"] = []float64{-2.5, 0, 2.5, 5}[:len(rings)]
	}
	for _, pair := range [][2]string{{"inner_width_mm", "outer_width_mm"}, {"min_largest_cog_t", "max_cog_t"},
		{"ring_thickness_mm", "wide_tooth_mm"}, {"ring_min_t", "ring_max_t"}, {"min_c", "max_c"},
		{"min_difference_t", "capacity_t"}, {"inner_bolt_circle_mm", "bolt_circle_mm"}} {
		if i, ok := object.Table().Index(pair[0]); ok && m[pair[1]] != nil {
			m[pair[0]] = int(object.Table().Fields()[i].Min) + 1
			m[pair[1]] = int(object.Table().Fields()[i].Max)
		}
	}
	if cogs, ok := m["cogs_t"].([]int); ok && m["cog_count"] != nil {
		m["cog_count"] = len(cogs)
	}
	if pulls, ok := m["pulls_mm"].([]float64); ok && m["clicks"] != nil {
		m["clicks"] = len(pulls)
	}
	if clicks, ok := m["clicks"].(int); ok && m["speeds"] != nil {
		m["speeds"] = min(clicks+1, 16)
	}
	// What else must not be said at once.
	for name, v := range map[string]any{"rear_suspension": "sprung", "fixed_cog": false, "height_class": "flat", "axle": "through",
		"brake_mount": "disc", "assist": "mid", "dropout": "track", "front_mount": "direct-low", "integrated_brake": "hydraulic",
		"pull": "hydraulic", "bolt_pattern": "direct"} {
		if m[name] != nil {
			m[name] = v
		}
	}
	if m["hanger_part"] != nil {
		m["hanger"] = "replaceable"
	}
	delete(m, "inner_class")
	delete(m, "body_class")
	return m
}

func sampleValue(f fact.Field, rng *rand.Rand) any {
	within := func() float64 {
		hundredths := int((f.Max - f.Min) * 100)
		return f.Min + float64(rng.IntN(hundredths+1))/100
	}
	whole := func() int { return int(f.Min) + rng.IntN(int(f.Max-f.Min)+1) }
	switch f.Type {
	case fact.Fraction:
		return within()
	case fact.Whole:
		return whole()
	case fact.Flag:
		return rng.IntN(2) == 1
	case fact.Choice:
		return f.Choices[rng.IntN(len(f.Choices))]
	case fact.Name:
		return fmt.Sprintf("shore-%d", rng.IntN(9))
	case fact.Fractions:
		list := make([]float64, 1+rng.IntN(f.Cap))
		for i := range list {
			list[i] = within()
			if f.Rising {
				list[i] = f.Min + float64(i)
			}
		}
		return list
	case fact.Names:
		list := make([]string, 1+rng.IntN(f.Cap))
		for i := range list {
			list[i] = fmt.Sprintf("shore-%d", i)
		}
		return list
	}
	list := make([]int, 1+rng.IntN(f.Cap))
	for i := range list {
		list[i] = whole()
		if f.Rising {
			list[i] = int(f.Min) + i
		}
	}
	return list
}

func values(p Part) []fact.Value {
	all := make([]fact.Value, len(p.Record().Object().Table().Fields()))
	for i := range all {
		all[i] = p.Record().Value(i)
	}
	return all
}

// One part gives one record, whichever door it comes in by.
func TestDoorsAgree(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 41))
	for _, object := range Kinds() {
		for range 20 {
			fields := sample(object, rng)
			made, err := New(object.Name(), fields)
			if err != nil {
				t.Fatalf("New: %v", err)
			}
			text, err := json.Marshal(fields)
			if err != nil {
				t.Fatal(err)
			}
			n, err := source.Parse("place.json", text)
			if err != nil {
				t.Fatal(err)
			}
			var ps source.Problems
			placed, ok := Read(object.Name(), n, &ps)
			if !ok {
				t.Fatalf("Read: %v", ps)
			}
			item := fmt.Sprintf(`{"parts": [{"kind": %q, "id": "x", "name": "X", %s]}`, object.Name(), text[1:])
			loaded, err := ReadFile("one.yaml", []byte(item))
			if err != nil {
				t.Fatalf("ReadFile: %v", err)
			}
			x, _ := loaded.Part("x")
			if !reflect.DeepEqual(values(made), values(placed)) || !reflect.DeepEqual(values(made), values(x)) {
				t.Errorf("%s differs:\nNew      %+v\nRead     %+v\nReadFile %+v", object.Name(), values(made), values(placed), values(x))
			}
			wantStated(t, object, fields, made)
		}
	}
}

// wantStated makes sure that a record holds what was stated, and no more.
func wantStated(t *testing.T, object *rules.Object, fields map[string]any, p Part) {
	for i, f := range object.Table().Fields() {
		v, stated := p.Record().Value(i), fields[f.Name] != nil
		if v.Known != (stated || f.Default != nil) || v.Assumed {
			t.Errorf("%s.%s is known: %v, assumed: %v", object.Name(), f.Name, v.Known, v.Assumed)
		}
		if f.Type == fact.Fraction && stated && fmt.Sprint(fields[f.Name]) != fmt.Sprint(v.Num) {
			t.Errorf("%s.%s is %v, stated was %v", object.Name(), f.Name, v.Num, fields[f.Name])
		}
	}
}

func TestNewReadsTheHead(t *testing.T) {
	p, err := New("chain", map[string]any{"id": "pier-12", "name": "Pier twelve", "maker": "Jetty Works (invented)",
		"sku": "JW-12", "price": 31.5, "basis": "measured", "speeds": 12})
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join([]string{p.Kind(), p.ID(), p.Name(), p.Maker(), p.SKU(), p.Price(), p.Basis(), p.Pos().String()}, "|")
	if want := "chain|pier-12|Pier twelve|Jetty Works (invented)|JW-12|31.5|measured|new chain"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if c, ok := p.Cents(); !ok || c != 3150 {
		t.Errorf("cents are %d, %v", c, ok)
	}
	if _, ok := (Part{}).Cents(); ok || (Part{}).Kind() != "" || (Part{}).Record() != nil {
		t.Error("the zero part has something")
	}
}

func TestNewRefuses(t *testing.T) {
	for _, c := range []struct {
		kind   string
		fields map[string]any
		want   string
	}{
		{"casette", nil, `there is no kind "casette" (did you mean "cassette"?)`},
		{"cassette", map[string]any{}, "cogs_t is missing"},
		{"cassette", map[string]any{"cogs_t": []int{11, 13}, "pitch": 4.0}, `unknown entry "pitch" (did you mean "pitch_mm"?)`},
		{"chain", map[string]any{"kind": "chain"}, `unknown entry "kind"`},
		{"chain", map[string]any{"speeds": 12, "price": "free"}, "price: a price is a number"},
		{"chain", map[string]any{"speeds": struct{}{}}, "speeds: is a struct {}"},
		{"chain", map[string]any{"id": "Pier"}, `id: "Pier" is no id`},
	} {
		p, err := New(c.kind, c.fields)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("New(%q, %v) gives %v, want %q", c.kind, c.fields, err, c.want)
		}
		if p != (Part{}) {
			t.Errorf("New(%q, %v) gives a part and an error", c.kind, c.fields)
		}
	}
}

// readPlace reads a description in place from YAML.
func readPlace(t *testing.T, kind, text string) (Part, source.Problems) {
	n, err := source.Parse("mix.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	p, ok := Read(kind, n, &ps)
	if ok != (len(ps) == 0) {
		t.Errorf("Read gives %v with %d problems", ok, len(ps))
	}
	return p, ps
}

func TestReadInPlace(t *testing.T) {
	p, ps := readPlace(t, "cassette", "{name: From the donation box, basis: measured, cogs_t: [11, 13, 15], pitch_mm: 4.34 ± 0.02}")
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	pitch := Cassette.Ref("pitch_mm").In(p.Record())
	if pitch.Num != 4.34 || pitch.Tol != 0.02 || p.Basis() != "measured" || p.ID() != "" || p.Name() != "From the donation box" {
		t.Errorf("got %+v of %q, %q", pitch, p.Name(), p.Basis())
	}
	for _, c := range []struct{ kind, text, want string }{
		{"cassette", "{kind: cassette, cogs_t: [11]}", "mix.yaml:1:8: cassette.kind: a part described in place has no kind"},
		{"cassette", "{id: pier, cogs_t: [11]}", "mix.yaml:1:6: cassette.id: a part described in place has no id"},
		{"cassette", "[11, 13]", "mix.yaml:1:1: cassette: a part is described by a map of its fields, not by a list"},
		{"cog", "{}", `mix.yaml:1:1: there is no kind "cog"`},
		{"cassette", "{cogs_t: [11], basis: 1}", "cassette.basis: must be a text, is a number"},
	} {
		p, ps := readPlace(t, c.kind, c.text)
		if len(ps) != 1 || !strings.Contains(ps[0].String(), c.want) {
			t.Errorf("%s gives %v, want %q", c.text, ps, c.want)
		}
		if p.Record() != nil && c.kind != "cassette" {
			t.Errorf("%s gives a part", c.text)
		}
	}
	var none source.Problems
	if _, ok := Read("cassette", nil, &none); ok || len(none) != 1 {
		t.Errorf("no description gives %v", none)
	}
}

func TestAssumedPart(t *testing.T) {
	p, err := New("cassette", map[string]any{"basis": "assumed", "cogs_t": []int{11, 13, 15}, "pitch_mm": 4.34})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string][2]bool{
		"cogs_t": {true, true}, "pitch_mm": {true, true}, "own_lockring_small_cog": {true, false}, "cog_thickness_mm": {false, false},
	} {
		v := Cassette.Ref(name).In(p.Record())
		if v.Known != want[0] || v.Assumed != want[1] {
			t.Errorf("%s is known: %v, assumed: %v", name, v.Known, v.Assumed)
		}
	}
}

// Offsets stay with their rings when these are sorted.
func TestOffsetsFollowTheirRings(t *testing.T) {
	p, err := New("crankset", map[string]any{"rings_t": []int{22, 44, 32}, "ring_offset_mm": []any{"-7.5 ± 0.2", 7.5, 0}})
	if err != nil {
		t.Fatal(err)
	}
	rings, offsets := Crankset.Ref("rings_t").In(p.Record()), Crankset.Ref("ring_offset_mm").In(p.Record())
	if !reflect.DeepEqual(rings.List, []float64{44, 32, 22}) || !reflect.DeepEqual(offsets.List, []float64{7.5, 0, -7.5}) ||
		!reflect.DeepEqual(offsets.Tols(), []float64{0, 0, 0.2}) {
		t.Errorf("rings %v, offsets %v within %v", rings.List, offsets.List, offsets.Tols())
	}
}

func TestPrices(t *testing.T) {
	for text, want := range map[string]int64{"0": 0, "12": 1200, "12.5": 1250, "12.50": 1250, "0.05": 5, "999999999.99": 99999999999} {
		if c, ok := cents(text); !ok || c != want {
			t.Errorf("%q is %d, %v, want %d", text, c, ok, want)
		}
	}
	for _, text := range []string{"", ".", "12.", ".5", "-1", "+1", "1e2", "12.345", "1 000", "1,50", "1000000000", "١", "0x1"} {
		if c, ok := cents(text); ok {
			t.Errorf("%q is taken for %d", text, c)
		}
	}
	for _, v := range []any{2e6, 2000000, "2000000", json.Number("2e6")} {
		p, err := New("chain", map[string]any{"price": v})
		if err != nil || p.Price() != "2000000" {
			t.Errorf("the price %v is %q, %v", v, p.Price(), err)
		}
	}
}
