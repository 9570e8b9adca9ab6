package view

import (
	"fmt"
	"io"
	"slices"
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
		fmt.Fprintln(w, "\nTaken as usual, for nobody stated it; look at it first")
		for _, a := range s.Assumed {
			wrap(w, "  - ", 4, a.Said)
		}
	}
	if g, there := gearsOfSheet(s); there {
		fmt.Fprintln(w)
		g.print(w)
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
			if step.GoesOverBolts() {
				printBolts(w, s.Bolts())
			}
		}
	}
	for i, stop := range s.Stops {
		if i == 0 {
			fmt.Fprintln(w)
		}
		wrap(w, stopMark(i), 6, stop.Text+" ["+stop.Rule+"]")
	}
	keepInMind(w, cautionsOf(s), s.Cautions())
}

// gearsOfSheet are the gears that the finished job has. That of a mix that fails has
// none: nobody rides it.
func gearsOfSheet(s compat.Sheet) (gears, bool) {
	if s.Verdict == rules.Fail {
		return gears{}, false
	}
	return gearsOf(s.Mix, compat.Measure(s.Mix).Value)
}

// printBolts gives each bolt a blank beside what is wanted of it.
func printBolts(w io.Writer, bolts []compat.Bolt) {
	for _, b := range bolts {
		wrap(w, "     ____ N m  ", 15, boltText(b))
	}
}

func markBolts(w io.Writer, bolts []compat.Bolt) {
	for _, b := range bolts {
		fmt.Fprintf(w, "  - ____ N m: %s\n", escape(boltText(b)))
	}
}

// boltText names a bolt and what is wanted of it.
func boltText(b compat.Bolt) string { return Capital(b.Bolt) + ": " + lower(b.Wanted) + "." }

// keepInMind prints cautions under their heading.
func keepInMind(w io.Writer, heading string, cautions []string) {
	fmt.Fprintln(w, "\n"+heading)
	for _, c := range cautions {
		wrap(w, "  - ", 4, c)
	}
}

// cautionsOf heads the cautions: under a mix that fails nobody rides.
func cautionsOf(s compat.Sheet) string {
	if s.Verdict == rules.Fail {
		return "Keep in mind"
	}
	return "Before riding"
}

// stopMark heads the fault at which the sheet ends, and those that would come later.
func stopMark(i int) string {
	if i == 0 {
		return "STOP  Not beyond this: "
	}
	return "      Nor: "
}

