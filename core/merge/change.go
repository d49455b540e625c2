package merge

import (
	"maps"
	"slices"
	"strconv"

	"newel/core/plan"
)

// New makes a document of a plan that was made here: everything by {Maker, 1}. The plan is
// one that plan.Check lets through; no helper is called "-", and no two names differ only
// in capitals.
func New(p plan.Plan) *Doc { return made(p, 1) }

// FromOld makes a document of a link of version 1 or 2, whose copies had an edition
// instead of stamps: everything by {Maker, edition}. So of two such links the higher
// edition counts.
func FromOld(p plan.Plan, edition uint32) *Doc {
	return made(p, min(max(edition, 1), LastN))
}

func made(p plan.Plan, n uint32) *Doc {
	act := change{doc: NewDoc(p.Number), stamp: Stamp{Maker, n}}
	act.doc.seen[Maker] = n
	act.next = registersOf(&p, nil)
	act.doc.sorted = slices.SortedFunc(maps.Keys(act.next), Key.Compare)
	for k, v := range act.next {
		act.write(k, v, true)
	}
	act.count(0, 0, int(p.Revision))
	for i := range p.Duties {
		act.count(p.Duties[i].ID, 0, int(p.Duties[i].Revision))
	}
	return act.doc.finished()
}

// Change writes what differs between the plan that the document shows and next, as one act
// of a device. Where nothing differs it is the document itself. The new document shows
// next; what is asked about (Questions) and is not changed stays asked about. next is as
// New wants it, with the same Number.
//
// Duties are never taken away, only taken out (plan.Duty.Dropped), so that calendars and
// other copies hear of it: a duty that next lacks is taken out.
func (d *Doc) Change(a Actor, next plan.Plan) *Doc { return d.Decide(a, next) }

// Decide is Change that also ends the questions about some registers of the plan's own: what next
// says there is written in place of all that was seen, also where it is what is shown.
func (d *Doc) Decide(a Actor, next plan.Plan, settled ...Key) *Doc {
	p := d.Shown()
	next.Number = d.Number
	next = withGone(&p, next)
	settled = slices.DeleteFunc(slices.Clone(settled), func(k Key) bool { return !differ(d.regs[k]) })
	if len(settled) == 0 && samePlan(&p, &next) {
		return d
	}
	act := d.begin(a)
	var same *alike
	if len(settled) == 0 { // else what is alike is written too
		same = alikeIn(&p, &next)
	}
	act.next = registersOf(&next, same)
	act.usesNumbers(d)
	act.differences(&p, &next, same)
	for _, k := range settled {
		value, there := act.next[k]
		if k.Field == Surgery {
			act.settleArrival(value)
		}
		act.write(k, value, there || !k.lasting())
	}
	shows := act.doc.Plan()
	if !samePlan(&shows, &next) {
		act.next = registersOf(&next, nil)
		act.whole(func(k Key) bool { return k.ofDuty() && changedDuty(&shows, &next, k.Of) })
		shows = act.doc.Plan()
	}
	if !samePlan(&shows, &next) {
		act.whole(Key.meaning)
		act.seats(next.Helpers)
		shows = act.doc.Plan()
	}
	act.doc.shown.Store(&shows)
	return act.doc.finished()
}

// withGone adds the duties of p that next lacks, taken out. Their helpers are those of the
// same name; who is no longer on the list has nothing of them.
func withGone(p *plan.Plan, next plan.Plan) plan.Plan {
	seat := func(who uint8) uint8 { return uint8(slices.Index(next.Helpers, p.Helper(who)) + 1) }
	for i := range p.Duties {
		if next.Duty(p.Duties[i].ID) != nil {
			continue
		}
		gone := p.Duties[i]
		gone.Dropped, gone.Who, gone.Takes = true, seat(gone.Who), slices.Clone(gone.Takes)
		for day := range gone.On {
			gone.On[day] = seat(gone.On[day])
		}
		for t := range gone.Takes {
			gone.Takes[t].Who = seat(gone.Takes[t].Who)
		}
		next = next.WithDuty(gone)
	}
	return next
}

func samePlan(p, q *plan.Plan) bool { return p.SameFacts(*q) && p.SameTicks(q) }

func changedDuty(p, q *plan.Plan, id uint32) bool {
	d, e := p.Duty(id), q.Duty(id)
	return d == nil || e == nil || !d.Equal(*e)
}

