// Command expr evaluates one condition with expr, to weigh it.
package main

import (
	"fmt"
	"os"

	"github.com/expr-lang/expr"
)

func main() {
	fmt.Println(expr.Eval("cogs > 4", map[string]any{"cogs": len(os.Args)}))
}