// warnOfVerdict says first what a sheet cannot mend.
func warnOfVerdict(w io.Writer, s compat.Sheet) {
	switch {
	case s.Verdict == rules.Fail && len(s.Stops) > 0:
		wrap(w, "FAIL  ", 6, fmt.Sprintf("This mix has %s. The sheet ends where the first of them would stop you: nothing is ordered, fitted or ridden as it is.",
			counted(len(s.Stops), "fault", "faults")))
		for _, stop := range s.Stops {
			wrap(w, "  - ", 4, stop.Text+" ["+stop.Rule+"]")
		}
	case s.Verdict == rules.Fail:
		wrap(w, "FAIL  ", 6, "See cogcourt check before anything is ordered or fitted.")
	case s.Verdict == rules.Unknown:
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
	for _, text := range wantedFor(s) {
		wrap(w, "     Wanted: ", 13, text)
	}
}

// wantedFor says how to get what a value lacks, where the step does not say so itself.
func wantedFor(s compat.SheetStep) []string {
	if s.Value != "" {
		return nil
	}
	var out []string
	for _, m := range s.Missing {
		text := m.How
		if text == "" {
			text = m.Doc
		}
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// SheetMarkdown prints a sheet as a list to tick, with room for what is measured.
func SheetMarkdown(w io.Writer, s compat.Sheet) {
	fmt.Fprintf(w, "# Setup of %s\n\n", escape(nameOf(s.Mix)))
	for i, stop := range s.Stops {
		if i == 0 {
			fmt.Fprint(w, "**This mix fails.** The sheet ends where the first fault would stop you.\n\n")
		}
		fmt.Fprintf(w, "- %s (%s)\n", escape(stop.Text), stop.Rule)
	}
	if len(s.Stops) == 0 {
		warnOfVerdict(w, s)
	}
	for _, a := range s.Assumed {
		fmt.Fprintf(w, "- [ ] taken as usual: %s\n", escape(a.Said))
	}
	if g, there := gearsOfSheet(s); there {
		fmt.Fprintf(w, "\n## Gears\n\n%s\n\n```\n%s\n```\n", escape(g.span()), strings.Join(g.table(), "\n"))
	}
	for _, part := range sheetParts {
		heading := "\n## " + part[1] + "\n\n"
		for _, step := range s.Steps {
			if step.Part == part[0] {
				fmt.Fprint(w, heading)
				heading = ""
				markStep(w, step)
				if step.GoesOverBolts() {
					markBolts(w, s.Bolts())
				}
			}
		}
	}
	fmt.Fprintf(w, "\n## %s\n\n", cautionsOf(s))
	for _, c := range s.Cautions() {
		fmt.Fprintf(w, "- %s\n", escape(c))
	}
}

func markStep(w io.Writer, step compat.SheetStep) {
	fmt.Fprintf(w, "- [ ] **%s**", escape(step.Do))
	if step.Value != "" {
		fmt.Fprintf(w, " %s", escape(step.Value))
	}
	fmt.Fprintf(w, "\n  Right when: %s. Because %s.", escape(strings.TrimSuffix(step.Check, ".")), escape(strings.TrimSuffix(step.Because, ".")))
	if step.Caution != "" {
		fmt.Fprintf(w, " Beware: %s", escape(step.Caution))
	}
	for _, text := range wantedFor(step) {
		fmt.Fprintf(w, "\n  Wanted: %s", escape(text))
	}
	fmt.Fprintln(w)
	if len(step.Measured) > 0 {
		fmt.Fprintln(w, "  Measured: ____________")
	}
}

// AsBuilt prints a bench: block with a line for everything that the sheet measures.
// What is not filled in stays a comment, so that the block can be pasted into the
// mix as it is.
func AsBuilt(w io.Writer, s compat.Sheet) {
	fold(w, "# As built: ", "# ", nameOf(s.Mix))
	fmt.Fprint(w, "# Fill in what was measured, take the # away, and put the block into the mix.\n")
	fmt.Fprint(w, "bench:\n")
	for _, l := range s.Measurable() {
		fold(w, "  # ", "  # ", benchText(l))
		line := fmt.Sprintf("  # %s:", l.Field.Name)
		if l.Value.Known {
			line = fmt.Sprintf("  %s: %s", l.Field.Name, l.Value)
		}
		fmt.Fprintln(w, beside(line, wantedText(l)))
	}
}

// besideAt is the column at which a wanted value stands beside its blank.
const besideAt = 34

// beside puts a remark behind a line where both fit, and says nothing where they do
// not: benchText has said it then.
func beside(line, remark string) string {
	if remark == "" || !fitsBeside(remark) {
		return line
	}
	return fmt.Sprintf("%-*s # %s", besideAt, line, remark)
}

func fitsBeside(remark string) bool { return besideAt+3+len(remark) <= width }

// benchText says what a line asks for, in which unit or words, and what is wanted
// where that is too long to stand beside the blank.
func benchText(l compat.BenchLine) string {
	text := strings.TrimSuffix(l.Field.Doc, ".")
	if len(l.Field.Choices) > 0 {
		text += " (" + strings.Join(l.Field.Choices, ", ") + ")"
	} else if l.Field.Unit != "" {
		text += " (" + unitText(l.Field.Unit) + ")"
	}
	if wanted := wantedText(l); wanted != "" && !fitsBeside(wanted) {
		text += ". " + Capital(wanted)
	}
	return text
}

// wantedText is what the step says that measures it.
func wantedText(l compat.BenchLine) string {
	text := strings.TrimSuffix(l.Wanted, ".")
	if text == "" || strings.HasPrefix(text, "Not ") {
		return text
	}
	return "wanted: " + lower(text)
}
