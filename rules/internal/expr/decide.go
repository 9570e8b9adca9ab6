package expr

import (
	"fmt"

	"github.com/google/cel-go/common/types"
)

// State is what a condition came to.
type State uint8

// The states of a condition.
const (
	Undecided State = iota // facts are missing
	Faulty                 // an error
	False
	True
)

// Outcome is the state of a condition, with the facts that it lacks, or the
// error. The list of facts may be written over when the frame next decides.
type Outcome struct {
	State State
	Lacks []Read
	Err   string
}

// Quickly decides a condition by its closures. It is not ok where the engine must
// be asked, which Decide does.
func (p *Program) Quickly(f *Frame) (holds, ok bool) {
	if p.quick.truth == nil {
		return false, false
	}
	return p.quick.truth(f)
}

// Closure is Quickly without the way there: a rule is asked for every mix.
func (p *Program) Closure() func(*Frame) (holds, ok bool) {
	if p.quick.truth == nil {
		return unanswered
	}
	return p.quick.truth
}

func unanswered(*Frame) (holds, ok bool) { return false, false }

// Decide evaluates a condition: by its closures, or by the engine where neither they
// answer nor a plain lack of facts is why.
func (p *Program) Decide(f *Frame) Outcome {
	if v, ok := p.Quickly(f); ok {
		return decided(v)
	}
	return p.DecideOpen(f)
}

// DecideOpen is Decide of a condition that Quickly does not answer.
func (p *Program) DecideOpen(f *Frame) Outcome {
	if reads := p.lacks(f); reads != nil {
		return Outcome{State: Undecided, Lacks: reads}
	}
	switch v := p.exec(f).(type) {
	case types.Bool:
		return decided(bool(v))
	case *types.Unknown:
		return Outcome{State: Undecided, Lacks: p.lang.lacks(v)}
	case *types.Err:
		return Outcome{State: Faulty, Err: v.Error()}
	default:
		return Outcome{State: Faulty, Err: fmt.Sprintf("the condition gives %v", v)}
	}
}

func decided(v bool) Outcome {
	if v {
		return Outcome{State: True}
	}
	return Outcome{State: False}
}
