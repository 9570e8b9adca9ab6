package second

import (
	"strings"

	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules"
)

// chooses gives the expression of a remedy that says nothing but a word which it chooses,
// and a full stop.
func chooses(remedy string) (string, bool) {
	text, ok := strings.CutPrefix(remedy, "{")
	if !ok {
		return "", false
	}
	text, ok = strings.CutSuffix(text, "}.")
	return text, ok && strings.HasSuffix(text, "'") && !strings.ContainsAny(text, "{}")
}

// says is what such a remedy prints.
func (f *facts) says(r *rule) string {
	f.settle(r)
	switch v := f.evaluate(r.remedy).(type) {
	case types.String:
		return string(v) + "."
	case *types.Unknown:
		return "(not stated)."
	}
	return "(not computed)."
}

// texts holds the remedy of a finding that fails or warns, of which there is one kind.
func (c *comparing) texts() {
	if c.rule.remedy == nil || c.their.Reason != "" || c.their.Ruled != rules.Warn && c.their.Ruled != rules.Fail {
		return
	}
	if mine := c.spread.mix.nominal.says(c.rule); mine != c.their.remedy {
		c.differ("it says %q, and should say %q", c.their.remedy, mine)
	}
}
