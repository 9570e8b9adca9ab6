package compat

import (
	"io"
	"sync"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// MarshalJSON writes the report. Same mix, same rules: same bytes.
//
// json.NewEncoder and json.Marshal go over the finished bytes once more, to check
// and to compact them, which costs more than making them. Who writes many reports
// calls AppendJSON or WriteTo.
func (r Report) MarshalJSON() ([]byte, error) { return r.AppendJSON(r.room()), nil }

// Brief is MarshalJSON without the findings that pass. Everything else is there.
func (r Report) Brief() ([]byte, error) { return r.AppendBrief(r.room()), nil }

// AppendJSON appends the bytes of MarshalJSON to dst. Into memory that has room it
// allocates little: who writes many reports gives it the same again.
func (r Report) AppendJSON(dst []byte) []byte { return r.append(dst, true) }

// AppendBrief appends the bytes of Brief to dst.
func (r Report) AppendBrief(dst []byte) []byte { return r.append(dst, false) }

// WriteTo writes the bytes of MarshalJSON in one piece, without a line end.
func (r Report) WriteTo(w io.Writer) (int64, error) { return wire.WriteTo(w, r.AppendJSON) }

// room makes memory for a report about as large as the last one.
func (r Report) room() []byte {
	if r.checker == nil || r.checker.printed == nil {
		return nil
	}
	size := int(r.checker.printed.size.Load())
	return make([]byte, 0, size+size/4)
}

// writer writes one report. Its memory serves the next one.
type writer struct {
	r       Report
	dst     []byte
	printed *printed
	speaker *rules.Speaker
	doubts  *figures.Doubts // begun when first asked for
	told    told            // texts that are made already
	here    uint64          // the kinds in the mix, by their places

	text           []byte // one text, before its quotes
	assumed, usual []string
	wants          wants
	named          []rules.Named
	said           map[string]int // sentences of caution, by the report that said them last
	round          int
}

var writers = sync.Pool{New: func() any { return &writer{said: map[string]int{}} }}

// append writes the report with the findings that pass, or without.
func (r Report) append(dst []byte, passes bool) []byte {
	w := writers.Get().(*writer)
	w.begin(r, dst)
	w.head()
	w.findings(passes)
	w.figures()
	w.usuals()
	w.worst()
	w.notApplied()
	w.dst = wire.AppendList(append(w.dst, `,"not_judged":`...), r.NotJudged(), appendNotJudged)
	w.dst = wire.AppendList(append(w.dst, `,"missing":`...), r.Missing(), appendMissing)
	w.needs()
	w.cautions()
	w.dst = append(w.dst, '}')
	if w.printed != nil {
		w.printed.size.Store(int64(len(w.dst) - len(dst)))
	}
	return w.end()
}

func (w *writer) begin(r Report, dst []byte) {
	w.r, w.dst, w.here = r, dst, 0
	if r.told != nil {
		w.told = *r.told
	}
	if w.round++; len(w.said) > 1000 { // sentences with numbers in them
		clear(w.said)
	}
	if r.checker != nil {
		w.printed = r.checker.printed
	}
	if r.result != nil {
		w.speaker = r.result.Speak()
	}
	for i := range r.Mix.parts {
		if r.Mix.facts.Part(i) != nil {
			w.here |= 1 << i
		}
	}
}

// end gives the finished bytes, and the memory back without holding on to anything of
// the report.
func (w *writer) end() []byte {
	out := w.dst
	if w.speaker != nil {
		w.speaker.Close()
	}
	if w.doubts != nil {
		w.doubts.Close()
	}
	clear(w.assumed[:cap(w.assumed)])
	clear(w.usual[:cap(w.usual)])
	clear(w.wants.list)
	w.r, w.dst, w.printed, w.speaker, w.doubts, w.told = Report{}, nil, nil, nil, nil, told{}
	writers.Put(w)
	return out
}

// appendVersion appends what every document begins with.
func appendVersion(dst []byte) []byte {
	return wire.AppendString(append(dst, `{"schema_version":1,"tool":`...), "cogcourt "+Version)
}

// headed appends what every report of a Checker begins with, its rules last.
func (w *writer) headed() []byte {
	if w.printed != nil {
		return append(w.dst, w.printed.head...)
	}
	return w.r.RuleSet().AppendJSON(append(appendVersion(w.dst), `,"rules":`...))
}

// head writes everything before the findings.
func (w *writer) head() {
	r := &w.r
	dst := wire.AppendString(append(w.headed(), `,"catalog":`...), r.Mix.catalog)
	dst = wire.AppendString(append(dst, `,"mix":`...), r.Mix.name)
	dst = append(append(append(dst, `,"scope":"`...), r.Mix.scope.String()...), `","parts":[`...)
	comma := false
	for i := range r.Mix.parts {
		if w.here&(1<<i) == 0 {
			continue
		}
		p := r.Mix.parts[i]
		if comma {
			dst = append(dst, ',')
		}
		comma = true
		dst = append(append(dst, `{"kind":"`...), p.Kind()...)
		dst = wire.AppendString(append(dst, `","id":`...), p.ID())
		dst = wire.AppendString(append(dst, `,"name":`...), p.Name())
		dst = append(wire.AppendString(append(dst, `,"basis":`...), p.Basis()), '}')
	}
	dst = append(append(append(dst, `],"verdict":"`...), r.Verdict.String()...), `","complete":`...)
	dst = append(append(dst, truth(r.Complete)...), `,"absent":`...)
	w.dst = wire.AppendStrings(dst, r.Absent())
}

// figureHeads is what stands before each figure's value.
var figureHeads = func() (out []string) {
	for _, f := range figures.Object.Table().Fields() {
		out = append(out, quoted(f.Name)+":")
	}
	return out
}()

// figures writes those that have a value.
func (w *writer) figures() {
	dst := append(w.dst, `,"figures":{`...)
	if rec := w.r.Figures.Record(); rec != nil {
		comma := false
		fields := figures.Object.Table().Fields()
		for i := range fields {
			v := rec.At(i)
			if !v.Known {
				continue
			}
			if comma {
				dst = append(dst, ',')
			}
			comma = true
			dst = appendValue(append(dst, figureHeads[i]...), v, fields[i].Type)
		}
	}
	w.dst = append(dst, '}')
}

// usuals writes the usual values that stand in the facts.
func (w *writer) usuals() {
	dst := append(w.dst, `,"usual":[`...)
	comma := false
	for _, rec := range w.r.Figures.Records() {
		if rec == nil || rec.Object() == figures.Object {
			continue
		}
		fields := rec.Object().Table().Fields()
		for i := range fields {
			v := rec.At(i)
			if !v.Known || v.Usual == fact.NotUsual {
				continue
			}
			if comma {
				dst = append(dst, ',')
			}
			comma = true
			dst = appendUsual(dst, rec.Object().Name(), &fields[i], v)
		}
	}
	w.dst = append(dst, ']')
}

// appendUsual appends a usual value with its spread, which is nothing for what is no
// number, and with its source.
func appendUsual(dst []byte, object string, f *fact.Field, v *fact.Value) []byte {
	dst = append(append(append(append(dst, `{"name":"`...), object...), '.'), f.Name...)
	dst = appendValue(append(dst, `","value":`...), v, f.Type)
	spread := fact.Spread{}
	if f.Type == fact.Fraction || f.Type == fact.Whole {
		spread.Least, spread.Most = v.Num, v.Num
	}
	if v.Spread() != nil {
		spread = *v.Spread()
	}
	dst = wire.AppendFloat(append(dst, `,"least":`...), spread.Least)
	dst = wire.AppendFloat(append(dst, `,"most":`...), spread.Most)
	dst = wire.AppendString(append(dst, `,"unit":`...), f.Unit)
	return append(wire.AppendString(append(dst, `,"source":`...), spread.Source), '}')
}

// worst writes the bounds of figures in the order of their names.
func (w *writer) worst() {
	w.dst = append(w.dst, `,"worst":{`...)
	comma := false
	w.r.Figures.EachWorst(func(name string, bounds [2]float64) {
		if comma {
			w.dst = append(w.dst, ',')
		}
		comma = true
		w.dst = wire.AppendFloats(append(append(append(w.dst, '"'), name...), `":`...), bounds[:])
	})
	w.dst = append(w.dst, '}')
}

// notApplied writes the rules that had nothing to say.
func (w *writer) notApplied() {
	dst := append(w.dst, `,"not_applied":[`...)
	if w.r.result != nil {
		for i := range w.r.result.NotApplied {
			n := &w.r.result.NotApplied[i]
			if i > 0 {
				dst = append(dst, ',')
			}
			dst = w.printed.rule(n.Rule).appendIdle(dst, n)
		}
	}
	w.dst = append(dst, ']')
}

func appendNotJudged(dst []byte, n NotJudged) []byte {
	dst = wire.AppendString(append(dst, `{"what":`...), n.What)
	dst = wire.AppendString(append(dst, `,"text":`...), n.Text)
	dst = wire.AppendString(append(dst, `,"caution":`...), n.Caution)
	return append(append(append(dst, `,"drive":`...), truth(n.Drive)...), '}')
}

func appendMissing(dst []byte, m Missing) []byte {
	dst = wire.AppendString(append(dst, `{"name":`...), m.Name)
	dst = wire.AppendString(append(dst, `,"doc":`...), m.Doc)
	dst = wire.AppendString(append(dst, `,"how":`...), m.How)
	dst = wire.AppendString(append(dst, `,"unit":`...), m.Unit)
	return append(wire.AppendStrings(append(dst, `,"rules":`...), m.Rules), '}')
}

// needs writes what to order.
func (w *writer) needs() {
	w.dst = append(w.dst, `,"needs":`...)
	if w.speaker == nil {
		w.dst = append(w.dst, "[]"...)
		return
	}
	w.wants.gather(&w.r, w.speaker)
	dst := append(w.dst, '[')
	for i := range w.wants.list {
		if i > 0 {
			dst = append(dst, ',')
		}
		n := &w.wants.list[i].need
		dst = wire.AppendString(append(dst, `{"what":`...), w.wants.what(i))
		dst = wire.AppendFloat(append(dst, `,"value":`...), n.Value)
		dst = wire.AppendString(append(dst, `,"unit":`...), n.Unit)
		dst = append(wire.AppendString(append(dst, `,"thing":`...), n.Thing), '}')
	}
	w.dst = append(dst, ']')
}
