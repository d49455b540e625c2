package merge

import (
	"slices"

	"github.com/stretchr/testify/require"
)

// replica is a device with its copy of the plan, and the acts that have to be in it.
type replica struct {
	device Actor
	doc    *Doc
	has    acted
}

// link is a copy on its way. A document does not change, so sending it is copying it.
type link struct {
	doc *Doc
	has acted
}

// world is a family with its devices and the links between them.
type world struct {
	t       require.TestingT
	c       chance
	devices []*replica
	under   []link // on their way, in no order
	parted  int    // devices below it cannot reach the others; 0: all can
	history history
	joins   int
	counted map[uint32]int // how often times were moved, by duty; 0: the plan's own
	checks  bool           // hold each copy against the history after each join
}

// newWorld gives the same fresh plan to several devices.
func newWorld(t require.TestingT, c chance) *world {
	w := &world{t: t, c: c, history: history{writes: map[Key][]written{}}, counted: map[uint32]int{}}
	p := anyPlan(c)
	for _, d := range p.Duties {
		w.counted[d.ID] = int(d.Revision)
	}
	doc := New(p)
	shows(t, p, doc)
	has := w.history.note(acted{}, Stamp{Maker, 1}, between(NewDoc(p.Number), doc, Stamp{Maker, 1}))
	for _, a := range someActors[:2+c(len(someActors)-1)] {
		w.devices = append(w.devices, &replica{a, doc, has})
	}
	return w
}

// step lets one thing happen: an act, a link sent, one that arrives (late, twice, out of
// order), one that is lost, or a part of the family that is cut off or back.
func (w *world) step() {
	at := w.c(len(w.devices))
	switch w.c(10) {
	case 0, 1, 2, 3:
		w.act(w.devices[at])
	case 4, 5:
		w.under = append(w.under, link{w.devices[at].doc, w.devices[at].has})
	case 6, 7, 8:
		if len(w.under) == 0 || at < w.parted {
			return
		}
		i := w.c(len(w.under))
		w.join(w.devices[at], w.under[i])
		if w.c(3) > 0 { // else it arrives once more some time
			w.under = append(w.under[:i], w.under[i+1:]...)
		}
	case 9:
		if w.parted = w.c(len(w.devices)); len(w.under) > 0 && w.c.half() {
			w.under = w.under[1:]
		}
	}
}

func (w *world) join(r *replica, l link) {
	joined, err := Join(r.doc, l.doc)
	require.NoError(w.t, err)
	r.doc, r.has = joined, r.has.and(l.has)
	w.joins++
	if w.checks {
		w.history.check(w.t, r.doc, r.has)
	}
}

// act lets somebody do one thing.
func (w *world) act(r *replica) {
	switch w.c(12) {
	case 0:
		name := pick(w.c, someNames...)
		w.done("hand", r, r.doc.WithHand(r.device, name), wanting{{Field: Hand, Sub: uint32(r.device)}: says(name)})
	case 1:
		if asked := r.doc.Questions(); len(asked) > 0 {
			w.settle(r, pick(w.c, asked...))
		}
	default:
		w.change(r, acts[w.c(len(acts))])
	}
}

// change lets somebody change what they see. The new document has to show that and no more.
func (w *world) change(r *replica, a act) {
	before := r.doc.Plan()
	p := copied(before)
	want := a.do(w.c, &p, r.device)
	next := r.doc.Change(r.device, p)
	shows(w.t, p, next)
	w.counted[0] += int(p.Revision) - int(before.Revision)
	for _, d := range p.Duties {
		w.counted[d.ID] += int(d.Revision)
		if was := before.Duty(d.ID); was != nil {
			w.counted[d.ID] -= int(was.Revision)
		}
	}
	w.done(a.name, r, next, want)
}

// settle answers a question with one of the values that there are.
func (w *world) settle(r *replica, q Question) {
	answer := pick(w.c, q.Versions...).Value
	want := wanting{q.Key: says(answer)}
	if q.Field == Gone {
		want = wanting{q.Key: given(answer), {Field: Alive, Of: q.Of}: onlyThere(answer == "")}
	}
	next := r.doc.Settle(r.device, q.Key, answer)
	require.NotContains(w.t, next.asked(), q.Key)
	w.done("settle", r, next, want)
}

