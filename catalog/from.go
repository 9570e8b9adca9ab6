package catalog

import (
	"context"
	"errors"
	"fmt"
	"iter"

	"example.org/cogcourt/rules/source"
)

// Config says of a whole catalog what part files say at their top.
type Config struct {
	Name     string // what it is called, or empty
	Currency string // of all prices, or empty
}

// From makes a catalog of parts that come one after the other, each with an error of its
// own, such as rows of a database that NewAt makes parts of:
//
//	shed, err := catalog.From(ctx, func(yield func(catalog.Part, error) bool) {
//		for rows.Next() {
//			id, kind, fields, err := scan(rows)
//			if err == nil {
//				part, err = catalog.NewAt(source.Pos{File: "parts, id " + id}, kind, fields)
//			}
//			if !yield(part, err) {
//				return
//			}
//		}
//	}, catalog.Config{Name: "Shed", Currency: "EUR"})
//
// It is made whole or not at all. All faults come together, up to source.MaxProblems:
// those of the errors, each at its own place, and those that Of finds. An error that is
// no source.Problems is kept as it is, so errors.Is finds it, behind "part 17: " with the
// number of its part. Once ctx is done its error comes alone.
func From(ctx context.Context, parts iter.Seq2[Part, error], cfg Config) (*Catalog, error) {
	b := newBuilder()
	b.describe(cfg)
	var others []error
	n := 0
	for p, err := range parts {
		if stopped := ctx.Err(); stopped != nil {
			return nil, stopped
		}
		n++
		var found source.Problems
		switch {
		case err == nil:
			b.take(p, n)
		case errors.As(err, &found):
			b.ps.Join(found)
		default:
			others = append(others, fmt.Errorf("part %d: %w", n, err))
		}
		if len(others) >= source.MaxProblems {
			break
		}
	}
	if err := errors.Join(append([]error{b.ps.Err()}, others...)...); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return b.done()
}

// describe takes over what is said of the whole, by the checks of a file's top.
func (b *builder) describe(cfg Config) {
	top := map[string]any{}
	for key, text := range map[string]string{"catalog": cfg.Name, "currency": cfg.Currency} {
		if text != "" {
			top[key] = text
		}
	}
	n, err := source.FromGo("the catalogue", top)
	if err != nil {
		b.fault("the catalogue", err)
		return
	}
	b.head(n)
}
