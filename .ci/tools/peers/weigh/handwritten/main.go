// Command handwritten is a rule in plain Go, to weigh it.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Println(len(os.Args) > 4)
}
