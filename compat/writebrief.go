package compat

import (
	"strconv"

	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// AppendLine appends as much of the report as is wanted, without a line end. The number
// of the mix's line, from 1, stands in the lines of ExtentFindings and ExtentVerdict; 0
// is for a mix that was none.
func (r Report) AppendLine(dst []byte, extent Extent, line int) []byte {
	switch extent {
	case ExtentVerdict:
		return r.appendVerdict(dst, line)
	case ExtentFindings:
		return r.appendFindings(dst, line)
	case ExtentBrief:
		return r.AppendBrief(dst)
	}
	return r.AppendJSON(dst)
}

// AppendCheck judges a mix and appends what AppendLine does of its Report. It keeps
// nothing of that, and so its memory serves the next mix: who writes many lines and looks
// at no Report allocates a third.
func (c *Checker) AppendCheck(dst []byte, m Mix, extent Extent, line int) ([]byte, rules.Verdict) {
	verdict := rules.Unknown
	c.checkOnce(m, func(r Report) { dst, verdict = r.AppendLine(dst, extent, line), r.Verdict })
	return dst, verdict
}

func (r Report) appendVerdict(dst []byte, line int) []byte {
	dst = r.appendBriefHead(dst, ExtentVerdict, line)
	for _, of := range [...]struct {
		key     string
		verdict rules.Verdict
	}{{`,"fails":[`, rules.Fail}, {`,"unknowns":[`, rules.Unknown}, {`,"warns":[`, rules.Warn}} {
		dst = append(dst, of.key...)
		comma := false
		for i := range r.findings {
			if r.findings[i].Verdict != of.verdict {
				continue
			}
			if comma {
				dst = append(dst, ',')
			}
			comma = true
			dst = wire.AppendString(dst, r.findings[i].Rule.ID)
		}
		dst = append(dst, ']')
	}
	return r.appendBriefEnd(dst)
}

// appendBriefHead appends what both begin with.
func (r Report) appendBriefHead(dst []byte, extent Extent, line int) []byte {
	var counts [4]int
	verdicts := [...]rules.Verdict{rules.Fail, rules.Unknown, rules.Warn, rules.Pass}
	for i := range r.findings {
		for k, v := range verdicts {
			if r.findings[i].Verdict == v {
				counts[k]++
			}
		}
	}
	dst = append(append(append(dst, `{"schema_version":1,"brief":"`...), extent.String()...), `","line":`...)
	dst = wire.AppendString(append(strconv.AppendInt(dst, int64(line), 10), `,"mix":`...), r.Mix.name)
	dst = append(append(append(dst, `,"verdict":"`...), r.Verdict.String()...), `","complete":`...)
	dst = append(strconv.AppendBool(dst, r.Complete), `,"counts":{`...)
	for k, v := range verdicts {
		if k > 0 {
			dst = append(dst, ',')
		}
		dst = strconv.AppendInt(append(append(append(dst, '"'), v.String()...), `":`...), int64(counts[k]), 10)
	}
	return append(dst, '}')
}

// appendBriefEnd appends what both end with.
func (r Report) appendBriefEnd(dst []byte) []byte {
	return append(wire.AppendString(append(dst, `,"rules":`...), r.RuleSet().Hash), '}')
}

func (r Report) appendFindings(dst []byte, line int) []byte {
	w := writers.Get().(*writer)
	w.begin(r, r.appendBriefHead(dst, ExtentFindings, line))
	w.dst = append(w.dst, `,"findings":[`...)
	comma := false
	for i := range r.findings {
		f := &r.findings[i]
		if f.Verdict == rules.Pass {
			continue
		}
		if comma {
			w.dst = append(w.dst, ',')
		}
		comma = true
		w.briefFinding(f)
	}
	w.dst = r.appendBriefEnd(append(w.dst, ']'))
	return w.end()
}

// briefFinding writes what was found, without what the rule says of every mix.
func (w *writer) briefFinding(f *rules.Finding) {
	p := w.printed.rule(f.Rule)
	w.dst = append(append(append(w.dst, p.head...), f.Verdict.String()...), `","text":`...)
	w.text = w.speaker.AppendText(w.text[:0], *f)
	w.dst = append(wire.AppendString(w.dst, w.text), `,"remedy":`...)
	w.text = w.speaker.AppendRemedy(w.text[:0], *f)
	w.dst = append(wire.AppendString(w.dst, w.text), `,"used":[`...)
	w.eachUsed(f, p, func(read *printedRead, _ *fact.Value) {
		unit := read.Object.Table().Fields()[read.Index].Unit
		w.dst = append(wire.AppendString(append(w.dst, `,"unit":`...), unit), '}')
	})
	w.values(f)
	w.dst = append(wire.AppendStrings(append(w.dst, `},"missing":`...), f.Missing), '}')
}
