package repeat

import (
	"sort"
	"time"

	"newel/core/wall"
	"newel/core/zone"
)

// Place puts a date in a zone, by RFC 5545 3.3.5.
func (o Occurrence) Place(loc *time.Location) (time.Time, zone.Fit) { return o.Day.At(loc, o.At) }

// Pattern lists the days of the pattern alone, before anything is skipped, moved or
// added; at most MaxCount. cut tells that a rule without an end was cut a year after its first day.
func (r Rule) Pattern() (days []wall.Date, cut bool) {
	days, whole := r.pattern(make([]wall.Date, 0, r.atMost()))
	return days[:min(len(days), MaxCount)], !whole && r.Endless()
}

// pattern appends the days to a slice. whole tells that no bound of this package cut
// them short: the rule came to its own end.
func (r Rule) pattern(into []wall.Date) (days []wall.Date, whole bool) {
	if r.checkFields() != nil {
		return into, false // nothing that Check refuses is walked
	}
	w := walk{days: into, most: MaxCount + 1, last: r.First + MaxSpan} // one more shows that it is too many
	if r.Endless() {
		w.last = r.First + Year
	}
	if r.Count > 0 {
		w.most = min(r.Count, MaxCount)
	}
	own := r.Last != 0 && r.Last <= w.last
	if own {
		w.last = r.Last
	}
	switch r.Freq {
	case Once:
		return append(into, r.First), true
	case Daily:
		w.days0(r)
	case Weekly:
		w.weeks(r)
	case Monthly:
		w.months(r)
	}
	// Past the last day is the rule's own end only where that day is the rule's own.
	return w.days, w.past && own || !w.past && r.Count > 0 && r.Count <= MaxCount
}

// atMost guesses how many days a pattern has, so that the slice is made once.
func (r Rule) atMost() int {
	if r.Count > 0 {
		return min(r.Count, MaxCount)
	}
	span := Year
	if r.Last != 0 {
		span = min(max(int(r.Last-r.First), 0), MaxSpan)
	}
	per := max(r.Days.Len(), len(r.MonthDays), 1)
	step := max(r.Every, 1)
	switch r.Freq {
	case Weekly:
		step *= 7
	case Monthly:
		step *= 28
		per = max(per, 5*len(r.Nth))
	}
	return min(span/step*per+per+1, MaxCount)
}

// walk gathers days up to a last one and a number.
type walk struct {
	days []wall.Date
	most int
	last wall.Date
	past bool // a day after the last was met
}

// add takes a day, and tells whether to go on.
func (w *walk) add(day wall.Date) bool {
	if day > w.last {
		w.past = true
		return false
	}
	w.days = append(w.days, day)
	return len(w.days) < w.most
}

func (w *walk) days0(r Rule) {
	for day := r.First; w.add(day); day += wall.Date(r.Every) {
	}
}

// weeks goes through the weeks in which the rule holds, each from its first day.
func (w *walk) weeks(r Rule) {
	start := r.First - wall.Date((r.First.Weekday()-r.Week+7)%7)
	var in [7]wall.Date // how far into the week its days are
	n := 0
	for d := range wall.Date(7) {
		if r.Days.Has((r.Week + time.Weekday(d)) % 7) {
			in[n] = d
			n++
		}
	}
	for ; n > 0; start += wall.Date(7 * r.Every) {
		for _, d := range in[:n] {
			if day := start + d; day >= r.First && !w.add(day) {
				return
			}
		}
	}
}

// All lists the dates in order of time, with what was skipped, moved and added. cut
// is as in Pattern.
func (r Rule) All() (dates []Occurrence, cut bool) {
	days, cut := r.Pattern()
	dates = make([]Occurrence, 0, len(days)+len(r.Extra))
	skipped, moved := r.Skipped, r.Moved
	for _, day := range days {
		for len(skipped) > 0 && skipped[0] < day {
			skipped = skipped[1:]
		}
		for len(moved) > 0 && moved[0].From < day {
			moved = moved[1:]
		}
		switch {
		case len(skipped) > 0 && skipped[0] == day:
		case len(moved) > 0 && moved[0].From == day:
			dates = append(dates, Occurrence{moved[0].To, day, WasMoved})
		default:
			dates = append(dates, Occurrence{Moment{day, r.At}, day, Regular})
		}
	}
	for _, m := range r.Extra {
		dates = append(dates, Occurrence{m, m.Day, Added})
	}
	if len(r.Moved)+len(r.Extra) > 0 {
		sort.SliceStable(dates, func(i, j int) bool { return dates[i].before(dates[j].Moment) })
	}
	return dates, cut
}

func (m Moment) before(n Moment) bool {
	if m.Day != n.Day {
		return m.Day < n.Day
	}
	return m.At < n.At
}
