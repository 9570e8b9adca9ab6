// Command cogcourt judges an empty cart by the standard rules, to weigh it.
package main

import (
	"fmt"
	"log"

	"example.org/cogcourt/compat"
)

func main() {
	c, err := compat.New(compat.Config{})
	if err != nil {
		log.Fatal(err)
	}
	m, err := compat.NewMix("cart", compat.ScopeCart)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(c.Check(m).Verdict)
}
