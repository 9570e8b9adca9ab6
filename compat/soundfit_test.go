package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
)

// soundFits are bicycles that are ridden every day, as a counter knows them: nothing
// of how their parts are held, driven or braked may be said against them.
var soundFits = map[string]string{
	"city hub gear": `
  hub: {kind_of_hub: internal, freehub: lug-3, over_locknut_mm: 130, axle: quick, min_drive_ratio: 1.9, max_input_nm: 130, brake: roller, rotor_mount: none}
  cassette: {cogs_t: [20], freehub: lug-3, cog_thickness_mm: 2.1}
  crankset: {rings_t: [38], chainline_mm: 44, spindle: square-taper, spindle_length_mm: 122, bolt_circle_mm: 110, bolts: 5}
  bottom_bracket: {shell: threaded-68, spindle: square-taper, spindle_length_mm: 122.5}
  chain: {speeds: 8}
  frame: {chainstay_mm: 455, over_locknut_mm: 130, axle: quick, material: steel, dropout: slotted, take_up_mm: 15, hanger: none, shell: threaded-68,
    max_ring_t: 46, drive: chain, brake_mount: rim}
  wheel: {bead_seat_mm: 622, tyre_width_mm: 37, brake: rim}`,
	"track bicycle": `
  hub: {kind_of_hub: fixed, freehub: track-1.375, over_locknut_mm: 120, axle: quick}
  cassette: {cogs_t: [16], freehub: track-1.375, fixed_cog: true}
  crankset: {rings_t: [49], spindle: taper-iso, bolt_circle_mm: 144, bolts: 5}
  bottom_bracket: {shell: threaded-70-italian, spindle: taper-iso}
  chain: {inner_class: eighth}
  frame: {chainstay_mm: 390, over_locknut_mm: 120, axle: quick, material: steel, dropout: track, take_up_mm: 20, hanger: none, shell: threaded-70-italian}`,
	"single speed with a tensioner": `
  hub: {kind_of_hub: cassette, freehub: spline-9, over_locknut_mm: 135, axle: quick, body_class: 8-10}
  cassette: {cogs_t: [18], freehub: spline-9}
  crankset: {rings_t: [32]}
  chain_tensioner: {pulleys: 1}
  frame: {chainstay_mm: 425, over_locknut_mm: 135, axle: quick, dropout: vertical, material: aluminium}`,
	"old tourer with a freewheel": `
  hub: {kind_of_hub: freewheel, freehub: thread-1.375, over_locknut_mm: 130, axle: quick, smallest_cog_inset_mm: 4.8}
  cassette: {cogs_t: [14, 16, 18, 20, 22, 24, 28], freehub: thread-1.375}
  chain: {speeds: 7}
  crankset: {rings_t: [48, 36, 26], bolt_circle_mm: 110, inner_bolt_circle_mm: 74, spindle: cottered}
  bottom_bracket: {shell: threaded-68, spindle: cottered}
  front_derailleur: {mount: clamp, clamp_diameter_mm: 28.6, max_ring_t: 50, rings: 3, min_difference_t: 10, cable_from: bottom, actuation: cable, pulls_mm: [8.5, 8.5]}
  front_shifter: {indexed: false, actuation: cable, side: either, bar_kind: bar-end}
  rear_shifter: {indexed: false, actuation: cable, side: either, bar_kind: bar-end, integrated_brake: none}
  rear_derailleur: {mount: hanger, max_cog_t: 28, capacity_t: 36}
  cockpit: {bar_kind: drop, clamp_diameter_mm: 23.8}
  frame: {chainstay_mm: 440, over_locknut_mm: 127, axle: quick, material: steel, hanger: claw, dropout: slotted, seat_tube_mm: 28.7, front_mount: clamp,
    front_cable_from: bottom, shell: threaded-68}`,
	"road bicycle with discs": `
  hub: {kind_of_hub: cassette, freehub: spline-9, over_locknut_mm: 142, axle: through, body_class: road-11, rotor_mount: splined}
  cassette: {cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28], freehub: spline-9}
  rotor: {mount: splined, diameter_mm: 160}
  axle: {thread: m12-1.5, length_mm: 172}
  crankset: {rings_t: [50, 34], spindle: through-24, bolt_circle_mm: 110, bolts: 4, bolt_pattern: asymmetric, shell_width_mm: [68]}
  chainring: {rings_t: [50, 34], bolt_circle_mm: 110, bolts: 4}
  bottom_bracket: {shell: press-41-86.5, spindle: through-24}
  front_derailleur: {mount: braze-on, max_ring_t: 52, rings: 2, actuation: cable, pull_class: road, cable_from: bottom}
  front_shifter: {actuation: cable, pull_class: road, integrated_brake: hydraulic, brake_fluid: mineral, bar_kind: drop, side: left}
  rear_shifter: {actuation: cable, integrated_brake: hydraulic, brake_fluid: mineral, bar_kind: drop, side: right, shares_clamp: false}
  rear_derailleur: {mount: direct, max_cog_t: 34, mount_torque_nm: 9}
  brake: {pull: hydraulic, fluid: mineral}
  cockpit: {bar_kind: drop}
  wheel: {brake: disc}
  frame: {over_locknut_mm: 142, axle: through, axle_thread: m12-1.5, axle_length_mm: 172, axle_end: blind, material: carbon, hanger: direct, brake_mount: disc,
    max_rotor_mm: 160, front_mount: braze-on, front_cable_from: bottom, shell: press-41-86.5}`,
	"motor derailleur that clamps the frame": `
  hub: {kind_of_hub: cassette, freehub: driver-10, over_locknut_mm: 148, axle: through, rotor_mount: six-bolt}
  cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 32, 38, 44, 52], freehub: driver-10}
  rotor: {mount: six-bolt, diameter_mm: 180}
  axle: {thread: m12-1.0, length_mm: 180.5}
  rear_derailleur: {actuation: motor, mount: full, mount_torque_nm: 35, cell: pack-2, cell_max_v: 8.4}
  rear_shifter: {actuation: motor, cell: cr2032, cell_max_v: 3.3, bar_kind: flat, side: either}
  cell: {form: pack-2, nominal_v: 7.4, primary: false, chemistry: li-ion}
  controller_cell: {form: cr2032, nominal_v: 3, primary: true, chemistry: lithium-manganese}
  charger: {form: pack-2, chemistry: li-ion}
  cockpit: {bar_kind: flat}
  frame: {over_locknut_mm: 148, axle: through, hanger: universal, axle_length_mm: 180, brake_mount: disc, max_rotor_mm: 203, shell: threaded-73}
  bottom_bracket: {shell: threaded-68-73, spindle: through-29}
  crankset: {rings_t: [32], spindle: through-29, bolt_pattern: direct, direct_name: eight}
  chainring: {rings_t: [34], bolt_pattern: direct, direct_name: eight}`,
}

