package expr

import (
	"example.org/cogcourt/rules/fact"
	"sync"

	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/interpreter"
)

// Frame is the facts and the values of let-names of one check. Frames are
// reused; one belongs to one goroutine at a time.
type Frame struct {
	records []*Record
	lets    []letValue
	round   uint32

	loops [mostLoops]loopValue // the entries that loops are at

	lacks []Read // what the condition in work is open for

	cel  *interpreter.ExecutionFrame
	pool *sync.Pool
}

// letValue is the value of a let-name, worked out when first asked for.
type letValue struct {
	round, slowRound uint32 // the rounds that the two halves belong to
	ok               bool   // the value is definite
	num              float64
	text             string
	list             []float64
	words            []string
	slow             ref.Val
}

// Frames makes frames for one set of rules and takes them back.
type Frames struct{ pool sync.Pool }

// NewFrames makes frames for a language, with room for this many let-names.
func NewFrames(l *Language, lets int) *Frames {
	fs := &Frames{}
	fs.pool.New = func() any {
		return &Frame{records: make([]*Record, len(l.objects)), lets: make([]letValue, lets), pool: &fs.pool}
	}
	return fs
}

// Open gives a frame without records.
func (fs *Frames) Open() *Frame {
	f := fs.pool.Get().(*Frame)
	f.Renew()
	return f
}

// Put sets the record of the i-th object of the language, nil for an object
// that is not there. All are put before anything is evaluated; after a change,
// Renew.
func (f *Frame) Put(i int, r *Record) { f.records[i] = r }

// Renew forgets the values of all let-names.
func (f *Frame) Renew() {
	f.round++
	if f.round == 0 { // the counter came round: no old value may look new
		clear(f.lets)
		f.round = 1
	}
}

// Close gives the frame back. It must not be used afterwards.
func (f *Frame) Close() {
	if f.cel != nil {
		f.cel.Close()
		f.cel = nil
	}
	clear(f.records)
	f.pool.Put(f)
}

// exec is the engine's view of the frame, made when first needed.
func (f *Frame) exec() *interpreter.ExecutionFrame {
	if f.cel == nil {
		// It fails only for what is no activation, and a Frame is one.
		f.cel, _ = interpreter.NewExecutionFrame(f)
	}
	return f.cel
}

// ResolveName implements the engine's activation. Facts and let-names are read
// by the decorator's own nodes, so nothing is left to be resolved by name.
func (f *Frame) ResolveName(string) (any, bool) { return nil, false }

// Parent implements the engine's activation.
func (f *Frame) Parent() interpreter.Activation { return nil }

// frameOf finds the frame below the engine's nested scopes.
func frameOf(a interpreter.Activation) *Frame {
	for a != nil {
		switch x := a.(type) {
		case *Frame:
			return x
		case interface{ Unwrap() interpreter.Activation }:
			a = x.Unwrap()
		default:
			a = a.Parent()
		}
	}
	return nil
}

// Record gives the record of the i-th object.
func (f *Frame) Record(i int) *Record { return f.records[i] }

// known says whether a fact can be read.
func (f *Frame) known(r Read) bool {
	rec := f.records[r.Object]
	return rec != nil && rec.Values[r.Field].Known && rec.Values[r.Field].Usual != fact.ByCount
}

// fact reads a fact in the engine's form, or the Unknown that stands for it.
func (f *Frame) fact(l *Language, r Read) ref.Val {
	o := l.objects[r.Object]
	rec := f.records[r.Object]
	switch {
	case rec == nil:
		return o.absent
	case !rec.Values[r.Field].Known:
		return o.unstated[r.Field]
	}
	return box(&rec.Values[r.Field], o.Table.Fields()[r.Field].Type)
}

// let works out a let-name by its closures, once a round: several expressions of a
// rule read the same one.
func (f *Frame) let(l *Let) *letValue {
	v := &f.lets[l.slot]
	if v.round == f.round {
		return v
	}
	// A panic in a closure must leave no value of an earlier round behind.
	v.round, v.ok = f.round, false
	around := f.loops // it may be asked for within loops, and its own begin anew
	quick := &l.prog.quick
	switch {
	case quick.num != nil:
		v.num, v.ok = quick.num(f)
	case quick.truth != nil:
		var b bool
		b, v.ok = quick.truth(f)
		v.num = truthNumber(b)
	case quick.text != nil:
		v.text, v.ok = quick.text(f)
	case quick.list != nil:
		v.list, v.ok = quick.list(f)
	case quick.words != nil:
		v.words, v.ok = quick.words(f)
	default:
		v.ok = v.take(f.slowLet(l))
	}
	f.loops = around
	return v
}

// named gives the value of a let-name where closures can tell it, nil where not.
func (f *Frame) named(l *Let) (v *letValue) {
	defer func() {
		if recover() != nil {
			v = nil
		}
	}()
	if v = f.let(l); !v.ok {
		return nil
	}
	return v
}

// slowLet works out a let-name by the engine, once a round. It is kept beside the
// closures' answer: an expression that the engine evaluates needs the engine's own
// value, which may be an Unknown.
func (f *Frame) slowLet(l *Let) ref.Val {
	v := &f.lets[l.slot]
	if v.slowRound != f.round {
		v.slow = l.prog.exec(f)
		v.slowRound = f.round
	}
	return v.slow
}

// take keeps an answer of the engine in native form, for let-names that have no
// closures. It is false for what has no such form.
func (v *letValue) take(val ref.Val) bool {
	switch x := val.(type) {
	case types.Bool:
		v.num = truthNumber(bool(x))
	case types.String:
		v.text = string(x)
	case types.Int, types.Double:
		v.num, _ = unboxNumber(val)
	default:
		list, ok := unboxList(val)
		if !ok {
			return false
		}
		v.list = list
	}
	return true
}

func truthNumber(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
