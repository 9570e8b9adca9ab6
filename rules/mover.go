package rules

import "example.org/cogcourt/rules/internal/expr"

// mover gives the records of a result with some facts elsewhere. The records that
// all others share are never written to: those that move are copied into memory that
// serves at the next place again.
type mover struct {
	set   *Set
	from  []*Record
	again again

	records []*Record
	copies  []*Record
	refs    []Ref
}

// placed is a fact and where it stands: -1 at the lower end of its tolerance or
// spread, 1 at the upper one.
type placed struct {
	read expr.Read
	to   float64
}

// at gives records with these facts moved to use, which keeps none of them.
func (m *mover) at(facts []placed, wanted []Ref, use func([]*Record)) {
	m.records = append(m.records[:0], m.from...)
	m.refs = m.refs[:0]
	if len(m.copies) < len(m.records) {
		m.copies = make([]*Record, len(m.records))
	}
	for _, f := range facts {
		rec := m.records[f.read.Object]
		if rec == m.from[f.read.Object] {
			rec = rec.copied(m.copies[f.read.Object])
			m.records[f.read.Object], m.copies[f.read.Object] = rec, rec
		}
		rec.move(f.read.Field, f.to)
		m.refs = append(m.refs, m.set.vocabulary.ref(f.read))
	}
	m.again(m.records, m.refs, wanted, use)
}
