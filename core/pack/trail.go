package pack

import (
	"bytes"
	"slices"
	"sync"
)

// What the model says of the next decision follows from the texts before it and from nothing
// else, and to work it out is most of what a document takes. So the chances that it gave along
// the texts of one document are kept as a trail, and given again to a coder whose texts begin in
// the same way, in either direction. Only where these go another way does the coder get a model
// of its own, which hears what was said so far. Families' links mostly differ in no text from the
// one before, and a link that was written is read right after it.

// trail is what was said along the texts of one document, and what the model expected.
type trail struct {
	said   []byte   // of each text: begun and its kind, then its symbols, with all signs
	chance []uint16 // of every decision that led to the symbols, in 1/65536
}

// A trail ends before mostTrail decisions, some twenty thousand characters: a beginning is as good as the
// whole, as far as it goes. So the trails that are kept take under 3 MB; those of families 20 kB.
const (
	mostTrail  = 1 << 17
	mostTrails = 8
)

// trails are those that were made or followed last, the latest first. Nobody changes one.
var trails struct {
	sync.Mutex
	all []*trail
}

// speech is what a coder's texts have said: where it stands on a trail, or what its own model says.
type speech struct {
	*alphabet
	model *texts // nil while the coder follows a trail
	trail *trail // the one that is followed; with a model, the one that is made
	at    int    // symbols passed on the trail that is followed
	odd   int    // and decisions
	full  bool   // the trail that is made does not grow any more
}

// letters is the alphabet of every model.
var letters = sync.OnceValue(newAlphabet)

func newSpeech() *speech { return &speech{alphabet: letters(), trail: &trail{}} }

// begin stands at the start of a text.
func (s *speech) begin(kind Kind) {
	mark := begun + symbol(kind)
	if s.model == nil && !s.follows(func(next symbol) bool { return next == mark }) {
		s.wake(false, path{})
	}
	if s.model != nil {
		s.model.begin(kind)
	}
	s.note(mark)
}

// chance is the chance in 1/65536 that the decision at a node is true.
func (s *speech) chance(node int, walked path, capital bool) int {
	if s.leads(walked, capital) {
		s.odd++
		return int(s.trail.chance[s.odd-1])
	}
	p := s.model.chance(node, walked)
	if s.full = s.full || len(s.trail.chance) >= mostTrail; !s.full {
		s.trail.chance = append(s.trail.chance, uint16(p))
	}
	return p
}

// leads tells whether some trail goes on in the way that was walked. If none does, there is a
// model from here on.
func (s *speech) leads(walked path, capital bool) bool {
	if s.model != nil {
		return false
	}
	if s.follows(func(next symbol) bool { return next < begun && s.code[next].begins(walked) }) {
		return true
	}
	s.wake(capital, walked)
	return false
}

// note says that a symbol is complete, or that a text begins.
func (s *speech) note(done symbol) {
	switch {
	case s.model == nil:
		s.at++
	case !s.full:
		s.trail.said = append(s.trail.said, byte(done))
	}
}

// follows tells whether the trail goes on with a symbol of which fits is true, or another one does
// that is the same up to here; then that one is followed.
func (s *speech) follows(fits func(next symbol) bool) bool {
	goesOn := func(t *trail) bool { return s.at < len(t.said) && fits(symbol(t.said[s.at])) }
	if goesOn(s.trail) {
		return true
	}
	trails.Lock()
	defer trails.Unlock()
	for _, t := range trails.all {
		if goesOn(t) && bytes.Equal(t.said[:s.at], s.trail.said[:s.at]) {
			s.trail = t
			return true
		}
	}
	return false
}

// wake gives the speech a model that has heard all that was said, and how far the next symbol was
// walked.
func (s *speech) wake(capital bool, walked path) {
	m := ready().copied()
	m.hear(s.trail.said[:s.at])
	m.reading.capital = capital
	m.look()
	for node, on := s.start(capital); on.long < walked.long; {
		bit, _ := walked.turn(on)
		m.chance(node, on)
		m.learn(bit)
		node, on = s.step(node, on, bit)
	}
	s.model = m
	s.trail = &trail{said: slices.Clone(s.trail.said[:s.at]), chance: slices.Clone(s.trail.chance[:s.odd])}
}

// hear learns what was said along a trail.
func (m *texts) hear(said []byte) {
	for _, b := range said {
		s := symbol(b)
		switch {
		case s >= begun:
			m.begin(Kind(s - begun))
		case s == capitalSign:
			m.readSymbol(s)
			m.reading.capital = true
		case s == endSign:
			m.readSymbol(s)
		default:
			m.readSymbol(s)
			m.passed(s)
		}
	}
}

// keep has later coders follow this way.
func (s *speech) keep() {
	trails.Lock()
	defer trails.Unlock()
	if at := slices.Index(trails.all, s.trail); at >= 0 {
		trails.all = slices.Delete(trails.all, at, at+1)
	} else if s.model == nil {
		return // it follows one that is not kept any more
	}
	trails.all = slices.Insert(trails.all, 0, s.trail)
	if len(trails.all) > mostTrails {
		trails.all = slices.Delete(trails.all, mostTrails, len(trails.all))
	}
}
