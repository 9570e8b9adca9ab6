// Package cart judges what a shop's customer is about to buy.
//
// A [Cart] holds the lines of an order against the customer's bicycles. Checking
// it finds out which line is for which bicycle, compares each bicycle before and
// after, and names for every new or worse finding the lines that cause it, found
// by leaving lines out. What is no drivetrain part is kept and ignored; a line
// that could be for two bicycles is ambiguous, never guessed. A whole use:
//
//	live, err := cart.NewLive(compat.Config{}, os.DirFS("parts"))
//	if err != nil {
//		return err // which rule or part file, and where
//	}
//	report, err := live.CheckCart(ctx, "order.json", text)
//	if err != nil {
//		return err // which line, and what is wrong with it
//	}
//	for _, line := range report.Lines {
//		fmt.Println(line.ID, line.Use, line.Note)
//	}
//	for _, bike := range report.Bikes {
//		fmt.Println(bike.After.Mix.Name(), bike.After.Verdict, bike.Worse, bike.New)
//	}
//
// A server that answers with the report's JSON alone calls [Live.AppendCheckCart]: the
// same bytes for less time and a third of the memory.
//
// A [Live] holds the rules and the catalogue in use and takes others while it
// serves. Where [Options] ask for it, a report also says with which parts of the
// catalogue a bicycle that fails would be mended. The package keeps no orders.
package cart
