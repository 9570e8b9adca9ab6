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

// add reports a fault at a field that is stated.
func (c together) add(name, text, hint string) {
	path := name
	if c.path != "" {
		path = c.path + "." + name
	}
	c.node.Get(name).Refuse(c.ps, path, text, hint).Code = source.Contradicts
}

// atMost wants one number not to be above another, where both are stated.
func (c together) atMost(small, large string) {
	a, b := c.value(small), c.value(large)
	if a.Known && b.Known && a.Num > b.Num {
		c.add(small, fmt.Sprintf("%s is above %s", small, large), "one of the two is wrong, or they are swapped")
	}
}

// clamped takes the B-screw and the limit screws, which stand in where nobody
// says otherwise, from a derailleur that clamps the frame: such ones have none.
func (c together) clamped() {
	if c.value("mount").Text != "full" {
		return
	}
	for _, name := range []string{"b_adjust", "limit_stops"} {
		if c.node.Get(name) == nil {
			*c.value(name) = fact.Word("none")
		}
	}
}

// below wants one number to be less than another, where both are stated.
func (c together) below(small, large string) {
	a, b := c.value(small), c.value(large)
	if a.Known && b.Known && a.Num >= b.Num {
		c.add(small, fmt.Sprintf("%s is not below %s", small, large), "one of the two is wrong, or they are swapped")
	}
}

// clicks wants a pull for each click.
func (c together) clicks() {
	clicks, pulls := c.value("clicks"), c.value("pulls_mm")
	if clicks.Known && pulls.Known && int(clicks.Num) != len(pulls.List) {
		c.add("pulls_mm", fmt.Sprintf("must have one entry a click: %v, not %d", clicks.Num, len(pulls.List)), "clicks can be left out")
	}
}

// rigid wants no chain growth of a frame without suspension.
func (c together) rigid() {
	if c.value("rear_suspension").Text != "none" {
		return
	}
	for _, name := range []string{"chain_growth_mm", "growth_at_sag_mm"} {
		if v := c.value(name); v.Known && v.Num != 0 {
			c.add(name, "a frame whose rear_suspension is none has no growth", "leave it out, or state sprung")
		}
	}
}

// offsets wants an offset for each ring, and brings the offsets into the order
// of the rings, which are sorted on reading.
func (c together) offsets() {
	offsets, rings := c.value("ring_offset_mm"), c.node.Get("rings_t")
	if !offsets.Known || rings == nil {
		return
	}
	if len(offsets.List) != len(rings.Items) {
		c.add("ring_offset_mm", fmt.Sprintf("must have one entry a ring: %d, not %d", len(rings.Items), len(offsets.List)),
			"in the order in which rings_t is written")
		return
	}
	teeth, order := make([]int, len(rings.Items)), make([]int, len(rings.Items))
	for i, item := range rings.Items {
		teeth[i], _ = item.ReadWhole("", c.ps)
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(teeth[b], teeth[a]) })
	offsets.List = inOrder(offsets.List, order)
	if offsets.Tols != nil {
		offsets.Tols = inOrder(offsets.Tols, order)
	}
}

func inOrder(xs []float64, order []int) []float64 {
	sorted := make([]float64, len(xs))
	for to, from := range order {
		sorted[to] = xs[from]
	}
	return sorted
}
