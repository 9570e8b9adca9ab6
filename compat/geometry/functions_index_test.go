package geometry_test

import (
	"example.org/cogcourt/compat/geometry"
)

func indexFunctions() map[string]function {
	return map[string]function{
		"index step": func(in inputs) []float64 {
			cable := geometry.Cable{Clicks: 1, Pulls: in.list("pull_mm"), Ratios: in.list("ratio"), Factor: 1}
			return one(cable.StepPositions(nil)[1])
		},
		"step positions": func(in inputs) []float64 { return stepPositions(in) },
		"index offset":   func(in inputs) []float64 { return one(index(in).Offset) },
		"index residual": func(in inputs) []float64 { return one(index(in).Residual) },
		"index share":    func(in inputs) []float64 { return one(index(in).Share) },
		"index errors": func(in inputs) []float64 {
			return geometry.IndexErrors(nil, stepPositions(in), cogPositions(in))
		},
		"index window": func(in inputs) []float64 {
			cogs := cogPositions(in)
			window, first := geometry.BestWindow(nil, stepPositions(in), cogs)
			return []float64{float64(first), geometry.MeasureIndex(window, cogs).Residual}
		},
		"stack difference": func(in inputs) []float64 { return one(index(in).StackDifference) },
		"worst if aligned": func(in inputs) []float64 {
			return geometry.WorstIfAligned(nil, stepPositions(in), cogPositions(in))
		},
		"trim clicks": func(in inputs) []float64 {
			clicks, residual := geometry.TrimClicks(stepPositions(in), cogPositions(in), in.num("trim_step_mm"))
			return []float64{clicks, residual}
		},
	}
}

// stepPositions are the row's steps, even or from pulls and ratios.
func stepPositions(in inputs) []float64 {
	if in.has("step_mm") {
		return geometry.EvenPositions(nil, in.count("cogs"), in.num("step_mm"))
	}
	cable := geometry.Cable{Pulls: in.list("pulls_mm"), Factor: 1}
	cable.Clicks = len(cable.Pulls)
	if in.has("ratios") {
		cable.Ratios = in.list("ratios")
	} else {
		cable.Ratios = in.list("ratio")
	}
	return cable.StepPositions(nil)
}

func index(in inputs) geometry.Index {
	return geometry.MeasureIndex(stepPositions(in), cogPositions(in))
}
