package page

import (
	"slices"
	"sort"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
)

// Day is one day with its rows in order.
type Day struct {
	ID, ISO, Heading, Sub string
	Today, Surgery        bool
	Rows                  []Row
}

// gathered are the lists whose lines are shown as one row on the day they are
// due, since ten lines of packing would bury the one time that matters.
var gathered = map[string]bool{"home": true, "equipment": true, "pack": true, "going": true}

// fillDays sorts every row into what is still to do, days gone by, the days from
// today on, and what is kept up every day.
func (m *maker) fillDays(v *View) {
	byDay := map[plan.Date][]Row{}
	for _, step := range m.singleSteps() {
		r := m.stepRow("day-", step)
		switch {
		case step.Due == schedule.Daily || step.Due == schedule.Onward:
			v.Daily = append(v.Daily, r)
		case step.Due == schedule.ByDay && m.late(step.Last) && !r.Tick.Done:
			r.State = "late"
			v.Overdue = append(v.Overdue, r)
		default:
			byDay[step.First] = append(byDay[step.First], r)
		}
	}
	for _, g := range m.listRows() {
		if m.late(g.last) && !g.done {
			g.row.State = "late"
			v.Overdue = append(v.Overdue, g.row)
		} else {
			byDay[g.last] = append(byDay[g.last], g.row)
		}
	}
	// Duties after steps, so that of two at one time "wash by 4:15" stands before
	// "leave by 4:15".
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		byDay[d.Day] = append(byDay[d.Day], m.dutyRow(d))
	}
	byDay[m.p.Surgery] = append(byDay[m.p.Surgery], m.stageRows()...)
	for _, date := range sortedDays(byDay) {
		day := m.day(date, byDay[date])
		if date < m.today {
			v.Past = append(v.Past, day)
		} else {
			v.Days = append(v.Days, day)
		}
	}
}

// late tells whether a day has passed that still counts: once surgery is over,
// nobody needs to be told that the rugs should have been up before it.
func (m *maker) late(day plan.Date) bool { return day < m.today && m.ahead() }

// singleSteps are the steps that stand on their own in a day.
func (m *maker) singleSteps() []*schedule.Step {
	var steps []*schedule.Step
	for i := range m.s.Steps {
		if s := &m.s.Steps[i]; !gathered[s.List] {
			steps = append(steps, s)
		}
	}
	return steps
}

type listRow struct {
	last plan.Date
	done bool
	row  Row
}

// listRows makes one row for the lines of a gathered list that are due on the
// same day.
func (m *maker) listRows() []listRow {
	type key struct {
		list string
		day  plan.Date
	}
	var order []key
	steps := map[key][]*schedule.Step{}
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		if !gathered[s.List] || !s.Once() {
			continue
		}
		k := key{s.List, s.Last}
		if steps[k] == nil {
			order = append(order, k)
		}
		steps[k] = append(steps[k], s)
	}
	var rows []listRow
	for _, k := range order {
		row, done := m.listRow(k.list, k.day, steps[k])
		rows = append(rows, listRow{k.day, done, row})
	}
	return rows
}

func (m *maker) listRow(list string, day plan.Date, steps []*schedule.Step) (r Row, all bool) {
	done := 0
	for _, s := range steps {
		if m.p.Has(s.Tick()) {
			done++
		}
	}
	r = Row{
		ID: "list-row-" + list + "-" + number(int(day-m.p.Surgery)), Kind: "gathered", Title: m.v.Say("list." + list),
		Link: "list-" + list, Due: m.v.Say("label.due", guide.Arg{Name: "day", Value: m.v.ShortDay(day)}),
		Note: m.v.Say("group.count", guide.Number("done", done), guide.Number("n", len(steps))), list: list,
	}
	if list == "going" {
		r.order = 2
	}
	m.setState(&r, day, day)
	if done == len(steps) {
		r.State = "past"
	}
	return r, done == len(steps)
}

func sortedDays(byDay map[plan.Date][]Row) []plan.Date {
	var days []plan.Date
	for d := range byDay {
		days = append(days, d)
	}
	slices.Sort(days)
	return days
}

func (m *maker) day(date plan.Date, rows []Row) Day {
	// sort, not slices: a generic sort is compiled anew for each large type, and
	// three of them cost the wasm more than this whole package's templates.
	sort.SliceStable(rows, func(i, j int) bool {
		if rows[i].order != rows[j].order {
			return rows[i].order < rows[j].order
		}
		return rows[i].at.Before(rows[j].at)
	})
	d := Day{
		ID: "day-" + date.String(), ISO: date.String(), Heading: m.v.Day(date),
		Today: date == m.today, Surgery: date == m.p.Surgery, Rows: rows,
	}
	n := int(m.p.Surgery - date)
	switch {
	case n == 0:
		d.Sub = m.v.Say("days.surgery")
	case n > 0:
		d.Sub = m.v.Count("days.before", n)
	default:
		d.Sub = m.v.Count("days.after", -n)
	}
	if near := m.v.Near(date); near != d.Heading {
		d.Sub = near + " · " + d.Sub
	}
	return d
}
