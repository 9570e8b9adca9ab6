package catalog

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

type given = map[string]any

// TestWith holds what comes of values that are stated over a part.
func TestWith(t *testing.T) {
	eleven := class(t, "usual-eleven")
	cogs := []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28}
	p, err := eleven.With(given{"cogs_t": cogs, "pitch_mm": "3.76 ± 0.02", "basis": "measured"})
	if err != nil {
		t.Fatal(err)
	}
	for field, want := range map[string]fact.Value{
		"pitch_mm":         {Known: true, Own: true, Num: 3.76, Tol: 0.02},
		"cog_thickness_mm": value(eleven, "cog_thickness_mm"),
		"height_class":     value(eleven, "height_class"),
		"cog_count":        value(eleven, "cog_count"),
	} {
		if diff := cmp.Diff(want, value(p, field)); diff != "" {
			t.Errorf("%s: %s", field, diff)
		}
	}
	if v := value(p, "cogs_t"); !v.Own || len(v.List) != 11 || v.Usual != fact.NotUsual {
		t.Errorf("the cogs are %+v", v)
	}
	if p.Source("pitch_mm") != "" || p.Source("cog_thickness_mm") != "memory" || p.Basis() != "usual" || p.ID() != "usual-eleven" {
		t.Errorf("%s %s: %q %q", p.ID(), p.Basis(), p.Source("pitch_mm"), p.Source("cog_thickness_mm"))
	}
	if p.Name() != "Usual eleven, cogs_t and pitch_mm measured" || eleven.Name() != "Usual eleven" || value(eleven, "cogs_t").Known {
		t.Errorf("they are called %q and %q", p.Name(), eleven.Name())
	}
	again, err := p.With(given{"pitch_mm": 3.8, "basis": "assumed", "name": "Guessed", "sku": "G-1", "price": 12, "maker": "Pier Works"})
	if err != nil {
		t.Fatal(err)
	}
	if v := value(again, "pitch_mm"); !v.Own || !v.Assumed || v.Tol != 0 || again.Name() != "Guessed" || again.Price() != "12" || again.Maker() != "Pier Works" || again.SKU() != "G-1" {
		t.Errorf("%+v of %q", v, again.Name())
	}
	if v := value(again, "cogs_t"); v.Assumed || !v.Own {
		t.Errorf("the basis of one field is that of another: %+v", v)
	}
	if same, err := eleven.With(nil); err != nil || same != eleven {
		t.Errorf("nothing over a part: %v", err)
	}
}

// TestWithTakesThePlace holds that what says the same in another way gives way, and
// that defaults come back where what they hang on is gone.
func TestWithTakesThePlace(t *testing.T) {
	uneven, err := New("cassette", given{"id": "uneven", "name": "Uneven", "cogs_t": []int{11, 13, 15}, "pitches_mm": []float64{4, 5}})
	if err != nil {
		t.Fatal(err)
	}
	p, err := uneven.With(given{"pitch_mm": 4.5})
	if err != nil || value(p, "pitches_mm").Known || p.States("pitches_mm") || value(p, "pitch_mm").Num != 4.5 {
		t.Errorf("pitches beside a pitch: %v, %v", value(p, "pitches_mm"), err)
	}
	if back, err := p.With(given{"pitches_mm": []float64{4, 4.1}}); err != nil || value(back, "pitch_mm").Known || p == back {
		t.Errorf("a pitch beside pitches: %v, %v", value(back, "pitch_mm"), err)
	}
	full, err := New("rear_derailleur", given{"mount": "full", "limit_stops": "screws"})
	if err != nil {
		t.Fatal(err)
	}
	hung, err := full.With(given{"mount": "hanger"})
	if err != nil || value(full, "b_adjust").Text != "none" || value(hung, "b_adjust").Text != "screw" {
		t.Errorf("the screw is %s, then %s: %v", value(full, "b_adjust"), value(hung, "b_adjust"), err)
	}
	if clamped, err := hung.With(given{"mount": "full"}); err != nil || value(clamped, "limit_stops").Text != "screws" || value(clamped, "b_adjust").Text != "none" {
		t.Errorf("what the part below states is lost: %v", err)
	}
	lever := class(t, "usual-lever")
	if seven, err := lever.With(given{"speeds": 7}); err != nil || value(seven, "clicks").Known || seven.States("clicks") {
		t.Errorf("the clicks of a class stand beside the speeds of the part: %v", err)
	}
	rings, err := New("crankset", given{"rings_t": []int{34, 50}, "ring_offset_mm": []float64{-2.5, 2.5}})
	if err != nil {
		t.Fatal(err)
	}
	for _, over := range []given{{"ring_offset_mm": []float64{3, -3}}, {"ring_offset_mm": []float64{-3, 3}, "rings_t": []int{36, 52}}} {
		p, err := rings.With(over)
		if err != nil || value(p, "ring_offset_mm").List[0] != 3 {
			t.Errorf("%v: the outer ring stands at %v, %v", over, value(p, "ring_offset_mm").List, err)
		}
	}
	if p, err := rings.With(given{"rings_t": []int{36, 52}}); err != nil || value(p, "ring_offset_mm").List[0] != 2.5 {
		t.Errorf("other rings: %v, %v", value(p, "ring_offset_mm").List, err)
	}
}

