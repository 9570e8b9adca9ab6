package outside

import (
	"encoding/csv"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// convert asks GNU units; .ci/run installs it from Debian's package of that name.
func convert(t *testing.T, from, to string) float64 {
	t.Helper()
	out, err := exec.Command("units", "-t", "-d", "15", from, to).CombinedOutput()
	if err != nil {
		t.Fatalf("GNU units is needed (apt-get install units): %v: %s", err, out)
	}
	x, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestUnitsOfTheTables converts every torque and force of the tables of outside
// values once more.
func TestUnitsOfTheTables(t *testing.T) {
	kinds := map[string]struct{ input, from, to string }{
		"torque in N m":    {"lbf_in", "lbf in", "N m"},
		"torque in lbf in": {"nm", "N m", "lbf in"},
		"force in N":       {"lbf", "lbf", "N"},
	}
	rows := 0
	for _, file := range []string{"torque.csv", "wear.csv"} {
		for _, row := range table(t, "../../../testdata/outside/"+file) {
			k, ok := kinds[row["function"]]
			if !ok {
				continue
			}
			rows++
			_, value, _ := strings.Cut(row["inputs"], k.input+"=")
			value, _, _ = strings.Cut(value, ";")
			got := convert(t, value+" "+k.from, k.to)
			want, err := strconv.ParseFloat(row["wanted"], 64)
			if err != nil {
				t.Fatal(err)
			}
			tolerance, _ := strconv.ParseFloat(row["tolerance"], 64)
			if math.Abs(got-want) > tolerance {
				t.Errorf("%s: %s: units gives %v, the table %v", file, row["id"], got, want)
			}
		}
	}
	if rows < 20 {
		t.Errorf("%d rows were converted, at least 20 are wanted", rows)
	}
}

// TestUnitsOfTheLimits converts what the shipped limits rest on.
func TestUnitsOfTheLimits(t *testing.T) {
	for _, tt := range []struct {
		from, to        string
		want, tolerance float64
	}{
		{"1800 lbf", "N", 8006.8, 0.05}, {"1400 lbf", "N", 6227.5, 0.05}, {"0.5 inch", "mm", 12.7, 0}, {"24 * 0.5 inch", "mm", 304.8, 1e-9},
	} {
		if got := convert(t, tt.from, tt.to); math.Abs(got-tt.want) > tt.tolerance+1e-12 {
			t.Errorf("%s is %v %s, want %v", tt.from, got, tt.to, tt.want)
		}
	}
}

// table reads a table of outside values, remarks left out.
func table(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		out = append(out, row)
	}
	return out
}
