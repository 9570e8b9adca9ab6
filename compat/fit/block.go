package fit

import "slices"

// blocking gives rules that leave no choice together, of which none can be spared, in
// their order. It is asked where a search has proven that there is none. Leaving rules
// out one by one, those over many kinds first, it keeps each without which there would
// be a choice, or without which no proof was found within the budget.
func (s *search) blocking() []string {
	passes := s.query.passes()
	s.any, s.query.Spend = true, 0
	exists := func() bool {
		s.run(passes[len(passes)-1])
		return len(s.found) > 0 || s.cut || s.err != nil
	}
	for i := range s.tables {
		s.tables[i].refused = false
	}
	if exists() { // it is the price that is in the way, or a kind of which there is no part
		return nil
	}
	var kept []int
	for i := range s.tables {
		if s.tables[i].without = !s.tables[i].refused; s.tables[i].refused {
			kept = append(kept, i)
		}
	}
	slices.SortStableFunc(kept, func(a, b int) int { return s.work(&s.tables[b]) - s.work(&s.tables[a]) })
	kept = slices.DeleteFunc(kept, func(i int) bool {
		s.tables[i].without = true
		s.tables[i].without = !exists()
		return s.tables[i].without
	})
	slices.Sort(kept)
	return s.named(kept)
}
