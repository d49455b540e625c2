package calendar

import (
	"errors"
	"slices"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
)

// adoption turns an event's times into a rule on the wall of the plan's zone.
type adoption struct {
	r     *reader
	what  string
	event *raw
	lead  time.Duration  // from the event's start to the duty's own time
	leads map[string]int // minutes of the same, of the dates that have another (leadKey)
	rule  repeat.Rule
	days  map[int64]wall.Date     // where the event's own pattern is: instant → day of rule
	byDay map[wall.Date]wall.Date // the same by the day on its own wall
	at    wall.Clock              // its time of day on its own wall
}

// adopt gives the rule. why tells why there is none. What fits only in part is told
// about.
func (r *reader) adopt(what string, e *raw, lead int, leads map[string]int) (rule repeat.Rule, why, value string) {
	a := &adoption{r: r, what: what, event: e, lead: time.Duration(lead) * time.Minute, leads: leads}
	own, why, value := a.ownRule()
	if why != "" {
		return rule, why, value
	}
	if why, value = a.toPlan(own); why != "" {
		return rule, why, value
	}
	a.extras()
	a.moves()
	a.skips()
	rule = a.rule.Canonical()
	if err := rule.Check(); err != nil {
		why, value = faultOf(err)
	}
	return rule, why, value
}

func faultOf(err error) (why, value string) {
	var f repeat.Fault
	errors.As(err, &f)
	return f.Code, f.Value
}

// ownRule is the pattern on the wall of the event's own zone.
func (a *adoption) ownRule() (own repeat.Rule, why, value string) {
	start := a.event.start
	first := repeat.Moment{Day: start.day, At: start.at} // as written, even if the clocks skip it on that day
	if a.event.rule == "" {
		return repeat.Rule{First: first.Day, At: first.At, Freq: repeat.Once, Every: 1}, "", ""
	}
	own, err := repeat.Parse(a.event.rule, first, start.loc)
	if err != nil {
		why, value = faultOf(err)
		return own, why, value
	}
	taken := slices.ContainsFunc(a.event.skipped, func(w when) bool { return w.t.Equal(start.t) })
	if own.First != first.Day && !taken { // some take an odd first date out again, as RFC 5545 3.8.5.3 does once
		a.r.left(a.what, LeftPattern, first.Day.String())
	}
	return own, "", ""
}

// toPlan moves the pattern to the wall of the plan's zone, and on by the lead. In
// another zone the hour may differ on some dates, since clocks change on other days:
// such a pattern is none here.
func (a *adoption) toPlan(own repeat.Rule) (why, value string) {
	start := a.event.start
	ownDays, _ := own.Pattern()
	if len(ownDays) == 0 {
		return repeat.NoDates, ""
	}
	here, _ := ownDays[0].At(start.loc, own.At)
	on := a.lead
	if start.loc != a.r.loc {
		on += aheadAt(a.r.loc, here.Add(a.lead)) - aheadAt(start.loc, here)
	}
	rule, days, _, ok := shifted(own, int(on/time.Minute))
	if !ok {
		return LeftMidnight, ""
	}
	if own.Endless() { // shifted gives it an end
		rule.Last = 0
	}
	a.rule, a.at = rule, own.At
	a.days, a.byDay = map[int64]wall.Date{}, map[wall.Date]wall.Date{}
	for i, day := range ownDays {
		t, _ := day.At(start.loc, own.At)
		if start.tzid != "" && !a.r.zones.same(start.tzid, t) {
			return LeftZoneDiff, start.tzid
		}
		if placed, _ := days[i].At(a.r.loc, rule.At); start.loc != a.r.loc && !placed.Equal(t.Add(a.lead)) {
			if own.Freq == repeat.Once {
				return LeftSecond, days[i].String()
			}
			return LeftOtherZone, start.loc.String()
		}
		a.days[t.Unix()], a.byDay[day] = days[i], days[i]
	}
	return "", ""
}

// aheadAt is how far the clocks of a zone are ahead of UTC at an instant.
func aheadAt(loc *time.Location, t time.Time) time.Duration {
	_, seconds := t.In(loc).Zone()
	return time.Duration(seconds) * time.Second
}

