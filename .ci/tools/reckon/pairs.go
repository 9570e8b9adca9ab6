package reckon

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/rules/fact"
)

// pairs are the twins of what tells how two parts go together.
var pairs = map[string]twin{
	"cell_fit": func(b bike) (any, bool) {
		holder := map[string]string{"derailleur": "rear_derailleur", "controller": "rear_shifter"}[b.text("figures.cell_for")]
		return cellIn(b.text("cell.form"), b.text(holder+".cell"), b.value(holder+".cell_max_v")), true
	},
	"controller_cell_fit": func(b bike) (any, bool) {
		return cellIn(b.text("controller_cell.form"), b.text("rear_shifter.cell"), b.value("rear_shifter.cell_max_v")), true
	},
	"controller_judged": func(b bike) (any, bool) {
		return map[bool]string{true: "own", false: "only"}[b.here("controller_cell")], true
	},
	"connector_against_chain": against,
	"connector_overlap_mm":    overlap,
	"least_cog_t":             plain(func(b bike) float64 { return smallest(b, 10) }),
	"least_cog_kind_t":        plain(func(b bike) float64 { return smallest(b, 9) }),
	"index_set_warns": holds(func(b bike) bool {
		return b.num("figures.index_own_set") == 1 && !family(b) && !shared(b, "index_sets") && shared(b, "index_sets_warn")
	}),
	"index_by_name": holds(func(b bike) bool {
		return b.num("figures.index_own_set") == 1 && b.num("figures.index_share_kind") <= 0.5 && b.num("figures.index_residual_share") <= 0.5
	}),
	"ring_direct": table(func(b bike) string {
		ring, crank := joined(b, "chainring"), joined(b, "crankset")
		return digit(ring.splines && crank.bolts && !crank.named) + digit(crank.splines && ring.bolts && !ring.named)
	}, map[string]string{"00": "names", "01": "crank-alone", "10": "ring-alone", "11": "ring-alone"}),
	"ring_compared": ringCompared,
}

// lithium are the letters of lithium buttons.
var lithium = []string{"cr", "br", "lir"}

// split gives the letters and the four digits of a lithium button.
func split(form string) (letters, size string, ok bool) {
	letters = strings.TrimRight(form, "0123456789")
	size = form[len(letters):]
	return letters, size, len(size) == 4 && slices.Contains(lithium, letters)
}

// cellIn says how a cell suits a holder: by letters and size of two buttons.
func cellIn(form, taken string, limit fact.Value) string {
	a, size, button := split(form)
	c, of, other := split(taken)
	switch {
	case form == taken:
		return "fits"
	case !button || !other:
		return "other"
	case size != of:
		return "other-size"
	}
	high := map[bool]string{false: "charged", true: "taken"}[limit.Known && limit.Num >= 4.2]
	return map[string]string{"crbr": "fits", "brcr": "weaker", "brlir": "weaker", "lircr": high, "lirbr": high, "crlir": "other"}[a+c]
}

// sold lists the counts whose chains have one width, the widest first; 13 of the wider
// kind is as wide as 12.
var sold = [][]int{{1, 2, 3, 4}, {5, 6, 7, 8}, {9}, {10}, {11}, {12}, {13}, {14}, {15}, {16}}

func against(b bike) (any, bool) {
	chain, join := b.value("chain.speeds"), b.value("chain_connector.speeds")
	if !chain.Known || !join.Known {
		return "not-said", true
	}
	at := func(n float64) int {
		return slices.IndexFunc(sold, func(l []int) bool { return slices.Contains(l, int(n)) })
	}
	n := chain.Num
	if class := b.text("chain.inner_class"); n == 13 && class != "" && class != "narrow" {
		n = 12
	}
	if slices.Contains(b.list("chain.also_for"), join.Num) {
		return "same", true
	}
	return map[int]string{-1: "wider", 0: "same", 1: "narrower-by-one", 2: "narrower-by-more"}[min(max(at(join.Num)-at(n), -1), 2)], true
}

// published are the ends of what is published of so many cogs, by the file of it.
type published struct{ spacing, thickness, chain float64 }

