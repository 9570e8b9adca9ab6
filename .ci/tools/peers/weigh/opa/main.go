// Command opa evaluates one condition with opa, to weigh it.
package main

import (
	"context"
	"fmt"
	"os"

	"github.com/open-policy-agent/opa/v1/rego"
)

func main() {
	fmt.Println(rego.New(rego.Query("input.cogs > 4"), rego.Input(map[string]any{"cogs": len(os.Args)})).Eval(context.Background()))
}
