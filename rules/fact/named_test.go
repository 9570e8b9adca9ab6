package fact

import (
	"strings"
	"testing"
)

// loom is a table with other names, two of which share one.
var loom = []Named{
	{Name: "reed_t", Also: []string{"comb", "comb wheel", "sley"}},
	{Name: "reed_gap_mm", Also: []string{"comb wheel gap", "dent"}},
	{Name: "supply", Also: []string{"battery", "power pack"}},
	{Name: "supply_max_v", Also: []string{"battery voltage", "limit"}},
	{Name: "pitch_mm"}, {Name: "pitches_mm", Also: []string{"uneven pitch"}},
	{Name: "frame_width_mm", Also: []string{"dent"}},
}

// TestFind holds how a word is looked for: by own names, other names and parts of
// both, whatever joins words, however many are meant and whichever unit is added.
func TestFind(t *testing.T) {
	for word, want := range map[string]string{
		"reed_t": "reed_t own", "Reed T": "reed_t own", "reed teeth": "reed_t own", "reeds": "reed_t own",
		"comb": "reed_t other", "comb_t": "reed_t other", "Comb-Wheel": "reed_t other", "combwheels": "reed_t other", "comb_wheel_mm": "reed_t other",
		"comb wheel gaps": "reed_gap_mm other", "dent_mm": "reed_gap_mm other",
		"battery": "supply other", "battery_v": "supply_max_v other", "battery_volts": "supply_max_v other", "power_pack": "supply other",
		"pitch": "pitch_mm own", "pitches": "pitch_mm own", "pitch_in": "pitch_mm own",
		"width": "frame_width_mm part", "gap": "reed_gap_mm part", "batt": "supply part of other", "battery_type": "supply part of other",
		"frame_wdith_mm": "frame_width_mm near", "batery": "supply near other", "combs_whel": "reed_t near other",
		"comb_colour_of_thread": "", "colour": "", "": "", "_": "", "mm": "", strings.Repeat("comb", 17): "",
	} {
		got := ""
		if found := Find(word, loom); len(found) > 0 {
			fits := map[Fit]string{IsOwn: "own", IsOther: "other", PartOwn: "part", NearOwn: "near", PartOther: "part of other", NearOther: "near other"}
			got = loom[found[0].Index].Name + " " + fits[found[0].Fit]
		}
		if got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

// TestFindsBestFirst holds the order, and by which name a thing was found.
func TestFindsBestFirst(t *testing.T) {
	found := Find("comb wheel", loom)
	if len(found) != 2 || found[0].Fit != IsOther || found[0].By != "comb wheel" || found[1].Fit != PartOther || found[1].By != "comb wheel gap" {
		t.Errorf("%+v", found)
	}
	if found = Find("dent_mm", loom); len(found) != 2 || found[0].Index != 1 || found[1].Index != 6 {
		t.Errorf("%+v", found)
	}
}

// TestSuggestNamed holds the hints: for another name the right one, and where no
// such name plays a part what Suggest says.
func TestSuggestNamed(t *testing.T) {
	for word, want := range map[string]string{
		"comb": `here it is called "reed_t"`, "comb_wheel_t": `here it is called "reed_t"`,
		"dent": `here it is called "reed_gap_mm" or "frame_width_mm"`, "battery_v": `here it is called "supply_max_v"`,
		"reed": `did you mean "reed_t"?`, "pitch": `did you mean "pitch_mm"?`, "pitch-mm": `did you mean "pitch_mm"?`,
		"width": `did you mean "frame_width_mm"?`, "supply_mx_v": `did you mean "supply_max_v"?`,
		"battery_type": `did you mean "supply", also called battery?`, "comb_whel": `did you mean "reed_t", also called comb wheel?`,
		"wheel": `did you mean "reed_t" or "reed_gap_mm"?`,
	} {
		if got := SuggestNamed(word, loom); got != want {
			t.Errorf("%q: %s, want %s", word, got, want)
		}
	}
	if got := SuggestNamed("colour", loom[:2]); got != "known are reed_t, reed_gap_mm" {
		t.Error(got)
	}
}

// TestSuggestNamedIsSuggest holds that hints for things without other names stay as
// they are, for all that is within a letter or so of a name.
func TestSuggestNamedIsSuggest(t *testing.T) {
	known := strings.Fields(names)
	plain := make([]Named, len(known))
	for i, name := range known {
		plain[i].Name = name
	}
	for _, name := range known {
		for i := range name {
			wrong := name[:i] + name[i+1:]
			if got, want := SuggestNamed(wrong, plain), Suggest(wrong, known); got != want {
				t.Errorf("%q: %s, want %s", wrong, got, want)
			}
		}
	}
}

// TestOthers holds that a look-up finds what a search finds.
func TestOthers(t *testing.T) {
	others := NewOthers(loom)
	for word, want := range map[string]string{
		"combs": `here it is called "reed_t"`, "battery_v": `here it is called "supply_max_v"`, "Dent": `here it is called "reed_gap_mm" or "frame_width_mm"`,
		"reed_t": "", "battery_type": "", "": "", "_": "", "colour": "",
	} {
		if got := others.Suggest(word); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

func TestSingular(t *testing.T) {
	for word, want := range map[string]string{
		"cogs": "cog", "teeth": "tooth", "pitches": "pitch", "batteries": "battery", "boxes": "box", "cages": "cage", "glass": "glass",
		"glasses": "glass", "radius": "radius", "axis": "axis", "axles": "axle", "gas": "gas", "s": "s", "": "",
	} {
		if got := singular(word); got != want {
			t.Errorf("%s: %s, want %s", word, got, want)
		}
	}
}

func TestEffort(t *testing.T) {
	if Low.String() != "low" || Some.String() != "some" || Much.String() != "much" || NotSaid.String() != "" || Effort(9).String() != "" {
		t.Error("an effort has the wrong word")
	}
	var f Field
	if f.Effort != NotSaid {
		t.Error("an effort is said by being forgotten")
	}
}

func TestAlsoCalled(t *testing.T) {
	if got := AlsoCalled("The reed.", []string{"comb", "sley"}); got != "The reed. Also called comb, sley." {
		t.Error(got)
	}
	if got := AlsoCalled("The reed.", nil); got != "The reed." {
		t.Error(got)
	}
}
