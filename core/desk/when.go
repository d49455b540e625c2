package desk

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// calendarWords are the names of months and weekdays, in all languages and in both lengths.
type calendarWords struct{ months, weekdays dictionary }

func newCalendarWords(voices []guide.Voice) calendarWords {
	c := calendarWords{dictionary{}, dictionary{}}
	keys := calendarKeys()
	for i, key := range keys {
		if i < monthKeys {
			c.months.add(voices, key, uint8(i/2+1))
		} else {
			c.weekdays.add(voices, key, uint8((i-monthKeys)/2))
		}
	}
	return c
}

// monthKeys is how many of calendarKeys are of months, which come first.
const monthKeys = 2 * 12

// calendarKeys are the keys of the names of months and weekdays, of each the long and the
// short one.
func calendarKeys() []string {
	var all []string
	for n := range 12 {
		all = append(all, "month."+strconv.Itoa(n+1), "month.short."+strconv.Itoa(n+1))
	}
	for n := range 7 {
		all = append(all, "weekday."+strconv.Itoa(n), "weekday.short."+strconv.Itoa(n))
	}
	return all
}

// leastPrefix is how many letters of a name are enough: "Sept", "Thurs".
const leastPrefix = 3

// named finds a name by itself or by its beginning. Languages may share a beginning only where
// they mean the same, or the longer name goes first.
func named(d dictionary, word string) (n uint8, ok bool) {
	if n, ok = d[word]; ok || len(word) < leastPrefix {
		return n, ok
	}
	for name, meaning := range d {
		if strings.HasPrefix(name, word) {
			if ok && meaning != n {
				return 0, false // two of them begin like this
			}
			n, ok = meaning, true
		}
	}
	return n, ok
}

// dateRead is what came of a cell with a date.
type dateRead struct {
	day   wall.Date
	fault string // a code, "" for none
	ask   bool
	read  string // for the sentence
	or    string // for the sentence: the day that the other order makes
	low   int    // for the sentence
}

func badDate(code string) dateRead { return dateRead{fault: code} }

// date reads a date of a table that says nothing of the order of its numbers.
func (c calendarWords) date(s string, today wall.Date) dateRead {
	return c.cell(s, today).in(order{}, 0)
}

// cell reads a date as people and spreadsheets write it: 2026-11-30; with the month first, as
// in the United States, 11/30/2026, 11-30-26, and with the day first; with the month's name,
// Nov 30 2026, 30 de noviembre de 2026; each with the weekday before it, which is checked. A
// number is taken for a spreadsheet's, and asked about.
func (c calendarWords) cell(s string, today wall.Date) dateSaid {
	if n, ok := serialOf(s); ok {
		return dateSaid{month: serialDate(n), weekday: -1}
	}
	s, clock := withoutClock(s)
	parts := dateWords(s)
	weekday := -1
	if len(parts) > 1 {
		if n, ok := named(c.weekdays, parts[0]); ok && !isNumber(parts[0]) {
			if _, month := named(c.months, parts[0]); !month || hasMonth(c, parts[1:]) {
				weekday, parts = int(n), parts[1:]
			}
		}
	}
	said := c.parts(parts, today)
	said.weekday, said.clock = weekday, clock != ""
	said.points = said.turns && strings.Contains(s, parts[0]+"."+parts[1])
	return said
}

func hasMonth(c calendarWords, parts []string) bool {
	for _, p := range parts {
		if _, ok := named(c.months, p); ok && !isNumber(p) {
			return true
		}
	}
	return false
}

// withoutClock takes a time of day off a date; midnight is what a program writes that has none.
func withoutClock(s string) (day, clock string) {
	s = strings.TrimSpace(s)
	at := strings.IndexByte(s, ':')
	if at < 0 {
		return s, ""
	}
	cut := strings.LastIndexAny(s[:at], " T,\u00a0\u202f")
	if cut < 0 {
		return s, ""
	}
	day, clock = s[:cut], strings.TrimSpace(strings.ToLower(s[cut+1:]))
	clock = strings.TrimSuffix(strings.TrimSuffix(clock, "z"), ".000")
	switch clock {
	case "00:00", "0:00", "00:00:00", "0:00:00", "12:00 am", "12:00:00 am":
		clock = ""
	}
	return strings.TrimRight(day, " ,\u00a0\u202f"), clock
}

