package main

import (
	"context"
	"strings"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// checkCarts judges carts: what becomes of their lines, and what they change on
// each bicycle.
func checkCarts(o options, s stream) int {
	if len(o.args) == 0 {
		return usage(s, "cart", "name at least one cart: a file, - for standard input, or demo:"+strings.Join(demo.Orders(), ", demo:"))
	}
	if o.inputTwice() {
		return usage(s, "cart", inputTwice)
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	style := o.style(s, c)
	style.Currency = cat.Currency()
	return judgeAll(o, s, sort[cart.Report]{
		files: files(o.args),
		judge: func(of asked) (cart.Report, rules.Verdict, error) {
			order, err := readCart(of.file, s.in, cat)
			if err != nil {
				return cart.Report{}, 0, err
			}
			r, err := order.CheckWith(context.Background(), c, cat, cart.Options{Mend: o.mend})
			return r, r.Verdict, err
		},
		print: func(reports []cart.Report, broken int) error {
			view.Carts(s.out, reports, broken, style)
			return nil
		},
	})
}
