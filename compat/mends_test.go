package compat

import (
	"strings"
	"testing"
)

// TestMends holds what findings of shipped rules say of mending, by common practice of
// the trade: pieces of remedy, caution and of what to order with it.
func TestMends(t *testing.T) {
	const (
		frame = `frame: {hanger: replaceable, hanger_part: tern-4}`
		full  = `cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.65}, rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.75, made_for_cogs: 12, mount: full, trim_step_mm: 0.2}`
		short = `cassette: {cogs_t: [11, 13, 15, 17, 19, 21, 24, 28], pitch_mm: 4.8}, rear_derailleur: {actuation: motor, made_for_pitch_mm: 4.4, made_for_cogs: 7}`
	)
	for name, c := range map[string]struct{ parts, bench, rule, has, not string }{
		"a bent hanger whose spare is known":     {frame, `{hanger_error_mm: 5}`, "hanger/straight", "spare hanger tern-4|hanger gauge", "(not stated)"},
		"a bent hanger of unknown shape":         {`frame: {hanger: replaceable}`, `{hanger_error_mm: 5}`, "hanger/straight", "hanger gauge", "spare"},
		"a hanger that is bent within its limit": {frame, `{hanger_error_mm: 4}`, "hanger/straight", "", "spare"},
		"a mount that wants another hanger":      {frame + `, rear_derailleur: {mount: full}`, `{}`, "hanger/mount", "spare hanger tern-4", "(not stated)"},
		"a mount that finds its hanger":          {frame + `, rear_derailleur: {mount: hanger}`, `{}`, "hanger/mount", "", "spare"},
		"no screw before the spokes": {full, `{}`, "index/residual",
			"From the quietest place that is 3 clicks towards the dropout|No screw stands between the last step and the spokes", "limit"},
		"screws before the spokes": {strings.Replace(full, "mount: full", "mount: full, limit_stops: screws", 1), `{}`, "index/residual",
			"the least error is at 3 clicks towards the dropout|The low limit is the only thing", "No screw|where there is one"},
		"a trim that nobody read":         {strings.Replace(full, ", trim_step_mm: 0.2", "", 1), `{}`, "index/residual", "Then trim towards the dropout", "clicks"},
		"cogs without a step":             {short, `{}`, "index/residual", "last cog that has a step", "second largest|inboard|largest cog"},
		"a charger for another chemistry": {`controller_cell: {primary: false, chemistry: li-ion}, charger: {chemistry: nickel-metal-hydride}`, `{}`, "charger/controller-chemistry", "charger for li-ion cells", ""},
		"two fluids in front":             {`front_shifter: {integrated_brake: hydraulic, brake_fluid: dot}, brake: {pull: hydraulic, fluid: mineral}`, `{}`, "brake/front-fluid", "never pour one into the other", ""},
	} {
		t.Run(name, func(t *testing.T) {
			m, err := ReadMix("mix.yaml", []byte("mix: mends\nparts: {"+c.parts+"}\nbench: "+c.bench+"\n"), nil)
			if err != nil {
				t.Fatal(err)
			}
			r, said, found := standardChecker(t).Check(m), "", false
			for _, f := range r.Findings() {
				if f.Rule == c.rule {
					said, found = f.Remedy+" | "+f.Caution, true
				}
			}
			for _, n := range r.Needs() {
				said += " | " + n.What
			}
			if !found {
				t.Fatalf("%s says nothing: %v", c.rule, r.Verdicts())
			}
			for _, want := range strings.Split(c.has, "|") {
				if !strings.Contains(said, want) {
					t.Errorf("%q is lacking: %s", want, said)
				}
			}
			for _, not := range strings.Split(c.not, "|") {
				if not != "" && strings.Contains(said, not) {
					t.Errorf("%q is said: %s", not, said)
				}
			}
		})
	}
}
