package cart

import (
	"context"
	"sync"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// AppendCheck judges a cart as Check does and appends the bytes of the Report's MarshalJSON
// to dst. It keeps nothing of the Report, and so its memory serves the next cart: a server
// that answers with the JSON alone takes less time. Where it fails, as Check does, it
// gives dst as it was.
func (cart Cart) AppendCheck(ctx context.Context, dst []byte, with *compat.Checker, from *catalog.Catalog) (
	out []byte, verdict rules.Verdict, err error) {
	out = dst
	begin := time.Now()
	defer func() { tell(with, cart.Name, begin, ended{verdict, err}) }()
	defer rescue("checking a cart", &err)
	p, err := cart.paired(ctx, with, from)
	if err != nil {
		return dst, rules.Unknown, err
	}
	text := bikeTexts.Get().(*[]byte)
	defer bikeTexts.Put(text)
	bikes, sum := (*text)[:0], tally{worst: rules.Pass}
	err = p.each(ctx, func(place int, bike, then compat.Mix, lines []compat.Difference) error {
		return with.ExplainOnce(ctx, [2]compat.Mix{bike, then}, lines, func(c compat.Change) {
			if sum.bikes > 0 {
				bikes = append(bikes, ',')
			}
			sum.add(&c.After)
			bikes = appendBike(bikes, place, &c)
		})
	})
	if *text = bikes; err != nil {
		return dst, rules.Unknown, err
	}
	r := p.report(cart.Name)
	sum.conclude(&r)
	return r.appendEnd(append(r.appendHead(dst), bikes...)), r.Verdict, nil
}

// bikeTexts is memory for the JSON of bicycles, which stands behind the verdict that they
// come to.
var bikeTexts = sync.Pool{New: func() any { return new([]byte) }}

// AppendCheckCart is CheckCart that appends the bytes of the Report's MarshalJSON to dst
// and keeps nothing of it; see Cart.AppendCheck.
func (l *Live) AppendCheckCart(ctx context.Context, dst []byte, file string, text []byte) (
	out []byte, verdict rules.Verdict, err error) {
	out = dst
	defer rescue("checking a cart", &err)
	now, cart, err := l.read(ctx, file, text)
	if err != nil {
		return dst, rules.Unknown, err
	}
	return cart.AppendCheck(ctx, dst, now.checker, now.parts)
}