func publishedFor(n int) (p published, ok bool) {
	_, text := usual.Counts()
	var file struct {
		Counts []struct {
			Kind      string
			Of        []int
			Class     []string
			Spacing   []float64 `yaml:"pitch_mm"`
			Thickness []float64 `yaml:"cog_thickness_mm"`
			Outer     []float64 `yaml:"outer_width_mm"`
		}
	}
	if err := yaml.Unmarshal(text, &file); err != nil {
		panic(fmt.Sprintf("reckon: %v", err))
	}
	p = published{0, math.Inf(1), math.Inf(1)}
	for _, l := range file.Counts {
		if !slices.Contains(l.Of, n) || l.Class != nil {
			continue
		}
		if len(l.Spacing) == 3 && len(l.Thickness) == 3 {
			p.spacing, p.thickness = max(p.spacing, l.Spacing[2]), min(p.thickness, l.Thickness[1])
		}
		if len(l.Outer) == 3 {
			p.chain = min(p.chain, l.Outer[1])
		}
	}
	return p, p.spacing > 0 && !math.IsInf(p.chain, 1)
}

// overlap is how far a connector as narrow as any for its count lies over the next cog at
// the widest spacing and the thinnest cogs that are published.
func overlap(b bike) (any, bool) {
	n := b.num("chain.speeds")
	if count := b.value("figures.cog_count"); count.Known {
		n = count.Num
	}
	cogs, there := publishedFor(int(n))
	join, sold := publishedFor(int(b.num("chain_connector.speeds")))
	if !there || !sold {
		return 0.0, true
	}
	return max(0, exact([]float64{join.chain / 2, cogs.thickness / 2}, cogs.spacing)), true
}

// smallest is the smallest cog of a hub's body, where the drivers are known to carry one
// of so many teeth.
func smallest(b bike, driver float64) float64 {
	of := map[string]float64{"spline-23": 10, "driver-bmx": 8, "spline-8-short": 9, "driver-10": driver, "driver-10-long": driver}
	for _, body := range []string{"spline-9", "spline-9-deep", "spline-road-12", "spline-8", "spline-8-deep"} {
		of[body] = 11
	}
	body := b.text("hub.freehub")
	if said := b.value("hub.min_cog_t"); said.Known {
		if strings.HasPrefix(body, "driver-10") && driver < 10 {
			return min(said.Num, driver)
		}
		return said.Num
	}
	return of[body]
}

var ofIndex = []string{"rear_shifter", "rear_derailleur", "cassette"}

// family says whether the three state one family.
func family(b bike) bool {
	words := map[string]bool{}
	for _, kind := range ofIndex {
		words[b.text(kind+".index_family")] = true
	}
	return len(words) == 1 && !words[""]
}

// shared says whether a name stands in the lists of all three, by counting.
func shared(b bike, list string) bool {
	times := map[string]int{}
	for _, kind := range ofIndex {
		for _, name := range b.value(kind + "." + list).Words() {
			times[name]++
		}
	}
	for _, n := range times {
		if n == 3 {
			return true
		}
	}
	return false
}

// joint is how a ring or a crank is said to be joined.
type joint struct{ splines, bolts, named bool }

func joined(b bike, kind string) joint {
	j := joint{named: b.known(kind + ".direct_name"), bolts: b.known(kind+".bolt_circle_mm") || b.known(kind+".bolts")}
	j.splines = j.named && !j.bolts
	if word := b.value(kind + ".bolt_pattern"); word.Known {
		j.splines = word.Text == "direct"
	}
	return j
}

// ringCompared goes by what each of the two says, a letter for each.
func ringCompared(b bike) (any, bool) {
	ring, crank := joined(b, "chainring"), joined(b, "crankset")
	own, of := b.value("chainring.bolt_circle_mm"), b.value("crankset.bolt_circle_mm")
	alone := func(field string) bool { return b.known("chainring."+field) != b.known("crankset."+field) }
	words := []struct {
		is   bool
		word string
	}{
		{ring.splines && crank.splines, "all"}, {ring.splines != crank.splines, "splines"}, {own.Known != of.Known, "circle"},
		{own.Num >= 109-1e-9 && own.Num <= 111+1e-9 && of.Num >= 109-1e-9 && of.Num <= 111+1e-9 && (alone("bolts") || alone("bolt_pattern")), "bolts"},
	}
	for _, w := range words {
		if w.is {
			return w.word, true
		}
	}
	return "all", true
}