// done notes an act. A register that had to be written says that and nothing else, or is as
// before, where the plan showed it already; the others are let alone.
func (w *world) done(what string, r *replica, next *Doc, want wanting) {
	if next == r.doc {
		return
	}
	s := Stamp{r.device, next.Last(r.device)}
	require.Greater(w.t, s.N, r.doc.Last(r.device), "an act has a later number")
	wrote := between(r.doc, next, s)
	for k, v := range want {
		if got, ok := wrote[k]; ok && got != v || !ok && !slices.Equal(r.doc.Get(k), next.Get(k)) {
			require.Equal(w.t, v, got, "%s: register %s", what, k)
		}
	}
	for k := range wrote {
		if _, ok := want[k]; !ok {
			require.True(w.t, besides(k, want), "%s: register %s was written too", what, k)
		}
	}
	w.wanted(what, next, wrote)
	require.NoError(w.t, next.Check(), what)
	r.doc, r.has = next, w.history.note(r.has, s, wrote)
	w.history.check(w.t, r.doc, r.has)
}

// wanted asks that whoever changes anything of a duty says at the same time that it is
// wanted, so that the change stands against somebody who takes the duty out meanwhile.
func (w *world) wanted(what string, next *Doc, wrote wanting) {
	p := next.Plan()
	for k := range wrote {
		if d := p.Duty(k.Of); d != nil && !d.Dropped {
			require.Equal(w.t, says("1"), wrote[Key{Field: Alive, Of: k.Of}], "%s: register %s", what, k)
		}
	}
}

// besides tells whether a register may be written by an act that is about others: the
// places of helpers, the counts, what else a duty has that is changed, and the day of a review
// whose name is changed.
func besides(k Key, want wanting) bool {
	if k.Field == Helper || k.Field == Moves {
		return true
	}
	for wanted := range want {
		if other, two := wanted.sayingWith(); two && k == other {
			return true
		}
		if k.Field == Arrival && wanted.Field == Surgery { // it is said for a day
			return true
		}
		if k.Field == LineWords && wanted.Field == Line && k.Sub == wanted.Sub { // a line's other languages
			return true
		}
		if k.Of != 0 && k.Of == wanted.Of {
			return true
		}
	}
	return false
}

// exchange sends everybody's copy to everybody, until all have all.
func (w *world) exchange() {
	for range 2 {
		for _, from := range w.devices {
			for _, to := range w.devices {
				w.join(to, link{from.doc, from.has})
			}
		}
	}
}

// end looks at the copies after everybody has everything: all are one, and every act of
// anybody is in it or was replaced by somebody who knew it.
func (w *world) end() {
	first := w.devices[0]
	require.Len(w.t, first.has, w.history.acts, "every act is in the copies")
	for _, r := range w.devices {
		same(w.t, first.doc, r.doc)
		w.history.check(w.t, r.doc, r.has)
	}
	p := first.doc.Plan()
	require.Equal(w.t, w.counted[0], int(p.Revision))
	for _, d := range p.Duties {
		require.Equal(w.t, w.counted[d.ID], int(d.Revision), "duty %d", d.ID)
	}
	require.NoError(w.t, first.doc.Check())
	soundDuties(w.t, &p)
	w.asked(first)
}

// asked holds the questions against the history: what is asked about has two values, and
// what has two values and a meaning for people is asked about.
func (w *world) asked(r *replica) {
	asked := map[Key]bool{}
	for _, k := range r.doc.asked() {
		asked[k] = true
	}
	for k := range w.history.writes {
		alive := len(w.history.holds(Key{Field: Alive, Of: k.Of}, r.has)) > 0
		versions, want := w.history.holds(k, r.has), false
		switch {
		case k.Field == Gone:
			want = len(versions) > 0 && alive
		case k.Field == Helper || k.Field == Hand || k.Field == Moves || k.Of != 0 && !alive:
		default:
			for _, v := range versions {
				want = want || v.Value != versions[0].Value
			}
		}
		require.Equal(w.t, want, asked[k], "register %s", k)
	}
}

// settleAll lets one device answer everything, which ends the questions on all.
func (w *world) settleAll() {
	r := w.devices[w.c(len(w.devices))]
	for asked := r.doc.Questions(); len(asked) > 0; asked = r.doc.Questions() {
		w.settle(r, asked[0])
	}
	w.exchange()
	w.end()
	for _, r := range w.devices {
		require.Empty(w.t, r.doc.Questions())
	}
}
