package page_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"pgregory.net/rapid"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

var gridSurgery, _ = wall.ParseDate("2027-03-09")

// gridFamily is an invented family of up to twelve with random duties, jobs and covers.
func gridFamily(t *rapid.T) plan.Plan {
	p := plan.Plan{
		Number: 7, Patient: "Rosa", Surgery: gridSurgery, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15,
		Stay: plan.Stay(rapid.IntRange(0, 2).Draw(t, "stay")),
	}
	names := []string{"Dana", "Dan", "Luis", "Mina", "Tomas", "Ana", "ana b", "Zoë", "דנה", "王芳", "Otto", "Oona"}
	p.Helpers = names[:rapid.IntRange(0, len(names)).Draw(t, "helpers")]
	who := rapid.Custom(func(t *rapid.T) uint8 { return uint8(rapid.IntRange(0, len(p.Helpers)).Draw(t, "who")) })
	for i := range p.Helpers {
		p = p.WithAbout(uint8(i+1), plan.About{
			Told: rapid.Bool().Draw(t, "told"), Out: rapid.IntRange(0, 5).Draw(t, "out") == 0,
			Can: plan.Abilities(rapid.IntRange(0, int(plan.AllAbilities)).Draw(t, "can")),
		})
	}
	for i := range p.Cover {
		p.Cover[i] = who.Draw(t, "cover")
	}
	for id := range rapid.IntRange(0, 6).Draw(t, "duties") {
		first := p.Surgery + wall.Date(rapid.IntRange(-20, 40).Draw(t, "first"))
		r := repeat.Rule{First: first, At: wall.Clock(15 * rapid.IntRange(0, 90).Draw(t, "at")), Every: 1}
		if rapid.Bool().Draw(t, "daily") {
			r.Freq, r.Last = repeat.Daily, first+wall.Date(rapid.IntRange(0, 30).Draw(t, "days"))
		}
		p = p.WithDuty(plan.Duty{
			ID: uint32(id + 1), Kind: rapid.SampledFrom([]plan.DutyKind{plan.TherapyRide, plan.PetCare, plan.Meals}).Draw(t, "kind"),
			Who: who.Draw(t, "of"), Rule: r.Canonical(), Length: 20, Ride: plan.Ride{Drive: 20, Parking: 10},
		})
	}
	return p
}

// spot is one duty's name on one day: two duties may share a name, and then count together.
type spot struct {
	day   wall.Date
	title string
}

type stands struct {
	dates int
	worst page.GridKind
}

// inGrid is what the grid shows.
func inGrid(t require.TestingT, g *page.CoverGrid) map[spot]stands {
	all := map[spot]stands{}
	for _, w := range g.Weeks {
		for _, r := range w.Rows {
			for i, c := range r.Cells {
				day, err := wall.ParseDate(w.Days[i].ISO)
				require.NoError(t, err)
				require.Equal(t, c.Kind == page.GridNone, c.Text == "", "a cell of a date says who has it, and no other")
				if c.Kind != page.GridNone {
					s := all[spot{day, r.Title}]
					all[spot{day, r.Title}] = stands{s.dates + datesIn(c), max(s.worst, c.Kind)}
				}
			}
		}
	}
	return all
}

func datesIn(c page.GridCell) (n int) {
	for _, p := range c.Posts {
		n += p.Dates
	}
	return n
}

// walked is the same, by going through the schedule's duties one by one.
func walked(s *schedule.Schedule, now time.Time, v guide.Voice, from, until wall.Date) map[spot]stands {
	all, report := map[spot]stands{}, split.Look(s, now)
	for i := range s.Duties {
		d, f := &s.Duties[i], report.Of(i)
		day := max(d.Day, wall.DateOf(now))
		if f == nil || day < from || day >= until || goesOn(s, f, now) {
			continue
		}
		kind := page.GridHas
		switch {
		case f.Who == 0 || s.Plan.AboutOf(f.Who).Out:
			kind = page.GridGap
		case len(f.Why) > 0:
			kind = page.GridCannot
		}
		title := v.Duty(&s.Plan, d).Title
		if d.Family != nil {
			title = v.DutyTitle(d.Family)
		}
		a := all[spot{day, title}]
		all[spot{day, title}] = stands{a.dates + 1, max(a.worst, kind)}
	}
	return all
}

// The grid holds each date that is not over exactly once, over all its turns, and what needs
// somebody in it is what "Needs somebody" lists.
func TestTheGridIsTheSchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := gridFamily(t)
		s, err := schedule.Build(p)
		require.NoError(t, err)
		now := time.Date(2027, 3, 9+rapid.IntRange(-25, 45).Draw(t, "today"), 11, 0, 0, 0, time.UTC).In(s.Loc)
		v := guide.Voice{Book: guide.Open("en"), Today: wall.DateOf(now)}
		in := page.Input{Schedule: s, Voice: v, Now: now, Fragment: "x"}
		first := page.NewSplitView(in, 0)
		shown := 0
		for _, f := range split.Look(s, now).Findings {
			if !goesOn(s, &f, now) {
				shown++
			}
		}
		if first.Grid == nil {
			require.Zero(t, shown, "a grid is left out only where nothing is to come")
			return
		}
		start, err := wall.ParseDate(first.Grid.Weeks[0].Days[0].ISO)
		require.NoError(t, err)
		seen, gaps := 0, 0
		for turn := 0; ; turn++ {
			g := page.NewSplitView(in, turn).Grid
			from := start + wall.Date(14*turn)
			require.Equal(t, from.String(), g.Weeks[0].Days[0].ISO)
			have := inGrid(t, g)
			require.Equal(t, walked(s, now, v, from, from+14), have)
			for at, c := range have {
				seen += c.dates
				if c.worst == page.GridGap {
					gaps++
					require.True(t, listed(first.Open, v, at, wall.DateOf(now)), "%v is not among what needs somebody", at)
				}
			}
			if g.Later == nil {
				break
			}
		}
		require.Equal(t, shown, seen, "the turns together hold every date")
		open := 0
		for _, g := range first.Open {
			open += len(g.Lines)
		}
		require.GreaterOrEqual(t, open, gaps)
		require.Equal(t, open == 0, gaps == 0)
	})
}

