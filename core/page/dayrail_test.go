package page_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// viewAt makes the page of a plan at a time on its wall, so many days after surgery.
func viewAt(t require.TestingT, p plan.Plan, language string, days int, at wall.Clock) page.View {
	s, err := schedule.Build(p)
	require.NoError(t, err)
	now, _ := (p.Surgery + wall.Date(days)).At(s.Loc, at)
	return page.NewView(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open(language), Clock12: language == "en"}, Now: now, Fragment: "x"})
}

func railOf(v page.View) *page.DayRail {
	for _, days := range [][]page.Day{v.Past, v.Days} {
		for i := range days {
			if days[i].Rail != nil {
				return days[i].Rail
			}
		}
	}
	return nil
}

func fastOf(v page.View) *page.FastClock {
	for _, days := range [][]page.Day{v.Past, v.Days} {
		for i := range days {
			if days[i].Fast != nil {
				return days[i].Fast
			}
		}
	}
	return nil
}

// anyPlan is a plan with a known arrival and any rules of a hospital.
func anyPlan(t *rapid.T, base plan.Plan) plan.Plan {
	p := base
	p.Arrival = wall.Clock(rapid.IntRange(0, 1440).Draw(t, "arrival"))
	p.Surgery += wall.Date(rapid.IntRange(0, 370).Draw(t, "day"))
	p.Stay = plan.Stay(rapid.IntRange(0, 2).Draw(t, "stay"))
	p.Operation = plan.Operation(rapid.IntRange(0, 2).Draw(t, "operation"))
	p.Drive = rapid.IntRange(-1, plan.MaxDrive).Draw(t, "drive")
	for _, r := range []plan.Rule{plan.FoodStop, plan.LiquidsBefore, plan.PrepMinutes, plan.FirstMin, plan.RecoveryMin, plan.RecoveryMax} {
		if rapid.Bool().Draw(t, "own") {
			p.Program.Set(r, rapid.IntRange(plan.Rules[r].Min, plan.Rules[r].Max).Draw(t, plan.Rules[r].Key))
		}
	}
	return p
}

var drawing = regexp.MustCompile(`(?s)<svg.*?</svg>`)

var timeOfDay = regexp.MustCompile(`\d{1,2}:\d\d`)

// A picture says nothing that does not stand in words beside it (WCAG 2.2, 1.1.1).
func TestEveryTimeOfAPictureStandsInWords(t *testing.T) {
	base := harmless.plan(t)
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t, base)
		language := rapid.SampledFrom(guide.Languages).Draw(t, "language")
		v := viewAt(t, p, language, -1, 0)
		rail := railOf(v)
		require.NotNil(t, rail)
		html := drawing.ReplaceAllString(page.Plan(v), "")
		for _, post := range rail.Picture.Posts {
			require.Contains(t, html, post.Time)
		}
		for i, s := range rail.Picture.Spans {
			for _, at := range timeOfDay.FindAllString(s.When, -1) {
				require.Contains(t, html, at)
			}
			require.Equal(t, page.Fact{Label: s.Title, Value: s.When}, rail.Usual[i])
		}
	})
}

// The day by hand: arrival 5:30, an hour to get ready, surgery 1 h to 1 h 30, recovery 1 to
// 3 h (common practice, no published source); 40 minutes of drive and a quarter more, 15 to park and
// 10 for the car, so out of the house at 4:15. The rail begins with the last full hour before
// its first post, 3:30, when drinking ends: two hours before arrival (ASA 2017 and 2023).
func TestTheDayByHand(t *testing.T) {
	p := harmless.plan(t)
	p.Stay = plan.SameDay
	rail := railOf(viewAt(t, p, "en", 0, 7*60))
	at := func(hour, minute int) int { return (hour-3)*60 + minute }
	require.Equal(t, at(7, 0), rail.Picture.Now)
	posts := map[string]int{}
	for _, post := range rail.Picture.Posts {
		posts[post.Title] = post.At
	}
	require.Equal(t, map[string]int{"Leave home": at(4, 15), "Be at the hospital": at(5, 30), "Stop drinking, even water": at(3, 30)}, posts)
	spans := rail.Picture.Spans
	require.Len(t, spans, 4)
	for i, want := range []struct{ begins, ends [2]int }{
		{[2]int{at(5, 30), at(5, 30)}, [2]int{at(6, 30), at(6, 30)}},
		{[2]int{at(6, 30), at(6, 30)}, [2]int{at(7, 30), at(8, 0)}},
		{[2]int{at(7, 30), at(8, 0)}, [2]int{at(8, 30), at(11, 0)}},
	} {
		require.Equal(t, want.begins, spans[i].Begins)
		require.Equal(t, want.ends, spans[i].Ends)
		require.Contains(t, spans[i].When, "usually ")
		require.False(t, spans[i].Open)
	}
	require.True(t, spans[3].Open)
	require.Equal(t, at(8, 30), spans[3].Begins[0])
	require.Equal(t, "at the earliest 8:30\u202fAM; nobody can say when", spans[3].When, "nothing of the hospital's day is promised")
}

