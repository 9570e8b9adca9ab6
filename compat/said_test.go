package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/internal/random"
)

// What a finding says beside its verdict: a sentence that must stand in its text or
// remedy, or with a "!" before it must not, and the things to order that it names.
func TestWhatIsSaid(t *testing.T) {
	motor := fields{
		"cassette":        {"cogs_t": []int{11, 12, 13, 14, 15, 16, 17, 19, 21, 24, 28, 36}},
		"rear_shifter":    {"actuation": "motor", "clicks": 9},
		"rear_derailleur": {"actuation": "motor", "made_for_cogs": 12},
	}
	one := fields{"cassette": {"cogs_t": []int{17}}, "crankset": {"rings_t": []int{44}}, "frame": {"chainstay_mm": 405.0, "dropout": "track"}}
	driver := fields{"cassette": {"cogs_t": []int{10, 12, 14}, "freehub": []string{"driver-10"}}, "hub": {"freehub": "spline-9"}}
	nine := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 32}, "freehub": []string{"spline-9"}}, "hub": {"freehub": "spline-9"}}
	const contradicts = "The clicks that are stated of the controller are another number"
	c := standardChecker(t)
	for _, row := range []struct {
		name, rule string
		mix        fields
		said       string
		needs      []string
	}{
		{"a controller that contradicts", "index/steps", motor, contradicts, nil},
		{"one that agrees", "index/steps", and(motor, "rear_shifter", "clicks", 11), "!" + contradicts, nil},
		{"one that contradicts where the motor makes too many", "index/steps", and(motor, "rear_derailleur", "made_for_cogs", 13), contradicts, nil},
		{"one for as many as the motor can be set to", "index/steps", and(motor, "rear_shifter", "clicks", 11, "rear_derailleur", "made_for_cogs", 13,
			"rear_derailleur", "steps_selectable", []int{11, 12}), "!" + contradicts, nil},
		{"the body that is sold, with its ring", "hub/freehub", and(driver, "hub", "bodies", []string{"driver-10-long"}),
			"The freehub body driver-10-long for this hub", []string{"freehub body driver-10-long for this hub", "spacer behind the cassette"}},
		{"the body that the cassette is made for", "hub/freehub", and(driver, "hub", "bodies", []string{"driver-10-long", "driver-10"}),
			"The freehub body driver-10 for this hub", []string{"freehub body driver-10 for this hub"}},
		{"the short body of eight splines, with its ring", "hub/freehub", and(driver, "cassette", "freehub", []string{"spline-8-deep"}, "hub", "bodies", []string{"spline-8-short"}),
			"The freehub body spline-8-short", []string{"freehub body spline-8-short for this hub", "adapter ring for an eight-spline cassette on the short body"}},
		{"a charger that states its form", "cell/primary-charge", fields{"cell": {"primary": true}, "charger": {"form": "lir2032"}},
			"the form of the cell or of the charger beside it is not stated", nil},
		{"a chain too short for its axle", "chain/length", and(one, "chain", "pitches", 90), "cannot be made longer but with a piece of a second chain",
			[]string{"second chain of the same kind to lengthen the one that is sold too short"}},
		{"a chain that the axle takes", "chain/length", and(one, "chain", "pitches", 94, "frame", "dropout", "vertical"), "!second chain", []string{"chain tensioner"}},
		{"a frame that pulls it tight", "chain/length", and(one, "chain", "pitches", 94, "frame", "rear_suspension", "sprung", "frame", "chain_growth_mm", 10.0),
			"nothing takes that up", []string{"chain tensioner"}},
		{"the same, the dropouts are not the fault", "chain/length", and(one, "frame", "rear_suspension", "sprung", "frame", "chain_growth_mm", 10.0, "frame", "take_up_mm", 20.0),
			"!The dropouts do not reach", []string{"chain tensioner"}},
		{"what nobody stated by class", "hub/lockring-margin", and(nine, "hub", "body_class", "road-11"), "Nobody stated whether a spacer stands behind the cassette,",
			[]string{"spacer behind the cassette, as sold or two stacked"}},
		{"what nobody stated by height", "hub/lockring-margin", and(nine, "hub", "body_length_mm", 36.75, "cassette", "mount_height_mm", 36.5),
			"Nobody stated whether a spacer stands behind the cassette,", []string{"spacer behind the cassette, as sold or two stacked"}},
	} {
		r := c.Check(mixOf(random.Draw{Fields: row.mix}))
		at := slices.IndexFunc(r.Findings(), func(f Finding) bool { return f.Rule == row.rule })
		if at < 0 {
			t.Errorf("%s: %s says nothing", row.name, row.rule)
			continue
		}
		f := r.Findings()[at]
		sentence, not := strings.CutPrefix(row.said, "!")
		if strings.Contains(f.Text+" "+f.Remedy, sentence) == not {
			t.Errorf("%s: %q / %q, want %q", row.name, f.Text, f.Remedy, row.said)
		}
		var needs []string
		for _, n := range r.Needs() {
			needs = append(needs, n.What)
		}
		if !slices.Equal(needs, row.needs) {
			t.Errorf("%s: order %q, want %q", row.name, needs, row.needs)
		}
	}
}
