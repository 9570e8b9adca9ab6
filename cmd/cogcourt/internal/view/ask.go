package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Answer prints what a report comes to in one sentence, where nothing more stands below it.
func Answer(w io.Writer, r compat.Report) {
	p := printer{report: r, findings: r.Findings(), bare: true}
	wrap(w, "", 0, p.answer())
}

// Question prints one question: what is asked for, how to find it out, and what the
// answer would decide. The number says which it is; 0 stands for the next.
func Question(w io.Writer, number int, q compat.Question, r compat.Report) {
	head := "Next question: "
	if number > 0 {
		head = fmt.Sprintf("Question %d: ", number)
	}
	text := r.Words(q.Name) + ", " + q.Name
	if q.Unit != "" {
		text += ", in " + unitText(q.Unit)
	}
	wrap(w, head, 2, text+".")
	if q.How != "" {
		wrap(w, "  How: ", 7, q.How)
	}
	if len(q.Words) > 0 {
		wrap(w, "  Known: ", 9, full(strings.Join(q.Words, ", ")))
	}
	if q.Usual != 0 {
		wrap(w, "  Usual: ", 9, fmt.Sprintf("%s, %s to %s.", exact(q.Usual), exact(q.Least), exact(q.Most)))
	}
	if len(q.Decides) > 0 {
		wrap(w, "  Decides: ", 11, full(strings.Join(q.Decides, ", ")))
	}
	if q.Limit != "" {
		wrap(w, "  Limit: ", 9, full(q.Limit))
	}
}

// Changed prints what an answer has made of a verdict.
func Changed(w io.Writer, before, after compat.Report) {
	open := func(r compat.Report) int {
		n := 0
		for _, v := range r.Verdicts() {
			if v.Verdict == rules.Unknown {
				n++
			}
		}
		return n
	}
	text := "Still " + after.Verdict.String()
	if before.Verdict != after.Verdict {
		text = fmt.Sprintf("From %s to %s", before.Verdict, after.Verdict)
	}
	if n := open(after); n > 0 {
		text += "; " + counted(n, "point is", "points are") + " open"
	}
	fmt.Fprintln(w, text+".")
	fmt.Fprintln(w)
}
