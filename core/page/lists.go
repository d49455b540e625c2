package page

import (
	"sort"
	"time"

	"newel/core/guide"
	"newel/core/picture"
	"newel/core/plan"
	"newel/core/schedule"
)

// List is one list: its lines in the order in which they are due, under the headings of its
// parts where it has parts.
type List struct {
	ID, Name string // of the element; as steps.txt calls it
	Title    string
	Progress string // "3 of 12 done", where lines can be ticked
	Path     string // of the chapter of the guide that holds it
	Groups   []ListGroup
	Left     bool          // there are lines, and they are left out
	Home     *picture.Home // where in the home its lines are done; nil where it is not about the home
}

// ListGroup is a part of a list, such as a room. The lines of a list without parts are one
// group without a heading.
type ListGroup struct {
	Title string
	Rows  []Row
}

// lists makes all lists that have any line, in the order of the days.
func (m *maker) lists() []List {
	var lists []List
	for list, name := range plan.ListKeys {
		if plan.List(list).Told() {
			continue
		}
		if l := m.list(name); l.Left || len(l.Groups) > 0 {
			lists = append(lists, l)
		}
	}
	return lists
}

func (m *maker) list(name string) List {
	l := List{ID: "list-" + name, Name: name, Title: m.v.Say("list." + name), Path: chapterPath(chapterOf("list", name))}
	steps := m.stepsOf(name)
	if !m.folds.Has(l.ID) {
		m.closed(&l, steps)
		return l
	}
	done, boxes := 0, 0
	for _, s := range steps {
		r := m.stepRow("item-", s)
		if r.Tick != nil {
			boxes++
			if r.Tick.Done {
				done++
			}
		}
		if s.Line == nil {
			r.spot = HomePlace(s.ID)
		}
		l.add(m.v, s.Part, r)
	}
	l.draw(m.v)
	l.count(m.v, done, boxes)
	return l
}

// count says how many of its lines are done.
func (l *List) count(v guide.Voice, done, boxes int) {
	if boxes > 0 {
		l.Progress = v.Say("group.count", guide.Number("done", done), guide.Number("n", boxes))
	}
}

// add puts a row at the end of the group of its part.
func (l *List) add(v guide.Voice, part string, r Row) {
	title := partTitle(v, part)
	if last := len(l.Groups) - 1; last >= 0 && l.Groups[last].Title == title {
		l.Groups[last].Rows = append(l.Groups[last].Rows, r)
		return
	}
	if title == "" && len(l.Groups) > 0 { // lines of one's own, behind the parts
		title = v.Say("part.own")
		if l.Groups[len(l.Groups)-1].Title == title {
			l.add(v, "own", r)
			return
		}
	}
	l.Groups = append(l.Groups, ListGroup{title, []Row{r}})
}

func partTitle(v guide.Voice, part string) string {
	if part == "" {
		return ""
	}
	return v.Say("part." + part)
}

// stepsOf are the steps of a list, part by part; in each part what is due first stands
// first, and what is due at the same time as in the table. What belongs to no part, and
// what has no date, comes last.
func (m *maker) stepsOf(list string) []*schedule.Step {
	var steps []*schedule.Step
	parts := map[string]int{"": len(m.s.Steps)}
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		if s.List != list {
			continue
		}
		if _, known := parts[s.Part]; !known {
			parts[s.Part] = len(parts)
		}
		steps = append(steps, s)
	}
	sort.SliceStable(steps, func(i, j int) bool {
		a, b := steps[i], steps[j]
		if a.Part != b.Part {
			return parts[a.Part] < parts[b.Part]
		}
		return m.dueAt(a).Before(m.dueAt(b))
	})
	return steps
}

// eveningAt is where "in the evening" stands among the times of a day.
const eveningAt = 18 * time.Hour

// dueAt is the instant by which steps are put in order.
func (m *maker) dueAt(s *schedule.Step) time.Time {
	if s.First == 0 { // no day: after all that have one
		return time.Unix(1<<40, 0)
	}
	day, _ := s.First.At(m.s.Loc, 0)
	switch {
	case s.Due == schedule.AtTime:
		return s.Until
	case s.Due == schedule.Through:
		return s.From
	case !s.Around.IsZero():
		return s.Around
	case s.Evening:
		return day.Add(eveningAt)
	}
	return day
}
