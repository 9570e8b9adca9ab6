package expr

import (
	"strings"
	"testing"

	"example.org/cogcourt/rules/source"
)

// TestIssueEnds marks what an issue covers by two signs ¦, and gives its code.
func TestIssueEnds(t *testing.T) {
	l := boatLanguage(t)
	for _, c := range []struct {
		text string
		code source.Code
	}{
		{"¦saill¦.area_m2 > 1", source.UnknownID},
		{"sail.¦aera_m2¦ > 1", source.UnknownID},
		{"sail.maker == ¦blue-sail¦", source.UnknownID},
		{"'é漢' == '' || ¦foo¦(1)", source.Expression},
		{"sail.reefs ¦and¦ sail.wet", source.Expression},
		{"sail.reefs ¦=>¦ 1", source.Expression},
		{"sail.reefs ¦===¦ 1", source.Expression},
		{"sail.reefs ¦=¦ 1", source.Expression},
		{"sail.area_m2 ¦==¦ -1.0", source.Expression},
		{"sail.reefs > ¦9007199254740992¦", source.Expression},
		{"sail.area_m2 > 12.5¦.1¦", source.Expression},
		{"sail.reefs >¦¦", source.Expression},
		{"sail.cloth == ¦'canv\\'s'¦", source.NoSuchChoice},
		{"sail.cloth == ¦'¦canvas", source.Expression},
		{"sail.cloth == 'a¦\\q¦'", source.Expression},
		{"sail.maker == ¦'Ann'¦ && sail.wet", source.BadName},
		{"sail.wet ¦// and reefed¦\n && sail.reefs > 1", source.Expression},
		{"sail.wet && sail.reefs > 1 ¦// and reefed¦", source.Expression},
		{"  ¦(sail.reefs + 1)¦ \n", source.Expression},
		{"sail.wet || ¦max(sail.reefs, (1))¦", source.Expression},
		{"(sail.wet || ¦max(sail.reefs, 1)¦) && sail.wet", source.Expression},
		{"(sail.wet || (¦sail.reefs) + abs(1)¦)", source.Expression},
		{"¦sail.reefs¦.exists(x, true)", source.Expression},
		{" ¦" + strings.Repeat("1 + ", 600) + "1 > 1¦ ", source.TooLarge},
		{"  ¦¦", source.Empty},
	} {
		before, rest, _ := strings.Cut(c.text, "¦")
		within, after, _ := strings.Cut(rest, "¦")
		s := l.NewScope()
		_, issues := s.Compile(before+within+after, Condition)
		if len(issues) != 1 {
			t.Errorf("%s: want one issue, got %v", c.text, issues)
			continue
		}
		runes := []rune(before + within + after)
		is := issues[0]
		if is.At > is.End || is.End > len(runes) {
			t.Fatalf("%s: from %d to %d", c.text, is.At, is.End)
		}
		got := string(runes[:is.At]) + "¦" + string(runes[is.At:is.End]) + "¦" + string(runes[is.End:])
		if got != c.text || is.Code != c.code {
			t.Errorf("want %s, %s\n got %s, %s: %s", c.text, c.code, got, is.Code, is.Text)
		}
	}
}
