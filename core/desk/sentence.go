package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/wall"
)

// ColumnName is the name of a column as it is written into tables.
func ColumnName(v guide.Voice, c Column) string { return firstWord(v, "desk.column."+ColumnKeys[c]) }

// Sentence says a fault of a row, or of the table where r is nil: where it is, what is wrong
// and what to do.
func Sentence(v guide.Voice, r *Row, f RowFault) string {
	args := []guide.Arg{
		{Name: "column", Value: ColumnName(v, f.Column)}, {Name: "value", Value: f.Value}, {Name: "read", Value: f.Read},
		{Name: "answers", Value: answersOf(v, f.Column)}, {Name: "example", Value: (v.Today + 14).String()},
		{Name: "column-date", Value: ColumnName(v, ColumnDate)}, {Name: "no-soap", Value: ColumnName(v, ColumnNoSoap)}, {Name: "joint", Value: ColumnName(v, ColumnJoint)},
		{Name: "unknown", Value: firstWord(v, "desk.answer.unknown")},
		guide.Number("other", f.Row), guide.Number("low", f.Low), guide.Number("high", f.High),
	}
	if r != nil {
		args = append(args, guide.Number("row", r.Number))
	}
	if day, err := wall.ParseDate(f.Read); err == nil {
		v := v
		v.Today = wall.FirstDate // so that the year is said, which may be what is wrong
		args = append(args, guide.Arg{Name: "day", Value: v.Day(day)}, guide.Arg{Name: "day1904", Value: v.Day(day + serial1904)},
			guide.Arg{Name: "weekday", Value: v.Weekday(day)})
	}
	if other, err := wall.ParseDate(f.Or); err == nil {
		v := v
		v.Today = wall.FirstDate
		args = append(args, guide.Arg{Name: "or-day", Value: v.Day(other)}, guide.Arg{Name: "or", Value: f.Or})
	}
	if at, err := wall.ParseClock(f.Read); err == nil {
		args = append(args, guide.Arg{Name: "time", Value: v.Clock(at.HourMinute())})
	}
	return v.Say("desk.row."+f.Code, args...)
}

// answersOf lists the answers that a column takes.
func answersOf(v guide.Voice, c Column) string {
	var all []string
	for _, key := range answerKeys(c) {
		all = append(all, firstWord(v, key))
	}
	if c == ColumnLanguage {
		for _, tag := range guide.Languages {
			all = append(all, guide.Name(tag))
		}
	}
	return strings.Join(all, ", ")
}

// Example is a small table to show how one looks, divided by tabs, two weeks from today.
func Example(v guide.Voice) string {
	columns := []Column{ColumnLabel, ColumnDate, ColumnArrival, ColumnJoint, ColumnStay}
	var b strings.Builder
	row := func(cells ...string) { b.WriteString(strings.Join(cells, "\t") + "\n") }
	var head []string
	for _, c := range columns {
		head = append(head, ColumnName(v, c))
	}
	row(head...)
	row("A1", (v.Today + 14).String(), "05:30", firstWord(v, jointAnswers[0]), firstWord(v, stayAnswers[0]))
	row("A2", (v.Today + 15).String(), firstWord(v, "desk.answer.unknown"), firstWord(v, jointAnswers[1]), firstWord(v, stayAnswers[1]))
	return b.String()
}
