package page

import (
	"newel/core/guide"
	"newel/core/picture"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// CoverGrid is two weeks of cover as a table of days and duties, with who has what.
type CoverGrid struct {
	Said    string // how many gaps there are, and cannot-dates
	First   string // the first gap; empty: there is none
	Path    string // where somebody is found for the first gap
	Beyond  string // how many gaps come after these weeks
	Start   string // what to do first, where nobody helps yet
	Weeks   []GridWeek
	Key     []GridKey // what the marks mean
	Earlier *GridTurn // the two weeks before and after
	Later   *GridTurn
}

// Title says which weeks they are, and how they stand.
func (g *CoverGrid) Title() string {
	return g.Weeks[0].Title + ". " + g.Said
}

// GridTurn leads to other weeks of the plan.
type GridTurn struct{ Path, Text string }

// GridKey is a mark with what it means.
type GridKey struct {
	Kind   GridKind
	ID     string // of a person's mark, which the cells draw again
	Person picture.Person
	Text   string
}

// GridWeek is seven days.
type GridWeek struct {
	ID, Title string
	Days      [gridWeek]GridDay
	Rows      []GridRow
}

// GridDay is the head of a column.
type GridDay struct {
	ISO, Weekday, Day, Month string // Month only where it begins, or the week
	Long                     string // the full date, with what is on that day
	Today, Surgery           bool
}

// GridRow is a duty with its seven days.
type GridRow struct {
	Title, Rule, Path string
	Cells             [gridWeek]GridCell

	key string
}

// GridCell is a duty on a day.
type GridCell struct {
	Kind  GridKind // of its dates the greatest
	Posts []GridPost
	Text  string // all of them in words
	Path  string // of the first date of its kind
}

// GridPost is who has dates of a duty on a day: each person stands once, in the order of the dates.
type GridPost struct {
	Kind  GridKind
	Mark  string // the id of their mark; empty: nobody's
	Who   string // on paper: the name, and that they cannot; empty: room for one
	Dates int
}

// GridKind is how a cell stands; where a day has several dates the greatest is shown.
type GridKind uint8

// The kinds of cells.
const (
	GridNone   GridKind = iota // the duty is not on that day
	GridHas                    // somebody has it
	GridAsked                  // two people said differently who has it
	GridCannot                 // who has it cannot
	GridGap                    // it needs somebody
)

// class is the kind as the style sheet calls it.
func (k GridKind) class() string {
	return [...]string{"none", "has", "asked", "cannot", "gap"}[k]
}

const (
	gridWeek = 7
	gridDays = 2 * gridWeek
)

// gridFrom is the first of the days that the grid can show: today or, before surgery and
// where the next two weeks have nothing, the day of the first date to come. ok is false
// where nothing is to come.
func (m *maker) gridFrom() (from wall.Date, ok bool) {
	all := m.gridFindings()
	if len(all) == 0 {
		return 0, false
	}
	first := m.gridDay(&m.s.Duties[all[0].Duty])
	if m.today >= m.p.Surgery && first < m.today+gridDays {
		return m.today, true
	}
	return first, true
}

// gridCounts are what is to be counted of the dates of two weeks.
type gridCounts struct {
	gaps, cannot, beyond int
	first                *schedule.Duty // the first gap
}

func (m *maker) gridCounts(from wall.Date) gridCounts {
	var c gridCounts
	for _, f := range m.gridFindings() {
		d := &m.s.Duties[f.Duty]
		kind, day := m.gridKind(f), m.gridDay(d)
		switch {
		case day < from:
		case kind == GridGap && day >= from+gridDays:
			c.beyond++
		case kind == GridGap:
			if c.gaps++; c.first == nil {
				c.first = d
			}
		case kind == GridCannot && day < from+gridDays:
			c.cannot++
		}
	}
	return c
}

// gridFindings are the dates that the grid holds. A night that has gone on since yesterday and
// that somebody has is left out: in the column of today it would be taken for the night to come.
func (m *maker) gridFindings() []*split.Finding {
	all := m.report().Findings
	held := make([]*split.Finding, 0, len(all))
	for i := range all {
		if f := &all[i]; m.s.Duties[f.Duty].Day >= m.today || m.gridKind(f) != GridHas {
			held = append(held, f)
		}
	}
	return held
}

// gridDay is under which day a date stands: one that is still going on since yesterday is today's.
func (m *maker) gridDay(d *schedule.Duty) wall.Date { return max(d.Day, m.today) }

// gridKind is how a date stands.
func (m *maker) gridKind(f *split.Finding) GridKind {
	switch {
	case needsSomebody(f):
		return GridGap
	case f.State == split.Cannot:
		return GridCannot
	case m.unsettled(&m.s.Duties[f.Duty]) != nil:
		return GridAsked
	}
	return GridHas
}

// nearGap says on the plan's page how many gaps the two weeks have that the grid begins with, and which
// they are, where anybody helps; "" for none, and where they are further away.
func (m *maker) nearGap() string {
	from, ok := m.gridFrom()
	if !ok || len(m.p.Helpers) == 0 || from >= m.today+gridDays {
		return ""
	}
	c := m.gridCounts(from)
	if c.gaps == 0 {
		return ""
	}
	days := []guide.Arg{arg("from", m.v.ShortDay(from)), arg("to", m.v.ShortDay(from+gridDays-1))}
	return m.v.Count("covergrid.near", c.gaps, days...) + " " + m.firstGap(c.first)
}

func (m *maker) firstGap(d *schedule.Duty) string {
	title, _ := m.seriesName(d)
	return m.v.Say("covergrid.first", arg("what", title), arg("when", m.v.ShortDay(m.gridDay(d))))
}

// grid makes the two weeks that come so many times two weeks after the first; nil where nothing is to come.
func (m *maker) grid(turn int) *CoverGrid {
	start, ok := m.gridFrom()
	if !ok {
		return nil
	}
	all := m.gridFindings()
	last := m.gridDay(&m.s.Duties[all[len(all)-1].Duty])
	turns := int(last-start) / gridDays
	turn = min(max(turn, 0), turns)
	from := start + wall.Date(turn*gridDays)
	g := &CoverGrid{Key: m.gridKey()}
	m.gridSaid(g, from)
	g.Weeks = []GridWeek{m.gridOfWeek(from), m.gridOfWeek(from + gridWeek)}
	if len(g.Weeks[1].Rows) == 0 {
		g.Weeks = g.Weeks[:1]
	}
	if turn > 0 {
		g.Earlier = m.gridTurn("covergrid.earlier", turn-1, start)
	}
	if turn < turns {
		g.Later = m.gridTurn("covergrid.later", turn+1, start)
	}
	return g
}

func (m *maker) gridTurn(key string, turn int, start wall.Date) *GridTurn {
	path := "/split"
	if turn > 0 {
		path = "/split/from/" + number(turn)
	}
	return &GridTurn{path, m.v.Say(key, arg("day", m.v.ShortDay(start+wall.Date(turn*gridDays))))}
}

// gridSaid says what the picture shows.
func (m *maker) gridSaid(g *CoverGrid, from wall.Date) {
	if len(m.p.Helpers) == 0 {
		g.Start = m.v.Say("covergrid.start")
	}
	c := m.gridCounts(from)
	g.Said = m.v.Say("covergrid.none")
	if c.gaps > 0 {
		g.Said = m.v.Count("covergrid.gaps", c.gaps)
		g.First, g.Path = m.firstGap(c.first), m.gridPath(c.first)
	}
	if c.cannot > 0 {
		g.Said += " " + m.v.Count("covergrid.cannot", c.cannot)
	}
	if c.beyond > 0 {
		g.Beyond = m.v.Count("covergrid.beyond", c.beyond)
	}
}
