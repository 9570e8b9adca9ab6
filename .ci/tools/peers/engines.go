package main

import (
	"context"
	"log"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
	"github.com/google/cel-go/cel"
	regolib "github.com/open-policy-agent/opa/v1/rego"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules/fact"
)

// factsOf gives a part's facts as maps hold them: every number a float64.
func factsOf(p catalog.Part) map[string]any {
	out := map[string]any{}
	for i, f := range p.Record().Object().Table().Fields() {
		v := p.Record().Value(i)
		switch {
		case !v.Known:
		case v.List != nil:
			out[f.Name] = v.List
		case v.Words() != nil:
			out[f.Name] = v.Words()
		case f.Type == fact.Choice || f.Type == fact.Name:
			out[f.Name] = v.Text
		case f.Type == fact.Flag:
			out[f.Name] = v.Num != 0
		default:
			out[f.Name] = v.Num
		}
	}
	return out
}

// without leaves out what another spelling of the same thing says.
func without(f map[string]any) map[string]any {
	delete(f, "stack_height_mm")
	return f
}

// figureNames are the figures that the checks read.
var figureNames = []string{"chain_wrap_t", "index_residual_share", "index_offset_mm", "neighbour_gap_mm", "chain_margin_pitches", "backpedal_entry_mm"}

// withFigures works out the figures and puts them beside the facts, as every
// engine but cogcourt must be given them.
func withFigures(m mixed, figs figures.Figures) map[string]any {
	out := make(map[string]any, len(m.facts)+1)
	for kind, f := range m.facts {
		out[kind] = f
	}
	values := make(map[string]any, len(figureNames))
	for _, name := range figureNames {
		v, _ := figs.Value(name)
		values[name] = v.Num
	}
	out["figures"] = values
	return out
}

func word(fail, warn bool) string {
	switch {
	case fail:
		return "fail"
	case warn:
		return "warn"
	}
	return "pass"
}

// handwritten is the same in plain Go: facts by name once a mix, then ifs.
func handwritten() engine {
	refs := map[string]func(m compat.Mix) fact.Value{}
	for kind, names := range map[string][]string{
		"rear_shifter": {"actuation", "radio"}, "rear_derailleur": {"actuation", "radio", "max_cog_t", "capacity_t", "trim_range_mm"},
		"cassette": {"cogs_t", "roller_class", "freehub"}, "chain": {"roller_class"}, "crankset": {"roller_class"}, "hub": {"over_locknut_mm", "freehub"}, "frame": {"over_locknut_mm"},
	} {
		object, _ := catalog.Kind(kind)
		for _, name := range names {
			ref := object.Ref(name)
			refs[kind+"."+name] = func(m compat.Mix) fact.Value { p, _ := m.Part(kind); return ref.In(p.Record()) }
		}
	}
	get := func(name string) func(m compat.Mix) fact.Value { return refs[name] }
	shifterDrive, rearDrive, shifterRadio, rearRadio := get("rear_shifter.actuation"), get("rear_derailleur.actuation"), get("rear_shifter.radio"), get("rear_derailleur.radio")
	cogs, maxCog, capacity, trim := get("cassette.cogs_t"), get("rear_derailleur.max_cog_t"), get("rear_derailleur.capacity_t"), get("rear_derailleur.trim_range_mm")
	chainRoller, cassetteRoller, ringRoller := get("chain.roller_class"), get("cassette.roller_class"), get("crankset.roller_class")
	hubWidth, frameWidth, cassetteHub, hub := get("hub.over_locknut_mm"), get("frame.over_locknut_mm"), get("cassette.freehub"), get("hub.freehub")
	decide := func(x mixed, figs figures.Figures, out []string) {
		m := x.mix
		num := func(name string) float64 { v, _ := figs.Value(name); return v.Num }
		list := cogs(m).List
		over := list[len(list)-1] - maxCog(m).Num
		wrap := num("chain_wrap_t") - capacity(m).Num
		share, gap, margin := num("index_residual_share"), num("neighbour_gap_mm"), num("chain_margin_pitches")
		off := math.Abs(hubWidth(m).Num - frameWidth(m).Num)
		large := chainRoller(m).Text == "large" && (cassetteRoller(m).Text == "standard" || ringRoller(m).Text == "standard")
		copy(out, []string{
			word(shifterDrive(m).Text != rearDrive(m).Text, false), word(shifterRadio(m).Text != rearRadio(m).Text, false),
			word(over > 4, over > 0), word(wrap > 3, wrap > 0), word(share > 0.2, share > 0.125),
			word(false, math.Abs(num("index_offset_mm")) > trim(m).Num/2), word(gap < -0.08, gap < 0.05), word(large, false),
			word(margin < 1, margin < 1.95), word(off > 3, off > 1), word(!slices.Contains(cassetteHub(m).Words(), hub(m).Text), false), word(false, num("backpedal_entry_mm") > 0.82),
		})
	}
	return engine{
		name:   "hand-written Go",
		judge:  func(x mixed, out []string) { decide(x, compat.Measure(x.mix), out) },
		decide: func(x mixed, out []string) { decide(x, x.figures, out) },
	}
}