// TestWithRefusals holds that the whole is checked as any part is.
func TestWithRefusals(t *testing.T) {
	eleven, lever := class(t, "usual-eleven"), class(t, "usual-lever")
	sound, _ := New("cassette", given{"id": "three", "cogs_t": []int{11, 13, 15}, "pitches_mm": []float64{4, 5}})
	cage, _ := New("rear_derailleur", given{"max_cog_t": 34})
	for _, c := range []struct {
		part Part
		over given
		want string
	}{
		{eleven, given{"cogs_t": []int{11, 13, 15}}, "with cassette: cogs_t: cogs_t has 3 cogs, and cog_count is 11 (one of the two is wrong"},
		{eleven, given{"height_class": "thin-10"}, "with cassette: height_class: the class thin-10 has 10 cogs, and 11 are stated"},
		{eleven, given{"pich_mm": 3.6}, `unknown entry "pich_mm" (did you mean "pitch_mm"?)`},
		{eleven, given{"pitch_mm": 36}, "with cassette: pitch_mm: 36 is above the most, 8"},
		{eleven, given{"pitch_mm": given{"usual": 3.6, "least": 3.5, "most": 3.7, "source": "x"}}, "pitch_mm: only a usual value goes over a spread"},
		{eleven, given{"pitch_mm": 3.6, "basis": "usual"}, "basis: usual values are for part files"},
		{eleven, given{"id": "mine"}, `unknown entry "id"`},
		{eleven, given{"pitch_mm": 3.6, "pitches_mm": []float64{3}}, "pitch_mm and pitches_mm say the same twice"},
		{sound, given{"cogs_t": []int{11, 13}}, "cogs_t: has 2 entries for 2 cogs (one fewer than the cogs)"},
		{cage, given{"min_largest_cog_t": 40}, "with rear_derailleur: min_largest_cog_t: min_largest_cog_t is above max_cog_t"},
		{lever, given{"speeds": 9}, "with rear_shifter: speeds: 7 clicks do not reach 9 cogs"},
		{lever, given{"pull_mm": []float64{}}, "with rear_shifter: pull_mm: must be a number, is a list"},
		{Part{}, given{"speeds": 9}, "there is no part to state this of"},
	} {
		p, err := c.part.With(c.over)
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") || p != (Part{}) {
			t.Errorf("%v:\n%v\nwant %s", c.over, err, c.want)
		}
	}
}

// TestJoined holds that classes of one kind make one part together, and that none
// says what another does.
func TestJoined(t *testing.T) {
	mechanism, cage, curve := class(t, "usual-mechanism"), class(t, "usual-cage"), class(t, "usual-curve")
	read := func(text string, below ...Part) (Part, string) {
		n, err := source.Parse("m.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		var ps source.Problems
		p, ok := ReadOver(below, n, &ps)
		if ok == (ps.Err() != nil) || !ok && p != (Part{}) {
			t.Errorf("%s: a part %t, and %v", text, ok, ps)
		}
		return p, ps.Error()
	}
	p, says := read("{id: [usual-mechanism, usual-cage], capacity_t: 30}", mechanism, cage)
	if says != "" || p.ID() != "usual-mechanism+usual-cage" || p.Name() != "Usual mechanism; Usual cage, capacity_t stated" {
		t.Errorf("%s is called %q: %s", p.ID(), p.Name(), says)
	}
	if v := value(p, "max_cog_t"); v.Spread() == nil || v.Num != 27 || value(p, "ratio").Num != 1.7 || !value(p, "capacity_t").Own {
		t.Errorf("the cage is %+v", v)
	}
	if p.Source("max_cog_t") != "memory" || p.Source("ratio") != "trade-page" || value(mechanism, "max_cog_t").Known {
		t.Errorf("sources %q and %q", p.Source("max_cog_t"), p.Source("ratio"))
	}
	for _, c := range []struct {
		text  string
		below []Part
		want  string
	}{
		{"{id: [a, b]}", []Part{mechanism, mechanism}, "m.yaml:1:10: rear_derailleur.id[1]: usual-mechanism and usual-mechanism both give actuation and ratio (take one of the two out)"},
		{"{id: [a, b, c]}", []Part{mechanism, cage, curve}, "m.yaml:1:13: rear_derailleur.id[2]: usual-mechanism and usual-curve both give ratios"},
		{"{id: [a, b]}", []Part{cage, class(t, "usual-lever")}, "m.yaml:1:10: rear_derailleur.id[1]: usual-lever is of the kind rear_shifter"},
		{"{id: [a, b], min_largest_cog_t: 30}", []Part{mechanism, cage}, "m.yaml:1:33: rear_derailleur.min_largest_cog_t: min_largest_cog_t is above max_cog_t"},
		{"{name: ''}", []Part{cage}, "m.yaml:1:8: rear_derailleur.name: is an empty text"},
		{"[a]", []Part{cage}, "m.yaml:1:1: rear_derailleur: a part is described by a map"},
	} {
		if _, says := read(c.text, c.below...); !strings.Contains(says, c.want) || strings.Contains(says, "\n") {
			t.Errorf("%s:\n%s\nwant %s", c.text, says, c.want)
		}
	}
}