// fitGroups are the groups of rules that this is about.
var fitGroups = []string{"hub/", "hanger/", "axle/", "wheel/", "brake/", "bottom-bracket/", "chainring/", "ring/", "crank/", "front/", "bar/", "cell/", "charger/", "torque/"}

// saidAgainst lists what is known to be said against some of them, and rightly.
var saidAgainst = map[string][]string{
	"old tourer with a freewheel": {"hub/over-locknut warn", "hanger/mount warn"}, // 3 mm in steel, and a claw is only ever held by the wheel
	"city hub gear":               {"hub/input-ratio warn"},                       // 38 and 20 are its least ratio, and 250 N m x 20 / 38 are 131.6 of 130
	"road bicycle with discs":     {"chainring/compared warn"},                    // of a circle of 110 mm the ring does not say how its bolts stand
}

func TestSoundFits(t *testing.T) {
	c := standardChecker(t)
	for name, parts := range soundFits {
		m, err := ReadMix(name, []byte("mix: "+name+"\nscope: cart\nparts:"+parts+"\n"), nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var got []string
		for _, f := range c.Check(m).Findings() {
			if f.Verdict != rules.Pass && slices.ContainsFunc(fitGroups, func(g string) bool { return strings.HasPrefix(f.Rule, g) }) {
				got = append(got, f.Rule+" "+f.Verdict.String())
				t.Logf("%s: %s %s: %s", name, f.Rule, f.Verdict, f.Text)
			}
		}
		slices.Sort(got)
		want := slices.Sorted(slices.Values(saidAgainst[name]))
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
