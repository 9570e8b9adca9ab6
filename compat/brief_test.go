package compat

import (
	"encoding/json"
	"reflect"
	"testing"

	"example.org/cogcourt/compat/internal/random"
)

// A brief report lacks the findings that pass and nothing else.
func TestBrief(t *testing.T) {
	left := 0
	eachReport(t, 200, func(t *testing.T, _ random.Draw, r Report) {
		var whole, brief map[string]any
		text, err := r.Brief()
		if err != nil || json.Unmarshal(text, &brief) != nil || json.Unmarshal(wholeJSON(t, r), &whole) != nil {
			t.Fatalf("%v: %s", err, text)
		}
		want := []any{}
		for _, f := range whole["findings"].([]any) {
			if f.(map[string]any)["verdict"] != "pass" {
				want = append(want, f)
			} else {
				left++
			}
		}
		whole["findings"] = want
		if !reflect.DeepEqual(whole, brief) {
			t.Errorf("got %s", text)
		}
	})
	if left == 0 {
		t.Error("no finding passed")
	}
}
