package figures_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

// On a belt nothing that is read from a chain or called after one means anything, whatever
// is stated of it: no figure that hangs on a fact of the chain, itself or by another
// figure, has a value. Whether there is a guide, and whether the maker of the derailleur
// has a table, are no questions of the chain.
func TestNoFigureOfAChainOnABelt(t *testing.T) {
	aside := []string{"chain_guided", "chain_table_unsaid"}
	aboutChain := map[string]bool{}
	for _, f := range figures.Declared() { // each stands behind what it reads
		for _, read := range f.Reads {
			if strings.HasPrefix(read, "chain.") || strings.HasPrefix(f.Name, "chain_") && !slices.Contains(aside, f.Name) || aboutChain[strings.TrimPrefix(read, "figures.")] {
				aboutChain[f.Name] = true
			}
		}
	}
	beside := strings.Fields(besideTheChain)
	r, drive := random.Seeded(61), figures.FactNamed("frame.drive")
	with, without := map[string]bool{}, map[string]bool{}
	for range fewer(600) {
		f := random.New(r).Facts()
		rec := f.Part(figures.PlaceOf(drive))
		if rec == nil {
			continue
		}
		belt := rec.Clone()
		belt.Put(drive.Index, fact.Value{Known: true, Text: "belt"})
		onChain, onBelt := f.Measure(), f.With(belt).Measure()
		for _, name := range figures.Object.Table().Names() {
			if v, _ := onChain.Value(name); v.Known && aboutChain[name] {
				with[name] = true
			}
			if v, _ := onBelt.Value(name); v.Known && (aboutChain[name] || !slices.Contains(beside, name)) {
				without[name] = true
			}
		}
	}
	for name := range without {
		t.Errorf("%s has a value on a belt", name)
	}
	if len(with) < 12 {
		t.Errorf("only %d figures of %d had a value on a chain", len(with), len(aboutChain))
	}
}

// What a belt has no part in: shifters and their steps, gears and speeds, how rings and cranks
// are bolted, the B-gap and the hanger, axles, levers, cells. All else is of cogs that a chain
// runs on, its line, its tension or its length.
const besideTheChain = `
	cog_count step_positions_mm index_spare_steps motor_steps_settable index_travel_alone index_own_set index_set_warns index_by_name
	front_difference_t ring_teeth_t ring_count chain_table_unsaid one_cog ring_extended_plates ring_extended_stated chain_guided
	mount_hanger link_reach_t guide_tip_radius_mm guide_bolt_to_cog_mm b_gap_measured_mm b_gap_off_mm b_gap_sag_shift_mm hanger_drift_mm
	gear_ratios lowest_ratio highest_ratio range_percent largest_step_percent wheel_turn_m development_low_m development_high_m
	hub_input_nm motor_input_nm hub_least_ratio hub_input_by front_pulls_off_mm front_compared front_step_t body_offered body_sold
	axle_kind axle_end axle_thread axle_compared axle_goes dropout_least_mm lever_brake clamp_axle bar_told bar_front_told
	ring_direct ring_compared ring_told
	cell_for cell_fit cell_limit_v controller_cell_fit charger_for_cell charger_for_controller_cell cell_primary controller_cell_primary
	cell_judged controller_judged`

// Figures that were not asked for have no value: who reads one by mistake gets nothing, and
// not what another bicycle had.
func TestOnlyWhatIsWantedIsMeasured(t *testing.T) {
	r := random.Seeded(63)
	rings := figures.Object.Ref("ring_count")
	known := 0
	for range fewer(300) {
		again(r)
		random.New(r).Facts().MeasureFor([]figures.FieldRef{rings}, nil, func(records []figures.Record) {
			for i, name := range figures.Object.Table().Names() {
				switch v := records[figures.Place()].At(i); {
				case v.Known && i == rings.Index:
					known++
				case v.Known:
					t.Errorf("%s is %v, and %s alone is wanted", name, v, rings)
				}
			}
		})
	}
	if known == 0 {
		t.Error("no rings were counted")
	}
}

// A figure that an example states lacks nothing, though there is nothing to work it out from;
// what it does not state lacks what it lacked.
func TestStatedFiguresLackNothing(t *testing.T) {
	gap, spread := figures.Object.Ref("neighbour_gap_mm"), figures.Object.Ref("range_percent")
	given := figures.Facts{}.Records()
	given[figures.Place()] = figures.Facts{}.Measure().Record().Clone()
	given[figures.Place()].Put(gap.Index, fact.Num(0.1))
	out := figures.Complete(given)[figures.Place()]
	if v, l := out.Value(gap.Index), out.Lack(gap.Index); !v.Known || v.Num != 0.1 || len(l.Absent)+len(l.Missing) > 0 || l.Reason != "" || l.Fault != "" {
		t.Errorf("the gap is stated as 0.1 mm, and is %v and lacks %+v", v, l)
	}
	if v, l := out.Value(spread.Index), out.Lack(spread.Index); v.Known || !slices.Contains(l.Absent, "cassette") {
		t.Errorf("the range is not stated, and is %v and lacks %+v", v, l)
	}
}