// change is an act that is being written into a copy of a document.
type change struct {
	doc   *Doc
	stamp Stamp
	next  wanted // what the plan is to be
}

// begin makes the copy. A device that has used up its acts writes under the next number that
// nobody has.
func (d *Doc) begin(a Actor) *change {
	for usedUp := d.seen[a] >= LastN; usedUp; usedUp = d.seen[a] > 0 {
		if a++; a < FirstActor || a > LastActor {
			a = FirstActor
		}
	}
	doc := &Doc{Number: d.Number, seen: maps.Clone(d.seen), regs: maps.Clone(d.regs), sorted: d.order()}
	doc.seen[a]++
	return &change{doc: doc, stamp: Stamp{a, doc.seen[a]}}
}

// write gives a register a value in place of all that was seen there, or takes it away. Any
// change of a duty says at the same time that the duty is wanted, and who has reviewed goes
// with the day.
func (c *change) write(k Key, value string, there bool) {
	if there {
		c.put(k, value)
	} else {
		c.remove(k)
	}
	if other, two := k.sayingWith(); two && c.next[other] != "" && !differ(c.doc.regs[other]) { // what is asked about stays
		c.put(other, c.next[other])
	}
	if alive := (Key{Field: Alive, Of: k.Of}); k.ofDuty() && k.Field != Alive && k.Field != Gone && c.next[alive] != "" {
		c.put(alive, mark)
	}
}

// reset brings back what a plan has by itself. Where it can be said it is said, so that it
// stands against what another writes meanwhile; else the register goes.
func (c *change) reset(k Key) {
	s := &shapes[k.Field]
	c.write(k, s.own(), s.stays)
}

// differences writes what differs between two plans, register by register.
func (c *change) differences(p, next *plan.Plan, same *alike) {
	was := registersOf(p, same)
	for k, v := range c.next {
		if k.Field != Helper && was[k] != v {
			c.write(k, v, true)
		}
	}
	for k := range was {
		if _, stays := c.next[k]; k.Field != Helper && !stays {
			c.reset(k)
		}
	}
	c.newPatterns(was)
	if !slices.Equal(p.Helpers, next.Helpers) {
		for _, name := range p.Helpers {
			if _, stays := c.next[Key{Field: Helper, Name: name}]; !stays {
				c.write(Key{Field: Helper, Name: name}, "", false)
			}
		}
		c.seats(next.Helpers)
	}
	c.counts(p, next)
}

// newPatterns clears the exceptions of duties that come by another pattern now: next says
// which of them there still are.
func (c *change) newPatterns(was wanted) {
	c.whole(func(k Key) bool {
		pattern := Key{Field: Pattern, Of: k.Of}
		return (k.Field == Date || k.Field == Extra) && was[pattern] != "" && was[pattern] != c.next[pattern]
	})
}

// whole makes the registers of a scope exactly what next wants, whatever they show now. It
// writes no more than has to be. Gone stays beside Alive: that is a question.
func (c *change) whole(scope func(Key) bool) {
	for _, k := range c.doc.Keys() {
		if k.Field == Hand || k.Field == Moves || k.Field == Gone || k.Field == Line && k.later(c.doc.value(k)) || c.doc.lineUnknown(k) || !scope(k) {
			continue
		}
		if _, shows := c.doc.shownOf(k); !shows {
			continue
		}
		if _, stays := c.next[k]; !stays && !(shapes[k.Field].stays && c.doc.value(k) == shapes[k.Field].own()) {
			c.reset(k)
		}
	}
	for k, v := range c.next {
		if k.Field != Helper && scope(k) && (c.doc.regs[k] == nil || c.doc.value(k) != v) {
			c.write(k, v, true)
		}
	}
}

// seats gives helpers places in the order of the list, and keeps the places that fit.
func (c *change) seats(names []string) {
	place, before := 0, ""
	for _, name := range names {
		k := Key{Field: Helper, Name: name}
		had := numberOr(c.doc.value(k), 0)
		if had > place || had == place && had > 0 && name > before {
			place, before = had, name
			continue
		}
		if place++; place > maxPlace {
			c.reseat(names)
			return
		}
		before = name
		c.write(k, strconv.Itoa(place), true)
	}
}

// reseat numbers all helpers from 1.
func (c *change) reseat(names []string) {
	for i, name := range names {
		c.write(Key{Field: Helper, Name: name}, strconv.Itoa(i+1), true)
	}
}
