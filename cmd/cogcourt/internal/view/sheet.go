package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// sheetParts are the parts of a sheet with their headings, in order.
var sheetParts = [][2]string{{"bench", "At the bench"}, {"ride", "Take it along: the first ride"}, {"later", "Later"}}

// Sheet prints a setup sheet: steps in order, each with its value, how to see that
// it is right, and why.
func Sheet(w io.Writer, s compat.Sheet) {
	wrap(w, "Setup of ", 2, nameOf(s.Mix))
	warnOfVerdict(w, s)
	if len(s.Assumed) > 0 {
		fmt.Fprintln(w, "\nFirst read what is assumed, for nobody stated it")
		for _, a := range s.Assumed {
			wrap(w, "  - ", 4, a.Name+" = "+shown(a.Value, a.Unit))
		}
	}
	n := 0
	for _, part := range sheetParts {
		heading := false
		for _, step := range s.Steps {
			if step.Part != part[0] {
				continue
			}
			if !heading {
				fmt.Fprintf(w, "\n%s\n", part[1])
				heading = true
			}
			n++
			printStep(w, n, step)
		}
	}
	beforeRiding(w, s.Cautions())
}

// warnOfVerdict says first what a sheet cannot mend.
func warnOfVerdict(w io.Writer, s compat.Sheet) {
	switch s.Verdict {
	case rules.Fail:
		wrap(w, "", 0, "This mix fails: see cogcourt check before anything is ordered or fitted.")
	case rules.Unknown:
		wrap(w, "", 0, "Not all of this mix could be checked: see cogcourt check for what to measure first.")
	}
}

func printStep(w io.Writer, n int, s compat.SheetStep) {
	fmt.Fprintln(w)
	wrap(w, fmt.Sprintf("%3d. ", n), 5, s.Do)
	if s.Value != "" {
		wrap(w, "     Value: ", 12, s.Value)
	}
	wrap(w, "     Right when: ", 17, s.Check)
	wrap(w, "     Because: ", 14, s.Because)
	if s.Caution != "" {
		wrap(w, "     Beware: ", 13, s.Caution)
	}
	for _, m := range s.Missing {
		wrap(w, "     Missing: ", 14, strings.TrimSpace(m.Name+". "+m.How))
	}
}

// SheetMarkdown prints a sheet as a list to tick, with room for what was measured.
func SheetMarkdown(w io.Writer, s compat.Sheet) {
	fmt.Fprintf(w, "# Setup of %s\n\n", escape(nameOf(s.Mix)))
	warnOfVerdict(w, s)
	for _, a := range s.Assumed {
		fmt.Fprintf(w, "- [ ] assumed: %s = %s\n", escape(a.Name), escape(shown(a.Value, a.Unit)))
	}
	for _, part := range sheetParts {
		heading := "\n## " + part[1] + "\n\n"
		for _, step := range s.Steps {
			if step.Part != part[0] {
				continue
			}
			fmt.Fprint(w, heading)
			heading = ""
			fmt.Fprintf(w, "- [ ] **%s**", escape(step.Do))
			if step.Value != "" {
				fmt.Fprintf(w, " %s", escape(step.Value))
			}
			fmt.Fprintf(w, "\n  Right when: %s. Because %s.", escape(strings.TrimSuffix(step.Check, ".")), escape(strings.TrimSuffix(step.Because, ".")))
			if step.Caution != "" {
				fmt.Fprintf(w, " Beware: %s", escape(step.Caution))
			}
			for _, m := range step.Missing {
				fmt.Fprintf(w, "\n  Missing: %s. %s", escape(m.Name), escape(m.How))
			}
			fmt.Fprint(w, "\n  Measured: ____________\n")
		}
	}
	fmt.Fprint(w, "\n## Before riding\n\n")
	for _, c := range s.Cautions() {
		fmt.Fprintf(w, "- %s\n", escape(c))
	}
}

// AsBuilt prints a bench: block with a line for everything that can be measured.
// What is not filled in stays a comment, so that the block can be pasted into the
// mix as it is.
func AsBuilt(w io.Writer, s compat.Sheet) {
	fold(w, "# As built: ", "# ", nameOf(s.Mix))
	fmt.Fprint(w, "# Fill in what was measured, take the # away, and put the block into the mix.\n")
	fmt.Fprint(w, "bench:\n")
	for _, l := range s.Measurable() {
		text := strings.TrimSuffix(l.Field.Doc, ".")
		if note := benchNote(l); note != "" {
			text += " (" + note + ")"
		}
		fold(w, "  # ", "  # ", text)
		if l.Value.Known {
			fmt.Fprintf(w, "  %s: %s\n", l.Field.Name, l.Value)
			continue
		}
		fmt.Fprintf(w, "  # %s:\n", l.Field.Name)
	}
}

// benchNote says what may stand in a line and what is wanted there.
func benchNote(l compat.BenchLine) string {
	var note []string
	if len(l.Field.Choices) > 0 {
		note = l.Field.Choices
	} else if l.Field.Unit != "" {
		note = append(note, unitText(l.Field.Unit))
	}
	switch {
	case !l.Wanted.Known:
	case l.Field.Name == "hanger_error_mm":
		note = append(note, "at most "+rules.Decimal(l.Wanted.Num, 1))
	default:
		note = append(note, "wanted "+rules.Decimal(l.Wanted.Num, -1))
	}
	return strings.Join(note, ", ")
}
