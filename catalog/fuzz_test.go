package catalog

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// FuzzLoad feeds any text to the reader: it never breaks down, each fault lies
// inside the file, and what it takes keeps all the promises of the field tables.
func FuzzLoad(f *testing.F) {
	seeds := []string{string(manyParts(18)), strings.ReplaceAll(classes, "id: usual-", "id: our-")}
	for _, pattern := range []string{"testdata/bad/*.yaml", "testdata/bad/*.json"} {
		files, _ := filepath.Glob(pattern)
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			seeds = append(seeds, string(text))
		}
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		name := []string{"fuzz.yaml", "fuzz.json"}[choice%2]
		c, err := ReadFile(name, text)
		if err != nil {
			checkPlaces(t, name, text, err)
			return false
		}
		for _, p := range c.Parts() {
			checkPart(t, p)
			sameAgain(t, p)
		}
		return true
	})
}

// FuzzOver states any fields over classes: it never breaks down, each fault lies
// inside the file, and the whole keeps the promises of the field tables.
func FuzzOver(f *testing.F) {
	seeds := []string{
		"{}", "{id: x, cogs_t: [11, 13, 15, 17, 19, 21, 24, 28, 32, 36, 40]}", "{pitches_mm: [3.7, 3.8], basis: measured}",
		"{id: [a, b], ratios: [1, 2]}", "{pitch_mm: {usual: 3, least: 2, most: 4, source: x}}", "{basis: usual, name: ''}", "[1]", "a: *a",
		"{mount: full, b_adjust: angle, min_largest_cog_t: 60}", "{speeds: 16, clicks: 2, pulls_mm: [1]}",
	}
	c, err := LoadUsual(fstest.MapFS{"classes.yaml": {Data: []byte(classes)}})
	if err != nil {
		f.Fatal(err)
	}
	all := c.Parts()
	sets := [][]Part{{all[0]}, {all[1], all[2]}, {all[1], all[3]}, {all[4]}}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, _ byte) (far bool) {
		n, err := source.Parse("fuzz.yaml", text)
		if err != nil {
			return false
		}
		for _, below := range sets {
			var ps source.Problems
			p, ok := ReadOver(below, n, &ps)
			if err := ps.Err(); err != nil {
				checkPlaces(t, "fuzz.yaml", text, err)
			}
			if ok != (ps.Err() == nil) {
				t.Fatalf("a part %t, with %v", ok, ps)
			}
			if ok {
				checkPart(t, p)
				far = true
			}
		}
		return far
	})
}

// sameAgain makes a part of what a part states: an equal one.
func sameAgain(t testing.TB, p Part) {
	t.Helper()
	again, err := New(p.Kind(), p.Fields())
	if err != nil {
		t.Errorf("%v is not taken: %v", p.Fields(), err)
		return
	}
	for i, f := range p.Record().Object().Table().Fields() {
		if was, is := p.Record().Value(i), again.Record().Value(i); !reflect.DeepEqual(was, is) {
			t.Errorf("%s.%s was %+v and is %+v", p.Kind(), f.Name, was, is)
		}
	}
	if !reflect.DeepEqual(again.Fields(), p.Fields()) {
		t.Errorf("%v states %v", p.Fields(), again.Fields())
	}
}

// checkPlaces makes sure that an error is Problems that point into the file.
func checkPlaces(t testing.TB, name string, text []byte, err error) {
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		t.Fatalf("the error is no Problems: %v", err)
	}
	lines := 1 + strings.Count(string(text), "\n") + strings.Count(string(text), "\r")
	for _, p := range ps {
		if p.Pos.File != name || p.Pos.Line > lines || p.Pos.Line > 0 && p.Pos.Col < 1 || p.Pos.Col > utf8.RuneCount(text)+1 {
			t.Errorf("a place outside of the file: %s", p)
		}
		outside := p.End.File != name || p.End.Line > lines || p.End.Col > utf8.RuneCount(text)+1
		if p.End != (source.Pos{}) && (outside || p.End.Compare(p.Pos) < 0) {
			t.Errorf("an end outside of the file or in front of %s: %s", p, p.End)
		}
		if p.Code == "" || p.Code == source.Invalid {
			t.Errorf("a problem without a code: %s", p)
		}
		if p.Text == "" || strings.Contains(p.Text, "broke down") {
			t.Errorf("a problem without a sense: %s", p)
		}
	}
}

// checkPart makes sure that a part holds nothing that its table forbids.
func checkPart(t testing.TB, p Part) {
	if p.ID() == "" || p.Name() == "" || p.Pos().Line == 0 {
		t.Errorf("a part without a head: %q at %s", p.ID(), p.Pos())
	}
	for i, f := range p.Record().Object().Table().Fields() {
		v := p.Record().Value(i)
		if !v.Known {
			if instead, _ := p.Record().Object().Table().Index(f.Instead); f.Required && p.Basis() != usual && !p.Record().Value(instead).Known {
				t.Errorf("%s.%s is not there", p.Kind(), f.Name)
			}
			continue
		}
		if s := v.Spread(); s != nil && !(f.Min <= s.Least && s.Least <= v.Num && v.Num <= s.Most && s.Most <= f.Max && s.Source != "" && v.Usual == fact.ByClass) {
			t.Errorf("%s.%s is %v and goes from %v to %v", p.Kind(), f.Name, v.Num, s.Least, s.Most)
		}
		numbers := v.List
		if f.Type == fact.Fraction || f.Type == fact.Whole {
			numbers = []float64{v.Num}
		}
		if n := max(len(v.List), len(v.Words())); f.Cap > 0 && (n == 0 || n > f.Cap) {
			t.Errorf("%s.%s has %d entries", p.Kind(), f.Name, n)
		}
		for _, name := range append([]string{v.Text}, v.Words()...) {
			if known, _ := f.KnownName(name); known != "" && known != name || f.Slip(name) != "" {
				t.Errorf("%s.%s holds %q", p.Kind(), f.Name, name)
			}
		}
		for _, x := range numbers {
			if !(x >= f.Min && x <= f.Max) || (f.Type == fact.Whole || f.Type == fact.Wholes) && x != math.Trunc(x) {
				t.Errorf("%s.%s holds %v", p.Kind(), f.Name, x)
			}
		}
	}
}
