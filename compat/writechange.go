package compat

import (
	"io"

	"example.org/cogcourt/compat/internal/wire"
)

// MarshalJSON writes the change, schema_version 1. Every key is always there and
// no list is null. json.NewEncoder and json.Marshal go over the bytes once more; see
// Report.MarshalJSON.
func (c Change) MarshalJSON() ([]byte, error) { return c.AppendJSON(nil), nil }

// AppendJSON appends the bytes of MarshalJSON to dst.
func (c Change) AppendJSON(dst []byte) []byte {
	dst = append(appendSide(append(appendVersion(dst), `,"before":`...), c.Before), `,"after":`...)
	dst = appendSide(dst, c.After)
	dst = wire.AppendList(append(dst, `,"new":`...), c.New, appendChanged)
	dst = wire.AppendList(append(dst, `,"worse":`...), c.Worse, appendChanged)
	dst = wire.AppendList(append(dst, `,"better":`...), c.Better, appendChanged)
	dst = wire.AppendList(append(dst, `,"gone":`...), c.Gone, appendChanged)
	return append(wire.AppendList(append(dst, `,"same":`...), c.Same, appendChanged), '}')
}

// WriteTo writes the bytes of MarshalJSON in one piece, without a line end.
func (c Change) WriteTo(w io.Writer) (int64, error) { return wire.WriteTo(w, c.AppendJSON) }

func appendSide(dst []byte, r Report) []byte {
	dst = wire.AppendString(append(dst, `{"mix":`...), r.Mix.name)
	dst = append(append(append(dst, `,"scope":"`...), r.Mix.scope.String()...), `","verdict":"`...)
	dst = append(append(append(dst, r.Verdict.String()...), `","complete":`...), truth(r.Complete)...)
	return append(r.RuleSet().AppendJSON(append(dst, `,"rules":`...)), '}')
}

func appendChanged(dst []byte, f ChangedFinding) []byte {
	dst = wire.AppendString(append(dst, `{"rule":`...), f.Rule)
	dst = append(append(append(dst, `,"before":"`...), f.Was.String()...), `","after":"`...)
	dst = wire.AppendString(append(append(dst, f.Now.String()...), `","text":`...), f.Text)
	dst = wire.AppendString(append(dst, `,"remedy":`...), f.Remedy)
	dst = wire.AppendString(append(dst, `,"caution":`...), f.Caution)
	dst = append(append(append(dst, `,"safety":`...), truth(f.Safety)...), `,"causes":`...)
	dst = append(wire.AppendList(dst, f.Causes, wire.AppendStrings), `,"lines":`...)
	return append(wire.AppendList(dst, f.Lines, appendNumbers), '}')
}

func appendNumbers(dst []byte, list []int) []byte {
	return wire.AppendList(dst, list, func(dst []byte, n int) []byte { return wire.AppendFloat(dst, float64(n)) })
}
