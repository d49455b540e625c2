package desk

import (
	"slices"
	"strconv"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// columnFields are the registers of a plan that the desk can settle, by their column.
var columnFields = []struct {
	column Column
	field  merge.Field
}{
	{ColumnDate, merge.Surgery}, {ColumnArrival, merge.Arrival}, {ColumnJoint, merge.Joint},
	{ColumnOperation, merge.Operation}, {ColumnStay, merge.Stay},
}

// Apart lists the columns of which a link holds two answers that nobody has settled: two people
// have changed one thing apart from each other. What is shown of it is the careful one.
func Apart(d *merge.Doc) []Column {
	asked := map[merge.Key]bool{}
	for _, q := range d.Questions() {
		asked[q.Key] = true
	}
	var all []Column
	for _, c := range columnFields {
		if asked[merge.Key{Field: c.field}] {
			all = append(all, c.column)
		}
	}
	return all
}

// ApartText lists the answers that a link holds of a column, in words.
func ApartText(v guide.Voice, d *merge.Doc, c Column) string {
	var answers []int
	for _, version := range d.Get(columnKey(c)) {
		if n, err := strconv.Atoi(version.Value); err == nil {
			answers = append(answers, n)
		}
	}
	slices.Sort(answers)
	var all []string
	for _, n := range slices.Compact(answers) {
		all = append(all, answerText(v, c, n))
	}
	return v.List(all)
}

// columnKey is the register of a column; the zero Key where it is none of the desk's.
func columnKey(c Column) merge.Key {
	for _, f := range columnFields {
		if f.column == c {
			return merge.Key{Field: f.field}
		}
	}
	return merge.Key{}
}

// answerText says the value of a register of a column's.
func answerText(v guide.Voice, c Column, n int) string {
	keys := answerKeys(c)
	switch {
	case c == ColumnDate:
		return v.Day(wall.Date(n))
	case c == ColumnArrival:
		return v.Clock(wall.Clock(n).HourMinute())
	case n < len(keys):
		return firstWord(v, keys[n])
	}
	return strconv.Itoa(n)
}

// Told is what a family can be taken to know from a link, for the message with which it is corrected:
// of what stood in two ways, nothing; and of an arrival nothing where the day was open.
func Told(before plan.Plan, apart []Column) plan.Plan {
	for _, c := range apart {
		if c == ColumnDate {
			before.Surgery = 0
		}
		if c == ColumnDate || c == ColumnArrival {
			before.Arrival = wall.NoClock
		}
	}
	return before
}
