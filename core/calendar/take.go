package calendar

import (
	"hash/fnv"
	"slices"
	"strings"

	ical "github.com/emersion/go-ical"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
)

// ownEvents gives what Write would write for the plan, by UID: the whole duties and the
// parts of each helper. So an event is known again even where another program took our
// properties out of it.
func ownEvents(p *plan.Plan) map[string]*event {
	s, err := schedule.Build(*p)
	if err != nil {
		return nil // a plan without a zone has written nothing
	}
	v := guide.Voice{Book: guide.Open(""), Today: p.Surgery} // nobody reads its words
	own := whole(s, v)
	if !slices.ContainsFunc(p.Duties, func(d plan.Duty) bool { return d.Shared() }) {
		return own
	}
	for who := range len(p.Helpers) + 1 {
		w := &writer{plan: &s.Plan, loc: s.Loc}
		w.Schedule, w.Voice, w.Choice = s, v, Choice{Who: uint8(who), Alarm: -1}
		w.family()
		for i := range w.events {
			if e := &w.events[i]; e.share != "" {
				own[e.id(p.Number)] = e
			}
		}
	}
	return own
}

// known is what the plan or the event itself says about an event of ours.
type known struct {
	noted
	ours      bool // it is ours at all
	byPlan    bool // the plan makes it by itself
	ofPlan    bool // it belongs to this plan
	elsewhere bool // another plan makes it
}

// recognise finds out whether an event is ours.
func (r *reader) recognise(g *group) (k known) {
	c := g.main
	if c == nil && len(g.rest) > 0 {
		c = g.rest[0]
	}
	if c.Props.Get(propPlan) != nil {
		return known{ours: true, byPlan: true, elsewhere: r.own[g.uid] == nil && !r.mine}
	}
	if p := c.Props.Get(propDuty); p != nil {
		k.noted, k.ours = readDuty(unescape(p.Value))
		key := dutyKey(k.duty.ID)
		if k.share != "" && k.share != shareRest {
			key = shareKey(k.duty.ID, k.share)
		}
		k.ofPlan = k.ours && g.uid == uid(r.plan.Number, key)
	}
	e := r.own[g.uid]
	switch {
	case k.ours:
	case e == nil:
		if p, ok := r.partOf(g.uid); ok {
			return known{noted: noted{duty: *p.duty, part: p.part, share: p.share}, ours: true, ofPlan: true}
		}
	case e.duty == nil:
		return known{ours: true, byPlan: true}
	default:
		k = known{noted: noted{duty: *e.duty, part: e.part, share: e.share, lead: e.lead, is: e.timing().print()}, ours: true, ofPlan: true}
		k.readLeads(strings.Join(e.leads, " "))
		if strings.EqualFold(value1(c, ical.PropTransparency), "TRANSPARENT") { // only what is somebody else's is (memory.go)
			k.share = shareRest
		}
	}
	return k
}

// noteSingle remembers the dates of ours that stand alone.
func (r *reader) noteSingle(g *group, k known) {
	if g.main != nil && k.ours && k.part == partDate && k.share == "" {
		if w, why, _ := r.time(g.main, "DTSTART"); why == "" && !w.isDate && !cancelled(g.main) {
			r.singles[k.duty.ID] = append(r.singles[k.duty.ID], alone{w.t, k.lead})
		}
	}
}

// group takes one event over.
func (r *reader) group(g *group, k known) {
	switch {
	case k.byPlan && k.elsewhere:
		r.found.Others++
	case k.byPlan:
		r.found.Own++
	case k.ours && k.part != "": // it comes with the duty's main event
	case g.main == nil:
		r.left(title(g.rest[0]), LeftPart, "")
	case k.ours && k.share != "":
		r.takePart(g, k)
	case k.ours:
		r.takeOwn(g, k)
	case cancelled(g.main):
		r.left(title(g.main), LeftCancelled, "")
	default:
		r.takeForeign(g)
	}
}

// takeForeign makes a ride to a visit of somebody else's event.
func (r *reader) takeForeign(g *group) {
	what := title(g.main)
	e, why, value := r.raw(g, what)
	if why == "" && e.minutes() > plan.MaxLength {
		why, value = LeftLong, e.start.isoDay()
	}
	var rule repeat.Rule
	if why == "" {
		rule, why, value = r.adopt(what, &e, 0, nil)
	}
	if why != "" {
		r.left(what, why, value)
		return
	}
	d := plan.Duty{
		Kind: plan.VisitRide, Title: what, Place: location(g.main), Note: note(g.main), Length: e.minutes(), Rule: rule,
		Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}, Source: source(g),
	}
	if e.minutes() == 0 {
		d.Length = guessLength
	}
	if strings.HasSuffix(d.Note, "…") {
		r.left(what, LeftNote, "")
	}
	for _, m := range e.moved {
		if m.words {
			r.left(what, LeftWords, m.of.isoDay())
		}
	}
	r.asBefore(&d, e.minutes() == 0)
	if e.minutes() == 0 && d.ID == 0 {
		r.left(what, LeftNoLength, "")
	}
	r.found.Duties = append(r.found.Duties, d)
}

// guessLength stands for the length of an event that does not say it, in minutes; the
// person is told.
const guessLength = 30

// asBefore gives a duty the number of the one that came from the same entry before, and
// keeps what the family has done to it since: who has it, how it is called, what to bring,
// which dates fall out. The clinic's word counts for when and where, and for that there is
// one: what was taken out is found anew, so that a file can be taken over a second time.
func (r *reader) asBefore(d *plan.Duty, silent bool) {
	for i := range r.plan.Duties {
		have := &r.plan.Duties[i]
		if have.Source != d.Source || r.taken[have.ID] {
			continue
		}
		r.taken[have.ID] = true
		d.ID, d.Revision, d.Kind, d.Ride = have.ID, have.Revision, have.Kind, have.Ride
		d.Who, d.On, d.Takes, d.Need, d.Steady = have.Who, have.On, have.Takes, have.Need, have.Steady
		d.Title = have.Title
		if have.Note != "" {
			d.Note = have.Note
		}
		if d.Place == "" {
			d.Place = have.Place
		}
		if silent {
			d.Length = have.Length
		}
		d.Rule.Skipped = append(slices.Clone(d.Rule.Skipped), have.Rule.Skipped...)
		d.Rule = d.Rule.Canonical()
		return
	}
}

// source is a mark of the entry that a duty came from; 0 is none. Some systems write no
// UID; then it is what the entry says and when it begins.
func source(g *group) uint32 {
	h := fnv.New32a()
	h.Write([]byte(g.uid))
	if g.uid == "" {
		h.Write([]byte(value1(g.main, ical.PropDateTimeStart) + value1(g.main, ical.PropRecurrenceRule) + value1(g.main, ical.PropSummary)))
	}
	return max(h.Sum32(), 1)
}
