package demo_test

import (
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

func TestPartsLoad(t *testing.T) {
	parts := load(t)
	if parts.Len() < 80 {
		t.Errorf("%d parts, want 80 or more", parts.Len())
	}
	if parts.Name() != "demo (invented)" || parts.Currency() == "" {
		t.Errorf("the catalog is %q in %q", parts.Name(), parts.Currency())
	}
	for _, kind := range catalog.Kinds() {
		if len(parts.OfKind(kind.Name())) < 3 {
			t.Errorf("fewer than 3 of the kind %s", kind.Name())
		}
	}
	makers, skus := map[string]int{}, map[string]string{}
	for _, p := range parts.Parts() {
		if p.Maker() != "" {
			makers[p.Maker()]++
		}
		if other, twice := skus[p.SKU()]; twice && p.SKU() != "" {
			t.Errorf("%s and %s have one number", other, p.ID())
		}
		skus[p.SKU()] = p.ID()
		_, priced := p.Cents()
		if donated := strings.HasPrefix(p.ID(), "donated-"); donated == priced {
			t.Errorf("%s: donated %v, priced %v", p.ID(), donated, priced)
		} else if !donated && (p.Maker() == "" || p.SKU() == "") {
			t.Errorf("%s is sold without a maker or a number", p.ID())
		}
	}
	if len(makers) != 5 {
		t.Errorf("the makers are %v, want five", makers)
	}
	for name, n := range makers {
		if n < 10 {
			t.Errorf("%s makes %d parts", name, n)
		}
	}
}

// TestFilesSayInvented wants every file to own up, in what people read and in
// what programs do.
func TestFilesSayInvented(t *testing.T) {
	files := 0
	check := func(name string, text []byte) {
		files++
		var ps source.Problems
		root, err := source.Parse(name, text)
		if err != nil {
			t.Fatal(err)
		}
		note, _ := root.Get("note").ReadText("note", &ps)
		if !strings.HasPrefix(note, "Invented") || len(ps) > 0 {
			t.Errorf("%s: the note does not say that it is invented: %q", name, note)
		}
		head, _, _ := strings.Cut(string(text), "\n\n")
		if !strings.HasPrefix(head, "#") || !strings.Contains(strings.ToLower(head), "invented") {
			t.Errorf("%s: the head does not say that it is invented", name)
		}
	}
	err := fs.WalkDir(demo.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Files(), name)
		check(name, text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		check(name, text)
	}
	if files < 12 {
		t.Errorf("only %d files were looked at", files)
	}
}

// TestEveryFieldIsStated wants each field of each kind to be shown at least once.
func TestEveryFieldIsStated(t *testing.T) {
	parts := load(t)
	classes, err := catalog.LoadUsual(usual.Files()) // what only a class says, no part need say
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range catalog.Kinds() {
		for i, f := range kind.Table().Fields() {
			stated := func(p catalog.Part) bool {
				v := p.Record().At(i)
				return v.Known && (f.Default == nil || v.Num != f.Default.Num || v.Text != f.Default.Text)
			}
			if !slices.ContainsFunc(parts.OfKind(kind.Name()), stated) && !slices.ContainsFunc(classes.OfKind(kind.Name()), stated) {
				t.Errorf("no part states %s.%s", kind.Name(), f.Name)
			}
		}
	}
}

// number reads a field of a part; false where it is not stated.
func number(p catalog.Part, field string) (float64, bool) {
	kind, _ := catalog.Kind(p.Kind())
	v := kind.Ref(field).In(p.Record())
	return v.Num, v.Known
}

func word(p catalog.Part, field string) string {
	kind, _ := catalog.Kind(p.Kind())
	return kind.Ref(field).In(p.Record()).Text
}

func words(p catalog.Part, field string) []string {
	kind, _ := catalog.Kind(p.Kind())
	return kind.Ref(field).In(p.Record()).Words()
}

func mixOf(t *testing.T, parts *catalog.Catalog, ids ...string) compat.Mix {
	t.Helper()
	var chosen []catalog.Part
	for _, id := range ids {
		p, ok := parts.Part(id)
		if !ok {
			t.Fatalf("there is no part %q", id)
		}
		chosen = append(chosen, p)
	}
	m, err := compat.NewMix(strings.Join(ids, " with "), compat.ScopeCart, chosen...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func figure(m compat.Mix, name string) (float64, bool) {
	v, _ := compat.Measure(m).Value(name)
	return v.Num, v.Known
}

// TestCassettesAgree holds the lengths of a cassette against one another: the
// stack is that of its pitches, the overhang what of it stands inboard of the
// shoulder.
func TestCassettesAgree(t *testing.T) {
	parts := load(t)
	checked := 0
	for _, p := range parts.OfKind("cassette") {
		stack, ok := figure(mixOf(t, parts, p.ID()), "cassette_stack_mm")
		if !ok {
			continue
		}
		if stated, ok := number(p, "stack_height_mm"); ok && math.Abs(stated-stack) > 0.06 {
			t.Errorf("%s: the stack is stated as %v, its pitches make %v", p.ID(), stated, stack)
		}
		mount, mounted := number(p, "mount_height_mm")
		over, stated := number(p, "overhang_mm")
		if !mounted || !stated {
			continue
		}
		checked++
		if math.Abs(over-(stack-mount)) > 0.01 {
			t.Errorf("%s: overhang %v, stack less mount height %v", p.ID(), over, stack-mount)
		}
	}
	if checked < 15 {
		t.Errorf("only %d cassettes were checked", checked)
	}
}

// TestHubsAgree puts each cassette on the bodies of its spline family that leave
// its lockring the usual margin. There its smallest cog stands where the hub says
// that it does, and its largest clears the spokes.
func TestHubsAgree(t *testing.T) {
	parts := load(t)
	checked := 0
	for _, h := range parts.OfKind("hub") {
		for _, k := range parts.OfKind("cassette") {
			margin, ok := figure(mixOf(t, parts, h.ID(), k.ID()), "lockring_margin_mm")
			if !ok || !slices.Contains(words(k, "freehub"), word(h, "freehub")) || margin < 0.1 || margin > 0.7 {
				continue
			}
			checked++
			onHub(t, parts, h, k)
		}
	}
	if checked < 30 {
		t.Errorf("only %d pairs were checked", checked)
	}
}

func onHub(t *testing.T, parts *catalog.Catalog, h, k catalog.Part) {
	t.Helper()
	inset, _ := number(h, "smallest_cog_inset_mm")
	width, _ := number(h, "over_locknut_mm")
	v, _ := compat.Measure(mixOf(t, parts, h.ID(), k.ID())).Value("cog_lines_mm")
	if !v.Known {
		t.Errorf("%s on %s: no cog lines", k.ID(), h.ID())
		return
	}
	// Half of the difference in thickness and of what the mount heights leave.
	if there := width/2 - v.List[0]; math.Abs(there-inset) > 0.25 {
		t.Errorf("%s on %s: the smallest cog stands %.2f inside, the hub says %v", k.ID(), h.ID(), there, inset)
	}
	if width < 135 && len(v.List) > 11 {
		return // nobody builds wheels so narrow for cassettes so wide
	}
	room, roomy := number(h, "spoke_clearance_mm")
	over, stated := number(k, "overhang_mm")
	if behind, _ := number(k, "spacer_mm"); roomy && stated && room+behind-over < 1.5 {
		t.Errorf("%s on %s: %.2f mm to the spokes", k.ID(), h.ID(), room+behind-over)
	}
}

// TestSetsIndex wants the sets that are sold together, and some that are not, to
// index: seven to twelve cogs by cable, twelve and thirteen by motor.
func TestSetsIndex(t *testing.T) {
	parts, c := load(t), checker(t)
	for _, set := range [][]string{
		{"reedbed-7-11-28", "landing-sh-7", "landing-rd-8"},
		{"reedbed-freewheel-7-14-28", "landing-sh-7", "landing-rd-8"},
		{"reedbed-8-11-30", "landing-sh-8", "landing-rd-8"},
		{"reedbed-8-11-30", "donated-sh-8", "donated-rd-nine"},
		{"donated-8-uneven", "landing-sh-8", "landing-rd-8"},
		{"reedbed-9-12-36", "landing-sh-9", "landing-rd-9-long"},
		{"hauler-9-11-40", "hauler-sh-9", "donated-rd-reversed"},
		{"reedbed-10-11-28", "landing-sh-10-drop", "landing-rd-10-short"},
		{"duckboard-10-11-36", "duckboard-sh-10", "duckboard-rd-10"},
		{"reedbed-10-11-28", "duckboard-sh-10-converted", "donated-rd-nine"},
		{"reedbed-11-11-32", "landing-sh-11-drop", "landing-rd-11"},
		{"duckboard-11-11-46", "duckboard-sh-11", "duckboard-rd-11"},
		{"oxbow-11-11-29", "oxbow-sh-11", "oxbow-rd-11"},
		{"reedbed-12-11-45", "landing-sh-12", "landing-rd-12"},
		{"lantern-12-10-52", "lantern-pod", "lantern-rd-52"},
		{"lantern-12-10-51", "lantern-pod", "lantern-rd-full"},
		{"lantern-12-10-50", "lantern-pod-single", "donated-rd-lantern-measured"},
		{"foghorn-12-10-51", "foghorn-pod", "foghorn-rd-51"},
		{"bellbuoy-12-10-33", "bellbuoy-lever", "bellbuoy-rd-36"},
		{"foghorn-13-10-48", "foghorn-pod", "foghorn-rd-13"},
	} {
		seen := map[string]rules.Verdict{}
		for _, f := range c.Check(mixOf(t, parts, set...)).Findings() {
			seen[f.Rule] = f.Verdict
		}
		for _, rule := range []string{"index/residual", "index/steps", "drive/actuation"} {
			if v, ok := seen[rule]; !ok || v != rules.Pass {
				t.Errorf("%v: %s is %v (found %v)", set, rule, v, ok)
			}
		}
	}
}

// TestFamilies wants two sets whose maker's word stands, because the numbers by
// themselves would speak against them.
func TestFamilies(t *testing.T) {
	parts := load(t)
	for _, set := range [][]string{
		{"duckboard-10-11-36", "duckboard-sh-10", "duckboard-rd-10"},
		{"duckboard-11-11-46", "duckboard-sh-11", "duckboard-rd-11"},
	} {
		m := mixOf(t, parts, set...)
		own, _ := figure(m, "index_own_set")
		share, ok := figure(m, "index_residual_share")
		if own != 1 || !ok || share <= 0.125 {
			t.Errorf("%v: own set %v, share %v", set, own, share)
		}
	}
}

// TestChainsFitTheirCogs wants a chain to clear the neighbours and go over the
// teeth of every cassette with as many cogs as it is sold for.
func TestChainsFitTheirCogs(t *testing.T) {
	parts := load(t)
	checked := 0
	for _, chain := range parts.OfKind("chain") {
		speeds, _ := number(chain, "speeds")
		for _, k := range parts.OfKind("cassette") {
			kind, _ := catalog.Kind("cassette")
			if cogs := kind.Ref("cogs_t").In(k.Record()); len(cogs.List) != int(speeds) {
				continue
			}
			checked++
			m := mixOf(t, parts, chain.ID(), k.ID())
			if gap, ok := figure(m, "neighbour_gap_mm"); ok && gap < 0.05 {
				t.Errorf("%s on %s: gap %v", chain.ID(), k.ID(), gap)
			}
			inner, _ := figure(m, "chain_inner_mm")
			thick, _ := figure(m, "cog_thickness_mm")
			if play := inner - thick; play < 0.05 || play > 0.9 && speeds > 1 { // one cog may sit loosely
				t.Errorf("%s on %s: side play %v", chain.ID(), k.ID(), play)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d pairs were checked", checked)
	}
}

// TestGuidePulleys holds the wanted distance to the bolt of motor derailleurs for
// wide ranges against common practice: 40 to 41 mm with a cog of 51.
func TestGuidePulleys(t *testing.T) {
	parts := load(t)
	for _, id := range []string{"lantern-rd-52", "lantern-rd-full", "foghorn-rd-51", "donated-rd-lantern"} {
		if d, ok := figure(mixOf(t, parts, id), "guide_bolt_to_cog_mm"); !ok || d < 40 || d > 41 {
			t.Errorf("%s: the bolt stands %v mm from the cog", id, d)
		}
	}
}