// again works a figure of some bicycle out anew for each fact that may move, in memory that serves again.
func again(r *rand.Rand) {
	d := random.New(r)
	for range 6 {
		d.Loosen(r)
	}
	records, names := d.Facts().Measure().Records(), figures.Object.Table().Names()
	for i, rec := range records {
		if rec == nil {
			continue
		}
		for _, field := range rec.Toleranced() {
			next := slices.Clone(records)
			next[i] = rec.Moved(field, 1)
			wanted := []figures.FieldRef{figures.Object.Ref(names[r.IntN(len(names))])}
			figures.Again(next, figures.Refs(rec, field), wanted, func([]figures.Record) {})
		}
	}
}

// Lists that are turned for a spring that draws to the largest cog are copies: nothing that is
// worked out changes what was stated.
func TestMeasuringLeavesTheFactsAlone(t *testing.T) {
	pulls := figures.FactNamed("rear_shifter.pulls_mm")
	f := random.Draw{}.With("rear_shifter", "pulls_mm", []float64{2, 3, 4}).With("rear_shifter", "actuation", "cable").
		With("rear_derailleur", "ratio", 2.0).With("rear_derailleur", "rest_cog", "largest").Facts()
	for range 2 {
		if v, lack := f.Measure().Value("step_positions_mm"); !slices.Equal(v.List, []float64{0, 4, 10, 18}) {
			t.Errorf("the steps stand at %v (%+v)", v.List, lack)
		}
		if now := f.Value(pulls).List; !slices.Equal(now, []float64{2, 3, 4}) {
			t.Errorf("the pulls are %v, stated as 2, 3 and 4", now)
		}
	}
}

// What a figure lacks is told by one kind of reason, and each name of it once.
func TestLacksAreToldOnce(t *testing.T) {
	r := random.Seeded(64)
	several := 0
	for range fewer(1500) {
		figs := random.New(r).Facts().Measure()
		for _, name := range figures.Object.Table().Names() {
			v, l := figs.Value(name)
			given := 0
			for _, is := range []bool{v.Known, len(l.Missing) > 0, len(l.Absent) > 0, l.Reason != "", l.Fault != ""} {
				if is {
					given++
				}
			}
			for _, names := range [][]string{l.Missing, l.Absent} {
				if len(names) > 1 {
					several++
				}
				if sorted := slices.Sorted(slices.Values(names)); len(slices.Compact(sorted)) < len(names) {
					t.Errorf("%s lacks %v", name, names)
				}
			}
			if given != 1 {
				t.Errorf("%s is %v and lacks %+v", name, v, l)
			}
		}
	}
	if several < 100 {
		t.Errorf("only %d figures lacked several things", several)
	}
}

// Lists have room for what parts can be: 16 cogs, the steps of a motor with one to spare, and
// four rings with 16 cogs each. Examples and schemas take as many, and no more.
func TestListsHaveTheirRoom(t *testing.T) {
	for name, want := range map[string]int{
		"gear_ratios": 64, "step_positions_mm": 17, "index_errors_mm": 16, "index_worst_if_aligned_mm": 16, "neighbour_gaps_mm": 16,
		"cog_spacing_mm": 16, "rub_margins_mm": 16,
	} {
		if got := figures.Object.Ref(name).Field().Cap; got != want {
			t.Errorf("%s has room for %d, want %d", name, got, want)
		}
	}
}

// A flag is one or nothing, whatever it was worked out from.
func TestFlagsAreOneOrNothing(t *testing.T) {
	r := random.Seeded(62)
	set := map[string]bool{}
	for range fewer(1500) {
		figs := random.New(r).Facts().Measure()
		for _, f := range figures.Object.Table().Fields() {
			v, _ := figs.Value(f.Name)
			if f.Type != fact.Flag || !v.Known {
				continue
			}
			if set[f.Name] = set[f.Name] || v.Num == 1; v.Num != 0 && v.Num != 1 {
				t.Fatalf("%s is %v", f.Name, v.Num)
			}
		}
	}
	if len(set) < 8 {
		t.Errorf("only %d flags had a value", len(set))
	}
}
