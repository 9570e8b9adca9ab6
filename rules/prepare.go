package rules

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// preparedHead is how prepared expressions begin; the mark of their language follows.
const preparedHead = "# Checked expressions of rule files, made of them. The language: "

// Prepare compiles the sound files of a configuration and writes down what a load
// comes to again and again: every expression as it was checked, for
// [Config.Prepared], and the tree of every file, for its [source.TreeFS]. The first
// has a line for each file with the hash of its bytes, one for each rule and
// step, and below it one for each expression. Both leave examples out, which Load
// does not look at in sound files. The error is source.Problems where a file has a fault.
func Prepare(cfg Config) (expressions, trees string, err error) {
	p := &preparing{}
	mark := cfg.Vocabulary.lang.Mark()
	if mark == "" {
		return "", "", fmt.Errorf("this program does not know the version of its expression engine")
	}
	if _, err = load(context.Background(), Config{Vocabulary: cfg.Vocabulary, Files: cfg.Sound, Drawings: cfg.Drawings}, p); err == nil {
		err = p.err
	}
	if err == nil {
		trees, err = source.Trees(p.files)
	}
	if err != nil {
		return "", "", err
	}
	return preparedHead + mark + "\n" + p.text.String(), trees, nil
}

// preparing gathers what is compiled.
type preparing struct {
	text  strings.Builder
	files []source.File
	err   error
}

// begin starts a file.
func (p *preparing) begin(f source.File) {
	f.Text = withoutExamples(f.Text)
	p.files = append(p.files, f)
	p.text.WriteString("\n" + fileLine(f) + "\n")
}

// fileLine is the line that a file's expressions stand below.
func fileLine(f source.File) string {
	sum := sha256.Sum256(f.Text)
	return "file " + f.Name + " " + hex.EncodeToString(sum[:])
}

// preparedFiles are the prepared lines of each rule and step, by the lines of their
// files and then by their own.
type preparedFiles map[string]map[string]string

// readPrepared takes a prepared text apart. What was made in another language is
// nothing.
func readPrepared(text string, lang *expr.Language) preparedFiles {
	rest, ok := strings.CutPrefix(text, preparedHead)
	if !ok {
		return nil
	}
	mark, rest, _ := strings.Cut(rest, "\n")
	if mark == "" || mark != lang.Mark() {
		return nil
	}
	out := preparedFiles{}
	var file map[string]string
	for owner := range strings.SplitSeq(strings.TrimPrefix(rest, "\n"), "\n\n") {
		head, lines, _ := strings.Cut(owner, "\n")
		if strings.HasPrefix(head, "file ") {
			file = map[string]string{}
			out[head] = file
		} else if file != nil {
			file[head] = lines
		}
	}
	return out
}

// scopeOf makes the scope of a rule or step, which finds its prepared expressions and
// hands over what is compiled in it where they are being prepared.
func (l *loader) scopeOf(what, id string) *expr.Scope {
	s := l.set.vocabulary.lang.NewScope()
	owner := what + " " + id
	s.Recall(l.recalled[owner])
	if p := l.preparing; p != nil {
		begun := false
		s.Prepare(func(line string, err error) {
			if !begun {
				begun = true
				p.text.WriteString("\n" + owner + "\n")
			}
			p.text.WriteString(line)
			if err != nil && p.err == nil {
				p.err = fmt.Errorf("%s: %w", owner, err)
			}
		})
	}
	return s
}
