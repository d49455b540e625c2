package pack

// match follows the latest place where the same symbols came, and expects what came
// next there.
type match struct {
	least, reach int                       // symbols that have to be the same; how far back to look
	seen         [1 << rememberBits]uint32 // by hash of so many symbols: where they came last
	to, long     int                       // the place in the past, 0 if none; how many symbols are the same
	right        [32]chance                // by length: the chance that it is right
}

// One match looks anywhere for five symbols; the other for three among about as many as
// a plan has, since what comes again in one plan is likelier to be meant.
const (
	anywhereLeast = 5
	nearLeast     = 3
	nearReach     = 1000
	longest       = 20 // symbols compared
	rememberBits  = 13
)

func (f *match) expect() {
	for n := range f.right {
		f.right[n] = even(certain - certain*2/(2*n+3))
	}
}

// append adds a symbol to the past and sees whether the matches still hold.
func (m *texts) append(s symbol, capital bool) {
	m.past, m.capital = append(m.past, s), append(m.capital, capital)
	for i := range m.matches {
		m.follow(&m.matches[i], s)
	}
}

func (m *texts) follow(f *match, s symbol) {
	if f.to != 0 && m.past[f.to] == s {
		f.to++
		f.long++
	} else {
		f.to, f.long = 0, 0
	}
	end := len(m.past)
	if end <= f.least {
		return
	}
	spot := &f.seen[m.last(f.least)]
	if at := int(*spot); f.to == 0 && at > end-f.reach {
		m.compare(f, at)
	}
	*spot = uint32(end)
}

// compare takes up a match if what came before a place is what came last.
func (m *texts) compare(f *match, at int) {
	long, end := 0, len(m.past)
	for long < longest && long < at && m.past[at-1-long] == m.past[end-1-long] {
		long++
		if m.past[end-long] >= begun {
			break
		}
	}
	if long >= f.least {
		f.to, f.long = at, long
	}
}

// last is a hash of the last symbols.
func (m *texts) last(n int) uint32 {
	var x uint32
	for _, s := range m.past[len(m.past)-n:] {
		x = (x + uint32(s) + 1) * 0x2F0B4C47
		x ^= x >> 13
	}
	return x >> (32 - rememberBits)
}

// expected is the decision that a match makes likely where a walk has come to.
func (m *texts) expected(f *match, walked path) (bit, any bool) {
	if f.to == 0 {
		return false, false
	}
	s := m.past[f.to]
	if m.capital[f.to] && !m.reading.capital {
		s = capitalSign
	}
	if s >= begun {
		s = endSign
	}
	return m.code[s].turn(walked)
}
