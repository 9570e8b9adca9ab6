package geometry_test

import (
	"encoding/csv"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// outsideRows is how many checks the tables hold, so that none is lost silently.
const outsideRows = 460

// row is one line of testdata/outside: what a function must give, and who says so.
type row struct {
	file, id, function string
	in                 map[string][]float64
	want, not          []float64
	tolerance          float64
	source, status     string
	rule, verdict      string
	note               string
}

// header is the first line of every table.
var header = []string{"id", "function", "inputs", "wanted", "tolerance", "not", "source", "status", "rule", "verdict", "note"}

// readOutside reads all tables. A line that does not fit is a test failure.
func readOutside(t *testing.T) []row {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "outside", "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no tables of outside values: %v", err)
	}
	var rows []row
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		reader := csv.NewReader(f)
		reader.Comment = '#'
		lines, err := reader.ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		if len(lines) == 0 || !slices.Equal(lines[0], header) {
			t.Fatalf("%s does not begin with the header %v", file, header)
		}
		for _, line := range lines[1:] {
			r, err := readRow(line)
			if err != nil {
				t.Fatalf("%s: %s: %v", file, line[0], err)
			}
			r.file = filepath.Base(file)
			rows = append(rows, r)
		}
	}
	return rows
}

// readRow takes one line apart.
func readRow(line []string) (row, error) {
	r := row{id: line[0], function: line[1], source: line[6], status: line[7], rule: line[8], verdict: line[9], note: line[10]}
	var err error
	if r.in, err = readInputs(line[2]); err != nil {
		return r, err
	}
	if r.want, err = numbers(line[3]); err != nil {
		return r, err
	}
	if r.not, err = numbers(line[5]); err != nil {
		return r, err
	}
	r.tolerance, err = strconv.ParseFloat(line[4], 64)
	return r, err
}

// readInputs reads "name=value; name=value value".
func readInputs(text string) (map[string][]float64, error) {
	in := map[string][]float64{}
	if text == "" {
		return in, nil
	}
	for entry := range strings.SplitSeq(text, "; ") {
		name, value, ok := strings.Cut(entry, "=")
		list, err := numbers(value)
		if _, twice := in[name]; !ok || twice || err != nil {
			return nil, fmt.Errorf("input %q does not read as name=value: %v", entry, err)
		}
		in[name] = list
	}
	return in, nil
}

// numbers reads a list of numbers with blanks between them.
func numbers(text string) ([]float64, error) {
	var list []float64
	for word := range strings.FieldsSeq(text) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return nil, err
		}
		list = append(list, x)
	}
	return list, nil
}

// inputs hands the inputs of a row to its function and remembers which were read.
type inputs struct {
	t    *testing.T
	in   map[string][]float64
	read map[string]bool
}

func (in inputs) has(name string) bool { return in.in[name] != nil }

func (in inputs) list(name string) []float64 {
	in.t.Helper()
	if !in.has(name) {
		in.t.Fatalf("the row has no input %s", name)
	}
	in.read[name] = true
	return in.in[name]
}

func (in inputs) num(name string) float64 {
	in.t.Helper()
	list := in.list(name)
	if len(list) != 1 {
		in.t.Fatalf("input %s is no single number: %v", name, list)
	}
	return list[0]
}

func (in inputs) count(name string) int { in.t.Helper(); return int(in.num(name)) }

// forRule marks inputs that only the rule of the row's verdict reads.
func (in inputs) forRule(names ...string) {
	in.t.Helper()
	for _, name := range names {
		in.list(name)
	}
}

// function computes what a row wants from its inputs.
type function func(in inputs) []float64

// one is the list of a single result.
func one(x float64) []float64 { return []float64{x} }

// functions are all that the tables may ask for, by the name that they use.
func functions(t *testing.T) map[string]function {
	t.Helper()
	all := map[string]function{}
	for _, group := range []map[string]function{sprocketFunctions(), chainFunctions(), cassetteFunctions(), indexFunctions(), lineFunctions(), wheelFunctions(), textbookFunctions(), unitFunctions()} {
		for name, f := range group {
			if all[name] != nil {
				t.Fatalf("function %s stands twice", name)
			}
			all[name] = f
		}
	}
	return all
}

func TestOutsideValues(t *testing.T) {
	all := functions(t)
	for _, r := range readOutside(t) {
		t.Run(r.id, func(t *testing.T) {
			f := all[r.function]
			if f == nil {
				t.Fatalf("no function %q", r.function)
			}
			in := inputs{t: t, in: r.in, read: map[string]bool{}}
			got := f(in)
			if len(in.read) != len(r.in) {
				t.Errorf("inputs %v, but only %v are read", r.in, in.read)
			}
			compare(t, r, got)
		})
	}
}

// compare holds a result against what the row wants and what it must not be.
func compare(t *testing.T, r row, got []float64) {
	t.Helper()
	said := fmt.Sprintf("%s, %s: %s", r.file, r.status, r.source)
	if r.note != "" {
		said += "; " + r.note
	}
	if len(got) != len(r.want) {
		t.Fatalf("got %v, want %v (%s)", got, r.want, said)
	}
	for i, x := range got {
		if !(math.Abs(x-r.want[i]) <= r.tolerance) {
			t.Errorf("entry %d: got %v, want %v within %v (%s)", i, x, r.want[i], r.tolerance, said)
		}
		for _, wrong := range r.not {
			if !(math.Abs(x-wrong) > r.tolerance) {
				t.Errorf("entry %d: got %v, which is the wrong %v (%s)", i, x, wrong, said)
			}
		}
	}
}

func TestOutsideTablesAreWhole(t *testing.T) {
	rows := readOutside(t)
	if len(rows) != outsideRows {
		t.Errorf("the tables hold %d rows, want %d", len(rows), outsideRows)
	}
	statuses := []string{"read", "read second-hand", "from memory", "computed"}
	verdicts := []string{"", "pass", "warn", "fail"}
	seen, asked := map[string]bool{}, map[string]bool{}
	for _, r := range rows {
		if r.id == "" || seen[r.id] {
			t.Errorf("%s: id %q is empty or stands twice", r.file, r.id)
		}
		if r.source == "" || !slices.Contains(statuses, r.status) {
			t.Errorf("%s: source %q, status %q", r.id, r.source, r.status)
		}
		if !slices.Contains(verdicts, r.verdict) || (r.rule == "") != (r.verdict == "") {
			t.Errorf("%s: rule %q, verdict %q", r.id, r.rule, r.verdict)
		}
		if len(r.want) == 0 || r.tolerance < 0 {
			t.Errorf("%s: wants %v within %v", r.id, r.want, r.tolerance)
		}
		seen[r.id], asked[r.function] = true, true
	}
	for _, name := range slices.Sorted(maps.Keys(functions(t))) {
		if !asked[name] {
			t.Errorf("no row asks for %s", name)
		}
	}
}
