package picture

import (
	"math"
	"slices"

	"example.org/cogcourt/compat"
)

// An outline may be anybody's, read from JSON or made by hand. What a drawing cannot do
// without is looked for here, whatever the outline says that it lacks.

// unsaid is said of a drawing for which an outline has too little and does not say why.
const unsaid = "The outline does not tell all that it takes."

// whyNot gives why a drawing, or the top of the views, cannot be made; empty where it can.
func whyNot(name string, o compat.Outline, enough func(compat.Outline) bool) string {
	if lack, lacks := o.Lack(name); lacks {
		return lack.Text
	}
	if !enough(o) {
		return unsaid
	}
	return ""
}

// sound is the outline without numbers that are none, or that nothing of a bicycle can
// be: these are not known.
func sound(o compat.Outline) compat.Outline {
	o.Cogs, o.Rings = slices.Clone(o.Cogs), slices.Clone(o.Rings)
	ch, ix, g := &o.Chain, &o.Index, &o.Guide
	all := []*compat.Number{&o.Thickness, &o.Chainstay, &o.OverLocknut, &o.Turn, &ix.Offset, &ix.Residual, &ix.Align,
		&ch.Outer, &ch.Inner, &ch.GapWarn, &ch.GapFail, &ch.AngleLargest, &ch.AngleSmallest,
		&ch.Rest, &ch.Longest, &ch.Count, &ch.Spare, &ch.Slack, &ch.SpareWarn, &ch.SpareFail, &g.Gap, &g.Bolt, &g.TipRadius, &g.Measured}
	for i := range o.Cogs {
		c := &o.Cogs[i]
		all = append(all, &c.Teeth, &c.Position, &c.Line, &c.PitchRadius, &c.TipRadius, &c.Error, &c.Warn, &c.Fail, &c.Gap, &c.Rub)
	}
	for i := range o.Rings {
		r := &o.Rings[i]
		all = append(all, &r.Teeth, &r.Line, &r.PitchRadius, &r.TipRadius)
	}
	for _, n := range all {
		if !(math.Abs(n.Value) <= 1e4) || !n.Known { // false of NaN
			*n = compat.Number{}
		}
	}
	return o
}

// measured says whether all these are known.
func measured(list ...compat.Number) bool {
	return !slices.ContainsFunc(list, func(n compat.Number) bool { return !n.Known })
}

// lengths says the same of what is more than nothing.
func lengths(list ...compat.Number) bool {
	return !slices.ContainsFunc(list, func(n compat.Number) bool { return !n.Known || n.Value < 0.01 })
}

func enoughForViews(o compat.Outline) bool {
	for _, c := range o.Cogs {
		if !lengths(c.Teeth, c.PitchRadius, c.TipRadius) || c.TipRadius.Value < c.PitchRadius.Value {
			return false
		}
	}
	for _, r := range o.Rings {
		if !lengths(r.Teeth, r.PitchRadius, r.TipRadius) || r.TipRadius.Value < r.PitchRadius.Value {
			return false
		}
	}
	return len(o.Cogs) > 0 && len(o.Rings) > 0 && lengths(o.Chainstay)
}

func enoughForTop(o compat.Outline) bool {
	for _, c := range o.Cogs {
		if !measured(c.Line) {
			return false
		}
	}
	for _, r := range o.Rings {
		if !measured(r.Line) {
			return false
		}
	}
	return measured(o.Chain.AngleLargest, o.Chain.AngleSmallest)
}

func enoughForError(o compat.Outline) bool {
	return slices.ContainsFunc(o.Cogs, func(c compat.OutlineCog) bool { return c.Error.Known })
}

func enoughForGears(o compat.Outline) bool {
	for i, c := range o.Cogs {
		if !lengths(c.Teeth) || i > 0 && c.Teeth.Value <= o.Cogs[i-1].Teeth.Value {
			return false
		}
	}
	for _, r := range o.Rings {
		if len(r.Ratios) != len(o.Cogs) {
			return false
		}
		for _, ratio := range r.Ratios {
			if !(ratio >= 0.01 && ratio < 1000) {
				return false
			}
		}
	}
	return len(o.Cogs) > 0 && len(o.Rings) > 0
}

func enoughForLength(o compat.Outline) bool { return lengths(o.Chain.Longest, o.Chain.Count) }

func enoughForGap(o compat.Outline) bool {
	some := false
	for i, c := range o.Cogs {
		if !measured(c.Position) || i > 0 && c.Position.Value < o.Cogs[i-1].Position.Value+0.01 {
			return false
		}
		some = some || c.Gap.Known && i+1 < len(o.Cogs)
	}
	return some && lengths(o.Chain.Outer, o.Thickness)
}

func enoughForGuide(o compat.Outline) bool {
	return lengths(o.Guide.Bolt, o.Guide.TipRadius) && measured(o.Guide.Gap) && o.Guide.Bolt.Value < 1000
}

func enoughForGauge(o compat.Outline) bool {
	return len(o.Cogs) > 0 && lengths(o.Cogs[len(o.Cogs)-1].TipRadius, o.Guide.Bolt) && o.Guide.Bolt.Value < 1000
}
