package main

import (
	"context"
	"database/sql"
	"encoding/json"

	_ "modernc.org/sqlite" // the driver, in Go alone

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/source"
	"example.org/cogcourt/tools/stock"
)

// store is the shop's table of parts: a row a part, its fields as one JSON object.
type store struct{ *sql.DB }

// open opens a database and makes the table.
func open(ctx context.Context, name string) (*store, error) {
	db, err := sql.Open("sqlite", name)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1) // each connection to memory is a database of its own
	_, err = db.ExecContext(ctx, `CREATE TABLE parts (id TEXT PRIMARY KEY, kind TEXT NOT NULL, price TEXT NOT NULL, fields TEXT NOT NULL)`)
	return &store{db}, err
}

// fill puts invented parts in.
func (s *store) fill(ctx context.Context, count int) error {
	parts, err := stock.Make(stock.Options{Seed: 5, Each: count / len(stock.Kinds()), Kinds: stock.Kinds()})
	if err != nil {
		return err
	}
	tx, err := s.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	for _, p := range parts {
		fields := p.Fields()
		delete(fields, "price")
		text, err := json.Marshal(fields)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `INSERT INTO parts VALUES (?, ?, ?, ?)`, p.ID(), p.Kind(), p.Price(), text); err != nil {
			return err
		}
	}
	return tx.Commit()
}

// catalog makes a catalogue of all rows; what is wrong with one is told with its id.
func (s *store) catalog(ctx context.Context) (*catalog.Catalog, error) {
	rows, err := s.QueryContext(ctx, `SELECT id, kind, price, fields FROM parts ORDER BY id`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	return catalog.From(ctx, func(yield func(catalog.Part, error) bool) {
		for rows.Next() {
			if part, err := scan(rows); !yield(part, err) {
				return
			}
		}
		if err := rows.Err(); err != nil {
			yield(catalog.Part{}, err)
		}
	}, catalog.Config{Name: "the shop's table (invented)", Currency: "EUR"})
}

// scan makes a part of one row.
func scan(rows *sql.Rows) (catalog.Part, error) {
	var id, kind, price string
	var text []byte
	if err := rows.Scan(&id, &kind, &price, &text); err != nil {
		return catalog.Part{}, err
	}
	fields := map[string]any{}
	if err := json.Unmarshal(text, &fields); err != nil {
		return catalog.Part{}, err
	}
	if price != "" {
		fields["price"] = price
	}
	return catalog.NewAt(source.Pos{File: "parts, id " + id}, kind, fields)
}

// reprice reads the prices alone and takes those that have changed into use.
func reprice(ctx context.Context, live *cart.Live, s *store) error {
	_, parts := live.Now()
	rows, err := s.QueryContext(ctx, `SELECT id, price FROM parts`)
	if err != nil {
		return err
	}
	defer rows.Close()
	var changed []catalog.Part
	for rows.Next() {
		var id, price string
		if err := rows.Scan(&id, &price); err != nil {
			return err
		}
		old, ok := parts.Part(id)
		if !ok || old.Price() == price {
			continue
		}
		priced, err := old.Priced(price)
		if err != nil {
			return err
		}
		changed = append(changed, priced)
	}
	if err := rows.Err(); err != nil {
		return err
	}
	if parts, err = parts.With(changed...); err != nil {
		return err
	}
	return live.SwapParts(ctx, parts)
}
