package fact

import "testing"

// What is written is read back, and nothing else is a verdict.
func TestVerdictText(t *testing.T) {
	for _, v := range []Verdict{Unknown, Pass, Warn, Fail} {
		text, err := v.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		got := Verdict(9)
		if err := got.UnmarshalText(text); err != nil || got != v {
			t.Errorf("%s is read as %s: %v", text, got, err)
		}
	}
	v := Fail
	for _, text := range []string{"", "Pass", "passed", "verdict 9"} {
		if err := v.UnmarshalText([]byte(text)); err == nil || v != Fail {
			t.Errorf("%q is taken for %s", text, v)
		}
	}
}

// Fail matters most, and what is no verdict never ranks as a pass.
func TestVerdictRank(t *testing.T) {
	order := []Verdict{Fail, Unknown, Warn, Pass}
	for i, v := range order {
		if v.Rank() != i {
			t.Errorf("%s ranks %d, want %d", v, v.Rank(), i)
		}
	}
	if Verdict(200).Rank() != Unknown.Rank() {
		t.Errorf("no verdict ranks %d", Verdict(200).Rank())
	}
	if Verdict(200).String() != "verdict 200" {
		t.Errorf("%s", Verdict(200))
	}
}
