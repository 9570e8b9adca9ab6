package main

import (
	"encoding/json"
	"log"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
)

// answer is what a whole line comes to: one verdict for each check.
type answer struct {
	Mix      string            `json:"mix"`
	Verdicts map[string]string `json:"verdicts"`
}

// lineOf writes a mix down as a shop sends it, every part described in place.
func lineOf(x mixed) []byte {
	text, err := json.Marshal(map[string]any{"mix": x.mix.Name(), "parts": x.facts})
	if err != nil {
		log.Fatal(err)
	}
	return text
}

// bytesToBytes judges a mix from the bytes of a line to those of an answer. All engines
// read with cogcourt, which alone works out the figures; those that want maps get them
// made of the parts, and all but cogcourt write with encoding/json.
func (e engine) bytesToBytes(x mixed, out []string) {
	x.mix = read(x.line)
	if e.maps {
		x.facts = map[string]any{}
		for _, p := range x.mix.Parts() {
			x.facts[p.Kind()] = factsOf(p)
		}
	}
	e.judge(x, out)
	a := answer{Mix: x.mix.Name(), Verdicts: make(map[string]string, len(checks))}
	for i, c := range checks {
		a.Verdicts[c.id] = out[i]
	}
	if _, err := json.Marshal(a); err != nil {
		log.Fatal(err)
	}
}

func read(line []byte) compat.Mix {
	m, err := compat.ReadMix("mix.json", line, noParts)
	if err != nil {
		log.Fatal(err)
	}
	return m
}

var noParts = func() *catalog.Catalog {
	c, err := catalog.Of()
	if err != nil {
		log.Fatal(err)
	}
	return c
}()

// written makes of cogcourt's own brief line the verdicts that it is compared by. Rules
// that it does not name pass, for there is nothing else in these mixes.
func written(line []byte, place map[string]int, out []string) {
	var got struct{ Fails, Unknowns, Warns []string }
	if err := json.Unmarshal(line, &got); err != nil {
		log.Fatal(err)
	}
	for i := range out {
		out[i] = "pass"
	}
	for word, ids := range map[string][]string{"fail": got.Fails, "unknown": got.Unknowns, "warn": got.Warns} {
		for _, id := range ids {
			out[place[id]] = word
		}
	}
}

// lines holds the answers to whole lines against those to mixes, and times them.
func lines(engines []engine, mixes []mixed) (differ int) {
	for _, m := range mixes {
		for _, e := range engines {
			want, got := make([]string, len(checks)), make([]string, len(checks))
			engines[0].judge(m, want)
			if e.line(m, got); !agree(got, want) {
				differ++
				log.Printf("%s differs on the line of %s:\n got %v\nwant %v", e.name, m.mix.Name(), got, want)
			}
		}
	}
	table(engines, mixes, func(e engine) judge { return e.timed })
	return differ
}
