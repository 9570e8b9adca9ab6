package compat_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// leastNames is how many names of the trade the tables are to know.
const leastNames = 250

func objects(t *testing.T) []*rules.Object {
	t.Helper()
	v, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	return v.Objects()
}

// TestOtherNames holds the names that the trade has for fields and kinds: written as
// such, each once for a thing, and none of them the own name of another thing beside
// it, which a reader would take for that. One may lead to several.
func TestOtherNames(t *testing.T) {
	shape := regexp.MustCompile(`^[a-z0-9]+([ -][a-z0-9]+)*$`)
	all := map[string]bool{}
	holds := func(t *testing.T, what string, also []string, beside []fact.Named) {
		for i, name := range also {
			all[name] = true
			if !shape.MatchString(name) {
				t.Errorf("%s: %q is not in lower case", what, name)
			}
			if found := fact.Find(name, beside); len(found) > 0 && found[0].Fit == fact.IsOwn {
				t.Errorf("%s: %q is the own name of %s", what, name, found[0].By)
			}
			if found := fact.Find(name, []fact.Named{{Also: also[:i]}}); len(found) > 0 && found[0].Fit == fact.IsOther {
				t.Errorf("%s: %q and %q are one name", what, name, found[0].By)
			}
		}
	}
	var kinds []fact.Named
	for _, o := range objects(t) {
		kinds = append(kinds, fact.Named{Name: o.Name()})
	}
	for _, o := range objects(t) {
		holds(t, o.Name(), o.Also(), kinds)
		var own []fact.Named
		for _, name := range o.Table().Names() {
			own = append(own, fact.Named{Name: name})
		}
		for _, f := range o.Table().Fields() {
			holds(t, o.Name()+"."+f.Name, f.Also, own)
		}
	}
	if len(all) < leastNames {
		t.Errorf("only %d other names are known", len(all))
	}
	t.Logf("%d other names", len(all))
}

// TestOtherNamesLead holds that each other name leads a reader of files to its field,
// written as an entry, with and without the unit, and in the plural.
func TestOtherNamesLead(t *testing.T) {
	for _, o := range objects(t) {
		for _, f := range o.Table().Fields() {
			for _, s := range entries(f) {
				if hint := fact.SuggestNamed(s, o.Table().Named()); !strings.Contains(hint, strconv.Quote(f.Name)) {
					t.Errorf("%s.%s: %q leads to %q", o.Name(), f.Name, s, hint)
				}
			}
		}
	}
	for _, k := range catalog.Kinds() {
		for _, also := range k.Also() {
			if hint := catalog.SuggestKind(strings.ReplaceAll(also, " ", "_")); !strings.Contains(hint, strconv.Quote(k.Name())) {
				t.Errorf("%s: %q leads to %q", k.Name(), also, hint)
			}
		}
	}
}

// entries are the other names of a field as people write them for entries of a file.
func entries(f fact.Field) []string {
	var out []string
	for _, also := range f.Also {
		entry := strings.ReplaceAll(also, " ", "_")
		out = append(out, entry, strings.ReplaceAll(also, "-", ""), strings.ToUpper(entry), strings.ReplaceAll(also, " ", "-"))
		if i := strings.LastIndexByte(f.Name, '_'); i > 0 && f.Unit != "" && f.Unit != "pitches" {
			out = append(out, entry+f.Name[i:])
		}
	}
	return out
}

// TestEffortIsSaid holds that whoever says how to measure a field says what it takes;
// of figures, which nobody measures, it is not said.
func TestEffortIsSaid(t *testing.T) {
	said := map[fact.Effort]int{}
	for _, o := range objects(t) {
		for _, f := range o.Table().Fields() {
			if (f.How != "") != (f.Effort != fact.NotSaid) {
				t.Errorf("%s.%s: how %q, effort %q", o.Name(), f.Name, f.How, f.Effort)
			}
			said[f.Effort]++
			low := f.Effort == fact.Low
			if low && regexp.MustCompile(`^Measure .*with (a|the depth rod of a) caliper[^,]*\.$`).MatchString(f.How) {
				t.Errorf("%s.%s wants a caliper and is said to be easy", o.Name(), f.Name)
			}
		}
	}
	for _, e := range []fact.Effort{fact.Low, fact.Some, fact.Much} {
		if said[e] < 10 {
			t.Errorf("only %d fields are of the effort %s", said[e], e)
		}
	}
}

// TestOtherNamesInAMix reads a mix as a mechanic writes it: each entry under another
// name is refused with the right one.
func TestOtherNamesInAMix(t *testing.T) {
	text := `mix: A ferry bicycle
parts:
  battery: {form: cr2032} # cell
  quick_link: {speeds: 11} # chain_connector
  jockey_wheel: spare # rear_derailleur.guide_pulley_t
  cassette:
    cogs_t: [11, 13]
    speeds: 2 # cog_count
    sprocket_pitch_mm: 3.9 # pitch_mm
  rear_derailleur:
    jockey_wheel_t: 11 # guide_pulley_t
    jokey_wheel_t: 11 # guide_pulley_t
    battery_v: 3 # cell_max_v
    long-cage: true # capacity_t
    B-tension: screw # b_adjust
    max_cg_t: 30 # max_cog_t
  hub:
    axle spacing: 135 # over_locknut_mm
    free_body: spline-9 # freehub
  frame: {mech_hanger: fixed} # hanger
bench:
  chain_stretch_percent: 0.5 # chain_wear_percent
`
	_, err := compat.ReadMix("ferry.yaml", []byte(text), nil)
	if err == nil {
		t.Fatal("all of it is read")
	}
	faults := strings.Split(err.Error(), "\n")
	wanted := regexp.MustCompile(`# (\S+)$`)
	for i, line := range strings.Split(text, "\n") {
		m := wanted.FindStringSubmatch(line)
		at := "ferry.yaml:" + strconv.Itoa(i+1) + ":"
		found := slices.IndexFunc(faults, func(f string) bool { return strings.HasPrefix(f, at) })
		switch {
		case m == nil && found >= 0:
			t.Errorf("unexpected: %s", faults[found])
		case m != nil && (found < 0 || !strings.Contains(faults[found], strconv.Quote(m[1]))):
			t.Errorf("line %d does not lead to %s: %v", i+1, m[1], faults)
		}
	}
}
