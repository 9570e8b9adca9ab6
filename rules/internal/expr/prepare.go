package expr

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"math"
	"runtime/debug"
	"strconv"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/interpreter"
)

// A prepared expression is one line: its role and text, what it costs and how long
// what it gives can grow, and its checked tree, with tabs between. Parsing and
// checking are most of what an expression costs to compile; a line that was
// made of the same text in the same rule and language saves both.

// roleWords name the roles in prepared lines.
var roleWords = [...]string{Value: "value", Condition: "condition", When: "when"}

// preparedKey is what a prepared line of an expression begins with.
func preparedKey(text string, role Role) string {
	return roleWords[role] + "\t" + strconv.Quote(text) + "\t"
}

// Prepare has each expression that is compiled from now on handed over as a prepared
// line. err is of the first that cannot be written.
func (s *Scope) Prepare(keep func(line string, err error)) { s.keep = keep }

// Recall gives the scope the prepared lines of its rule, made of the same rule in a
// language of the same mark. An expression that has none is parsed.
func (s *Scope) Recall(lines string) { s.prepared = lines }

// kept hands a compiled expression over, where somebody prepares.
func (s *Scope) kept(text string, role Role, p *Program, tree *ast.AST) {
	if s.keep == nil {
		return
	}
	line, err := written(tree)
	if err == nil {
		// What is read back must be what was written.
		if again := s.read(line); again == nil {
			err = errors.New("an expression cannot be read back")
		} else if twice, wrong := written(again); twice != line || wrong != nil {
			err = errors.New("an expression is read back as another")
		}
	}
	s.keep(fmt.Sprintf("%s%d\t%d\t%s\n", preparedKey(text, role), p.cost, p.size, line), err)
}

// recall makes a program of a prepared line, nil where there is none.
func (s *Scope) recall(text string, role Role) *Program {
	if s.prepared == "" {
		return nil
	}
	key := preparedKey(text, role)
	for line := range strings.Lines(s.prepared) {
		rest, ok := strings.CutPrefix(line, key)
		if !ok {
			continue
		}
		cost, rest, _ := strings.Cut(rest, "\t")
		size, rest, _ := strings.Cut(rest, "\t")
		p := &Program{lang: s.lang}
		var wrongCost, wrongSize error
		p.cost, wrongCost = strconv.ParseUint(cost, 10, 64)
		p.size, wrongSize = strconv.Atoi(size)
		tree := s.read(strings.TrimSuffix(rest, "\n"))
		if wrongCost != nil || wrongSize != nil || tree == nil {
			return nil
		}
		p.typ = tree.GetType(tree.Expr().ID())
		now := s.now()
		now.finish(p, tree, func() (*cel.Env, error) { return now.env(tree) })
		return p
	}
	return nil
}

// now is the scope as it is, for what is planned later: a loop may use the name of a
// let-name that is only added below it.
func (s *Scope) now() *Scope {
	out := *s
	out.lets = maps.Clone(s.lets)
	return &out
}

// finish makes what evaluates a checked tree. The scope is no longer added to.
func (s *Scope) finish(p *Program, tree *ast.AST, env func() (*cel.Env, error)) {
	p.collect(s, tree)
	p.engine = planned(env, tree, func() interpreter.InterpretableDecoratorV2 { return decorator(s.lang, s, tree) })
	q := quickener{lang: s.lang, scope: s, tree: tree}
	p.quick, p.lacking = q.build(tree.Expr()), q.lackings(tree.Expr())
}

// Mark names a language by what its expressions are checked against: the engine, the
// functions, the limits and the objects with their fields. It is empty where the
// version of the engine is not known, and then nothing can be prepared.
func (l *Language) Mark() string {
	engine := engineVersion()
	if engine == "" {
		return ""
	}
	b := fmt.Append(nil, engine, functionNames(), maxRunes, maxNodes, maxNesting, maxText, maxGrown, maxCost)
	word := func(words ...string) {
		for _, w := range words {
			b = append(append(binary.AppendUvarint(b, uint64(len(w))), w...), '\n')
		}
	}
	number := func(x float64) { b = binary.BigEndian.AppendUint64(b, math.Float64bits(x)) }
	for _, o := range l.objects {
		word("object", o.Name)
		for i := range o.Table.Fields() {
			f := &o.Table.Fields()[i]
			word("field", f.Name, f.Unit)
			number(float64(f.Type))
			number(float64(f.Cap))
			number(f.Min)
			number(f.Max)
			word(f.Choices...)
			for _, k := range f.Known {
				word("known", k.Name)
				word(k.Also...)
			}
		}
	}
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// The engine, and its version in the go.mod of this module.
const (
	engineModule = "github.com/google/cel-go"
	engineWanted = "v0.31.0"
	ownModule    = "example.org/cogcourt"
)

// engineVersion is the engine's version in this program, empty where the program does
// not know it. One that is exchanged for another is named by both. Tests know of
// no modules but the one that they are part of: those of this module have the
// engine of its go.mod.
func engineVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, dep := range info.Deps {
		if dep.Path != engineModule {
			continue
		}
		if dep.Replace != nil {
			return dep.Version + " " + dep.Replace.Path + " " + dep.Replace.Version
		}
		return dep.Version
	}
	if info.Main.Path == ownModule && len(info.Deps) == 0 {
		return engineWanted
	}
	return ""
}
