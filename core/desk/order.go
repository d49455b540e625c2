package desk

import (
	"slices"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Three numbers are a date in two ways. In the United States the month stands first, in most
// other places the day does (Unicode CLDR, dateFormats short: en-US M/d/yy, es d/M/yy, es-PR
// MM/dd/yy, de dd.MM.yy). A wrong guess sends somebody to the hospital in another month, so a
// column is read with the month first without a word only where nothing in the table speaks
// against it.

// order is what a table says about the order of its numbers.
type order struct {
	head            dateOrder // by the name of the column: Date (dd/mm/yyyy)
	daily, monthly  bool      // a row can only be meant with the day, with the month first
	languageOfOther bool      // the table is in a language in which the day comes first
}

// dateOrder is an order of day and month.
type dateOrder uint8

const (
	orderUnsaid dateOrder = iota
	monthThenDay
	dayThenMonth
)

// settled is the order that the table proves; mixed: it proves both.
func (o order) settled() (first dateOrder, mixed bool) {
	day, month := o.daily || o.head == dayThenMonth, o.monthly || o.head == monthThenDay
	switch {
	case day && month:
		return orderUnsaid, true
	case day:
		return dayThenMonth, false
	case month:
		return monthThenDay, false
	}
	return orderUnsaid, false
}

// dateSaid is what a cell with a date can mean.
type dateSaid struct {
	month   dateRead // with the month first; all there is of what does not turn
	day     dateRead // with the day first
	turns   bool     // two or three numbers, so that the order counts
	points  bool     // points stand between them, as nobody writes who puts the month first
	weekday int      // that stands before it; -1: none
	clock   bool     // a time of day stands behind it
}

func (d dateRead) bad() bool { return d.fault != "" && !d.ask }

// daily and monthly tell whether only one order makes a date of the cell.
func (s dateSaid) daily() bool   { return s.turns && s.month.bad() && !s.day.bad() }
func (s dateSaid) monthly() bool { return s.turns && s.day.bad() && !s.month.bad() }

// open tells whether both orders make a date, and not the same one.
func (s dateSaid) open() bool {
	return s.turns && !s.month.bad() && !s.day.bad() && s.month.day != s.day.day
}

// fits tells whether the weekday before a date is its own, or none stands there.
func (s dateSaid) fits(d dateRead) bool { return s.weekday < 0 || s.weekday == int(d.day.Weekday()) }

// in reads a cell by what its table says of the order. had is the day of surgery that the
// row's link has, 0 for none: it speaks for an order where the table does not.
func (s dateSaid) in(o order, had wall.Date) dateRead {
	d := s.month
	switch {
	case s.open():
		d = s.inOpen(o, had)
	case s.daily():
		d = s.inDaily(o)
	}
	switch {
	case d.bad():
	case !s.fits(d):
		return dateRead{fault: "date-weekday", read: d.day.String()}
	case s.clock && d.fault == "":
		d.fault, d.ask, d.read = "date-clock", true, d.day.String()
	}
	return d
}

// inDaily reads what is a date with the day first only.
func (s dateSaid) inDaily(o order) dateRead {
	d := s.day
	switch first, _ := o.settled(); {
	case o.head == dayThenMonth:
	case first == dayThenMonth:
		d.fault, d.ask, d.read = "date-day-only", true, d.day.String()
	default:
		return dateRead{fault: "date-month", read: d.day.String(), low: s.month.low}
	}
	return d
}

// inOpen reads what is a date in both orders. A weekday that goes with the one that is read
// settles it.
func (s dateSaid) inOpen(o order, had wall.Date) dateRead {
	first, mixed := o.settled()
	switch {
	case mixed && s.weekday >= 0 && s.fits(s.month) != s.fits(s.day):
		if s.fits(s.day) {
			return s.day
		}
		return s.month
	case mixed:
		return dateRead{fault: "date-mixed", read: s.month.day.String(), or: s.day.day.String()}
	case o.head == dayThenMonth:
		return s.day // which the table says once (orderSaid)
	case first == dayThenMonth,
		first == orderUnsaid && had == s.day.day,
		first == orderUnsaid && had != s.month.day && s.points:
		return s.asked(s.day, s.month, "date-day-first")
	case first == orderUnsaid && (o.languageOfOther || s.points):
		return s.asked(s.month, s.day, "date-month-first")
	}
	return s.month
}

// asked is a reading beside which the other one is named, unless the weekday tells.
func (s dateSaid) asked(d, other dateRead, code string) dateRead {
	if s.weekday >= 0 && s.fits(d) && !s.fits(other) {
		return d
	}
	d.fault, d.ask, d.read, d.or = code, true, d.day.String(), other.day.String()
	return d
}

// orderOf looks through a table for what it says of the order.
func (r *rowReader) orderOf(t *Table) order {
	var o order
	at := t.Known[ColumnDate]
	_, o.head, _ = r.columnName(t.Head[at])
	for _, column := range []Column{ColumnDate, ColumnJoint, ColumnArrival} {
		if i := t.Known[column]; i >= 0 {
			name, _, _ := r.columnName(t.Head[i])
			o.languageOfOther = o.languageOfOther || r.dayFirst.has(name)
		}
	}
	below := t.lines[t.head+1:]
	for i := range below[:min(len(below), 2*MostRows)] {
		cells := below[i].cells
		if at < len(cells) {
			said := r.calendar.cell(cells[at].value, r.today)
			o.daily, o.monthly = o.daily || said.daily(), o.monthly || said.monthly()
			o.languageOfOther = o.languageOfOther || r.dayFirst.hasWord(cells[at].value)
		}
		if joint := t.Known[ColumnJoint]; joint >= 0 && joint < len(cells) {
			o.languageOfOther = o.languageOfOther || r.dayFirst.hasWord(cells[joint].value)
		}
	}
	return o
}

// orderSaid says for the table that its head settled what could be meant otherwise.
func (t *Table) orderSaid(r *rowReader) {
	if r.order.head != dayThenMonth {
		return
	}
	at := t.Known[ColumnDate]
	for i := range t.Rows {
		if row := &t.Rows[i]; at < len(row.Cells) && r.calendar.cell(row.Cells[at], r.today).open() {
			t.Faults = append(t.Faults, RowFault{Column: ColumnDate, Code: "dates-day-first", Ask: true, Value: shown(t.Head[at])})
			return
		}
	}
}

// newDayFirst are the words by which a table is known to be in a language that puts the day
// first: names of columns, months, weekdays and joints that no other language has.
func newDayFirst(voices []guide.Voice) dictionary {
	keys := []string{"desk.column." + ColumnKeys[ColumnDate], "desk.column." + ColumnKeys[ColumnArrival], "desk.column." + ColumnKeys[ColumnJoint], jointAnswers[plan.Knee], jointAnswers[plan.Hip]}
	keys = append(keys, calendarKeys()...)
	day, month := dictionary{}, dictionary{}
	for _, v := range voices {
		into := month
		if v.Say("desk.date.order") == "day" {
			into = day
		}
		for _, key := range keys {
			into.add([]guide.Voice{v}, key, 0)
		}
	}
	for word := range month {
		delete(day, word)
	}
	return day
}

func (d dictionary) has(s string) bool { _, ok := d.find(s); return ok }

// hasWord tells whether one of the words of a text is in the dictionary.
func (d dictionary) hasWord(s string) bool {
	return len(s) < 8*mostShown && slices.ContainsFunc(words(s), d.has)
}
