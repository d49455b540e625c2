package page

import (
	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/wall"
)

// Day is one day with its rows in order.
type Day struct {
	ID, ISO, Heading, Sub string
	Today, Surgery        bool
	Rows                  []Row
	Guide                 *ChapterLink // the chapter that begins to count on it
	Rail                  *DayRail     // of the day of surgery
	Fast                  *FastClock   // of the day before

	date wall.Date
}

// fillDays sorts every row into what is still to do, days gone by, the days from
// today on, and what is kept up every day.
func (m *maker) fillDays(v *View) {
	byDay := map[wall.Date][]Row{}
	place := func(day wall.Date, r Row) { byDay[day] = append(byDay[day], r) }
	// The order of these loops decides what stands first of two rows at one time:
	// wash before leaving, out of recovery before the checks, they before the drive.
	for _, step := range m.singleSteps() {
		r := m.stepRow("day-", step)
		switch {
		case (step.Due == schedule.Daily || step.Due == schedule.Onward) && step.First >= m.p.Surgery:
			if step.Due == schedule.Onward || step.Last >= m.today {
				v.Daily = append(v.Daily, r)
			}
		case step.Due == schedule.ByDay && m.lateStep(step):
			v.Overdue = append(v.Overdue, m.asLate(r, r.Tick.Done))
		default:
			place(m.within(step.First, step.Last), r)
		}
	}
	for _, r := range m.stageRows() {
		place(m.p.Surgery, r)
	}
	for _, g := range m.listRows() {
		if m.late(g.row.list, g.day) {
			v.Overdue = append(v.Overdue, m.asLate(g.row, g.done))
		} else {
			place(g.day, g.row)
		}
	}
	var far []dutyOn // whose rows are made only where they are shown
	for i := range m.s.Duties {
		if d := &m.s.Duties[i]; m.inDays(d) {
			day := d.Day
			if d.Family != nil || d.IsSlot() { // a night that began yesterday is today's
				day = m.within(d.Day, lastDay(d))
			}
			if day > m.lastNear() {
				far = append(far, dutyOn{day, d})
				byDay[day] = byDay[day]
			} else {
				place(day, m.dutyRow(d))
			}
		}
	}
	m.foldOverdue(v, byDay)
	dates := sortedDays(byDay)
	m.foldFar(v, dates)
	fillFar := func() {
		for _, f := range far {
			place(f.day, m.dutyRow(f.duty))
		}
		for _, date := range dates {
			if date > m.lastNear() {
				m.addDay(v, date, byDay[date])
			}
		}
	}
	for _, date := range dates {
		if date <= m.lastNear() {
			m.addDay(v, date, byDay[date])
		}
	}
	if v.Far == "" || m.folds.Has("far") {
		fillFar()
	} else {
		m.fillFar = fillFar
	}
}

// dutyOn is a duty on the day on which it stands.
type dutyOn struct {
	day  wall.Date
	duty *schedule.Duty
}

// addDay puts a day at the end of those that it belongs to.
func (m *maker) addDay(v *View, date wall.Date, rows []Row) {
	day := m.day(date, rows)
	m.addPictures(&day)
	if date < m.today {
		v.Past = append(v.Past, day)
		return
	}
	m.addChapter(v, &day)
	v.Days = append(v.Days, day)
}

// nearDays is how many days ahead stand open, and farLeast how many there must be beyond for a
// fold: months of therapy and meals would bury the lists and the signs below them.
const (
	nearDays = 14
	farLeast = 7
)

// lastNear is the last day that is not far: in two weeks, and not before the patient has been home for two days.
func (m *maker) lastNear() wall.Date {
	_, home := m.s.HomeDays()
	return max(m.today+nearDays, home+2)
}

// foldFar folds away what is far. dates are those of all days, in order.
func (m *maker) foldFar(v *View, dates []wall.Date) {
	past, near := 0, 0
	for _, date := range dates {
		switch {
		case date < m.today:
			past++
		case date <= m.lastNear():
			near++
		}
	}
	if far := len(dates) - past - near; far >= farLeast {
		v.Near, v.Far = near, m.v.Count("days.far", far, arg("day", m.v.Day(dates[past+near])))
	}
}

