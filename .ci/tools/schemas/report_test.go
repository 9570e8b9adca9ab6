package schemas

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/cogcourt/catalog/demo"
)

// mixes are texts whose reports hold what those of the demo do not: tolerances,
// a decision, an error, nothing at all.
var mixes = map[string]string{
	"a tolerance": `{mix: Close, parts: {cassette: {cogs_t: [11, 13, 15, 17, 19, 21, 23, 25, 27], pitch_mm: 4.34 ± 0.2},
  rear_shifter: {actuation: cable, pull_mm: 2.5 ± 0.1, clicks: 8}, rear_derailleur: {actuation: cable, ratio: 1.7 ± 0.05}}}`,
	"nothing": `{mix: Nothing, parts: {cell: {form: cr2032}}}`,
	"a bike":  `{mix: Half a bike, scope: bike, parts: {chain: {speeds: 12}}, bench: {chain_wear_percent: 0.9}}`,
}

// reports gives the reports of the demo and of the mixes above, each by itself.
func reports(t *testing.T) map[string]any {
	t.Helper()
	out := map[string]any{}
	read := func(name string, text []byte) {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = v
	}
	for _, name := range demo.Mixes() {
		read(name, tool(t, "", "check", "--format", "json", "demo:"+name))
	}
	for name, text := range mixes {
		read(name, tool(t, text, "check", "--format", "json", "-"))
	}
	return out
}

// TestReports holds every report against the schema of reports.
func TestReports(t *testing.T) {
	s := schema(t, "report")
	text := ""
	for name, r := range reports(t) {
		if err := s.Validate(r); err != nil {
			t.Errorf("%s: %s", name, brief(err))
		}
		text += string(jsonText(t, r))
	}
	for _, part := range []string{`"worst":{"`, `"marginal":{"`, `"absent":["`, `"needs":[{"`, `"missing":[{"`, `"reason":"absent"`, `"assumed":true`} {
		if !strings.Contains(text, part) {
			t.Errorf("no report holds %s", part)
		}
	}
	many := tool(t, "", "check", "--format", "json", "demo:ferry-motor", "demo:club-two-ring")
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(many))
	if list, ok := v.([]any); err != nil || !ok || len(list) != 2 {
		t.Fatalf("two mixes give %T, %v", v, err)
	}
	for _, r := range v.([]any) {
		if err := s.Validate(r); err != nil {
			t.Error(brief(err))
		}
	}
}

// TestReportSchemaIsStrict holds that a report that lacks a key, has another one
// or a null where none may be, is refused: every key is always there and no list
// is null.
func TestReportSchemaIsStrict(t *testing.T) {
	s := schema(t, "report")
	free := []string{".figures.", ".worst.", ".basis."} // what these hold depends on the mix
	number := regexp.MustCompile(`\d+`)
	seen := map[string]bool{} // one finding is like another
	for name, r := range reports(t) {
		for _, place := range spots(r, "") {
			isFree := false
			for _, f := range free {
				isFree = isFree || strings.Contains(place.path, f)
			}
			alike := number.ReplaceAllString(place.path, "")
			if place.object == nil || isFree || seen[alike] {
				continue
			}
			seen[alike] = true
			old := place.get()
			delete(place.object, place.key)
			if s.Validate(r) == nil {
				t.Errorf("%s without %s is accepted", name, place.path)
			}
			place.object[place.key] = nil
			if old != nil && s.Validate(r) == nil && !strings.HasSuffix(place.path, ".adjusted") && !strings.HasSuffix(place.path, ".marginal") {
				t.Errorf("%s with null for %s is accepted", name, place.path)
			}
			place.object[place.key] = old
			place.object["unheard_of"] = 1
			if s.Validate(r) == nil {
				t.Errorf("%s with another key beside %s is accepted", name, place.path)
			}
			delete(place.object, "unheard_of")
		}
	}
	if len(seen) < 40 {
		t.Errorf("only %d keys were tried", len(seen))
	}
}
