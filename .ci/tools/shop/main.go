// Command shop is an example of a shop's back end with its own data: 2,000 invented
// parts lie in SQLite, carts come in by HTTP, prices change while it serves, and what is
// done is logged.
//
//	go run ./shop -listen localhost:8080
//	curl --data '{"lines": [{"id": "stock-7"}]}' localhost:8080/cart
//
// With -load it sends carts to itself over loopback instead, swaps prices beside, and
// tells what a request costs.
package main

import (
	"context"
	"flag"
	"fmt"
	"log"
	"log/slog"
	"net/http"
	"os"
	"os/signal"
	"time"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

func main() {
	listen := flag.String("listen", "localhost:8080", "where carts are taken")
	load := flag.Int("load", 0, "send so many carts, and tell what they cost")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, *listen, *load); err != nil {
		log.Fatal(err)
	}
}

func run(ctx context.Context, listen string, load int) error {
	store, err := open(ctx, "file::memory:")
	if err != nil {
		return err
	}
	defer store.Close()
	if err := store.fill(ctx, 2000); err != nil {
		return err
	}
	cfg := compat.Config{Observe: func(e compat.Event) { slog.Info("cogcourt", "event", e) }}
	if load > 0 {
		cfg.Observe = nil
	}
	live, err := begin(ctx, cfg, store)
	if err != nil {
		return err
	}
	if load > 0 {
		cost, err := measure(ctx, live, store, work{requests: load, clients: 8})
		if err == nil {
			fmt.Println(cost)
		}
		return err
	}
	go func() {
		for range time.Tick(time.Minute) {
			if err := reprice(ctx, live, store); err != nil {
				slog.Error("the old prices stay", "error", err)
			}
		}
	}()
	server := http.Server{Addr: listen, Handler: handler(live), ReadTimeout: 10 * time.Second}
	go func() {
		<-ctx.Done()
		server.Close()
	}()
	if err := server.ListenAndServe(); ctx.Err() == nil {
		return err
	}
	return nil
}

// begin takes the rules and the parts of the store into use.
func begin(ctx context.Context, cfg compat.Config, store *store) (*cart.Live, error) {
	checker, err := compat.NewContext(ctx, cfg)
	if err != nil {
		return nil, err
	}
	parts, err := store.catalog(ctx)
	if err != nil {
		return nil, err
	}
	return cart.LiveOf(ctx, checker, parts)
}
