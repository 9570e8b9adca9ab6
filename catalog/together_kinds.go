package catalog

import (
	"fmt"
	"math"

	"example.org/cogcourt/rules/fact"
)

// The checks below are of one kind each: what two fields of it cannot say at once.

// cassette wants one cog where the cog is fixed, a count that its class has, and
// the same count wherever one is said.
func (c together) cassette() {
	n := c.cogCount()
	if n == 0 {
		return
	}
	if v := c.value("fixed_cog"); v.Known && v.Num != 0 && n > 1 {
		c.add("fixed_cog", "a fixed cog stands alone", "leave it out where there are several cogs", "cogs_t", "cog_count")
	}
	for class, count := range map[string]int{"7": 7, "thin-10": 10} {
		if c.value("height_class").Text == class && n != count {
			c.add("height_class", fmt.Sprintf("the class %s has %d cogs, and %d are stated", class, count, n),
				"flat is the class of a cassette that needs no ring behind it", "cogs_t", "cog_count")
		}
	}
	if v := c.value("pitches_mm"); v.Known && len(v.List) != n-1 {
		c.add("pitches_mm", fmt.Sprintf("has %d entries for %d cogs", len(v.List), n), "one fewer than the cogs",
			"cogs_t", "cog_count")
	}
}

// cogCount is how many cogs are stated; 0 where nobody says so.
func (c together) cogCount() int {
	cogs, count := c.value("cogs_t"), c.value("cog_count")
	switch {
	case !cogs.Known:
		return int(count.Num)
	case count.Known && int(count.Num) != len(cogs.List):
		c.add("cog_count", fmt.Sprintf("cogs_t has %d cogs, and cog_count is %v", len(cogs.List), count.Num),
			"one of the two is wrong; a class has the cogs that its name says", "cogs_t")
	}
	return len(cogs.List)
}

// innerWidth is about the inner width that each class of chains has, in mm.
func innerWidth(class string) float64 {
	return map[string]float64{"eighth": 3.3, "three-32": 2.38, "eleven-128": 2.18, "narrow": 1.75, "five-32": 4}[class]
}

// chain wants the inner width to be about that of its class.
func (c together) chain() {
	c.below("inner_width_mm", "outer_width_mm")
	class, width := c.value("inner_class"), c.value("inner_width_mm")
	if usual := innerWidth(class.Text); class.Known && width.Known && math.Abs(width.Num-usual) > 0.35 {
		c.add("inner_class", fmt.Sprintf("%s is about %v mm wide, and inner_width_mm is %v", class.Text, usual, width.Num),
			"leave out the one that was not measured", "inner_width_mm")
	}
}

// derailleur wants a pitch for each gap between the cogs that the steps are made for.
func (c together) derailleur() {
	c.atMost("min_largest_cog_t", "max_cog_t")
	c.clamped()
	cogs, pitches := c.value("made_for_cogs"), c.value("made_for_pitches_mm")
	if cogs.Known && pitches.Known && len(pitches.List) != int(cogs.Num)-1 {
		c.add("made_for_pitches_mm", fmt.Sprintf("must have one entry fewer than made_for_cogs: %v, not %d", cogs.Num-1, len(pitches.List)),
			"made_for_cogs can be left out", "made_for_cogs")
	}
}

// shifter wants clicks for the cogs that it is sold for, and no fluid in a cable.
func (c together) shifter() {
	c.clicks()
	c.fluid("integrated_brake", "brake_fluid")
	speeds, clicks := c.value("speeds"), c.value("clicks")
	if !speeds.Known || !clicks.Known {
		return
	}
	most := clicks.Num
	if clicks.Spread() != nil {
		most = clicks.Spread().Most
	}
	switch {
	case most < speeds.Num-1:
		c.add("clicks", fmt.Sprintf("%v clicks do not reach %v cogs", most, speeds.Num),
			"clicks are one fewer than the cogs, or more", "speeds")
	case clicks.Spread() != nil && speeds.Usual == fact.NotUsual:
		// Whoever states the speeds says more than a class for several numbers of cogs.
		c.forget("clicks")
	}
}

// fluid wants one only of what is hydraulic.
func (c together) fluid(moved, fluid string) {
	if v := c.value(moved); v.Known && v.Text != "hydraulic" && c.value(fluid).Known {
		c.add(fluid, fmt.Sprintf("%s is %s, which has no fluid", moved, v.Text), "leave it out, or state hydraulic", moved)
	}
}

// rings wants the innermost bolts inside the others, and a name only of a ring
// that sits on the arm.
func (c together) rings() {
	c.below("ring_thickness_mm", "wide_tooth_mm")
	c.below("inner_bolt_circle_mm", "bolt_circle_mm")
	if v := c.value("bolt_pattern"); v.Known && v.Text != "direct" && c.value("direct_name").Known {
		c.add("direct_name", "the bolts stand on a circle, so that the ring is no direct one", "state bolt_pattern: direct, or leave it out",
			"bolt_pattern")
	}
}

// bodyLength is the length of a freehub body of a class, in mm.
func bodyLength(class string) float64 {
	return map[string]float64{"7": 31, "8-10": 34.95, "road-11": 36.75}[class]
}

// hub wants the length of the body to be about that of its class: half-way
// between two classes it would be the other.
func (c together) hub() {
	class, length := c.value("body_class"), c.value("body_length_mm")
	if usual := bodyLength(class.Text); class.Known && length.Known && math.Abs(length.Num-usual) > 0.9 {
		c.add("body_class", fmt.Sprintf("a body of the class %s is about %v mm long, and body_length_mm is %v", class.Text, usual, length.Num),
			"leave out the one that was not measured", "body_length_mm")
	}
}

// frame wants nothing of what the frame says it is without.
func (c together) frame() {
	c.rigid()
	for _, name := range []string{"axle_thread", "axle_length_mm", "axle_end"} {
		c.onlyWhere("axle", "through", name, "a frame with open dropouts has no such axle")
	}
	c.onlyWhere("brake_mount", "disc", "max_rotor_mm", "a frame for rim brakes takes no rotor")
	c.noneOf("assist", "none", "assist_nm", "a bicycle without a motor has no torque of one")
	c.noneOf("dropout", "vertical", "take_up_mm", "in a vertical dropout the axle cannot be moved")
	for _, name := range []string{"front_hole_spacing_mm", "front_hole_step_mm"} {
		if v := c.value("front_mount"); v.Known && v.Text != "direct-low" && v.Text != "direct-high" && c.value(name).Known {
			c.add(name, "only a direct mount has two holes", "state direct-low or direct-high, or leave it out", "front_mount")
		}
	}
	if v := c.value("hanger"); c.value("hanger_part").Known && (v.Text == "fixed" || v.Text == "claw" || v.Text == "none") {
		c.add("hanger_part", "there is no replaceable hanger of which this could be the shape", "state replaceable, or leave it out", "hanger")
	}
}

// onlyWhere wants a field to be stated only where another one, if it is, has this
// word.
func (c together) onlyWhere(choice, word, field, text string) {
	if v := c.value(choice); v.Known && v.Text != word && c.value(field).Known {
		c.add(field, text, fmt.Sprintf("leave it out, or state %s: %s", choice, word), choice)
	}
}

// noneOf wants a number to be 0 where another field has this word.
func (c together) noneOf(choice, word, field, text string) {
	if v := c.value(field); c.value(choice).Text == word && v.Known && v.Num != 0 {
		c.add(field, text, "leave it out, or change "+choice, choice)
	}
}
