package compat_test

import (
	"fmt"
	"log"

	"example.org/cogcourt/compat"
)

// phoneCall is a mix of which nobody has measured anything.
const phoneCall = `{"mix": "A call", "parts": {"chain": {"speeds": 10},
	"cassette": {"cogs_t": [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32]}}}`

func ExampleReport_Ask() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		log.Fatal(err)
	}
	mix, err := compat.ReadMix("call.json", []byte(phoneCall), nil)
	if err != nil {
		log.Fatal(err)
	}
	report := checker.Check(mix)
	fmt.Println(report.Verdict)
	for _, q := range report.Ask() {
		fmt.Printf("%s, usually %v to %v %s: %s\n", q.Name, q.Least, q.Most, q.Unit, q.Effort)
	}
	mix, err = mix.Stating("chain.outer_width_mm", 5.9)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(checker.Check(mix).Verdict)
	// Output:
	// unknown
	// chain.outer_width_mm, usually 5.84 to 6.2 mm: some
	// warn
}

func ExampleChecker_Values() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		log.Fatal(err)
	}
	mix, err := compat.ReadMix("call.json", []byte(phoneCall), nil)
	if err != nil {
		log.Fatal(err)
	}
	spans, err := checker.Values(mix, "chain.outer_width_mm")
	if err != nil {
		log.Fatal(err)
	}
	for _, s := range spans {
		fmt.Println(s.From, s.To, s.Verdict, s.Rules)
	}
	// Output:
	// 3.5 5.86 warn [chain/speeds]
	// 5.87 6 warn [chain/neighbour-gap chain/speeds]
	// 6.01 6.04 warn [chain/neighbour-gap]
	// 6.05 6.36 unknown [chain/neighbour-gap]
	// 6.37 14 fail [chain/neighbour-gap]
}
