package page_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/guide"
	"newel/core/picture"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Worked out by hand. ASA, Anesthesiology 2017;126(3):376-393, kept by the 2023 update
// (2023;138(2):132-151): clear liquids until 2 h before, a light meal 6 h, fried or fatty food
// and meat 8 h or more. No food after 23:00 is common practice, no published source.
func TestTheClockByHand(t *testing.T) {
	const e, l, n = picture.Plain, picture.Dotted, picture.Closed
	for name, c := range map[string]struct {
		day     string
		arrival wall.Clock
		rules   map[plan.Rule]int
		faces   [][]picture.Arc
		hours   string // of the first face
		post    int    // on the last face
	}{
		"common":                {"2027-03-09", 330, nil, [][]picture.Arc{{{From: 0, To: 300, Pattern: e, Mark: "1"}, {From: 300, To: 570, Pattern: l, Mark: "2"}, {From: 570, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 690},
		"early":                 {"2027-03-09", 240, nil, [][]picture.Arc{{{From: 0, To: 240, Pattern: e, Mark: "1"}, {From: 240, To: 480, Pattern: l, Mark: "2"}, {From: 480, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 600},
		"two faces":             {"2027-03-09", 780, nil, [][]picture.Arc{{{From: 0, To: 60, Pattern: e, Mark: "1"}, {From: 60, To: 720, Pattern: l, Mark: "2"}}, {{From: 0, To: 60, Pattern: l, Mark: "2"}, {From: 60, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 10\u202fPM to Tuesday, 10\u202fAM", 180},
		"the last face is full": {"2027-03-09", 600, nil, [][]picture.Arc{{{From: 0, To: 60, Pattern: e, Mark: "1"}, {From: 60, To: 600, Pattern: l, Mark: "2"}, {From: 600, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 10\u202fPM to Tuesday, 10\u202fAM", 720},
		"after midnight":        {"2027-03-09", 30, map[plan.Rule]int{plan.FoodStop: 1440, plan.LiquidsBefore: 15}, [][]picture.Arc{{{From: 0, To: 359, Pattern: e, Mark: "1"}, {From: 359, To: 375, Pattern: l, Mark: "2"}, {From: 375, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 390},
		"at midnight":           {"2027-03-09", 120, nil, [][]picture.Arc{{{From: 0, To: 120, Pattern: e, Mark: "1"}, {From: 120, To: 359, Pattern: l, Mark: "2"}, {From: 359, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 480},
		"equal":                 {"2027-03-09", 330, map[plan.Rule]int{plan.LiquidsBefore: 390}, [][]picture.Arc{{{From: 0, To: 300, Pattern: e, Mark: "1"}, {From: 300, To: 720, Pattern: n, Mark: "2"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 690},
		"until the arrival":     {"2027-03-09", 330, map[plan.Rule]int{plan.LiquidsBefore: 0}, [][]picture.Arc{{{From: 0, To: 300, Pattern: e, Mark: "1"}, {From: 300, To: 690, Pattern: l, Mark: "2"}, {From: 690, To: 720, Pattern: n, Mark: "3"}}}, "Monday, 6\u202fPM to Tuesday, 6\u202fAM", 690},
		// The clocks skip 2:00 to 3:00: two hours before 3:30 it is 0:30, six hours before 20:30.
		"a clock change": {"2027-03-14", 210, nil, [][]picture.Arc{{{From: 0, To: 150, Pattern: e, Mark: "1"}, {From: 150, To: 390, Pattern: l, Mark: "2"}, {From: 390, To: 720, Pattern: n, Mark: "3"}}}, "Saturday, 6\u202fPM to Sunday, 6\u202fAM", 570},
	} {
		t.Run(name, func(t *testing.T) {
			p := harmless.plan(t)
			var err error
			p.Surgery, err = wall.ParseDate(c.day)
			require.NoError(t, err)
			p.Arrival = c.arrival
			for r, to := range c.rules {
				p.Program.Set(r, to)
			}
			fast := fastOf(viewAt(t, p, "en", -2, 0))
			require.NotNil(t, fast)
			require.Equal(t, c.hours, fast.Faces[0].Hours)
			var got [][]picture.Arc
			for _, f := range fast.Faces {
				got = append(got, f.Picture.Arcs)
			}
			require.Equal(t, c.faces, got)
			require.Equal(t, c.post, fast.Faces[len(got)-1].Picture.Post)
			require.Equal(t, guide.Open("en").Say("team-first"), fast.Team)
		})
	}
}

// A hospital whose own rules end drinking before eating gets no clock: its three parts would say
// of food what no line of the list says.
func TestNoClockWhereDrinkingEndsBeforeEating(t *testing.T) {
	for _, before := range []int{600, 1440} {
		p := harmless.plan(t)
		p.Arrival = 330
		p.Program.Set(plan.LiquidsBefore, before)
		require.Nil(t, fastOf(viewAt(t, p, "en", -2, 0)))
	}
}

// The arcs of all faces follow each other without a gap to the end of the last face; where one ends,
// a stop of the schedule is; and the words say the same times.
func TestTheClockIsTheSchedules(t *testing.T) {
	base := harmless.plan(t)
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t, base)
		language := rapid.SampledFrom(guide.Languages).Draw(t, "language")
		fast := fastOf(viewAt(t, p, language, -1, 0))
		s, err := schedule.Build(p)
		require.NoError(t, err)
		if s.Fasting.LiquidStop.Before(s.Fasting.FoodStop) {
			require.Nil(t, fast)
			return
		}
		require.NotNil(t, fast)
		kind, end := picture.Plain, 0
		for n, f := range fast.Faces {
			require.Equal(t, n*picture.Turn, end, "each face begins where the one before ends")
			for _, a := range f.Picture.Arcs {
				require.Equal(t, end, n*picture.Turn+a.From)
				require.GreaterOrEqual(t, a.Pattern, kind, "nothing is allowed again")
				end, kind = n*picture.Turn+a.To, a.Pattern
			}
			if n == 0 {
				require.GreaterOrEqual(t, f.Picture.Arcs[0].To, 60)
				require.Equal(t, picture.Plain, f.Picture.Arcs[0].Pattern)
			}
			require.Equal(t, n == len(fast.Faces)-1, f.Picture.Post >= 0)
		}
		require.Equal(t, len(fast.Faces)*picture.Turn, end, "the ring is closed behind the arrival too")
		v := guide.Voice{Book: guide.Open(language), Clock12: language == "en", Today: p.Surgery - 1}
		last := fast.Lines[len(fast.Lines)-1]
		if s.Fasting.LiquidStop.Before(s.Arrival) {
			require.Equal(t, picture.Closed, last.Pattern)
			require.Contains(t, last.When, v.Time(s.Fasting.LiquidStop))
		}
		require.Contains(t, fast.There.When, v.Time(s.Arrival))
	})
}
