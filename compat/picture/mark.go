package picture

import "example.org/cogcourt/rules"

// Mark is the sign of a verdict, to stand beside its word: a link of the chain. That of a
// pass is whole, of a warning half, of a fail broken in two, of an unknown dashed. It is
// an svg element of 36 by 18 px that grows with its style; who cannot see it has the word.
func Mark(v rules.Verdict) string {
	c := newCanvas(36, 18)
	const plate = "M9 1.5H27A7.5 7.5 0 0 1 27 16.5H9A7.5 7.5 0 0 1 9 1.5Z"
	const holes = "M9 5.5A3.5 3.5 0 0 0 9 12.5A3.5 3.5 0 0 0 9 5.5ZM27 5.5A3.5 3.5 0 0 0 27 12.5A3.5 3.5 0 0 0 27 5.5Z"
	raw := func(class, d string) { c.path(class, &trail{b: []byte(d)}) }
	switch v {
	case rules.Pass:
		raw("k-pass", plate+holes)
	case rules.Warn:
		raw("k-warn", "M9 1.5H18V16.5H9A7.5 7.5 0 0 1 9 1.5ZM9 5.5A3.5 3.5 0 0 0 9 12.5A3.5 3.5 0 0 0 9 5.5Z")
		raw("o-warn", plate+"M27 5.5A3.5 3.5 0 0 0 27 12.5A3.5 3.5 0 0 0 27 5.5Z")
	case rules.Fail:
		raw("k-fail", "M9 1.5H15L18 6L13 9L16.5 12L14 16.5H9A7.5 7.5 0 0 1 9 1.5ZM9 5.5A3.5 3.5 0 0 0 9 12.5A3.5 3.5 0 0 0 9 5.5Z"+
			"M20 1.5H27A7.5 7.5 0 0 1 27 16.5H19L21.5 12L18 9L23 6ZM27 5.5A3.5 3.5 0 0 0 27 12.5A3.5 3.5 0 0 0 27 5.5Z")
	default:
		raw("o-unknown", plate)
	}
	return `<svg class="pic mark" aria-hidden="true" width="36" height="18" viewBox="0 0 36 18">` + string(c.b) + `</svg>`
}

// dot marks a point by its verdict, in form as well as in colour: a disc passes, an open
// diamond warns, a cross fails, an open circle is not judged.
func (c *canvas) dot(v rules.Verdict, at pt) {
	switch v {
	case rules.Pass:
		c.circle("k-pass", at, 4)
	case rules.Warn:
		const r = 5.5
		c.path("o-warn on", c.from(at.to(0, -r)).line(at.to(r, 0)).line(at.to(0, r)).line(at.to(-r, 0)).closed())
	case rules.Fail:
		const r = 4.5
		c.path("o-fail", c.from(at.to(-r, -r)).line(at.to(r, r)).move(at.to(-r, r)).line(at.to(r, -r)))
	default:
		c.circle("o-open on", at, 4)
	}
}

// says is what a point of a verdict says.
func says(v rules.Verdict) string {
	switch v {
	case rules.Pass:
		return "passes"
	case rules.Warn:
		return "warns"
	case rules.Fail:
		return "fails"
	}
	return "not judged"
}

// legend explains those marks that occur, in a row.
func (c *canvas) legend(at pt, met func(rules.Verdict) bool) {
	for _, v := range []rules.Verdict{rules.Pass, rules.Warn, rules.Fail, rules.Unknown} {
		if !met(v) {
			continue
		}
		c.dot(v, at.to(6, -4))
		c.text("s", at.to(16, 0), begin, says(v))
		at.x += 16 + width(says(v), false)*noteSize + 14
	}
}

// ofVerdict is the class of what has a verdict.
func ofVerdict(prefix string, v rules.Verdict) string { return prefix + v.String() }