// goesOn tells whether a date began on an earlier day and somebody has it: it is no night to come.
func goesOn(s *schedule.Schedule, f *split.Finding, now time.Time) bool {
	return s.Duties[f.Duty].Day < wall.DateOf(now) && f.Who != 0 && !s.Plan.AboutOf(f.Who).Out && len(f.Why) == 0
}

// listed tells whether a day of a duty is among what needs somebody.
func listed(open []page.SplitGroup, v guide.Voice, at spot, today wall.Date) bool {
	for _, g := range open {
		for _, l := range g.Lines {
			if g.Title == at.title && (strings.Contains(l.When, v.ShortDay(at.day)) || at.day <= today+1 && strings.Contains(l.When, v.ShortDay(at.day-1)) ||
				strings.Contains(l.When, v.ShortDay(at.day+1))) { // a ride that leaves before midnight is said by its appointment
				return true
			}
		}
	}
	return false
}

// WCAG 2.2, 1.3.1 (techniques H51, H63) and WAI-ARIA 1.2 (table, row, cell, columnheader,
// rowheader): the grid is a table with heads of both kinds, whole rows, and words in each cell
// that shows something. ARIA roles stand beside the elements, since the style sheet changes
// their display.
func TestTheGridIsATableWhenHeard(t *testing.T) {
	roles := map[string]string{"table": "table", "thead": "rowgroup", "tbody": "rowgroup", "tr": "row", "td": "cell"}
	tables := 0
	everyScreen(t, func(name, text string) {
		for _, n := range elements(parsed(t, name, text)) {
			if class, _ := attribute(n, "class"); n.Data != "table" || class != "cover-grid" {
				continue
			}
			tables++
			for _, part := range elements(n) {
				role, _ := attribute(part, "role")
				scope, _ := attribute(part, "scope")
				switch {
				case part.Data == "th":
					require.Equal(t, map[string]string{"col": "columnheader", "row": "rowheader"}[scope], role, name)
				case roles[part.Data] != "":
					require.Equal(t, roles[part.Data], role, name)
				}
				switch part.Data {
				case "tr":
					require.Len(t, kids(part), 8, "%s: a head and seven days", name)
				case "a":
					require.NotEmpty(t, strings.TrimSpace(content(part)), name)
				}
			}
		}
	})
	require.Greater(t, tables, 10, "no screen shows a grid")
}

func kids(n *html.Node) []*html.Node {
	var all []*html.Node
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.ElementNode {
			all = append(all, c)
		}
	}
	return all
}

// What the example's grid says, read off its plan (app.DemoPlan): surgery on 2027-03-09 is a
// Tuesday; Dana drives there, nobody has the evening's cat, Luis works on the morning of the
// drive home.
func TestTheGridOfTheExample(t *testing.T) {
	p := app.DemoPlan(gridSurgery-9, 7)
	s, err := schedule.Build(p)
	require.NoError(t, err)
	now, _ := (gridSurgery - 9).At(s.Loc, 10*60)
	v := guide.Voice{Book: guide.Open("en"), Today: gridSurgery - 9}
	view := page.NewSplitView(page.Input{Schedule: s, Voice: v, Now: now, Fragment: "x"}, 0)
	g := view.Grid
	require.Equal(t, "Tue, Mar 9 – Mon, Mar 15", g.Weeks[0].Title)
	require.Contains(t, g.Weeks[0].Days[0].Long, "day of surgery")
	drive := g.Weeks[0].Rows[0]
	require.Equal(t, page.GridCell{
		Kind: page.GridHas, Text: "Dana", Path: "/who/drive-there",
		Posts: []page.GridPost{{Kind: page.GridHas, Mark: "who-1", Who: "Dana", Dates: 1}},
	}, drive.Cells[0])
	for _, r := range g.Weeks[0].Rows {
		if r.Title == "Feed the cat" && r.Rule != "" && r.Cells[1].Kind == page.GridGap {
			require.Equal(t, "nobody", r.Cells[1].Text)
			require.Equal(t, page.GridNone, r.Cells[0].Kind, "it begins on the day after")
			return
		}
	}
	t.Fatal("the cat's evenings are no gap")
}

// Where nobody helps yet the page says what to do first; where all is over there is no grid.
func TestTheGridOfNobody(t *testing.T) {
	out := app.Handle(withPath(at(harmless.plan(t), -9), "/split"))
	require.Contains(t, out.HTML, guide.Open("en").Say("covergrid.start"))
	require.Contains(t, out.HTML, `data-path="/helper/new"`)
	require.NotContains(t, app.Handle(withPath(at(harmless.plan(t), 200), "/split")).HTML, `id="weeks"`)
}

func withPath(r app.Request, path string) app.Request {
	r.Path = path
	return r
}
