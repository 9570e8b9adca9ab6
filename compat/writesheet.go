package compat

import (
	"io"

	"example.org/cogcourt/compat/internal/wire"
)

// MarshalJSON writes the sheet. Same mix, same rules: same bytes. json.NewEncoder and
// json.Marshal go over the bytes once more; see Report.MarshalJSON.
func (s Sheet) MarshalJSON() ([]byte, error) { return s.AppendJSON(nil), nil }

// AppendJSON appends the bytes of MarshalJSON to dst.
func (s Sheet) AppendJSON(dst []byte) []byte {
	dst = s.report.RuleSet().AppendJSON(append(appendVersion(dst), `,"rules":`...))
	dst = wire.AppendString(append(dst, `,"mix":`...), s.Mix.name)
	dst = append(append(append(dst, `,"verdict":"`...), s.Verdict.String()...), `","assumed":`...)
	dst = wire.AppendList(dst, s.Assumed, appendAssumption)
	dst = wire.AppendList(append(dst, `,"stops":`...), s.Stops, appendStop)
	dst = wire.AppendList(append(dst, `,"steps":`...), s.Steps, appendStep)
	dst = wire.AppendList(append(dst, `,"bolts":`...), s.Bolts(), appendBolt)
	return append(wire.AppendStrings(append(dst, `,"cautions":`...), s.Cautions()), '}')
}

// WriteTo writes the bytes of MarshalJSON in one piece, without a line end.
func (s Sheet) WriteTo(w io.Writer) (int64, error) { return wire.WriteTo(w, s.AppendJSON) }

func appendAssumption(dst []byte, a Assumption) []byte {
	dst = wire.AppendString(append(dst, `{"name":`...), a.Name)
	dst = wire.AppendAny(append(dst, `,"value":`...), a.Value)
	dst = wire.AppendString(append(dst, `,"unit":`...), a.Unit)
	dst = wire.AppendString(append(dst, `,"doc":`...), a.Doc)
	return append(wire.AppendString(append(dst, `,"said":`...), a.Said), '}')
}

func appendStop(dst []byte, s Stop) []byte {
	dst = wire.AppendString(append(dst, `{"rule":`...), s.Rule)
	dst = wire.AppendString(append(dst, `,"text":`...), s.Text)
	return append(wire.AppendString(append(dst, `,"step":`...), s.Step), '}')
}

func appendStep(dst []byte, s SheetStep) []byte {
	dst = wire.AppendString(append(dst, `{"id":`...), s.ID)
	dst = wire.AppendString(append(dst, `,"part":`...), s.Part)
	dst = wire.AppendString(append(dst, `,"do":`...), s.Do)
	dst = wire.AppendString(append(dst, `,"value":`...), s.Value)
	dst = wire.AppendString(append(dst, `,"check":`...), s.Check)
	dst = wire.AppendString(append(dst, `,"because":`...), s.Because)
	dst = wire.AppendString(append(dst, `,"caution":`...), s.Caution)
	dst = wire.AppendList(append(dst, `,"missing":`...), s.Missing, appendMissing)
	return append(wire.AppendStrings(append(dst, `,"measured":`...), s.Measured), '}')
}

func appendBolt(dst []byte, b Bolt) []byte {
	dst = wire.AppendString(append(dst, `{"bolt":`...), b.Bolt)
	dst = wire.AppendString(append(dst, `,"wanted":`...), b.Wanted)
	return append(wire.AppendString(append(dst, `,"fact":`...), b.Fact), '}')
}