// dateWords are the words and numbers of a date, without what stands between them.
func dateWords(s string) []string {
	var kept []string
	for _, w := range words(s) {
		switch w {
		case "de", "del", "of", "the", "el":
			continue
		}
		for _, end := range []string{"st", "nd", "rd", "th", "º", "o"} {
			if n, ok := strings.CutSuffix(w, end); ok && isNumber(n) {
				w = n
			}
		}
		kept = append(kept, w)
	}
	return kept
}

func isNumber(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// parts puts a date together from its words.
func (c calendarWords) parts(p []string, today wall.Date) dateSaid {
	if len(p) == 1 && len(p[0]) == 8 && isNumber(p[0]) { // ISO 8601 without hyphens
		p = []string{p[0][:4], p[0][4:6], p[0][6:]}
	}
	month, at := 0, -1
	for i, w := range p {
		if n, ok := named(c.months, w); ok && !isNumber(w) {
			if at >= 0 {
				return dateSaid{month: badDate("date-unreal")}
			}
			month, at = int(n), i
		} else if !isNumber(w) || len(w) > 4 {
			return dateSaid{month: badDate("date-unreal")}
		}
	}
	if at >= 0 {
		return dateSaid{month: withMonth(p, at, month, today)}
	}
	switch {
	case len(p) == 3 && len(p[0]) == 4:
		return dateSaid{month: dayOf(number(p[0]), number(p[1]), number(p[2]))}
	case len(p) == 3:
		year := yearOf(p[2])
		return turning(p, func(month, day int) dateRead { return dayOf(year, month, day) })
	case len(p) == 2 && len(p[0]) <= 2 && len(p[1]) <= 2:
		return turning(p, func(month, day int) dateRead { return nextYear(month, day, today) })
	}
	return dateSaid{month: badDate("date-unreal")}
}

// turning reads two numbers in both orders.
func turning(p []string, read func(month, day int) dateRead) dateSaid {
	a, b := number(p[0]), number(p[1])
	said := dateSaid{month: read(a, b), day: read(b, a), turns: true}
	said.month.low = a
	return said
}

// withMonth puts a date together whose month stands as a name at a place.
func withMonth(p []string, at, month int, today wall.Date) dateRead {
	rest := append(append([]string{}, p[:at]...), p[at+1:]...)
	switch {
	case len(rest) == 2 && len(rest[0]) == 4: // 2026 Nov 30
		return dayOf(number(rest[0]), month, number(rest[1]))
	case len(rest) == 2:
		return dayOf(yearOf(rest[1]), month, number(rest[0]))
	case len(rest) == 1 && len(rest[0]) <= 2:
		return nextYear(month, number(rest[0]), today)
	}
	return badDate("date-unreal")
}

// yearOf completes a year of two digits: nobody plans for another century.
func yearOf(s string) int {
	if len(s) <= 2 {
		return 2000 + number(s)
	}
	return number(s)
}

func number(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		return -1
	}
	return n
}

func dayOf(year, month, day int) dateRead {
	d, err := wall.NewDate(year, month, day)
	if err != nil {
		return badDate(plan.DateFault(err))
	}
	return dateRead{day: d}
}

// nextYear completes a date without a year to the next one that comes, and asks.
func nextYear(month, day int, today wall.Date) dateRead {
	year, _, _ := today.YMD()
	for try := year; try <= year+8; try++ { // 29 February may be eight years away
		if d, err := wall.NewDate(try, month, day); err == nil && d >= today {
			return dateRead{day: d, fault: "date-year", ask: true, read: d.String()}
		}
	}
	return badDate("date-unreal")
}
