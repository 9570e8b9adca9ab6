package catalog

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// together looks for faults that no single field shows: two statements of one
// description that cannot both be true. It judges only what a slip of the pen
// makes; whether a good part is any good is left to the rules.
type together struct {
	object *rules.Object
	values []fact.Value
	stated []bool
	node   *source.Node
	path   string
	ps     *source.Problems
}

func (c together) check() {
	switch c.object {
	case Cassette:
		c.cassette()
	case Chain:
		c.chain()
	case RearDerailleur:
		c.derailleur()
	case RearShifter:
		c.shifter()
	case FrontDerailleur:
		c.atMost("min_difference_t", "capacity_t")
	case FrontShifter:
		c.fluid("integrated_brake", "brake_fluid")
	case Brake:
		c.fluid("pull", "fluid")
	case Crankset:
		c.rings()
		c.offsets()
	case Chainring:
		c.rings()
	case ChainGuide:
		c.atMost("ring_min_t", "ring_max_t")
	case Hub:
		c.hub()
	case Frame:
		c.frame()
	case Charger:
		c.below("min_c", "max_c")
	}
}

// value gives a field's value, and its place and path if it is stated.
func (c together) value(name string) *fact.Value {
	i, ok := c.object.Table().Index(name)
	if !ok {
		return &fact.Value{}
	}
	return &c.values[i]
}

// says reports whether a field is stated, here or by the part below.
func (c together) says(name string) bool {
	i, ok := c.object.Table().Index(name)
	return ok && c.stated[i]
}

// forget takes a field away, as if nobody had stated it.
func (c together) forget(name string) {
	if i, ok := c.object.Table().Index(name); ok {
		c.values[i], c.stated[i] = fact.Value{}, false
	}
}

// add reports a fault at a field, or at the first of others that are in it where
// the field itself is stated by the part below.
func (c together) add(name, text, hint string, others ...string) {
	path, at := c.path, c.node
	for _, name := range append([]string{name}, others...) {
		if n := c.node.Get(name); n != nil {
			if at = n; path != "" {
				path += "."
			}
			path += name
			break
		}
	}
	at.Refuse(c.ps, path, text, hint).Code = source.Contradicts
}

// atMost wants one number not to be above another, where both are stated.
func (c together) atMost(small, large string) {
	a, b := c.value(small), c.value(large)
	if a.Known && b.Known && a.Num > b.Num {
		c.add(small, fmt.Sprintf("%s is above %s", small, large), "one of the two is wrong, or they are swapped", large)
	}
}

// clamped takes the B-screw and the limit screws, which stand in where nobody
// says otherwise, from a derailleur that clamps the frame: such ones have none.
func (c together) clamped() {
	if c.value("mount").Text != "full" {
		return
	}
	for _, name := range []string{"b_adjust", "limit_stops"} {
		if !c.says(name) {
			*c.value(name) = fact.Word("none")
		}
	}
}

// below wants one number to be less than another, where both are stated.
func (c together) below(small, large string) {
	a, b := c.value(small), c.value(large)
	if a.Known && b.Known && a.Num >= b.Num {
		c.add(small, fmt.Sprintf("%s is not below %s", small, large), "one of the two is wrong, or they are swapped", large)
	}
}

// clicks wants a pull for each click.
func (c together) clicks() {
	clicks, pulls := c.value("clicks"), c.value("pulls_mm")
	if clicks.Known && pulls.Known && int(clicks.Num) != len(pulls.List) {
		c.add("pulls_mm", fmt.Sprintf("must have one entry a click: %v, not %d", clicks.Num, len(pulls.List)), "clicks can be left out", "clicks")
	}
}

// rigid wants no chain growth of a frame without suspension.
func (c together) rigid() {
	if c.value("rear_suspension").Text != "none" {
		return
	}
	for _, name := range []string{"chain_growth_mm", "growth_at_sag_mm"} {
		if v := c.value(name); v.Known && v.Num != 0 {
			c.add(name, "a frame whose rear_suspension is none has no growth", "leave it out, or state sprung", "rear_suspension")
		}
	}
}

// offsets wants an offset for each ring, and brings the offsets into the order
// of the rings, which are sorted on reading. Offsets for the rings of the part
// below are in their order already.
func (c together) offsets() {
	offsets, rings := c.value("ring_offset_mm"), c.value("rings_t")
	if !offsets.Known || !rings.Known {
		return
	}
	if len(offsets.List) != len(rings.List) {
		c.add("ring_offset_mm", fmt.Sprintf("must have one entry a ring: %d, not %d", len(rings.List), len(offsets.List)),
			"in the order in which rings_t is written", "rings_t")
		return
	}
	written := c.node.Get("rings_t")
	if written == nil || c.node.Get("ring_offset_mm") == nil {
		return
	}
	teeth, order := make([]int, len(written.Items)), make([]int, len(written.Items))
	for i, item := range written.Items {
		teeth[i], _ = item.ReadWhole("", c.ps)
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(teeth[b], teeth[a]) })
	offsets.List = inOrder(offsets.List, order)
	if offsets.Tols() != nil {
		*offsets = offsets.WithTols(inOrder(offsets.Tols(), order))
	}
}

func inOrder(xs []float64, order []int) []float64 {
	sorted := make([]float64, len(xs))
	for to, from := range order {
		sorted[to] = xs[from]
	}
	return sorted
}