// onMaps makes both ways of judging from one that is given facts and figures.
func onMaps(name string, start time.Time, decide func(in map[string]any, out []string)) engine {
	return engine{
		name: name, load: time.Since(start), maps: true,
		judge:  func(m mixed, out []string) { decide(withFigures(m, compat.Measure(m.mix)), out) },
		decide: func(m mixed, out []string) { decide(m.all, out) },
	}
}

func cogcourt() engine {
	start := time.Now()
	c, err := compat.New(compat.Config{NoStandard: true, Rules: asFS(pack())})
	if err != nil {
		log.Fatal(err)
	}
	e := engine{name: "cogcourt", load: time.Since(start)}
	place := map[string]int{}
	for i, c := range checks {
		place[c.id] = i
	}
	e.judge = func(m mixed, out []string) {
		for _, v := range c.Check(m.mix).Verdicts() {
			out[place[v.Rule]] = v.Verdict.String()
		}
	}
	e.line = func(m mixed, out []string) {
		line, _ := c.AppendCheck(nil, read(m.line), compat.ExtentVerdict, 1)
		written(line, place, out)
	}
	var dst []byte // is used again, as a program that writes many lines does
	e.timed = func(m mixed, _ []string) { dst, _ = c.AppendCheck(dst[:0], read(m.line), compat.ExtentVerdict, 1) }
	set := c.Rules()
	e.decide = func(m mixed, out []string) {
		for i, f := range set.Evaluate(m.records).Findings {
			out[i] = f.Verdict.String()
		}
	}
	return e
}

// naiveCEL is cel-go as most programs use it: variables that are maps, one
// program a condition, evaluated one by one.
func naiveCEL() engine {
	start := time.Now()
	var opts []cel.EnvOption
	for _, kind := range []string{"rear_shifter", "rear_derailleur", "cassette", "chain", "crankset", "hub", "frame", "figures"} {
		opts = append(opts, cel.Variable(kind, cel.MapType(cel.StringType, cel.DynType)))
	}
	env, err := cel.NewEnv(opts...)
	if err != nil {
		log.Fatal(err)
	}
	compile := func(own, text string) cel.Program {
		if own != "" {
			text = own
		}
		if text == "" {
			return nil
		}
		ast, iss := env.Compile(fractions(text))
		if iss.Err() != nil {
			log.Fatal(iss.Err())
		}
		p, err := env.Program(ast)
		if err != nil {
			log.Fatal(err)
		}
		return p
	}
	type both struct{ fail, warn cel.Program }
	var programs []both
	for _, c := range checks {
		programs = append(programs, both{compile(c.celFail, c.fail), compile(c.celWarn, c.warn)})
	}
	truth := func(p cel.Program, in map[string]any) bool {
		if p == nil {
			return false
		}
		v, _, err := p.Eval(in)
		if err != nil {
			log.Fatal(err)
		}
		return v.Value() == true
	}
	return onMaps("cel-go on maps", start, func(in map[string]any, out []string) {
		for i, p := range programs {
			fail := truth(p.fail, in)
			out[i] = word(fail, !fail && truth(p.warn, in))
		}
	})
}

// fractions writes whole numbers of a condition as fractions, which is what maps
// of float64 need.
func fractions(text string) string {
	for _, pair := range [][2]string{{"> 4", "> 4.0"}, {"> 3", "> 3.0"}, {"> 0", "> 0.0"}} {
		if strings.HasSuffix(text, pair[0]) {
			return strings.TrimSuffix(text, pair[0]) + pair[1]
		}
	}
	return text
}

func exprLang() engine {
	start := time.Now()
	compile := func(text string) *vm.Program {
		if text == "" {
			return nil
		}
		p, err := expr.Compile(text, expr.AsBool(), expr.AllowUndefinedVariables())
		if err != nil {
			log.Fatal(err)
		}
		return p
	}
	type both struct{ fail, warn *vm.Program }
	var programs []both
	for _, c := range checks {
		programs = append(programs, both{compile(c.fail), compile(c.warn)})
	}
	var machine vm.VM
	truth := func(p *vm.Program, in map[string]any) bool {
		if p == nil {
			return false
		}
		v, err := machine.Run(p, in)
		if err != nil {
			log.Fatal(err)
		}
		return v == true
	}
	return onMaps("expr", start, func(in map[string]any, out []string) {
		for i, p := range programs {
			fail := truth(p.fail, in)
			out[i] = word(fail, !fail && truth(p.warn, in))
		}
	})
}

func rego() engine {
	start := time.Now()
	ctx := context.Background()
	q, err := regolib.New(regolib.Query("data.peers"), regolib.Module("peers.rego", module())).PrepareForEval(ctx)
	if err != nil {
		log.Fatal(err)
	}
	return onMaps("opa", start, func(in map[string]any, out []string) {
		rs, err := q.Eval(ctx, regolib.EvalInput(in))
		if err != nil {
			log.Fatal(err)
		}
		found := rs[0].Expressions[0].Value.(map[string]any)
		has := func(set, id string) bool {
			list, _ := found[set].([]any)
			return slices.Contains(list, any(id))
		}
		for i, c := range checks {
			out[i] = word(has("fails", c.id), has("warns", c.id))
		}
	})
}
