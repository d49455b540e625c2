package page

import (
	"sort"
	"strconv"
	"strings"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
)

// DateLine is one date of a duty and who has it; Note says why that cannot work.
type DateLine struct{ Text, Who, Note string }

// WeekdayField asks who has the dates on one weekday.
type WeekdayField struct{ Name, Label, Who string }

// holders are the people who have some dates, in the order of the plan, each with the
// weekdays on which they have some.
type holders struct {
	who  []uint8
	on   map[uint8]repeat.Days // also of nobody, 0
	open int                   // dates that nobody has
	out  int                   // dates of those who can no longer help
	all  int
}

func (m *maker) holders(dates []*schedule.Duty) holders {
	h := holders{on: map[uint8]repeat.Days{}, all: len(dates)}
	for _, d := range dates {
		who := m.s.Who(d)
		switch {
		case who == 0:
			h.open++
		case h.on[who] == 0:
			h.who = append(h.who, who)
		}
		if m.p.AboutOf(who).Out {
			h.out++
		}
		h.on[who] |= repeat.DaysOf(d.On.Of.Weekday())
	}
	sort.Slice(h.who, func(i, j int) bool { return h.who[i] < h.who[j] })
	return h
}

// apart tells whether no weekday has two people, so that the weekdays say it all.
func (h *holders) apart() bool {
	seen := h.on[0]
	for _, who := range h.who {
		if seen&h.on[who] != 0 {
			return false
		}
		seen |= h.on[who]
	}
	return len(h.on) > 1
}

// whose says who has some dates of a duty: "Dana", "Dana (Mon), Luis (Wed)", or only
// "Dana, Luis" where that is not all; "" where nobody has any.
func (m *maker) whose(h holders) string {
	var names []string
	if !h.apart() {
		for _, who := range h.who {
			names = append(names, m.p.Helper(who))
		}
		return strings.Join(names, ", ")
	}
	sort.Slice(h.who, func(i, j int) bool { return weekPlace(h.on[h.who[i]]) < weekPlace(h.on[h.who[j]]) })
	for _, who := range h.who {
		names = append(names, m.v.Say("family.on", arg("who", m.p.Helper(who)), arg("days", m.weekdays(h.on[who]))))
	}
	return strings.Join(names, ", ")
}

// weekPlace is how far into the week the first of some weekdays is, from Monday.
func weekPlace(set repeat.Days) int {
	for i := range 7 {
		if set.Has(time.Weekday((i + 1) % 7)) {
			return i
		}
	}
	return 7
}

// weekdays lists weekdays in short, Monday first as people plan their weeks.
func (m *maker) weekdays(set repeat.Days) string {
	var names []string
	for i := range 7 {
		if d := (i + 1) % 7; set.Has(time.Weekday(d)) {
			names = append(names, m.v.Say("weekday.short."+strconv.Itoa(d)))
		}
	}
	return strings.Join(names, ", ")
}

// open says how many dates need somebody, where somebody has the others: nobody has them, or
// somebody who can no longer help.
func (m *maker) open(h holders) string {
	if h.open == h.all || h.open+h.out == 0 {
		return ""
	}
	return m.v.Count("family.open", h.open+h.out)
}

// coming are the dates of a series that are not over, or all where they all are.
func (m *maker) coming(series *schedule.Series) []*schedule.Duty {
	var all, coming []*schedule.Duty
	for _, i := range series.Dates {
		d := &m.s.Duties[i]
		all = append(all, d)
		if d.Session.To.After(m.Now) {
			coming = append(coming, d)
		}
	}
	if len(coming) == 0 {
		return all
	}
	return coming
}

// fillWho says whose a duty is, with the fields for sharing it out.
func (m *maker) fillWho(v *DutyView, series *schedule.Series) {
	dates := m.coming(series)
	h := m.holders(dates)
	v.Who, v.Shared, v.Open = m.whose(h), len(h.who) > 1, m.open(h)
	v.Unsettled, v.SomeOpen = m.openWho(dates)
	v.Weekdays = m.weekdayFields(v, series.Duty)
	if len(v.Weekdays) > 0 {
		v.Usual = m.v.Say("duty-days.hint.nobody")
		if name := m.p.Helper(series.Duty.Who); name != "" {
			v.Usual = m.v.Say("duty-days.hint", arg("who", name))
		}
	}
}

// weekdayFields asks for each weekday of a rule that has several: of one that counts
// weeks, and of one for every day.
func (m *maker) weekdayFields(v *DutyView, d *plan.Duty) []WeekdayField {
	days := d.Rule.Days
	switch {
	case d.Rule.Freq == repeat.Daily && d.Rule.Every == 1:
		days = repeat.AllDays
	case d.Rule.Freq != repeat.Weekly:
		return nil
	}
	if days.Len() < 2 {
		return nil
	}
	var fields []WeekdayField
	for i := range 7 {
		day := (i + 1) % 7
		if !days.Has(time.Weekday(day)) {
			continue
		}
		f := WeekdayField{Name: "on-" + strconv.Itoa(day), Label: m.v.Say("weekday." + strconv.Itoa(day)), Who: m.p.Helper(d.On[day])}
		if v.Typed["act"] == "days" {
			f.Who = v.Typed[f.Name]
		}
		fields = append(fields, f)
	}
	return fields
}

// addGiven lists a date among those that can be given to somebody: each by its place in
// the pattern, an extra one by its own day, so one that stands twice is one.
func (m *maker) addGiven(v *DutyView, date *schedule.Duty, text string) {
	day := date.On.Of.String()
	for i := range v.Given {
		if v.Given[i].Value == day {
			v.Given[i].Label += "; " + text
			return
		}
	}
	v.Given = append(v.Given, Option{day, m.v.Say("dates.given", arg("day", text), arg("who", m.nameOf(date))), v.Typed["day"] == day})
}

// nameOf is who has a date, or the word for nobody.
func (m *maker) nameOf(date *schedule.Duty) string {
	if who := m.holder(date); who != "" {
		return who
	}
	return m.name(0)
}

// name is a helper's name, or the word for nobody.
func (m *maker) name(who uint8) string {
	if name := m.p.Helper(who); name != "" {
		return name
	}
	return m.v.Say("who.none")
}
