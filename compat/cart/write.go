package cart

import (
	"io"
	"strconv"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/internal/wire"
)

// MarshalJSON writes the report, schema_version 1. Every key is always there and
// no list is null. Same cart, same rules, same parts: same bytes.
//
// json.NewEncoder and json.Marshal go over the finished bytes once more, to check and
// to compact them, which costs more than making them. A server calls WriteTo.
func (r Report) MarshalJSON() ([]byte, error) { return r.AppendJSON(nil), nil }

// AppendJSON appends the bytes of MarshalJSON to dst.
func (r Report) AppendJSON(dst []byte) []byte {
	dst = r.appendHead(dst)
	for i := range r.Bikes {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendBike(dst, r.place(i), &r.Bikes[i])
	}
	return r.appendEnd(dst)
}

// appendHead appends what stands before the bicycles.
func (r *Report) appendHead(dst []byte) []byte {
	dst = wire.AppendString(append(dst, `{"schema_version":1,"tool":`...), "cogcourt "+compat.Version)
	dst = r.rules.AppendJSON(append(dst, `,"rules":`...))
	dst = wire.AppendString(append(dst, `,"cart":`...), r.Name)
	dst = append(append(append(dst, `,"verdict":"`...), r.Verdict.String()...), `","complete":`...)
	dst = append(strconv.AppendBool(dst, r.Complete), `,"lines":[`...)
	for i := range r.Lines {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendLine(dst, i+1, &r.Lines[i])
	}
	return append(dst, `],"bikes":[`...)
}

// appendEnd appends what stands behind them.
func (r *Report) appendEnd(dst []byte) []byte {
	return append(wire.AppendList(append(dst, `],"mendings":`...), r.Mendings, appendMending), '}')
}

// WriteTo writes the bytes of MarshalJSON in one piece, without a line end.
func (r Report) WriteTo(w io.Writer) (int64, error) { return wire.WriteTo(w, r.AppendJSON) }

func appendLine(dst []byte, number int, l *LineResult) []byte {
	dst = strconv.AppendInt(append(dst, `{"line":`...), int64(number), 10)
	dst = wire.AppendString(append(dst, `,"id":`...), l.ID)
	dst = wire.AppendString(append(dst, `,"sku":`...), l.SKU)
	dst = wire.AppendString(append(dst, `,"name":`...), l.Name)
	dst = strconv.AppendInt(append(dst, `,"quantity":`...), int64(l.Quantity), 10)
	dst = wire.AppendString(append(dst, `,"bike":`...), l.Bike)
	dst = append(append(append(dst, `,"use":"`...), l.Use.String()...), `","bikes":`...)
	dst = append(wire.AppendStrings(dst, l.Bikes), `,"spare":`...)
	dst = append(strconv.AppendInt(dst, int64(l.Spare), 10), `,"note":`...)
	return append(wire.AppendString(dst, l.Note), '}')
}

// appendBike appends what the cart changes on a bicycle, and the bicycle as it will be.
func appendBike(dst []byte, place int, c *compat.Change) []byte {
	dst = wire.AppendString(append(dst, `{"bike":`...), c.After.Mix.Name())
	dst = strconv.AppendInt(append(dst, `,"bike_index":`...), int64(place), 10)
	dst = c.AppendJSON(append(dst, `,"change":`...))
	return append(c.After.AppendJSON(append(dst, `,"report":`...)), '}')
}

// appendMending appends what would mend a bicycle. Looking for it takes so much longer than
// writing it that fit leaves that to encoding/json.
func appendMending(dst []byte, m Mending) []byte {
	dst = wire.AppendString(append(dst, `{"bike":`...), m.Bike)
	dst = strconv.AppendInt(append(dst, `,"bike_index":`...), int64(m.Place), 10)
	return append(wire.AppendAny(append(dst, `,"mending":`...), m.Mending), '}')
}
