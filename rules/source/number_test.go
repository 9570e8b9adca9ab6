package source

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// TestNumbersRoundTrip writes random numbers in every way that files may and
// reads them back to the last bit, from YAML, JSON and Go.
func TestNumbersRoundTrip(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range fewer(5000) {
		x := math.Float64frombits(rnd.Uint64())
		if rnd.Intn(2) == 0 {
			x = math.Round(rnd.NormFloat64()*1e4) / 1e3
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			continue
		}
		for _, format := range []byte("efgEG") {
			s := strconv.FormatFloat(x, format, -1, 64)
			tol := strconv.FormatFloat(math.Abs(x)/8, format, -1, 64)
			alone, both := fact.Value{Num: x}, fact.Value{Num: x, Tol: math.Abs(x) / 8}
			checkNumber(t, "x.yaml", "a: "+s, alone)
			checkNumber(t, "x.json", `{"a": `+s+"}", alone)
			checkNumber(t, "x.yaml", "a: "+s+" ± "+tol, both)
			checkNumber(t, "x.json", `{"a": "`+s+"+/-"+tol+`"}`, both)
		}
		n, err := FromGo("go", map[string]any{"a": x})
		if err != nil {
			t.Fatal(err)
		}
		sameNumber(t, fmt.Sprint(x), n.Get("a"), fact.Value{Num: x})
	}
}

func checkNumber(t *testing.T, file, text string, want fact.Value) {
	t.Helper()
	n, err := Parse(file, []byte(text))
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	sameNumber(t, text, n.Get("a"), want)
}

func sameNumber(t *testing.T, text string, n *Node, want fact.Value) {
	t.Helper()
	var ps Problems
	num, tol, ok := n.ReadNumber("a", &ps)
	if !ok || num != want.Num || tol != want.Tol || len(ps) > 0 || math.Signbit(num) != (want.Num < 0) {
		t.Fatalf("%s: read %v ± %v, %v, want %v ± %v: %v", text, num, tol, ok, want.Num, want.Tol, ps)
	}
}

// TestNumberShapes makes random texts of the characters of numbers. What is
// read as a number is one to encoding/json as well, with the same value, and
// nothing else is.
func TestNumberShapes(t *testing.T) {
	const alphabet = "00112579.-+eE_xn"
	rnd := rand.New(rand.NewSource(3))
	numbers := 0
	for range fewer(300_000) {
		b := make([]byte, 1+rnd.Intn(7))
		for i := range b {
			b[i] = alphabet[rnd.Intn(len(alphabet))]
		}
		s := string(b)
		if shaped(s) != (json.Valid(b) && s[0] != '"') {
			t.Fatalf("%q: shaped says %v", s, shaped(s))
		}
		fault, hint := odd(s)
		if !shaped(s) || fault != "" {
			if plain, _, ok := strings.Cut(strings.TrimPrefix(hint, "write "), ", or"); ok && !shaped(plain) {
				t.Fatalf("%q: the hint says %s", s, hint)
			}
			continue
		}
		numbers++
		got, fault := float(s)
		if want, err := strconv.ParseFloat(s, 64); fault != "" || err != nil || got != want {
			t.Fatalf("%q: %v, %v", s, got, fault)
		}
	}
	if numbers < fewer(10_000) {
		t.Errorf("only %d numbers", numbers)
	}
}

func TestWhole(t *testing.T) {
	for text, want := range map[string]int{"0": 0, "-0": 0, "12": 12, "-7": -7, "3.0": 3, "1e2": 100, "1.50e1": 15, "0e99999999999999999999": 0, "0.0e-5": 0, "30e-1": 3, "9007199254740991": 1<<53 - 1} {
		var ps Problems
		n, err := Parse("x.yaml", []byte("a: "+text))
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := n.Get("a").ReadWhole("a", &ps); !ok || got != want {
			t.Errorf("%s: %d, %v, %v", text, got, ok, ps)
		}
	}
	for _, text := range []string{"2.7", "1e-1", "9007199254740992", "9007199254740993", "3.00000000000000000001", "9007199254740990.4", "30e-2", "1e-5", "1e300", "-1e18", "3 ± 1", "three", "true", "[1]", "{a: 1}", "'3'", "~"} {
		var ps Problems
		n, err := Parse("x.yaml", []byte("a: "+text))
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := n.Get("a").ReadWhole("a", &ps); ok || got != 0 || len(ps) != 1 || ps[0].Hint == "" {
			t.Errorf("%s: %d, %v, %v", text, got, ok, ps)
		}
	}
}

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}
