package repeat

import (
	"slices"
	"strconv"
	"strings"
	"time"
)

// readPattern reads the frequency and the days.
func readPattern(r *Rule, p *parts) error {
	for _, name := range []string{"BYYEARDAY", "BYWEEKNO"} {
		if value := p.take(name); value != "" {
			return Fault{NotYearly, name + "=" + value}
		}
	}
	freq := p.take("FREQ")
	month := p.of["BYMONTH"]
	switch freq {
	case "SECONDLY", "MINUTELY", "HOURLY":
		return Fault{TooOften, "FREQ=" + freq}
	case "YEARLY":
		return readYearly(r, p)
	case "DAILY", "WEEKLY", "MONTHLY":
		if month != "" {
			return Fault{NotYearly, "BYMONTH=" + month}
		}
	}
	switch freq {
	case "DAILY":
		return readDaily(r, p)
	case "WEEKLY":
		return readWeekly(r, p)
	case "MONTHLY":
		return readMonthly(r, p)
	}
	return Fault{NotARule, "FREQ=" + freq}
}

// readDaily reads "every day". With weekdays it is a weekly rule, with days of the
// month a monthly one, as long as no day is left out in between.
func readDaily(r *Rule, p *parts) error {
	r.Freq = Daily
	switch {
	case r.Every > 1:
	case p.of["BYDAY"] != "" && p.of["BYMONTHDAY"] == "":
		return readWeekly(r, p)
	case p.of["BYMONTHDAY"] != "" && p.of["BYDAY"] == "":
		return readMonthly(r, p)
	}
	return nil
}

func readWeekly(r *Rule, p *parts) error {
	r.Freq, r.Days = Weekly, DaysOf(r.First.Weekday())
	if value := p.take("BYDAY"); value != "" {
		r.Days = 0
		for _, name := range strings.Split(value, ",") {
			n, ok := readNth(name)
			if !ok || n.N != 0 { // 3.3.10: no number before a weekday in a weekly rule
				return Fault{NotARule, name}
			}
			r.Days |= DaysOf(n.Day)
		}
	}
	return nil
}

func readMonthly(r *Rule, p *parts) error {
	r.Freq = Monthly
	byDay, byMonthDay := p.take("BYDAY"), p.take("BYMONTHDAY")
	switch {
	case byDay != "" && byMonthDay != "":
		return Fault{NotThatPart, "BYMONTHDAY=" + byMonthDay}
	case byDay != "":
		return readMonthWeekdays(r, byDay, p.take("BYSETPOS"))
	case byMonthDay != "":
		for _, text := range strings.Split(byMonthDay, ",") {
			d, err := strconv.ParseInt(text, 10, 8)
			if err != nil || d == 0 || d < -31 || d > 31 {
				return Fault{NotARule, text}
			}
			r.MonthDays = append(r.MonthDays, int8(d))
		}
	default:
		_, _, day := r.First.YMD()
		r.MonthDays = []int8{int8(day)}
	}
	return nil
}

// readMonthWeekdays reads "the first Friday". Some programs write it as every Friday
// with the position 1.
func readMonthWeekdays(r *Rule, byDay, position string) error {
	for _, name := range strings.Split(byDay, ",") {
		n, ok := readNth(name)
		if !ok {
			return Fault{NotARule, name}
		}
		r.Nth = append(r.Nth, n)
	}
	if position == "" {
		return nil
	}
	n, err := strconv.ParseInt(position, 10, 8)
	if err != nil || n == 0 || n < -5 || n > 5 || len(r.Nth) != 1 || r.Nth[0].N != 0 {
		return Fault{NotThatPart, "BYSETPOS=" + position}
	}
	r.Nth[0].N = int8(n)
	return nil
}

// readYearly reads a yearly rule as one of every twelfth month, as long as it names
// no other month than the first date's.
func readYearly(r *Rule, p *parts) error {
	month := p.take("BYMONTH")
	_, first, _ := r.First.YMD()
	switch {
	case month != "" && month != strconv.Itoa(first) && month != "0"+strconv.Itoa(first):
		return Fault{NotYearly, "BYMONTH=" + month}
	case month == "" && p.of["BYDAY"]+p.of["BYMONTHDAY"] != "":
		return Fault{NotYearly, "FREQ=YEARLY"}
	case r.Every*12 > MaxEvery:
		return Fault{EveryFault, "INTERVAL=" + strconv.Itoa(r.Every)}
	}
	r.Every *= 12
	if err := readMonthly(r, p); err != nil {
		return err
	}
	if r.checkFields() == nil {
		moved := *r
		moved.toFirst()
		if _, m, _ := moved.First.YMD(); m != first { // it would begin in another month
			return Fault{NotYearly, "FREQ=YEARLY"}
		}
	}
	return nil
}

// readNth reads MO, 2MO, +2MO or -1MO.
func readNth(text string) (Nth, bool) {
	if len(text) < 2 || len(text) > 4 {
		return Nth{}, false
	}
	number, name := text[:len(text)-2], text[len(text)-2:]
	day := slices.Index(names[:], name)
	if number == "" {
		return Nth{0, time.Weekday(day)}, day >= 0
	}
	n, err := strconv.ParseInt(number, 10, 8)
	ok := err == nil && n != 0 && n >= -5 && n <= 5 && day >= 0
	return Nth{int8(n), time.Weekday(day)}, ok
}

func readWeek(r *Rule, p *parts) error {
	value := p.take("WKST")
	if value == "" {
		return nil
	}
	day := slices.Index(names[:], value)
	if day < 0 {
		return Fault{NotARule, "WKST=" + value}
	}
	r.Week = time.Weekday(day)
	return nil
}
