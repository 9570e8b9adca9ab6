package report_test

import (
	"encoding/json"
	"fmt"

	"example.org/cogcourt/compat/report"
)

// A client reads what a server answered.
func ExampleCart() {
	body := []byte(`{"schema_version": 1, "verdict": "warn", "complete": true, "lines": [], "bikes": [{"bike": "Ferry 7", "bike_index": 0,
		"change": {"worse": [{"rule": "chain/length", "before": "pass", "after": "warn", "lines": [[2]]}]}}]}`)
	var answer report.Cart
	if err := json.Unmarshal(body, &answer); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(answer.Verdict)
	for _, bike := range answer.Bikes {
		for _, f := range bike.Change.Worse {
			fmt.Println(bike.BikeIndex, bike.Bike, f.Rule, f.Before, "to", f.After, "by the lines", f.Lines)
		}
	}
	// Output:
	// warn
	// 0 Ferry 7 chain/length pass to warn by the lines [[2]]
}
