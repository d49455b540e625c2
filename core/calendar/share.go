package calendar

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// A duty that several people share stands in each helper's file with that helper's dates
// alone, and under a UID of its own: two helpers may look at one calendar, and of two
// events with one UID the later replaces the other (RFC 5546 2.1.5). So the key of such a
// part holds the helper's name.
//
// Where a helper once had all dates, their calendar has the whole series. It goes on under
// its old UID with the dates that are no longer theirs, which it says (memory.go).

// shareRest marks the dates of a duty that the helper of the file has not, where they have
// others of it.
const shareRest = "rest"

// shareKey is the item key of the dates of a duty that one helper has.
func shareKey(id uint32, mark string) string { return dutyKey(id) + ".h" + mark }

// shareMark stands for a helper's name in keys. Without the plan's number nobody can try
// names against it.
func shareMark(number uint32, name string) string {
	return hash("share " + strconv.FormatUint(uint64(number), 10) + " " + NameKey(name))
}

// NameKey is a helper's name as keys hold it: two names that a plan takes for one
// (strings.EqualFold) give the same.
func NameKey(name string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for f := unicode.SimpleFold(r); f != r; f = unicode.SimpleFold(f) {
			least = min(least, f)
		}
		return unicode.ToLower(least)
	}, name)
}

// picked gives the dates of a series that go into the file, as places in s.Duties.
func (w *writer) picked(s *schedule.Schedule, series schedule.Series) []int {
	if w.Choice.Duty != "" || w.Choice.All && !w.rest {
		return series.Dates
	}
	var dates []int
	for _, i := range series.Dates {
		if (s.Who(&s.Duties[i]) == w.Choice.Who) != w.rest {
			dates = append(dates, i)
		}
	}
	return dates
}

// shareOf gives an event of some of a duty's dates its key.
func (w *writer) shareOf(e *event) {
	if e.share = shareRest; !w.rest {
		e.share = shareMark(w.plan.Number, w.plan.Helper(w.Choice.Who))
		e.key = shareKey(e.duty.ID, e.share)
	}
}

// mostAlone is how many dates of a part are written each by itself, where no rule has half
// of them. Of more, a rule with many exceptions is the shorter file.
const mostAlone = 24

// shareRule gives the rule under which some dates of a duty are written: from the first of
// them to the last, on the weekdays of which they are at least half. What differs is then
// taken out of the rule or added to it. ok is false where they are better written date by
// date.
func shareRule(r repeat.Rule, has func(wall.Date) bool) (q repeat.Rule, ok bool) {
	all, _ := r.Pattern()
	days := stretch(all, has)
	var of, some [7]int
	n := 0
	for _, day := range days {
		of[day.Weekday()]++
		if has(day) {
			some[day.Weekday()]++
			n++
		}
	}
	var on, own repeat.Days
	for d := range time.Weekday(7) {
		if of[d] > 0 {
			own |= repeat.DaysOf(d)
		}
		if some[d] > 0 && some[d]*2 >= of[d] {
			on |= repeat.DaysOf(d)
		}
	}
	q, ok = r, n*2 >= len(days) || n > mostAlone
	if byWeek := r.Freq == repeat.Weekly || r.Freq == repeat.Daily && r.Every == 1; byWeek && on != own && on != 0 {
		days = stretch(slices.DeleteFunc(days, func(day wall.Date) bool { return !on.Has(day.Weekday()) }), has)
		q.Days, ok = on, true
		if r.Freq == repeat.Daily {
			q.Freq, q.Week = repeat.Weekly, time.Monday
		}
	}
	if len(days) == 0 {
		return r, false
	}
	q.First, q.Last, q.Count = days[0], 0, len(days)
	q.Skipped, q.Moved, q.Extra = nil, nil, nil
	return q.Canonical(), ok
}

// stretch gives the days from the first to the last that there are.
func stretch(days []wall.Date, has func(wall.Date) bool) []wall.Date {
	from, to := slices.IndexFunc(days, has), len(days)
	if from < 0 {
		return nil
	}
	for !has(days[to-1]) {
		to--
	}
	return days[from:to]
}

// holders says whose the dates of an event are.
type holders struct {
	who     uint8  // where they are one person's
	several bool   // they are not
	text    string // who has which day
}

func (w *writer) holders(s *schedule.Schedule, series schedule.Series, dates []int) (h holders) {
	h.who = s.Who(&s.Duties[dates[0]])
	for _, i := range dates {
		h.several = h.several || s.Who(&s.Duties[i]) != h.who
	}
	if h.several {
		h.text = w.shares(s, series)
	}
	return h
}

// mostShares bounds the single dates that a description lists.
const mostShares = 12

// shares lists who has which days: by weekday, then single dates.
func (w *writer) shares(s *schedule.Schedule, series schedule.Series) string {
	v, d := w.Voice, series.Duty
	usual := *d
	usual.Takes = nil
	var by [7][]int
	for _, i := range series.Dates {
		wd := s.Duties[i].On.Of.Weekday()
		by[wd] = append(by[wd], i)
	}
	var weekdays, dates []string
	same, first := true, -1
	for i := range 7 {
		wd := time.Weekday((i + 1) % 7) // Monday first, as people plan their weeks
		if len(by[wd]) == 0 {
			continue
		}
		who := int(usual.WhoHas(s.Duties[by[wd][0]].On.Of))
		same = same && (first < 0 || first == who)
		first = who
		weekdays = append(weekdays, w.share(v.Say("repeat.weekday."+strconv.Itoa(int(wd))), uint8(who)))
	}
	if same {
		weekdays = []string{w.name(uint8(first))}
	}
	for _, i := range series.Dates {
		day := s.Duties[i].On.Of
		if who := d.WhoHas(day); who != usual.WhoHas(day) {
			dates = append(dates, w.share(v.ShortDay(s.Duties[i].On.Day), who))
		}
	}
	if more := len(dates) - mostShares; more > 0 {
		dates = append(dates[:mostShares], v.Count("calendar.shares.more", more))
	}
	return v.Say("calendar.shares", arg("list", strings.Join(append(weekdays, dates...), "; ")))
}

func (w *writer) share(days string, who uint8) string {
	return w.Voice.Say("calendar.share", arg("days", days), arg("who", w.name(who)))
}

// name is a helper's name, or the word for nobody.
func (w *writer) name(who uint8) string {
	if name := w.plan.Helper(who); name != "" {
		return name
	}
	return w.Voice.Say("calendar.nobody")
}

// shareMarks are those of everybody who may have a part of a duty in this plan.
func shareMarks(p *plan.Plan) []string {
	marks := []string{shareMark(p.Number, "")}
	for _, name := range p.Helpers {
		marks = append(marks, shareMark(p.Number, name))
	}
	return marks
}
