package fit

import "slices"

// impossible says whether it is proven that no choice is allowed, whatever it costs.
func (s *search) impossible() bool {
	passes := s.query.passes()
	s.any, s.query.Spend = true, 0
	s.run(passes[len(passes)-1])
	return len(s.found) == 0 && !s.cut && s.err == nil
}

// blocking gives rules that leave no choice together, of which none can be spared, in
// their order; none where there is a choice, or a kind without parts. Leaving rules out
// one by one, those over many kinds first, it keeps each without which there would be a
// choice, or without which no proof was found within the budget.
func (s *search) blocking() []string {
	for i := range s.tables {
		s.tables[i].refused = false
	}
	if !s.impossible() {
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
		s.tables[i].without = s.impossible()
		return s.tables[i].without
	})
	slices.Sort(kept)
	return s.named(kept)
}
