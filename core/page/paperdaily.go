package page

import (
	"slices"

	"newel/core/schedule"
	"newel/core/wall"
)

// PaperDaily is what is the same every day: said once above the days of the refrigerator sheet.
type PaperDaily struct {
	PaperEntry
	Span string // from which day to which
}

// dailyLeast is on how many days something has to be the same to be said once.
const dailyLeast = 3

// sameEvery is what has to be equal on each of the days.
type sameEvery struct {
	series, label, time, who, title string
}

// course is on which of the days, by place, something is the same.
type course struct {
	same sameEvery
	on   []int
}

func (c *course) first() int { return c.on[0] }
func (c *course) last() int  { return c.on[len(c.on)-1] }

// daily takes out of the days what is the same every day. A date that differs stays with its
// day and is marked: it stands for the one that is said for every day. They are in the order of
// the day; what has no time comes first.
func (m *paperMaker) daily(days []PaperDay) []PaperDaily {
	var all []PaperDaily
	said := map[string]int{} // series: up to which day it has been said
	for _, c := range courses(days) {
		if !c.everyDay(days) || c.first() < said[c.same.series] {
			continue
		}
		said[c.same.series] = c.last() + 1
		entry := c.takeOut(days)
		span := m.v.Say("span.days", arg("from", days[c.first()].Date), arg("to", days[c.last()].Date))
		all = append(all, PaperDaily{entry, span})
	}
	slices.SortStableFunc(all, func(a, b PaperDaily) int { return a.minute - b.minute })
	return all
}

// courses gathers what is the same on several days, in the order in which it first stands there.
// What nobody can do on a day, or what depends on the stay, is said with its day.
func courses(days []PaperDay) []course {
	var all []course
	place := map[sameEvery]int{}
	for n := range days {
		for i := range days[n].Entries {
			e := &days[n].Entries[i]
			if e.series == "" || e.Cannot != "" || e.Branch != "" {
				continue
			}
			same := sameEvery{e.series, e.Label, e.Time, e.Who, e.Title}
			at, known := place[same]
			if !known {
				at = len(all)
				place[same] = at
				all = append(all, course{same: same})
			}
			all[at].on = append(all[at].on, n)
		}
	}
	return all
}

// everyDay tells whether there is a date of the duty on each day of the course, and on two of
// three of them the same.
func (c *course) everyDay(days []PaperDay) bool {
	length := c.last() - c.first() + 1
	if len(c.on) < dailyLeast || 3*len(c.on) < 2*length {
		return false
	}
	for n := c.first(); n <= c.last(); n++ {
		if !days[n].has(c.same.series) {
			return false
		}
	}
	return true
}

func (d *PaperDay) has(series string) bool {
	for i := range d.Entries {
		if d.Entries[i].series == series {
			return true
		}
	}
	return false
}

// takeOut takes what is the same out of its days and gives it, and marks what differs there.
func (c *course) takeOut(days []PaperDay) PaperEntry {
	var out PaperEntry
	for n := c.first(); n <= c.last(); n++ {
		var left []PaperEntry
		for _, e := range days[n].Entries {
			same := sameEvery{e.series, e.Label, e.Time, e.Who, e.Title}
			if same == c.same && e.Cannot == "" {
				out = e
				continue
			}
			e.Only = e.Only || e.series == c.same.series
			left = append(left, e)
		}
		days[n].Entries = left
	}
	return out
}

// care is what the patient does every day after surgery, by the titles of the steps.
func (m *paperMaker) care(from wall.Date) []string {
	var all []string
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		ends := s.Due == schedule.Daily
		if s.List != "after" || s.Who == schedule.Coach || !ends && s.Due != schedule.Onward {
			continue
		}
		if s.First >= from+fridgeDays || ends && s.Last < from {
			continue
		}
		text := m.words(s).Title
		if ends {
			text = m.v.Say("paper.care.until", arg("what", text), arg("day", m.v.ShortDay(s.Last)))
		}
		all = append(all, text)
	}
	return all
}
