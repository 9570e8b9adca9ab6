package fact

import (
	"math/rand"
	"strings"
	"testing"
)

// names are sixty words as the tables have them.
const names = `cogs_t pitch_mm pitches_mm cog_thickness_mm stack_height_mm mount_height_mm freehub roller_class
index_family overhang_mm own_lockring_small_cog spacer_mm speeds inner_width_mm outer_width_mm extended_inner_plates
directional pitches strength_n assist_rated reusable actuation ratio ratios steps_mm made_for_pitch_mm
made_for_pitches_mm steps_selectable trim_step_mm trim_range_mm max_cog_t min_largest_cog_t capacity_t
max_front_difference_t guide_pulley_t guide_pulley_tip_radius_mm b_gap_mm b_adjust add_pitches hanger mount_torque_nm
radio cell clutch cage_lock rest_cog indexed pull_mm clicks pulls_mm first_pull_take_up_mm pull_factor
barrel_lead_mm clamp_diameter_mm max_ring_t cage_width_mm chainline_mm rings_t ring_offset_mm narrow_wide`

// TestNearestOneTypo makes one mistake in a name: a letter left out, doubled,
// changed or swapped, or another joint between words.
func TestNearestOneTypo(t *testing.T) {
	known := strings.Fields(names)
	if len(known) != 60 {
		t.Fatalf("%d names", len(known))
	}
	rnd := rand.New(rand.NewSource(4))
	tries := fewer(12_000)
	right := 0
	for range tries {
		name := known[rnd.Intn(len(known))]
		wrong := typo(rnd, name)
		if Nearest(wrong, known) == name {
			right++
		}
	}
	if right < tries*95/100 {
		t.Errorf("right for %d of %d", right, tries)
	}
	t.Logf("right for %.2f %%", 100*float64(right)/float64(tries))
}

func typo(rnd *rand.Rand, name string) string {
	i := rnd.Intn(len(name))
	letter := string(rune('a' + rnd.Intn(26)))
	switch rnd.Intn(6) {
	case 0:
		return name[:i] + name[i+1:]
	case 1:
		return name[:i] + letter + name[i:]
	case 2:
		return name[:i] + letter + name[i+1:]
	case 3:
		if i+1 < len(name) {
			return name[:i] + name[i+1:i+2] + name[i:i+1] + name[i+2:]
		}
		return name + name[i:]
	case 4:
		return strings.ReplaceAll(name, "_", "-")
	}
	return strings.ToUpper(name[:1]) + strings.ReplaceAll(name[1:], "_", " ")
}

func TestNearest(t *testing.T) {
	known := []string{"cable", "motor", "pitch_mm", "pitches_mm", "b_gap_mm"}
	for name, want := range map[string]string{
		"cabel": "cable", "Cable": "cable", "motro": "motor", "pitch": "pitch_mm", "b-gap mm": "b_gap_mm",
		"colour": "", "": "", "x": "", "wired": "", strings.Repeat("cable", 1000): "",
	} {
		if got := Nearest(name, known); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	kinds := []string{"front_derailleur", "rear_derailleur", "crankset", "chain", "chainring", "chain_guide", "chain_connector", "hub", "frame"}
	for name, want := range map[string]string{
		"derailleur": `did you mean "front_derailleur" or "rear_derailleur"?`, "Crank": `did you mean "crankset"?`, "guide": `did you mean "chain_guide"?`,
		"rear": `did you mean "rear_derailleur"?`, "leur": "", "co": "", "wheel": "",
		"con": `did you mean "chain_connector"?`,
	} {
		if got := Suggest(name, kinds); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	ids := []string{"index/steps", "index/residual", "b-gap/gauge", "hub/freehub", "cassette.freehub", "a", "b", "c", "d"}
	for name, want := range map[string]string{
		"residual": `did you mean "index/residual"?`, "freehub": `did you mean "hub/freehub" or "cassette.freehub"?`, "gap": `did you mean "b-gap/gauge"?`,
		"index": `did you mean "index/steps" or "index/residual"?`, "ubu": "",
	} {
		if got := Suggest(name, ids); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	if got := Suggest("wired", known[:2]); got != "known are cable, motor" {
		t.Error(got)
	}
	if got := Suggest("wired", known[:1]) + Suggest("wired", nil) + Suggest("wired", strings.Fields(names)); got != "known is cable" {
		t.Error(got)
	}
}

// TestDistance compares the banded count with a plain one.
func TestDistance(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range fewer(20_000) {
		a, b := make([]rune, rnd.Intn(7)), make([]rune, rnd.Intn(7))
		for _, s := range [][]rune{a, b} {
			for i := range s {
				s[i] = rune('a' + rnd.Intn(3))
			}
		}
		most := rnd.Intn(5)
		if got, want := distance(a, b, most), min(plainDistance(a, b), most+1); got != want {
			t.Fatalf("%s %s within %d: %d, want %d", string(a), string(b), most, got, want)
		}
	}
}

func plainDistance(a, b []rune) int {
	if len(a) == 0 || len(b) == 0 {
		return len(a) + len(b)
	}
	x, y := a[:len(a)-1], b[:len(b)-1]
	d := min(plainDistance(x, b)+1, plainDistance(a, y)+1, plainDistance(x, y)+differ(a[len(x)], b[len(y)]))
	if len(x) > 0 && len(y) > 0 && a[len(x)] == b[len(y)-1] && a[len(x)-1] == b[len(y)] {
		d = min(d, plainDistance(x[:len(x)-1], y[:len(y)-1])+1)
	}
	return d
}

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}
