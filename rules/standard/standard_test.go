package standard_test

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
	"example.org/cogcourt/rules/standard"
)

// update adds new rules to the list of shipped ones: .ci/update.
var update = flag.Bool("update", false, "add the rules that are new to testdata/shipped.txt")

// shippedList holds the ids of this edition, one a line. Shops adjust rules by
// id: a rule may be added, but none may be lost.
const shippedList = "testdata/shipped.txt"

// mayStayUnknown are the rules whose not knowing can break a part or hurt the
// rider. All others keep quiet where a fact is missing. Those of axle,
// brake and cell ask only where such a part is bought.
var mayStayUnknown = []string{
	"axle/thread", "brake/lever",
	"cassette/capacity", "cassette/largest-cog", "cell/controller-voltage", "cell/voltage",
	"chain/length", "chain/neighbour-gap", "chain/on-cog", "chain/on-ring", "chain/roller",
	"drive/actuation", "drive/radio", "hanger/mount",
	"hub/axle", "hub/fixed-cog", "hub/freehub", "hub/input-ratio", "hub/lockring-margin", "hub/over-locknut",
	"index/residual", "index/steps",
}

// maxLines is the longest that a rule file may be.
const maxLines = 400

func load(t *testing.T, cfg compat.Config) *rules.Set {
	t.Helper()
	c, err := compat.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	return c.Rules()
}

// file is one shipped file, read.
type file struct {
	name string
	text string
	root *source.Node
}

