package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// nights is a plan of nights from eight to eight: one that begins on gridSurgery+4 and belongs
// to last, and those after it, which are Dana's. Luis cannot stay the night.
func nights(t *testing.T, last uint8, more ...repeat.Moment) *schedule.Schedule {
	t.Helper()
	p := plan.Plan{
		Number: 7, Patient: "Rosa", Surgery: gridSurgery, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15,
		Helpers: []string{"Dana", "Luis"},
	}
	p = p.WithAbout(1, plan.About{Told: true, Can: plan.AllAbilities})
	p = p.WithAbout(2, plan.About{Told: true, Can: plan.AllAbilities &^ plan.CanNight})
	r := repeat.Rule{First: gridSurgery + 4, Last: gridSurgery + 6, At: 20 * 60, Freq: repeat.Daily, Every: 1, Extra: more}
	d := plan.Duty{ID: 1, Kind: plan.Nights, Title: "Be there at night", Who: 1, Rule: r.Canonical(), Length: 12 * 60}
	d.Takes = []plan.Take{{Day: gridSurgery + 4, Who: last}}
	s, err := schedule.Build(p.WithDuty(d))
	require.NoError(t, err)
	return s
}

// gridAt is the grid so many days after surgery at seven in the morning, and the nights' cell of
// its first day; nil where there is no grid.
func gridAt(t *testing.T, s *schedule.Schedule, days int) (*page.CoverGrid, page.GridCell) {
	t.Helper()
	today := gridSurgery + wall.Date(days)
	now, _ := today.At(s.Loc, 7*60)
	g := page.NewSplitView(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en"), Today: today}, Now: now, Fragment: "x"}, 0).Grid
	if g == nil {
		return nil, page.GridCell{}
	}
	require.Equal(t, today.String(), g.Weeks[0].Days[0].ISO)
	for _, r := range g.Weeks[0].Rows {
		if r.Title == "Be there at night" {
			return g, r.Cells[0]
		}
	}
	return g, page.GridCell{}
}

// In the column of today stands who has the night to come. Last night, which still goes on,
// stands there only while somebody has to be found for it; then both are told apart.
func TestLastNightIsNotTonight(t *testing.T) {
	_, c := gridAt(t, nights(t, 1), 5)
	require.Equal(t, []page.GridPost{{Kind: page.GridHas, Mark: "who-1", Who: "Dana", Dates: 1}}, c.Posts)
	require.Equal(t, "Dana", c.Text)

	_, c = gridAt(t, nights(t, 2), 5)
	require.Equal(t, page.GridCannot, c.Kind)
	require.Equal(t, []page.GridPost{
		{Kind: page.GridCannot, Mark: "who-2", Who: "since Saturday: Luis, cannot then", Dates: 1},
		{Kind: page.GridHas, Mark: "who-1", Who: "Dana", Dates: 1},
	}, c.Posts)
	require.True(t, strings.HasPrefix(c.Text, "since Saturday: Luis cannot."), c.Text)
	require.True(t, strings.HasSuffix(c.Text, "; Dana"), c.Text)

	_, c = gridAt(t, nights(t, 0), 5)
	require.Equal(t, page.GridGap, c.Kind)
	require.Equal(t, "since Saturday: nobody; Dana", c.Text)
	require.Equal(t, []page.GridPost{{Kind: page.GridGap, Dates: 1}, {Kind: page.GridHas, Mark: "who-1", Who: "Dana", Dates: 1}}, c.Posts)

	g, _ := gridAt(t, nights(t, 1), 7)
	require.Nil(t, g, "of the last night of all nothing is left to share out")
}

// Two dates of one person on one day are one post with their number; a cell leads to the duty, and
// is of its worst kind.
func TestSeveralDatesOfADay(t *testing.T) {
	_, c := gridAt(t, nights(t, 1, repeat.Moment{Day: gridSurgery + 5, At: 9 * 60}), 5)
	// From nine to nine and from eight in the evening on: she cannot do both.
	require.Equal(t, []page.GridPost{{Kind: page.GridCannot, Mark: "who-1", Who: "Dana, cannot then", Dates: 2}}, c.Posts)
	require.Equal(t, 2, strings.Count(c.Text, "Dana cannot"), c.Text)
	_, c = gridAt(t, nights(t, 2, repeat.Moment{Day: gridSurgery + 4, At: 9 * 60}), 4)
	require.Equal(t, page.GridCannot, c.Kind)
	require.Equal(t, "/duty/1", c.Path, "where who has which date is said")
}

// Paper shows everybody of a day by name, and room for one where somebody is missing.
func TestEverybodyOfADayStandsOnPaper(t *testing.T) {
	s := nights(t, 2)
	v := paperOf(t, s, "en", page.PaperCover, gridSurgery+4)
	text := printed(t, v)
	require.Contains(t, text, "Luis, cannot then")
	require.Contains(t, text, "Dana")
}

// On the page of the plan the days are named that its gaps are counted in: two weeks from surgery
// on while that is to come. Counted by hand: each of the gaps that split.Look finds in them.
func TestThePlansPageNamesTheDaysOfItsGaps(t *testing.T) {
	s := nights(t, 0)
	now, _ := (gridSurgery - 9).At(s.Loc, 9*60)
	gaps := 0
	for _, f := range split.Look(s, now).Findings {
		if f.Who == 0 && s.Duties[f.Duty].Day < gridSurgery+14 {
			gaps++
		}
	}
	require.Greater(t, gaps, 1)
	v := guide.Voice{Book: guide.Open("en"), Today: gridSurgery - 9}
	view := page.NewView(page.Input{Schedule: s, Voice: v, Now: now, Fragment: "x"})
	want := v.Count("covergrid.near", gaps, guide.Arg{Name: "from", Value: "Tue, Mar 9"}, guide.Arg{Name: "to", Value: "Mon, Mar 22"})
	require.Contains(t, page.Plan(view), want)
}
