package picture

import "math"

// wheel is a circle that a chain lies on, in px; the chain goes round it against the
// clock as one looks at it, or with it where turn is negative.
type wheel struct {
	at   pt
	r    float64
	turn float64 // 1 or -1
}

// tangent gives where a chain leaves one wheel and where it meets the next. Their
// circles must not lie within each other; a cross run where they overlap is drawn from
// side to side.
func tangent(a, b wheel) (from, to pt) {
	dx, dy := b.at.x-a.at.x, a.at.y-b.at.y // y upwards, as angles go
	d := math.Hypot(dx, dy)
	turned := math.Asin(max(-1, min(1, (a.turn*a.r-b.turn*b.r)/max(d, 1e-9))))
	way := math.Atan2(dy, dx) + turned
	side := pt{math.Sin(way), math.Cos(way)} // to the right of the way, y downwards
	return a.at.to(side.x*a.turn*a.r, side.y*a.turn*a.r), b.at.to(side.x*b.turn*b.r, side.y*b.turn*b.r)
}

// round goes on round a wheel, from a point on it to another.
func (t *trail) round(w wheel, from, to pt) *trail {
	angle := func(p pt) float64 { return math.Atan2(w.at.y-p.y, p.x-w.at.x) }
	span := (angle(to) - angle(from)) * w.turn
	span = math.Mod(span+4*math.Pi, 2*math.Pi)
	return t.arc(w.r, span > math.Pi, w.turn < 0, to)
}
