package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// memory is the source of what is common knowledge of the trade.
const memory = "memory"

// Part prints one part whole: each fact with its unit, and a usual one with its
// spread and who says so.
func Part(w io.Writer, p catalog.Part, citations []rules.Citation) {
	wrap(w, p.ID()+"  ", 2, "("+p.Kind()+")")
	wrap(w, "", 0, full(strings.TrimSpace(p.Maker()+" "+p.Name())))
	for _, line := range [][2]string{{"Basis: ", p.Basis()}, {"Price: ", p.Price()}, {"SKU:   ", p.SKU()}} {
		if line[1] != "" {
			wrap(w, line[0], 7, line[1])
		}
	}
	for i, f := range p.Record().Object().Table().Fields() {
		if v := p.Record().Value(i); v.Known {
			text := exactText(v, f)
			if more := spreadText(p, v, f, citations); more != "" {
				text += ", " + more
			}
			wrap(w, fmt.Sprintf("  %-24s ", f.Name), 27, text)
		}
	}
}

// exactText prints a value with its unit and tolerance, every digit of it.
func exactText(v fact.Value, f fact.Field) string {
	var text string
	switch f.Type {
	case fact.Fraction, fact.Whole:
		text = withTolerance(v.Num, v.Tol)
	case fact.Fractions, fact.Wholes:
		each := make([]string, len(v.List))
		for i, x := range v.List {
			tol := 0.0
			if v.Tols() != nil {
				tol = v.Tols()[i]
			}
			each[i] = withTolerance(x, tol)
		}
		text = "[" + strings.Join(each, ", ") + "]"
	default:
		return valueText(v, f)
	}
	return strings.TrimSpace(text + " " + unitText(f.Unit))
}

func withTolerance(x, tol float64) string {
	if tol == 0 {
		return rules.Decimal(x, -1)
	}
	return rules.Decimal(x, -1) + " ± " + rules.Decimal(tol, -1)
}

// spreadText says how far a usual value goes and who says so, or that a value is a
// default.
func spreadText(p catalog.Part, v fact.Value, f fact.Field, citations []rules.Citation) string {
	if !p.States(f.Name) {
		return "where nobody says otherwise"
	}
	from := p.Source(f.Name)
	if from == "" {
		return ""
	}
	text := "taken as exact"
	if s := v.Spread(); s != nil {
		text = fmt.Sprintf("usual, from %s to %s", rules.Decimal(s.Least, -1), rules.Decimal(s.Most, -1))
	}
	return text + ": " + strings.TrimSuffix(cited(citations, from), ".")
}

// cited is a source in words.
func cited(citations []rules.Citation, id string) string {
	if id == memory {
		return "from memory"
	}
	i := slices.IndexFunc(citations, func(c rules.Citation) bool { return c.ID == id })
	if i < 0 {
		return id
	}
	return fmt.Sprintf("%s (%s; %s)", strings.TrimSuffix(citations[i].What, "."), citations[i].Status, id)
}

// partJSON is one part with all that is known of it.
type partJSON struct {
	Kind  string     `json:"kind"`
	ID    string     `json:"id"`
	Name  string     `json:"name"`
	Maker string     `json:"maker"`
	SKU   string     `json:"sku"`
	Price string     `json:"price"`
	Basis string     `json:"basis"`
	Facts []factJSON `json:"facts"`
}

// factJSON is one fact of a part. Least, most and source are those of a usual value.
type factJSON struct {
	Name      string   `json:"name"`
	Value     any      `json:"value"`
	Unit      string   `json:"unit"`
	Tolerance any      `json:"tolerance"` // of a list, one for each entry; else a number
	Basis     string   `json:"basis"`     // that of the part, or default
	Least     *float64 `json:"least"`
	Most      *float64 `json:"most"`
	Source    string   `json:"source"` // an id, memory, or empty
	Says      string   `json:"says"`   // the source in words
}

// PartJSON gives one part as JSON has it.
func PartJSON(p catalog.Part, citations []rules.Citation) any {
	out := partJSON{p.Kind(), p.ID(), p.Name(), p.Maker(), p.SKU(), p.Price(), p.Basis(), []factJSON{}}
	for i, f := range p.Record().Object().Table().Fields() {
		v := p.Record().Value(i)
		if !v.Known {
			continue
		}
		one := factJSON{Name: f.Name, Value: v.Plain(f.Type), Unit: f.Unit, Tolerance: v.Tol, Basis: p.Basis(), Source: p.Source(f.Name)}
		if v.Tols() != nil {
			one.Tolerance = v.Tols()
		}
		if !p.States(f.Name) {
			one.Basis = "default"
		}
		if one.Source != "" {
			one.Says, one.Least, one.Most = cited(citations, one.Source), &v.Num, &v.Num
		}
		if v.Spread() != nil {
			one.Least, one.Most = &v.Spread().Least, &v.Spread().Most
		}
		out.Facts = append(out.Facts, one)
	}
	return out
}
