package schemas

import (
	"regexp"
	"testing"
)

// inexpressible lists the faults that a schema cannot tell, by what the loader
// says of them, with the reason.
var inexpressible = []struct {
	pattern *regexp.Regexp
	why     string
}{
	{reason(`^no (rule|source|step|fact|part) is called`), "a name that stands elsewhere"},
	{reason(`^two (bicycles|examples) are called`), "two entries that must differ"},
	{reason(`^the (rule|source|step|id) .*(stands twice|is taken already)|is adjusted twice|"?[a-z_.]+"? stands twice`), "two entries that must differ"},
	{reason(`^two examples are called`), "two entries that must differ"},
	{reason(`is near a known name, and none$`), "a slip of a known name"},
	{reason(`is about [0-9.]+ mm|^a fixed cog stands alone|^the class .* has \d+ cogs|clicks do not reach|which has no fluid$|` +
		`the ring is no direct one|has no such axle|takes no rotor|has no torque of one|cannot be moved$|has two holes$|there is no replaceable hanger|` +
		`^cogs_t has \d+ cogs, and cog_count`),
		"two fields that cannot both be so"},
	{reason(`^these steps wait for each other`), "an order over the whole list"},
	{reason(`about safety and cannot be adjusted`), "an entry that depends on another file"},
	{reason(`^the currency is|^pack .* has edition`), "two files that must agree"},
	{reason(`^"[0-9.eE+-]+" is no (name|id)`), "the way in which a number is written"},
	{reason(`does not rise from`), "an order within a list"},
	{reason(`has \d+ entr(y|ies), must have|must have one entry|(positions|entries) for \d+ cogs`), "two lengths that must agree"},
	{reason(`is above [a-z_]+$|is not below|is (above|below) the usual value`), "two numbers that must be in order"},
	{reason(`is (below the least|above the most), `), "a range, where the number is a text with its tolerance"},
	{reason(`tolerance (wider than|that reaches)`), "a tolerance against a range"},
	{reason(`rests on memory alone`), "an entry that depends on the basis"},
	{reason(`is of the kind| both give `), "an entry of the catalogue"},
	{reason(`^(only a usual value goes over|a usual value has) a spread`), "an entry that depends on the basis"},
	{reason(`cannot be a name here`), "a word that already means something"},
	{reason(`a # begins a comment`), "a remark, which JSON does not have"},
	{reason(`^a price is a number with at most two decimals`), "a count of decimals, which validators take in binary and get wrong"},
	{reason(`^(unknown (name|function)|.* has no field|.* is (no value|never)|expected|.*cannot (take|be read|be asked)|an expression|a (condition|number|text|loop|list)|` +
		`.*(is|are) not part|write |the (loop|rule|rules) |stated\(|a [{}] without|.*stands for the whole part|.*compared for equality|this gives|.*steps, and|` +
		`.*takes \d|.*is given|an unstated fact|.*comment cannot stand|did you mean|with one kind|only lists|something is missing)`), "the language of expressions"},
}

func reason(pattern string) *regexp.Regexp { return regexp.MustCompile(pattern) }

// fault is one fault of the loader: which entry has it, and what is wrong. The
// remarks in bad files do not tell the entry.
type fault struct{ path, text string }

var (
	inExpression = regexp.MustCompile(`^(rules|steps)\[\d+\]\.(needs\[\d+\]\.)?(when|fail_if|warn_if|let(\.\w+)?|say|pass|remedy|caution|what|do|value|unstated|unless|check|because)$`)
	ofShape      = regexp.MustCompile(`^(must be|is an empty text|has no value|unknown entry|an expression is wanted here|.* is missing$|let: holds)`)
)

// why gives the reason for which a schema need not tell a fault; empty for one
// that it must tell.
func why(f fault) string {
	for _, r := range inexpressible {
		if r.pattern.MatchString(f.text) {
			return r.why
		}
	}
	if inExpression.MatchString(f.path) && !ofShape.MatchString(f.text) {
		return "the language of expressions"
	}
	return ""
}

func TestReasons(t *testing.T) {
	for _, text := range []string{`unknown entry "speed"`, "must be a number, is a text", "34.5 is no whole number", "is an empty text",
		`no such choice: "big"`, `there is no kind "casette"`, "the part has no kind", "id is missing", "has 17 entries"} {
		for _, path := range []string{"", "parts[0].pitch_mm", "rules[0]", "rules[0].basis"} {
			if r := why(fault{path, text}); r != "" {
				t.Errorf("a schema can tell %q, which stands for %s", text, r)
			}
		}
	}
}