func files(t *testing.T) []file {
	t.Helper()
	var out []file
	err := fs.WalkDir(standard.Files(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(standard.Files(), path)
		if err != nil {
			return err
		}
		root, err := source.Parse(path, text)
		out = append(out, file{path, string(text), root})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// entries gives the items of a list at the top of all files.
func entries(t *testing.T, key string) []*source.Node {
	t.Helper()
	var out []*source.Node
	for _, f := range files(t) {
		if n := f.root.Get(key); n != nil {
			out = append(out, n.Items...)
		}
	}
	return out
}

func TestNoRuleIsLost(t *testing.T) {
	text, err := os.ReadFile(shippedList)
	if err != nil {
		t.Fatal(err)
	}
	listed := strings.Fields(string(text))
	var have []string
	for _, r := range load(t, compat.Config{}).Rules() {
		have = append(have, r.ID)
	}
	lost, added := changes(listed, have)
	for _, id := range lost {
		t.Errorf("%s is gone: shops adjust it by this id. Where that is meant, take it off %s by hand", id, shippedList)
	}
	if *update && len(added) > 0 {
		listed = append(listed, added...)
		slices.Sort(listed)
		if err := os.WriteFile(shippedList, []byte(strings.Join(listed, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, id := range added {
		t.Errorf("%s is not among the shipped rules: .ci/update adds it to %s", id, shippedList)
	}
	if !slices.IsSorted(listed) || !slices.IsSorted(mayStayUnknown) {
		t.Error("the lists are not in order")
	}
}

// changes compares the rules that are listed with those that are there.
func changes(listed, have []string) (lost, added []string) {
	in := func(list []string) func(string) bool {
		return func(id string) bool { return slices.Contains(list, id) }
	}
	return slices.DeleteFunc(slices.Clone(listed), in(have)), slices.DeleteFunc(slices.Clone(have), in(listed))
}

// An update only adds: a rule that is gone stays an error.
func TestChangesOfTheList(t *testing.T) {
	lost, added := changes([]string{"a/gone", "a/kept"}, []string{"a/kept", "a/new"})
	if !slices.Equal(lost, []string{"a/gone"}) || !slices.Equal(added, []string{"a/new"}) {
		t.Errorf("lost %q, added %q", lost, added)
	}
}

// Every rule shows each verdict that it can give.
func TestEveryVerdictHasAnExample(t *testing.T) {
	set := load(t, compat.Config{})
	wrong, ran := set.Prove()
	for _, w := range wrong {
		t.Errorf("%s: %s: %s wants %s, got %s: %s", w.Example.Pos, w.Rule.ID, w.Example.Name, w.Example.Want, w.Got, w.Detail)
	}
	if ran < 4*len(set.Rules()) {
		t.Errorf("%d examples for %d rules", ran, len(set.Rules()))
	}
	for _, r := range set.Rules() {
		wanted := map[rules.Outcome]bool{
			rules.OutcomePass: true, rules.OutcomeNotApplied: true, rules.OutcomeWarn: r.WarnIf != "", rules.OutcomeFail: r.FailIf != "",
			rules.OutcomeUnknown: slices.Contains(mayStayUnknown, r.ID),
		}
		names := map[string]bool{}
		for _, ex := range r.Examples() {
			if names[ex.Name] {
				t.Errorf("%s: %s has two examples called %q", ex.Pos, r.ID, ex.Name)
			}
			names[ex.Name] = true
			if may, ok := wanted[ex.Want]; ok && !may && ex.Want == rules.OutcomeUnknown {
				t.Errorf("%s: %s is not among the rules that may stay unknown", ex.Pos, r.ID)
			}
			delete(wanted, ex.Want)
		}
		for verdict, must := range wanted {
			if must {
				t.Errorf("%s: %s has no example that gives %s", r.Pos, r.ID, verdict)
			}
		}
	}
}

// Of every example one fact after the other is taken away, and that is wanted to
// leave the rule open. Where it does, the rule must be one that may stay unknown.
func TestOnlyListedRulesStayUnknown(t *testing.T) {
	vocabulary, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	pack := fstest.MapFS{"sources.json": {Data: []byte(`{"pack":"standard","sources":` + asJSON(list(entries(t, "sources"))) + `}`)}}
	for i, r := range entries(t, "rules") {
		text := fmt.Sprintf(`{"pack":"standard","rules":[%s]}`, robbed(r, vocabulary))
		pack[fmt.Sprintf("rule-%02d.json", i)] = &fstest.MapFile{Data: []byte(text)}
	}
	set := load(t, compat.Config{NoStandard: true, Rules: []fs.FS{pack}})
	wrong, ran := set.Prove()
	decided := map[string]bool{}
	for _, w := range wrong {
		decided[w.Rule.ID+" "+w.Example.Name] = true
	}
	open := map[string]bool{}
	for _, r := range set.Rules() {
		for _, ex := range r.Examples() {
			if decided[r.ID+" "+ex.Name] {
				continue
			}
			open[r.ID] = true
			if !slices.Contains(mayStayUnknown, r.ID) {
				t.Errorf("%s: %s stays unknown: ask for it by stated() in when", r.ID, ex.Name)
			}
		}
	}
	for _, id := range mayStayUnknown {
		if !open[id] {
			t.Errorf("%s never stays unknown: take it off the list", id)
		}
	}
	if ran < 500 {
		t.Errorf("only %d examples", ran)
	}
}

// robbed writes a rule as JSON with examples that each lack one fact.
func robbed(rule *source.Node, vocabulary *rules.Vocabulary) string {
	var parts, examples []string
	for i, ex := range rule.Get("examples").Items {
		for _, object := range ex.Get("given").Pairs {
			for _, fact := range object.Value.Pairs {
				name := object.Key.Text + "." + fact.Key.Text
				// A field with a default has a value whether it is stated or not.
				if ref, ok := vocabulary.Find(name); !ok || ref.Field().Default != nil {
					continue
				}
				given := asJSON(without(ex.Get("given"), object.Key.Text, fact.Key.Text))
				label := strconv.Quote(fmt.Sprintf("example %d without %s", i+1, name))
				examples = append(examples, fmt.Sprintf(`{"name":%s,"given":%s,"want":"unknown"}`, label, given))
			}
		}
	}
	for _, p := range rule.Pairs {
		if p.Key.Text != "examples" && p.Key.Text != "waive" {
			parts = append(parts, strconv.Quote(p.Key.Text)+":"+asJSON(p.Value))
		}
	}
	return "{" + strings.Join(append(parts, `"examples":[`+strings.Join(examples, ",")+"]"), ",") + "}"
}

// without copies given facts but one.
func without(given *source.Node, object, fact string) *source.Node {
	out := *given
	out.Pairs = slices.Clone(given.Pairs)
	for i, p := range out.Pairs {
		if p.Key.Text != object {
			continue
		}
		part := *p.Value
		part.Pairs = slices.DeleteFunc(slices.Clone(part.Pairs), func(q source.Pair) bool { return q.Key.Text == fact })
		out.Pairs[i].Value = &part
	}
	return &out
}

func list(items []*source.Node) *source.Node { return &source.Node{Kind: source.List, Items: items} }

// asJSON writes a node as JSON.
func asJSON(n *source.Node) string {
	var parts []string
	switch n.Kind {
	case source.Map:
		for _, p := range n.Pairs {
			parts = append(parts, strconv.Quote(p.Key.Text)+":"+asJSON(p.Value))
		}
		return "{" + strings.Join(parts, ",") + "}"
	case source.List:
		for _, item := range n.Items {
			parts = append(parts, asJSON(item))
		}
		return "[" + strings.Join(parts, ",") + "]"
	case source.Text:
		return strconv.Quote(n.Text)
	}
	return n.Text // numbers and flags are written alike
}

// Every source is used, by a rule or a usual class, and says no address; that every
// basis leads to a source is checked on loading.
func TestSources(t *testing.T) {
	set := load(t, compat.Config{})
	used := map[string]bool{}
	for _, r := range set.Rules() {
		for _, b := range r.Basis {
			if b.Kind == rules.BasisSource {
				used[b.Text] = true
			}
		}
	}
	for _, p := range compat.Usual().Parts() {
		for _, f := range p.Record().Object().Table().Fields() {
			used[p.Source(f.Name)] = true
		}
	}
	address := regexp.MustCompile(`https?:|www\.|[a-z]\.(com|org|net|de|uk|au)\b`)
	for _, s := range set.Citations() {
		if !used[s.ID] {
			t.Errorf("%s: neither a rule nor a class rests on %s", s.Pos, s.ID)
		}
		if address.MatchString(s.What) {
			t.Errorf("%s: %s names an address: %s", s.Pos, s.ID, s.What)
		}
	}
}

// A promise, a side without a viewpoint or a link of unsaid length makes a
// mechanic distrust every other word.
var banned = []*regexp.Regexp{
	regexp.MustCompile(`(?i)compatib`),
	regexp.MustCompile(`(?i)\bworks\b( [^b]|[^ ]|$)|\bworks b[^y]`), // "works by cable" says how it is driven
	regexp.MustCompile(`(?i)clockwise`),
	regexp.MustCompile(`(?i)\b(left|right)[ -](hand|side)|\b(to|on|towards|from) the (left|right)\b`),
	regexp.MustCompile(`(^|[^h]) links\b`), // half-inch links
}

// plainWords are the texts that speak of kinds of links, not of how many, and of
// threads, which are so whoever looks.
var plainWords = strings.NewReplacer("outer links", "", "inner links", "", "left-hand thread", "")

func TestWording(t *testing.T) {
	for _, r := range entries(t, "rules") {
		for key, text := range texts(r) {
			at := fmt.Sprintf("%s: %s: %s", r.Pos, r.Get("id").Text, key)
			for _, b := range banned {
				if found := b.FindString(plainWords.Replace(text)); found != "" {
					t.Errorf("%s has %q: %s", at, found, text)
				}
			}
			if strings.Contains(text, " percent") && !strings.Contains(text, " mm") {
				t.Errorf("%s gives percent without millimetres: %s", at, text)
			}
			name := key == "title" || strings.HasPrefix(key, "needs")
			if stop := strings.HasSuffix(text, "."); stop == name && !strings.HasSuffix(text, "}") {
				t.Errorf("%s: a sentence ends with a full stop, a title or a thing does not: %s", at, text)
			}
		}
		if r.Get("pass") == nil {
			t.Errorf("%s: %s has no pass text", r.Pos, r.Get("id").Text)
		}
	}
}

// texts gives what a rule may say, by its key.
func texts(rule *source.Node) map[string]string {
	out := map[string]string{}
	for _, key := range []string{"title", "why", "say", "pass", "remedy", "caution"} {
		if n := rule.Get(key); n != nil {
			out[key] = strings.TrimSpace(n.Text)
		}
	}
	if needs := rule.Get("needs"); needs != nil {
		for i, n := range needs.Items {
			out[fmt.Sprintf("needs[%d]", i)] = strings.TrimSpace(n.Get("what").Text)
		}
	}
	return out
}

// No published limit for the slant of a chain exists.
func TestNoChainAngleFails(t *testing.T) {
	for _, r := range load(t, compat.Config{}).Rules() {
		if strings.HasPrefix(r.ID, "line/") && r.FailIf != "" {
			t.Errorf("%s: %s can fail", r.Pos, r.ID)
		}
	}
}

func TestFilesAreShort(t *testing.T) {
	for _, f := range files(t) {
		if n := strings.Count(f.text, "\n"); n > maxLines {
			t.Errorf("%s has %d lines, %d at most", f.name, n, maxLines)
		}
		for _, key := range []string{"pack", "edition"} {
			if f.root.Get(key) == nil {
				t.Errorf("%s does not say its %s", f.name, key)
			}
		}
	}
}

// Every shipped rule proves alone, and every group, as the whole does: what a
// rule gives does not hang on the rules beside it.
func TestRulesProveAlone(t *testing.T) {
	set := load(t, compat.Config{})
	wanted := map[string]func(id string) bool{}
	for _, r := range set.Rules() {
		group, _, _ := strings.Cut(r.ID, "/")
		wanted[r.ID] = func(id string) bool { return id == r.ID }
		wanted[group] = func(id string) bool { return strings.HasPrefix(id, group+"/") }
	}
	for name, one := range wanted {
		wrong, ran := set.Only(one).Prove()
		if ran == 0 {
			t.Errorf("%s alone has no example", name)
		}
		for _, w := range wrong {
			t.Errorf("%s alone: %s wants %s, got %s: %s", name, w.Example.Name, w.Example.Want, w.Got, w.Detail)
		}
	}
}
