package page

import "newel/core/wall"

// helperDate is a date of a helper before those that are the same are put together.
type helperDate struct {
	day wall.Date
	row PaperRow
}

// rowsMost is how many rows stand on one helper's sheet, and how many dates in one row: a sheet
// of a year of dates would be out of date before it is read to its end.
const rowsMost = 60

// repeatedLeast is from how many dates on what is the same but for its day is one row.
const repeatedLeast = 3

// runLeast is from how many days on they are said as "every day from … to …".
const runLeast = 3

// repeated makes the rows: one for all dates of a duty that have the same times and the same
// words, and one for each other date, in the order of their first days. later says how many
// dates are not on the sheet.
func (m *paperMaker) repeated(dates []helperDate) (rows []PaperRow, later string) {
	more, last := 0, ""
	years := m.years()
	for _, group := range alike(dates) {
		if len(rows) == rowsMost {
			more += len(group)
			continue
		}
		row := dates[group[0]].row
		if len(group) >= repeatedLeast {
			days := make([]wall.Date, len(group))
			for i, n := range group {
				days[i] = dates[n].day
			}
			left := 0
			row.Dates, left = m.daysInWords(days)
			row.Count, last = m.v.Count("paper.dates", len(group)), ""
			more += left
		} else {
			row.Day = years.day(dates[group[0]].day)
			row.Again, last = row.Day == last, row.Day
		}
		rows = append(rows, row)
	}
	if more > 0 {
		later = m.v.Count("paper.later", more)
	}
	return rows, later
}

// alike gathers the places of dates that differ in nothing but their day, in the order of the
// first of each; a few are not put together.
func alike(dates []helperDate) [][]int {
	var groups [][]int
	place := map[string]int{}
	for n := range dates {
		key := dates[n].row.key()
		at, known := place[key]
		if !known {
			at = len(groups)
			place[key] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], n)
	}
	return apartWhereFew(groups, len(dates))
}

// apartWhereFew gives each date of a small group a group of its own, at its place in time.
func apartWhereFew(groups [][]int, dates int) [][]int {
	first := make([][]int, dates)
	for _, group := range groups {
		if len(group) >= repeatedLeast {
			first[group[0]] = group
			continue
		}
		for _, n := range group {
			first[n] = []int{n}
		}
	}
	var all [][]int
	for _, group := range first {
		if group != nil {
			all = append(all, group)
		}
	}
	return all
}

// key is all that a row says but its day. What is no date of a family's duty stands alone.
func (r *PaperRow) key() string {
	text := r.series
	for _, part := range []string{r.Branch, r.Label, r.Time, r.Title, r.Place, r.Note, r.Cannot} {
		text += "\n" + part
	}
	for _, f := range r.Facts {
		text += "\n" + f.Label + "\n" + f.Value
	}
	return text
}

// daysInWords writes days, those that follow each other without a break as from when until when,
// and says how many are left away.
func (m *paperMaker) daysInWords(days []wall.Date) (words []string, left int) {
	years := m.years()
	for from := 0; from < len(days); {
		to := from
		for to+1 < len(days) && days[to+1] == days[to]+1 {
			to++
		}
		if to-from+1 < runLeast {
			to = from
		}
		if len(words) == rowsMost {
			return words, len(days) - from
		}
		text := years.day(days[from])
		if to > from {
			text = m.v.Say("paper.run", arg("from", text), arg("to", years.day(days[to])))
		}
		words = append(words, text)
		from = to + 1
	}
	return words, 0
}
