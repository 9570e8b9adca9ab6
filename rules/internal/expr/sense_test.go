package expr

import "testing"

// TestSenses holds as which way a number goes a condition may begin and end to hold.
func TestSenses(t *testing.T) {
	for turned, want := range map[Sense]Sense{Rising: Falling, Falling: Rising, Both: Both, 0: 0} {
		if got := turned.Turned(); got != want {
			t.Errorf("%d turned is %d, want %d", turned, got, want)
		}
	}
	lang := boatLanguage(t)
	scope := lang.NewScope()
	scope.Let("apart", 0, must(t, scope, "abs(sail.area_m2 - 12.0)", Value))
	scope.Let("far", 1, must(t, scope, "abs(sail.area_m2 - 12.0) > 1.0", Value))
	area := Read{0, 0}
	for text, want := range map[string][2]Sense{
		"sail.area_m2 > 3.0":                        {Rising, Falling},
		"3.0 >= sail.area_m2 * 2.0":                 {Falling, Rising},
		"sail.area_m2 > 3.0 && sail.area_m2 < 4.0":  {Both, Falling},
		"sail.area_m2 < 3.0 || sail.area_m2 > 4.0":  {Falling, Both},
		"abs(sail.area_m2 - 9.0) > 2.0":             {Rising, Both},
		"abs(sail.area_m2 - 9.0) < 2.0":             {Both, Rising},
		"apart < 0.5":                               {Both, Rising},
		"apart > 0.5":                               {Rising, Both},
		"!far":                                      {Both, Rising},
		"far":                                       {Rising, Both},
		"near(sail.area_m2, 9.0, 0.5)":              {Both, Rising},
		"sail.reefs > 1":                            {0, 0},
		"sail.area_m2 < 3.0 ? sail.wet : !sail.wet": {Both, Both},
	} {
		p := must(t, scope, text, Condition)
		if got := [2]Sense{p.Begins(area), p.Ends(area)}; got != want {
			t.Errorf("%s: begins and ends by %v, want %v", text, got, want)
		}
	}
}
