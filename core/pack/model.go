package pack

import "sync"

// texts is the model of all texts of a document, and of those it was primed with.
type texts struct {
	*alphabet
	table   table
	links   [chained][256]link
	beside  [contexts - chained][256]chance
	mixers  [3]mixer
	weights [situations]weights
	refined [refinements]refinement
	rate    int // of the mixers

	past    []symbol // what was coded, without capital and end signs; begun + kind before each text
	capital []bool   // which of these had a capital sign
	matches [2]match // anywhere, and among the last symbols
	reading reading
	context [contexts]uint32

	// The decision at hand.
	spots   [contexts]int
	before  [chained]int
	in      [opinions]int
	hits    [2]*chance
	hitBits [2]bool
	refine  [2]*chance // the two refinements in use
}

const (
	primeRate = 6 // of the mixers while the corpus is read
	textRate  = 3 // and afterwards
	mapLimit  = 255
	lastLimit = 127
)

func newTexts() *texts {
	m := &texts{alphabet: letters(), rate: primeRate}
	m.matches[0].least, m.matches[0].reach = anywhereLeast, 1<<16
	m.matches[1].least, m.matches[1].reach = nearLeast, nearReach
	for i := range m.matches {
		m.matches[i].expect()
	}
	for c := range counts(0xFF) {
		for i := range m.links {
			m.links[i][c] = newLink(c)
		}
		for i := range m.beside {
			m.beside[i][c] = even(c.p16())
		}
	}
	for i := range m.weights {
		for k := range m.weights[i] {
			m.weights[i][k] = firstWeight
		}
	}
	for i := range m.refined {
		m.refined[i].expect()
	}
	m.past, m.capital = make([]symbol, chained), make([]bool, chained)
	return m
}

// spare holds models that coders have given back: to make room for one and clear it takes
// longer than to write a short document.
var spare = sync.Pool{New: func() any { return new(texts) }}

// copied is a model of its own that knows the same, for one document.
func (m *texts) copied() *texts {
	c := spare.Get().(*texts)
	past, capital := c.past[:0], c.capital[:0]
	*c = *m
	c.past, c.capital = append(past, m.past...), append(capital, m.capital...)
	return c
}

// chance is the chance in 1/65536 that the decision at a node is true.
func (m *texts) chance(node int, walked path) int {
	deepest := m.chain(node)
	for i := chained; i < contexts; i++ {
		m.in[i] = 0
		m.spots[i] = m.table.place(m.context[i], node, true)
		if c := m.table.counts[m.spots[i]]; c != 0 {
			m.in[i] = stretch(m.beside[i-chained][c].p16())
		}
	}
	matched := m.follows(walked)
	m.in[opinions-1] = unit
	m.mixers[0].situation = node
	m.mixers[1].situation = mostSymbols + deepest*4 + min(m.reading.at, 3)
	m.mixers[2].situation = mostSymbols + chained*4 + matched*int(kinds) + int(m.reading.kind)
	sum := 0
	for i := range m.mixers {
		f := &m.mixers[i]
		f.out = m.weights[f.situation].mix(&m.in)
		sum += f.out
	}
	return m.refineBy(sum/len(m.mixers), node)
}

// chain lets each longer context correct the opinion of the shorter ones, and says
// which was the longest that has been seen.
func (m *texts) chain(node int) int {
	opinion, deepest := 0, 0
	for i := range chained {
		known := i < byFour || m.spots[byThree] >= 0 && m.table.counts[m.spots[byThree]] != 0
		m.spots[i] = m.table.place(m.context[i], node, known)
		m.before[i] = opinion
		if at := m.spots[i]; at >= 0 && m.table.counts[at] != 0 {
			opinion = m.links[i][m.table.counts[at]].opinion(opinion)
			deepest = i
		}
		m.in[i] = opinion
	}
	return deepest
}

// The situations in which a mixer has weights of its own: one knows the node; one, the
// longest context that has been seen and how far into the text it is; one, how long
// the matches are and the kind of text.
const (
	matchStates = 5 * 7
	situations  = mostSymbols + chained*4 + matchStates*int(kinds)
)

type mixer struct{ situation, out int }

// follows asks the matches, and says in one number how long they are.
func (m *texts) follows(walked path) int {
	var state [2]int
	for i := range m.matches {
		f := &m.matches[i]
		bit, any := m.expected(f, walked)
		m.hits[i], m.hitBits[i], m.in[contexts+i] = nil, bit, 0
		if !any {
			continue
		}
		m.hits[i] = &f.right[min(f.long, len(f.right)-1)]
		m.in[contexts+i] = stretch(m.hits[i].p16())
		if !bit {
			m.in[contexts+i] = -m.in[contexts+i]
		}
		state[i] = 1 + min(f.long, 5)
		if i == 0 {
			state[i] = 1 + min(f.long/3, 3)
		}
	}
	return state[1]*5 + state[0]
}

// learn tells every part what the decision was.
func (m *texts) learn(v bool) {
	for i := range m.mixers {
		f := &m.mixers[i]
		m.weights[f.situation].learn(&m.in, missed(f.out, v)*m.rate)
	}
	for i, at := range m.spots {
		if at < 0 {
			continue
		}
		if c := m.table.counts[at]; c != 0 && i < chained {
			m.links[i][c].learn(m.before[i], m.in[i], v)
		} else if c != 0 {
			m.beside[i-chained][c].learn(v, mapLimit)
		}
		m.table.counts[at] = m.table.counts[at].after(v)
	}
	for i, hit := range m.hits {
		if hit != nil {
			hit.learn(v == m.hitBits[i], mapLimit)
		}
	}
	for _, r := range m.refine {
		r.learn(v, lastLimit)
	}
}
