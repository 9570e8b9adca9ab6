package main

import (
	"errors"
	"fmt"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/rules/source"
)

// complain says why something did not load: one fault a line on the standard
// error, and where JSON is asked for the same as JSON on the standard output.
func complain(s stream, err error) int {
	tell(s, err)
	switch s.format {
	case "json":
		_ = view.Indented(s.out, view.FaultsOf(err)) // run says where it could not be written
	case "jsonl":
		text, _ := view.Line(view.FaultsOf(err))
		_, _ = s.out.Write(text)
	}
	return exitLoad
}

// asJSON prints an answer as JSON and gives the exit status that goes with it.
func asJSON(s stream, answer any, status int) int {
	if err := view.Indented(s.out, answer); err != nil {
		return complain(s, err)
	}
	return status
}

// page gives the exit status of a page that was printed, or could not be made.
func page(s stream, err error, status int) int {
	if err != nil {
		return complain(s, err)
	}
	return status
}

// tell prints one fault a line on the standard error.
func tell(s stream, err error) {
	var ps source.Problems
	if !errors.As(err, &ps) {
		fmt.Fprintln(s.err, "cogcourt:", view.Clean(err.Error()))
		return
	}
	for _, p := range ps {
		fmt.Fprintln(s.err, view.Clean(p.String()))
	}
}

// together is all faults of several errors, nil where there are none.
func together(errs ...error) error {
	var all source.Problems
	var alone error // the only error, as it is
	for _, err := range errs {
		if err == nil {
			continue
		}
		if all == nil {
			alone = err
		} else {
			alone = nil
		}
		all = append(all, view.ProblemsOf(err)...)
	}
	if alone != nil || len(all) == 0 {
		return alone
	}
	return all
}
