package merge

import (
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// AboutText writes what is told of a helper (Out is a register of its own) as a text of few
// signs, since it stands in links as it is: bits, six to a sign of base64url (RFC 4648
// section 5), the last ones filled up with zeros.
//
//	4 what they can do, 2 how much they offered, 10 minutes away + 1 (0: not known)
//	1 likings follow: 7 likes, 7 avoids
//	then for each time 1, and at the end 0:
//	2 its use
//	1 first day as of the time before, else 16 of days from 1 January 1970
//	1 begins at a quarter of an hour: 7 of them, else 11 of minutes after midnight
//	2 its length: 7 of quarters of an hour, 11 of minutes, 6 of days, 17 of minutes
//	2 once, days, weeks, months; but for once:
//	  1 every one, else 7
//	  weeks:  1 Monday to Friday, else 7; every second or rarer: 3 the day on which weeks begin
//	  months: 1 weekdays of the month: 77, else 62 for the days of the month
//	  2 no end, 10 so many dates, 11 the days to the last
//
// What plan.CheckAbout lets through has one text, of at most MaxUnknown signs. A later form
// begins with laterAbout.
func AboutText(a plan.About) string {
	f := aboutForm{writing: true, ok: true}
	f.about(&a)
	return f.end()
}

// laterAbout begins the text of a form that only later pages read.
const laterAbout = "."

// ReadAbout reads what AboutText writes of what plan.CheckAbout lets through, and nothing else.
func ReadAbout(s string) (plan.About, bool) {
	f := aboutForm{in: s, ok: len(s) <= MaxUnknown}
	var a plan.About
	f.about(&a)
	if !f.ok || len(plan.CheckAbout(&a)) > 0 || AboutText(a) != s {
		return plan.About{}, false
	}
	return a, true
}

// aboutForm goes through the parts of a text in their order, in both directions: every
// function below gives back what it was given, or what it read.
type aboutForm struct {
	writing, ok bool
	in          string
	out         []byte
	held, have  uint32 // bits that make no whole sign yet, and how many
}

const aboutSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"

// bits goes through a number of n bits, the highest first.
func (f *aboutForm) bits(v, n uint32) uint32 {
	var got uint32
	for i := n; i > 0; i-- {
		got = got<<1 | f.bit(v>>(i-1)&1)
	}
	return got
}

func (f *aboutForm) bit(b uint32) uint32 {
	if !f.writing {
		if f.have == 0 {
			f.held, f.have = f.sign(), 6
		}
		f.have--
		return f.held >> f.have & 1
	}
	f.held, f.have = f.held<<1|b, f.have+1
	if f.have == 6 {
		f.out = append(f.out, aboutSigns[f.held])
		f.held, f.have = 0, 0
	}
	return b
}

// sign reads the next sign; behind the end it reads zeros and the text is refused.
func (f *aboutForm) sign() uint32 {
	for i := range len(aboutSigns) {
		if f.in != "" && aboutSigns[i] == f.in[0] {
			f.in = f.in[1:]
			return uint32(i)
		}
	}
	f.ok = false
	return 0
}

func (f *aboutForm) end() string {
	for f.have > 0 {
		f.bit(0)
	}
	return string(f.out)
}

func (f *aboutForm) flag(b bool) bool {
	if b {
		return f.bit(1) == 1
	}
	return f.bit(0) == 1
}

func (f *aboutForm) number(v, n int) int { return int(f.bits(uint32(v), uint32(n))) }

func (f *aboutForm) about(a *plan.About) {
	a.Told = true
	a.Can = plan.Abilities(f.number(int(a.Can), 4))
	a.Offer = plan.Offer(f.number(int(a.Offer), 2))
	a.Away = f.number(a.Away+1, 10) - 1
	if f.flag(a.Likes|a.Avoids != 0) {
		a.Likes, a.Avoids = plan.Tasks(f.number(int(a.Likes), 7)), plan.Tasks(f.number(int(a.Avoids), 7))
	}
	var before wall.Date
	for i := 0; f.flag(i < len(a.Times)) && f.ok; i++ {
		if !f.writing {
			a.Times = append(a.Times, plan.Times{})
		}
		f.times(&a.Times[i], before)
		before = a.Times[i].Rule.First
	}
}

func (f *aboutForm) times(t *plan.Times, before wall.Date) {
	r := &t.Rule
	t.Use = plan.TimesUse(f.number(int(t.Use), 2))
	if f.flag(r.First == before) {
		r.First = before
	} else {
		r.First = wall.Date(f.number(int(r.First), 16))
	}
	if f.flag(r.At%15 == 0) {
		r.At = wall.Clock(15 * f.number(int(r.At)/15, 7))
	} else {
		r.At = wall.Clock(f.number(int(r.At), 11))
	}
	t.Length = f.length(t.Length)
	r.Freq = repeat.Freq(f.number(int(r.Freq), 2))
	r.Every = f.every(*r)
	switch r.Freq {
	case repeat.Weekly:
		f.weekly(r)
	case repeat.Monthly:
		f.monthly(r)
	}
	if r.Freq != repeat.Once {
		f.ending(r)
	}
}

// The units of lengths: minutes in one, and the bits for how many of them.
var lengthUnits = [...]struct{ minutes, bits int }{{15, 7}, {1, 11}, {24 * 60, 6}, {1, 17}}

func (f *aboutForm) length(minutes int) int {
	unit := 0
	for unit < len(lengthUnits)-1 && (minutes%lengthUnits[unit].minutes != 0 || minutes/lengthUnits[unit].minutes >= 1<<lengthUnits[unit].bits) {
		unit++
	}
	u := lengthUnits[f.number(unit, 2)]
	return u.minutes * f.number(minutes/u.minutes, u.bits)
}

func (f *aboutForm) every(r repeat.Rule) int {
	if r.Freq == repeat.Once || f.flag(r.Every == 1) {
		return 1
	}
	return f.number(r.Every, 7)
}

// workdays are Monday to Friday.
const workdays repeat.Days = 0b0111110

func (f *aboutForm) weekly(r *repeat.Rule) {
	if f.flag(r.Days == workdays) {
		r.Days = workdays
	} else {
		r.Days = repeat.Days(f.number(int(r.Days), 7))
	}
	if r.Every == 1 {
		r.Week = time.Monday // as repeat's canonical rules have it
	} else {
		r.Week = time.Weekday(f.number(int(r.Week), 3))
	}
}

// monthly goes through sets: of the days of the month, or of the weekdays of it.
func (f *aboutForm) monthly(r *repeat.Rule) {
	days, nths := r.MonthDays, r.Nth
	if f.flag(len(nths) > 0) {
		for i := range 7 * 11 {
			nth := repeat.Nth{N: int8(i%11 - 5), Day: time.Weekday(i / 11)}
			if here := len(nths) > 0 && nths[0] == nth; f.flag(here) {
				if here {
					nths = nths[1:]
				} else {
					r.Nth = append(r.Nth, nth)
				}
			}
		}
		return
	}
	for i := range 62 {
		day := int8(i - 31)
		if i >= 31 {
			day++
		}
		if here := len(days) > 0 && days[0] == day; f.flag(here) {
			if here {
				days = days[1:]
			} else {
				r.MonthDays = append(r.MonthDays, day)
			}
		}
	}
}

func (f *aboutForm) ending(r *repeat.Rule) {
	kind := 0
	switch {
	case r.Count != 0:
		kind = 1
	case r.Last != 0:
		kind = 2
	}
	switch f.number(kind, 2) {
	case 1:
		r.Count = f.number(r.Count, 10)
	case 2:
		r.Last = r.First + wall.Date(f.number(int(r.Last-r.First), 11))
	case 3:
		f.ok = false
	}
}