// While the stay is not decided, what is only of one of them says so.
func TestAnUndecidedStayIsToldApart(t *testing.T) {
	p := harmless.plan(t)
	for stay, want := range map[plan.Stay]string{plan.SameDay: "The way home", plan.Undecided: "If they go home the same day: the way home", plan.OneNight: ""} {
		p.Stay = stay
		spans := railOf(viewAt(t, p, "en", 0, 0)).Picture.Spans
		if want == "" {
			require.Len(t, spans, 3)
			continue
		}
		require.Equal(t, want, spans[3].Title)
	}
}

// On the night of a clock change the rail is as long as the night is: from 1:00 to 4:00 it is
// two hours on 14 March 2027, and from 1:00 to 3:00 three on 7 November (15 USC 260a).
func TestTheRailOnTheNightOfAClockChange(t *testing.T) {
	for day, hours := range map[string]int{"2027-03-14": 2, "2027-11-07": 3} {
		p := harmless.plan(t)
		var err error
		p.Surgery, err = wall.ParseDate(day)
		require.NoError(t, err)
		p.Arrival, p.Drive, p.Parking = wall.Clock(map[int]int{2: 4, 3: 3}[hours]*60), 0, 0
		p.Program.Set(plan.CarMinutes, 0)
		p.Program.Set(plan.LiquidsBefore, hours*60)
		rail := railOf(viewAt(t, p, "en", 0, 0))
		posts := map[string]int{}
		for _, post := range rail.Picture.Posts {
			posts[post.Title] = post.At
		}
		require.Equal(t, hours*60, posts["Be at the hospital"]-posts["Stop drinking, even water"], day)
		for _, h := range rail.Picture.Hours {
			require.False(t, day == "2027-03-14" && strings.HasPrefix(h.Text, "2\u202f"), "there is no hour of two in that night")
		}
	}
}

// Without an arrival time nothing is drawn, and with the team's own times no clock.
func TestNothingIsDrawnFromAGuess(t *testing.T) {
	p := harmless.plan(t)
	p.Arrival = wall.NoClock
	v := viewAt(t, p, "en", -1, 0)
	require.Nil(t, railOf(v))
	require.Nil(t, fastOf(v))
	p = harmless.plan(t)
	p.Facts |= plan.TeamTimes
	v = viewAt(t, p, "en", -1, 0)
	require.NotNil(t, railOf(v))
	require.Nil(t, fastOf(v))
	for _, post := range railOf(v).Picture.Posts {
		require.NotContains(t, post.Title, "Stop")
	}
}

// Now is on the screen while the day lasts, and never on paper.
func TestNowIsNotOnPaper(t *testing.T) {
	p := harmless.plan(t)
	for days, sign := range map[int]string{0: `class="now-mark"`, -1: `class="hand"`} {
		r := at(p, days)
		r.Now += int64(map[int]time.Duration{0: 3 * time.Hour, -1: 15 * time.Hour}[days] / time.Second)
		require.Contains(t, app.Handle(r).HTML, sign)
		r.Path = "/print/guide"
		paper := app.Handle(r).HTML
		require.NotContains(t, paper, sign)
		require.Contains(t, paper, `class="picture day-rail"`)
		require.Contains(t, paper, `class="picture clock-face"`)
	}
	require.Nil(t, railOf(viewAt(t, p, "en", 1, 12*60)), "over")
}