// asLate marks a row that should have been done; families also start late. One that
// is done keeps its place among the others, so that nothing moves under a finger
// that ticks one after the other.
func (m *maker) asLate(r Row, done bool) Row {
	if !done {
		r.State = "late"
		r.Due = m.v.Say("label.late", arg("day", m.v.ShortDay(r.day)))
	}
	return r
}

// foldOverdue counts what is open of the overdue. Once all is done it goes where it
// was due; from the evening before on it is folded away below today, since nothing
// may stand before the times of these two days.
func (m *maker) foldOverdue(v *View, byDay map[wall.Date][]Row) {
	v.OverdueOpen = len(openRows(v.Overdue))
	v.OverdueLast = m.today >= m.p.Surgery-1
	if v.OverdueOpen > 0 {
		return
	}
	for _, r := range v.Overdue {
		byDay[r.day] = append(byDay[r.day], r)
	}
	v.Overdue = nil
}

// within is the day on which a row stands that holds for several: the first of
// them, or today while it holds.
func (m *maker) within(first, last wall.Date) wall.Date {
	return max(first, min(m.today, last))
}

// late tells whether a day has passed that still counts. The home and the
// equipment are needed when the patient comes home; everything else was for
// before the arrival, and nobody needs to hear of it afterwards.
func (m *maker) late(list string, day wall.Date) bool {
	if day >= m.today {
		return false
	}
	if list == "home" || list == "equipment" {
		_, home := m.s.HomeDays()
		return m.today <= home
	}
	return !m.arrived()
}

// singleSteps are the steps that stand on their own in a day.
func (m *maker) singleSteps() []*schedule.Step {
	if m.reads {
		return nil
	}
	var steps []*schedule.Step
	for i := range m.s.Steps {
		if s := &m.s.Steps[i]; !schedule.Gathered[s.List] && s.Due != schedule.Undated {
			steps = append(steps, s)
		}
	}
	return steps
}

type listRow struct {
	day  wall.Date
	done bool
	row  Row
}

// listRows makes one row for the lines of a gathered list that are due on the
// same day. What is due on going home stands on each day on which that may be.
func (m *maker) listRows() []listRow {
	if m.reads {
		return nil
	}
	type key struct {
		list string
		day  wall.Date
	}
	var order []key
	steps := map[key][]*schedule.Step{}
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		if !schedule.Gathered[s.List] || s.Due == schedule.Undated {
			continue
		}
		for day := s.First; day <= s.Last; day++ {
			k := key{s.List, day}
			if steps[k] == nil {
				order = append(order, k)
			}
			steps[k] = append(steps[k], s)
		}
	}
	var rows []listRow
	for _, k := range order {
		if only := steps[k]; len(only) == 1 { // a line alone needs no list around it
			r := m.stepRow("day-", only[0])
			rows = append(rows, listRow{k.day, r.Tick.Done, r})
			continue
		}
		row, done := m.listRow(k.list, k.day, steps[k])
		rows = append(rows, listRow{k.day, done, row})
	}
	return rows
}

func (m *maker) listRow(list string, day wall.Date, steps []*schedule.Step) (r Row, all bool) {
	done := 0
	for _, s := range steps {
		if s.Done(m.p) {
			done++
		}
	}
	r = Row{
		ID: "list-row-" + list + "-" + number(int(day-m.p.Surgery)), Kind: "gathered", Title: m.v.Say("do." + list),
		Link: "list-" + list, Due: m.v.Say("label.due", arg("day", m.v.ShortDay(day))),
		Note: m.v.Say("group.count", guide.Number("done", done), guide.Number("n", len(steps))), list: list, day: day,
	}
	if list == "going" {
		m.beforeDriveHome(&r, day)
	}
	m.setState(&r, day, day)
	if done == len(steps) {
		r.State = "past"
	}
	return r, done == len(steps)
}

// beforeDriveHome puts the checks before going home where the drive home of that
// day begins, and says for which stay they are.
func (m *maker) beforeDriveHome(r *Row, day wall.Date) {
	r.order, r.place = 2, placeHomeward
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if !d.Homeward || d.Day != day {
			continue
		}
		r.Branch = m.branch(d.Branch)
		if !d.There.From.IsZero() {
			r.order, r.at = 1, d.There.From
		}
		return
	}
}
