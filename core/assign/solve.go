package assign

// DefaultWork is how much is done where nothing else is asked for.
const DefaultWork = 24_000_000

// Solve finds the best split. The problem has to be sound (Problem.Check); it panics
// otherwise. The same problem gets the same answer, in whatever order its helpers and items
// are listed and whatever numbers its series have.
func Solve(p *Problem, o Options) Answer {
	if err := p.Check(); err != nil {
		panic(err.Error())
	}
	if o.Until == 0 {
		o.Until = LevelEnd - 1
	}
	t := newTask(p, o)
	a := Answer{Cap: make([]int, len(p.Helpers)), To: make([]int, len(p.Items))}
	h := t.cover(o.Until > CoverNice)
	t.left = h.loss
	t.noteCover(&a, h)
	s := &solver{t: t, h: h, a: &a}
	if o.Until >= Peak {
		if len(p.Helpers) > 0 && len(p.Helpers) <= maxTable && len(t.series)<<len(p.Helpers) <= maxPlaces {
			s.e = newTables(t)
		}
		s.level2()
	}
	if o.Until >= Pairs {
		s.level3()
	}
	for l := Rather; l <= o.Until; l++ {
		s.later(l)
	}
	a.Work = t.spent
	t.write(p, &a, h)
	return a
}

// write puts the hand into the answer, in the problem's order.
func (t *task) write(p *Problem, a *Answer, h *hand) {
	for j := range p.Items {
		a.To[j] = Nobody
		if p.Items[j].Held {
			a.To[j] = p.Items[j].Now
		}
	}
	for j, i := range h.to {
		if i != Nobody {
			a.To[t.items[j].place] = t.places[i]
		}
	}
}

func whole(n int64) Ratio { return Ratio{n, 1} }

// noteCover notes the values of level 1.
func (t *task) noteCover(a *Answer, h *hand) {
	all, least := int64(0), int64(0)
	for j := range t.items {
		all += t.items[j].worth
	}
	for c := range t.parts {
		least += t.parts[c].least
	}
	got, most := all-h.loss, all-least
	sure := true
	for tier := Must; tier < tierEnd; tier-- {
		l := CoverMust + Level(Must-tier)
		worth := t.worth[tier]
		here, bound := got/worth, most/worth
		if !sure {
			bound = t.allOf(tier)
		}
		a.Values[l] = Value{whole(t.fixed[l] + here), whole(t.fixed[l] + bound), here == bound}
		sure = sure && here == bound
		got, most = got%worth, most%worth
	}
}

// allOf is the weight of all items of a tier that somebody can take.
func (t *task) allOf(tier Tier) (sum int64) {
	for j := range t.items {
		sum += t.items[j].worth % t.above(tier) / t.worth[tier]
	}
	return sum
}

func (t *task) above(tier Tier) int64 {
	if tier == Must {
		return 1 << 62
	}
	return t.worth[tier+1]
}