// dayOf finds the date of the pattern that a time of the file means.
func (a *adoption) dayOf(w when) (day wall.Date, ok bool) {
	if w.isDate {
		day, ok = a.byDay[w.day]
		return day, ok
	}
	day, ok = a.days[w.t.Unix()]
	return day, ok
}

// moment is an event's start on the plan's wall, as the duty's own time. Of a time that
// the clocks show twice, the wall can only say the first.
func (a *adoption) moment(start time.Time, lead time.Duration) repeat.Moment {
	s := instant(a.r.loc, start.Add(lead))
	if s.form == utc {
		a.r.left(a.what, LeftSecondDate, s.day.String())
	}
	return repeat.Moment{Day: s.day, At: s.at}
}

// startOf is when a date of the file begins: one without a time has the pattern's.
func (a *adoption) startOf(w when) time.Time {
	if w.isDate {
		t, _ := w.day.At(a.event.start.loc, a.at)
		return t
	}
	return w.t
}

func (a *adoption) extras() {
	for _, w := range a.event.extra {
		start := a.startOf(w)
		if _, regular := a.days[start.Unix()]; !regular {
			a.rule.Extra = append(a.rule.Extra, a.moment(start, a.leadOf(w, start)))
		}
	}
}

// leadOn is how far the duty's own time is from the start of a date.
func (a *adoption) leadOn(day wall.Date, extra bool) time.Duration {
	if lead, ok := a.leads[leadKey(day, extra)]; ok {
		return time.Duration(lead) * time.Minute
	}
	return a.lead
}

// leadOf is the same of a date beside the pattern.
func (a *adoption) leadOf(w when, start time.Time) time.Duration {
	if w.single {
		return a.lead // it was counted when it was read
	}
	return a.leadOn(wall.DateOf(start.Add(a.lead).In(a.r.loc)), true)
}

// skips takes dates out, at last: EXDATE wins over RDATE (RFC 5545 3.8.5.1).
func (a *adoption) skips() {
	for _, w := range a.event.skipped {
		if day, ok := a.dayOf(w); ok {
			a.rule.Skipped = append(a.rule.Skipped, day)
		} else if !a.dropExtra(w) && !w.t.Equal(a.event.start.t) {
			a.r.left(a.what, LeftSkip, w.isoDay())
		}
	}
}

func (a *adoption) dropExtra(w when) bool {
	start := a.startOf(w)
	s := instant(a.r.loc, start.Add(a.leadOf(w, start)))
	n := len(a.rule.Extra)
	a.rule.Extra = slices.DeleteFunc(a.rule.Extra, func(e repeat.Moment) bool { return e == repeat.Moment{Day: s.day, At: s.at} })
	return len(a.rule.Extra) < n
}

func (a *adoption) moves() {
	length := a.event.end.Sub(a.event.start.t)
	for _, m := range a.event.moved {
		day, ok := a.dayOf(m.of)
		lead := a.leadOn(day, false)
		if !ok {
			lead = a.leadOf(m.of, a.startOf(m.of))
		}
		switch {
		case ok && m.gone:
			a.rule.Skipped = append(a.rule.Skipped, day)
		case ok:
			// What the clocks alone put elsewhere is where the rule has it.
			if placed, _ := day.At(a.r.loc, a.rule.At); !placed.Equal(m.start.Add(lead)) {
				a.rule.Moved = append(a.rule.Moved, repeat.Move{From: day, To: a.moment(m.start, lead)})
			}
		case !a.dropExtra(m.of):
			if !m.gone { // what is not there cannot be taken out, and need not be told of
				a.r.left(a.what, LeftMove, m.of.isoDay())
			}
			continue
		case !m.gone:
			a.rule.Extra = append(a.rule.Extra, a.moment(m.start, lead))
		}
		if !m.gone && lead == a.lead && m.end.Sub(m.start) != length { // with another own way it is as long as that makes it
			a.r.left(a.what, LeftLength, m.of.isoDay())
		}
	}
}
