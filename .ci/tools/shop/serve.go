package main

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"time"

	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/source"
)

// What the server allows: no cart of people is as large, and none takes as long.
const (
	mostBody = 1 << 20
	mostTime = 5 * time.Second
)

// handler answers a cart with its report: POST a cart file as JSON to /cart.
func handler(live *cart.Live) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("POST /cart", func(w http.ResponseWriter, req *http.Request) {
		ctx, cancel := context.WithTimeout(req.Context(), mostTime)
		defer cancel()
		body, err := io.ReadAll(http.MaxBytesReader(w, req.Body, mostBody))
		if err != nil {
			http.Error(w, "the cart could not be read", http.StatusBadRequest)
			return
		}
		report, err := live.CheckCart(ctx, "cart.json", body)
		if err != nil {
			refuse(w, err)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		_, _ = report.WriteTo(w) // whoever has gone away needs no answer
	})
	return mux
}

// refuse answers an error by its sort: the faults of a cart as JSON, with a code each,
// and of what broke down inside nothing that is for the log.
func refuse(w http.ResponseWriter, err error) {
	var faults source.Problems
	var inside *cart.InternalError
	switch {
	case errors.As(err, &inside):
		http.Error(w, "something broke down here", http.StatusInternalServerError)
	case errors.As(err, &faults):
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(http.StatusUnprocessableEntity)
		_ = json.NewEncoder(w).Encode(map[string]any{"problems": faults})
	default:
		http.Error(w, "the cart took too long", http.StatusServiceUnavailable)
	}
}
