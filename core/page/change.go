package page

import (
	"strconv"

	"newel/core/guide"
	"newel/core/split"
	"newel/core/wall"
)

// change says the smallest change that would cover more: "If Luis could start at 09:30 on
// Wednesdays, that would cover 6 rides."
func (m *maker) change(c split.Change) string {
	args := []guide.Arg{arg("who", m.p.Helper(c.Who)), arg("what", m.covers(c.Covers)), arg("when", m.changeDays(c))}
	args = append(args, arg("time", m.dayClock(c.Clock)), arg("end", m.dayClock(c.End)))
	key := "change.then"
	switch c.Why {
	case split.NoNight:
		key = "change.night"
	case split.NoPets:
		key = "change.pets"
	case split.IsOut:
		key = "change.out"
	case split.IsAway:
		key = "change.away"
	case split.AtWork, split.NotThen:
		key = "change.until"
		switch {
		case c.End > 0:
			key = "change.between"
		case c.Starts && c.Why == split.AtWork:
			key = "change.work.from"
		case c.Why == split.AtWork:
			key = "change.work.until"
		case c.Starts:
			key = "change.start"
		}
	}
	return m.v.Say(key, args...)
}

// dayClock writes minutes after midnight, 24:00 as the midnight that it is.
func (m *maker) dayClock(minutes int) string {
	return m.v.Clock(wall.Clock(minutes % (24 * 60)).HourMinute())
}

// changeDays is the weekday that a change is about, or the day.
func (m *maker) changeDays(c split.Change) string {
	if c.Weekday >= 0 && c.Weekday < 7 {
		return m.v.Say("repeat.weekday." + strconv.Itoa(int(c.Weekday)))
	}
	return m.v.ShortDay(wall.DateOf(c.Day.In(m.s.Loc)))
}

// covers counts what a change would cover: rides as rides where all of it are.
func (m *maker) covers(places []int) string {
	things := ""
	for i, at := range places {
		key := "load.dates"
		if d := &m.s.Duties[at]; d.Family != nil {
			key = guide.Things(d.Family.Kind)
		}
		if i > 0 && key != things || key == "count.times" {
			key = "load.dates"
		}
		things = key
	}
	if things == "" {
		things = "load.dates"
	}
	return m.v.Count(things, len(places))
}
