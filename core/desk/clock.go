package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/wall"
)

// clockRead is what came of a cell with a time of day.
type clockRead struct {
	clock wall.Clock // NoClock: not known yet
	said  bool       // the cell says something
	fault string
	ask   bool
}

// clockWords are the words that stand for a time, or behind one.
type clockWords struct{ marks dictionary }

// The meanings of clockWords.
const (
	markUnknown uint8 = iota
	markAM
	markPM
	markHour
	markNoon
	markMidnight
	markNight   // "de la noche": from nightfall to midnight
	markMorning // "de la mañana": noon is its end
	markMidday  // "del día", around noon
)

var clockKeys = [...]string{
	markUnknown: "desk.answer.unknown", markAM: "desk.answer.am", markPM: "desk.answer.pm",
	markHour: "desk.answer.hour", markNoon: "desk.answer.noon", markMidnight: "desk.answer.midnight",
	markNight: "desk.answer.night", markMorning: "desk.answer.morning", markMidday: "desk.answer.midday",
}

func newClockWords(voices []guide.Voice) clockWords {
	c := clockWords{dictionary{}}
	for mark, key := range clockKeys {
		c.marks.add(voices, key, uint8(mark))
	}
	return c
}

// Times without AM or PM from earliestDoubted to latestDoubted may be of the afternoon; nobody has
// to arrive in the night.
const earliestDoubted, latestDoubted = 1 * 60, 4*60 - 1

// clock reads a time of day: 5:30, 05:30, 5.30 am, 0530, noon. A number is taken for a
// spreadsheet's fraction of a day, and asked about.
//
// A dash or a question mark says no more than an empty cell: sheets show one in every cell that
// nobody has filled in.
func (c clockWords) clock(s string) clockRead {
	s = strings.TrimSpace(s)
	if strings.Trim(s, "-–—?. ") == "" {
		return clockRead{clock: wall.NoClock}
	}
	read := c.said(s)
	read.said = true
	return read
}

func (c clockWords) said(s string) clockRead {
	if mark, ok := c.marks.find(s); ok {
		switch mark {
		case markUnknown:
			return clockRead{clock: wall.NoClock}
		case markNoon:
			return clockRead{clock: 12 * 60}
		case markMidnight:
			return clockRead{clock: 0}
		}
	}
	if n, ok := serialOf(s); ok && n.isClock() {
		return serialClock(n)
	}
	return c.written(s)
}

// written reads hours, minutes and what stands behind them.
func (c clockWords) written(s string) clockRead {
	bad := clockRead{clock: wall.NoClock, fault: "time-unreal"}
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || (s[end] == ':' || s[end] == '.') && end+1 < len(s) && s[end+1] >= '0' && s[end+1] <= '9') {
		end++
	}
	at, ok := minutesOf(s[:end])
	if !ok {
		return bad
	}
	bare := !strings.ContainsAny(s[:end], ":.") && end <= 2
	behind := fold(s[end:])
	if behind == "" {
		if strings.Trim(s[end:], " .,") != "" {
			return bad
		}
		return without(at, bare)
	}
	mark, known := c.marks[behind]
	switch {
	case known && mark == markHour:
		return without(at, false)
	case known && mark == markAM && at >= 60 && at < 13*60:
		return clockRead{clock: at % (12 * 60)}
	case known && mark == markPM && at >= 12*60:
		return clockRead{clock: at}
	case known && mark == markPM && at >= 60:
		return clockRead{clock: at + 12*60}
	case known && mark >= markNight:
		return partOfDay(mark, at)
	}
	return bad
}

// The hours to which "de la noche" may reach back: what is earlier is after midnight.
const nightfall = 6 * 60

// partOfDay reads a time behind which a part of the day is named. Twelve at night is midnight,
// twelve in the morning or by day noon, as in Spanish (Real Academia Española: doce de la noche,
// doce del día, doce de la mañana). What some mean otherwise is asked about.
func partOfDay(mark uint8, at wall.Clock) clockRead {
	const noon = 12 * 60
	asked := func(at wall.Clock) clockRead { return clockRead{clock: at, fault: "time-half", ask: true} }
	after := at - noon // of an hour between twelve and one
	switch {
	case at >= noon+60 && mark == markMorning:
		return clockRead{clock: wall.NoClock, fault: "time-unreal"}
	case at >= noon+60:
		return clockRead{clock: at} // 22:00 de la noche
	case mark == markNight && at >= noon:
		return asked(after)
	case mark == markNight && at >= nightfall:
		return clockRead{clock: at + noon}
	case mark == markNight:
		return asked(at)
	case at >= noon && mark == markMorning:
		return asked(at)
	case at < 60 && mark == markMidday:
		return clockRead{clock: wall.NoClock, fault: "time-unreal"}
	case mark == markMidday && at < nightfall:
		return clockRead{clock: at + noon} // la una del mediodía
	}
	return clockRead{clock: at}
}

// without is a time without AM or PM: of the morning, as arrivals are. bare: an hour alone.
func without(at wall.Clock, bare bool) clockRead {
	if at >= earliestDoubted && at <= latestDoubted || bare {
		return clockRead{clock: at, fault: "time-half", ask: true}
	}
	return clockRead{clock: at}
}

// minutesOf reads 5:30, 05:30:00, 5.30, 530, 0530 or 5. Seconds are dropped.
func minutesOf(s string) (wall.Clock, bool) {
	p := strings.FieldsFunc(s, func(r rune) bool { return r == ':' || r == '.' })
	switch {
	case len(p) == 1 && (len(s) == 3 || len(s) == 4):
		p = []string{s[:len(s)-2], s[len(s)-2:]}
	case len(p) == 1 && len(s) <= 2:
		p = append(p, "00")
	case len(p) < 2 || len(p) > 3 || len(p[1]) != 2 || len(p[0]) > 2:
		return 0, false
	}
	if len(p) == 3 && (len(p[2]) != 2 || number(p[2]) > 59) {
		return 0, false
	}
	h, m := number(p[0]), number(p[1])
	if h < 0 || h > 23 || m < 0 || m > 59 {
		return 0, false
	}
	return wall.Clock(h*60 + m), true
}
