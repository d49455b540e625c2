package app

import (
	"slices"
	"strconv"
	"time"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

const dayMinutes = 24 * 60

// anchor is the Monday from which the weeks of somebody's times are counted, where the form
// says nothing of it.
type anchor = wall.Date

// anchorOf is the Monday of this week; of a plan that is far away, of the week two months
// before surgery, since a rule without an end goes on for a year.
func anchorOf(p *plan.Plan, today wall.Date) anchor {
	day := today
	if p.Surgery > today+180 {
		day = p.Surgery - 60
	}
	return mondayOf(day)
}

// mondayOf is the Monday of the week of a day.
func mondayOf(day wall.Date) wall.Date { return day - wall.Date((day.Weekday()+6)%7) }

// timesValues writes somebody's times into the fields of the form: two that repeat every
// week, all of one use, and two of whole days away. rest are the places of the others.
func timesValues(v map[string]string, all []plan.Times) (rest []int) {
	rows, gone := slices.Clone(page.TimesRows), []string{"gone-a", "gone-b"}
	use := plan.TimesUse(plan.Gone) // not said yet
	for i, t := range all {
		switch {
		case t.Use == plan.Gone && len(gone) > 0 && goneValues(v, gone[0], t):
			gone = gone[1:]
		case t.Use != plan.Gone && (use == plan.Gone || use == t.Use) && len(rows) > 0 && rowValues(v, rows[0], t):
			use, rows = t.Use, rows[1:]
			v["when"] = map[plan.TimesUse]string{plan.Work: "work", plan.Free: "only"}[t.Use]
		default:
			rest = append(rest, i)
		}
	}
	return rest
}

// goneValues writes whole days away; false where the two fields cannot say it.
func goneValues(v map[string]string, row string, t plan.Times) bool {
	r, days := t.Rule, t.Length/dayMinutes
	if r.Freq != repeat.Once || r.At != 0 || t.Length%dayMinutes != 0 || days == 0 {
		return false
	}
	v[row+"-from"] = r.First.String()
	if days > 1 {
		v[row+"-to"] = (r.First + wall.Date(days) - 1).String()
	}
	return true
}

// goesOn tells whether a rule has no end, or one so far away that it makes no difference.
func goesOn(r repeat.Rule) bool { return r.Endless() || r.Last >= r.First+2*staleDays-60 }

// rowValues writes a time that repeats by the week; false where the row cannot say it.
func rowValues(v map[string]string, row string, t plan.Times) bool {
	r, days := t.Rule, t.Rule.Days
	if r.Freq == repeat.Daily {
		days = repeat.AllDays
	}
	plain := (r.Freq == repeat.Weekly && r.Every <= 2 && r.Week == time.Monday || r.Freq == repeat.Daily && r.Every == 1) &&
		goesOn(r) && len(r.Skipped)+len(r.Moved)+len(r.Extra) == 0
	if !plain || t.Length > dayMinutes || t.Length == dayMinutes && r.At != 0 {
		return false
	}
	for d := range time.Weekday(7) {
		if days.Has(d) {
			v[row+"-day-"+strconv.Itoa(int(d))] = "1"
		}
	}
	if t.Length < dayMinutes {
		v[row+"-from"], v[row+"-to"] = r.At.String(), ((r.At + wall.Clock(t.Length)) % dayMinutes).String()
	}
	if r.Every == 2 {
		v[row+"-since"] = r.First.String()
	}
	return true
}

// times reads the rows of the form. Times that say the same as before are those from
// before, in their order, so that saving a form twice changes nothing.
func (e *entry) times(old []plan.Times, from anchor) []plan.Times {
	var fresh []plan.Times
	if when := e.choice("when", whenAnswers); when > 0 && !e.has("when") {
		fresh = e.weekly(map[string]plan.TimesUse{"work": plan.Work, "only": plan.Free}[whenAnswers[when]], from)
	}
	fresh = append(fresh, e.gone()...)
	_, rest := aboutValues(plan.About{Told: true, Times: old})
	for _, i := range rest {
		if e.values[keepName(i)] != "" {
			fresh = append(fresh, old[i])
		}
	}
	var kept []plan.Times
	for _, t := range old {
		same := func(n plan.Times) bool { return sameTimes(t, n) }
		if slices.ContainsFunc(fresh, same) {
			kept = append(kept, t)
			fresh = slices.DeleteFunc(fresh, same)
		}
	}
	return append(kept, fresh...)
}

// staleDays is after how many days the week from which somebody's times are counted is
// written anew: a rule without an end goes on for a year.
const staleDays = 180

// sameTimes tells whether a new time is the same as an old one, or differs only in the week
// from which one that holds every week is counted.
func sameTimes(a, b plan.Times) bool {
	if a.Rule.Every == 1 && a.Rule.Freq == b.Rule.Freq && a.Rule.Freq != repeat.Once && b.Rule.First-a.Rule.First < staleDays {
		a.Rule.First = b.Rule.First
	}
	if a.Rule.Last != 0 && goesOn(a.Rule) && b.Rule.First-a.Rule.First < staleDays {
		a.Rule.Last = 0
	}
	if a.Rule.Every == 2 && a.Rule.Freq == repeat.Weekly && mondayOf(a.Rule.First) == mondayOf(b.Rule.First) {
		a.Rule.First = b.Rule.First
	}
	return a.Use == b.Use && a.Length == b.Length && a.Rule.Equal(b.Rule)
}

// weekly reads the rows of weekdays with a time.
func (e *entry) weekly(use plan.TimesUse, from anchor) []plan.Times {
	var all []plan.Times
	for _, row := range page.TimesRows {
		if t, filled := e.row(row, use, from); filled {
			all = append(all, t)
		}
	}
	if len(all) == 0 && len(e.problems) == 0 {
		e.wrong("a-days", timesMissing)
	}
	return all
}

// row reads one row; filled is false where nothing stands in it or something is wrong.
func (e *entry) row(row string, use plan.TimesUse, first wall.Date) (t plan.Times, filled bool) {
	var days repeat.Days
	for d := range time.Weekday(7) {
		if e.values[row+"-day-"+strconv.Itoa(int(d))] != "" {
			days |= repeat.DaysOf(d)
		}
	}
	problems := len(e.problems)
	at, length := e.fromTo(row)
	r := repeat.Rule{First: first, At: at, Freq: repeat.Weekly, Every: 1, Days: days, Week: time.Monday}
	if since := e.date(row + "-since"); since != 0 && days != 0 {
		r.First, r.Every = mondayOf(since), 2 // any day of such a week says which weeks
	}
	switch {
	case days == 0 && e.values[row+"-from"]+e.values[row+"-to"]+e.values[row+"-since"] != "":
		e.wrong(row+"-days", daysMissing)
	case days == 0, len(e.problems) > problems:
	default:
		return plan.Times{Use: use, Rule: r.Canonical(), Length: length}, true
	}
	return t, false
}

// fromTo reads when a time begins and how long it takes. One that ends at or before it
// begins goes over midnight; both left empty are the whole day.
func (e *entry) fromTo(row string) (at wall.Clock, length int) {
	from, to := e.clock(row+"-from"), e.clock(row+"-to")
	switch {
	case e.has(row+"-from") || e.has(row+"-to"):
	case !from.Known() && !to.Known():
		return 0, dayMinutes
	case !from.Known():
		e.wrong(row+"-from", plan.ClockMissing)
	case !to.Known():
		e.wrong(row+"-to", plan.ClockMissing)
	case from == dayMinutes:
		e.wrong(row+"-from", plan.ClockUnreal)
	case from == to && from != 0:
		e.wrong(row+"-to", timesSame)
	default:
		length = int(to - from)
		if length <= 0 {
			length += dayMinutes
		}
		return from, length
	}
	return 0, 0
}

// gone reads the whole days away.
func (e *entry) gone() []plan.Times {
	var all []plan.Times
	for _, row := range []string{"gone-a", "gone-b"} {
		from, to := e.date(row+"-from"), e.date(row+"-to")
		if e.values[row+"-from"] == "" && e.values[row+"-to"] == "" || e.has(row+"-from") || e.has(row+"-to") {
			continue
		}
		if to == 0 {
			to = from // a single day
		}
		days := int(to-from) + 1
		switch {
		case from == 0:
			e.wrong(row+"-from", plan.DateMissing)
		case days < 1:
			e.wrong(row+"-to", goneTurned)
		case days*dayMinutes > plan.MaxTimesLength:
			e.problems = append(e.problems, plan.Problem{Field: row + "-to", Code: goneLong, High: plan.MaxTimesLength / dayMinutes})
		default:
			r := repeat.Rule{First: from, Freq: repeat.Once, Every: 1}.Canonical()
			all = append(all, plan.Times{Use: plan.Gone, Rule: r, Length: days * dayMinutes})
		}
	}
	return all
}
