// Command same says what the library makes of many random mixes, carts and
// sheets, one line each with the hash of its JSON, so that two states of the
// library can be compared byte by byte:
//
//	go run ./same > after.txt        # and the same beside the state before
//	diff before.txt after.txt
//	go run ./same -full mix:17       # the JSON of what differs
//	go run ./same -given mix:17      # and the mix, cart or sheet's mix itself
//
// With -mixes it prints the mixes, one JSON object a line, which programs can be
// compared by: cogcourt check --format jsonl --full -.
package main

import (
	"bufio"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"os"

	"example.org/cogcourt/tools/draw"
)

// options are what the flags say.
type options struct {
	seed                 uint64
	mixes, carts, sheets int
	tolerances, print    bool
	full, given          string
}

func main() {
	var o options
	flag.Uint64Var(&o.seed, "seed", 1, "another seed draws other mixes")
	flag.IntVar(&o.mixes, "n", 20_000, "how many mixes")
	flag.IntVar(&o.carts, "carts", 2_000, "how many carts")
	flag.IntVar(&o.sheets, "sheets", 2_000, "how many sheets")
	flag.BoolVar(&o.tolerances, "tolerances", false, "some numbers carry a tolerance")
	flag.BoolVar(&o.print, "mixes", false, "print the mixes in place of the hashes")
	flag.StringVar(&o.full, "full", "", "print the JSON of one alone, such as mix:17, cart:3 or sheet:8")
	flag.StringVar(&o.given, "given", "", "print what one alone is made from, such as cart:3")
	flag.Parse()
	if err := run(o); err != nil {
		fmt.Fprintln(os.Stderr, "same:", err)
		os.Exit(1)
	}
}

// work is one kind of document: how many, how one is drawn and what is made of it.
type work struct {
	name  string
	count int
	draw  func(i int) map[string]any
	judge func(text []byte) ([]byte, error)
}

func run(o options) error {
	listed, err := draw.NewListed(o.seed)
	if err != nil {
		return err
	}
	l, err := newLibrary(listed.Parts())
	if err != nil {
		return err
	}
	// Each kind has a row of its own, so that the n-th stays the same however many
	// there are of the others.
	carts, err := draw.NewListed(o.seed + 1)
	if err != nil {
		return err
	}
	mixes, sheets := draw.New(o.seed, o.tolerances), draw.New(o.seed+1, o.tolerances)
	out := bufio.NewWriter(os.Stdout)
	for _, w := range []work{
		{"mix", o.mixes, func(i int) map[string]any {
			if i%4 == 3 {
				return listed.Mix()
			}
			return mixes.Next()
		}, l.report},
		{"cart", o.carts, func(int) map[string]any { return carts.Cart() }, l.cart},
		{"sheet", o.sheets, func(int) map[string]any { return sheets.Next() }, l.sheet},
	} {
		if err := w.each(o, out); err != nil {
			return err
		}
	}
	return out.Flush()
}

// each goes over all documents of a kind.
func (w work) each(o options, out *bufio.Writer) error {
	for i := range w.count {
		text, err := json.Marshal(w.draw(i))
		if err != nil {
			return err
		}
		name := fmt.Sprintf("%s:%d", w.name, i)
		switch {
		case o.given == name, o.print && w.name == "mix":
			fmt.Fprintf(out, "%s\n", text)
		case o.print, o.given != "", o.full != "" && o.full != name:
		case o.full == name:
			fmt.Fprintf(out, "%s\n", w.answer(text))
		default:
			fmt.Fprintf(out, "%s %x\n", name, sha256.Sum256(w.answer(text)))
		}
	}
	return nil
}

// answer is the JSON, or the error: a refusal is to stay the same too.
func (w work) answer(text []byte) []byte {
	answer, err := w.judge(text)
	if err != nil {
		return []byte("error: " + err.Error())
	}
	return answer
}
