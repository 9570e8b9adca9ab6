// Command celgo evaluates one condition with cel-go, to weigh it.
package main

import (
	"fmt"
	"log"
	"os"

	"github.com/google/cel-go/cel"
)

func main() {
	env, err := cel.NewEnv(cel.Variable("cogs", cel.IntType))
	if err != nil {
		log.Fatal(err)
	}
	ast, iss := env.Compile("cogs > 4")
	if iss.Err() != nil {
		log.Fatal(iss.Err())
	}
	p, err := env.Program(ast)
	if err != nil {
		log.Fatal(err)
	}
	v, _, err := p.Eval(map[string]any{"cogs": len(os.Args)})
	fmt.Println(v, err)
}
