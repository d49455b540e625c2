package page_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// What AHRQ's Health Literacy Universal Precautions Toolkit, 3rd edition, Tool 5
// (teach-back; from memory) asks for: a few questions that cannot be answered with yes or
// no, about what to do, in the person's own words; what was not clear is explained again;
// it is no test of the person.

func sayBack(t *testing.T, p plan.Plan, now time.Time, marks map[string]page.Mark) page.SayBack {
	t.Helper()
	s, err := schedule.Build(p)
	require.NoError(t, err)
	return page.NewSayBack(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Fragment: fragment(p)}, marks)
}

func answers(v page.SayBack) map[string]string {
	all := map[string]string{}
	for _, a := range v.Asked {
		all[a.ID] = a.Answer
	}
	return all
}

// The check values are those of the main job: leave-by by hand (05:30 less 15, 40, a quarter
// of 40, 10), the rest common practice, no published source.
func TestSayBackBeforeSurgery(t *testing.T) {
	v := sayBack(t, harmless.plan(t), time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC), nil)
	require.Equal(t, map[string]string{
		"wash":      "5 times: once a day from Friday, March 5 on. The last time is on the morning of surgery.",
		"food":      "Monday, March 8, 23:00. No food after that.",
		"drink":     "Tuesday, March 9, 03:30. Nothing to drink after that.",
		"leave":     "Leave home by 04:15 on Tuesday, March 9. Be there at 05:30.",
		"home":      "Wednesday, March 10, 08:30. Most leave by 10:00.",
		"emergency": "Call 911 now. The same holds for each of these:",
	}, answers(v))
	require.Equal(t, "When does Rosa stop drinking clear liquids on Tuesday?", v.Asked[2].Ask)
}

func TestSayBackWithoutAnArrivalGuessesNothing(t *testing.T) {
	p := harmless.plan(t)
	p.Arrival, p.Stay = wall.NoClock, plan.Undecided
	got := answers(sayBack(t, p, time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC), nil))
	require.Contains(t, got["drink"], "Nobody can say yet.")
	require.Contains(t, got["leave"], "The hospital calls on Monday, March 8.")
	require.Contains(t, got["home"], "Or, after one night: Wednesday, March 10, 08:30.")
	p.Facts |= plan.TeamTimes
	got = answers(sayBack(t, p, time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC), nil))
	require.NotRegexp(t, `\d`, got["food"]+got["drink"], "the team's own times hold")
}

// ASA 2017 and 2023 by the published vectors: what the page says a person should answer is
// never later than the guideline counted from the arrival.
func TestSayBackAgreesWithThePublishedFastingTimes(t *testing.T) {
	data, err := os.ReadFile("../../testdata/schedule/fasting.json")
	require.NoError(t, err)
	var vectors struct {
		Cases []struct {
			Procedure string                 `json:"procedure_local"`
			Zone      string                 `json:"tzid"`
			Liquids   struct{ Local string } `json:"clear_liquids"`
		}
	}
	require.NoError(t, json.Unmarshal(data, &vectors))
	require.NotEmpty(t, vectors.Cases)
	for _, c := range vectors.Cases {
		day, clock, _ := strings.Cut(c.Procedure, "T")
		p := harmless.plan(t)
		p.Zone = c.Zone
		p.Surgery, err = wall.ParseDate(day)
		require.NoError(t, err)
		p.Arrival, err = wall.ParseClock(clock)
		require.NoError(t, err)
		stop, err := time.Parse("2006-01-02T15:04", c.Liquids.Local)
		require.NoError(t, err)
		got := answers(sayBack(t, p, stop.AddDate(0, 0, -8), nil))["drink"]
		got = strings.Replace(got, stop.Format(", 2006,"), ",", 1) // said where it is not the year of today
		require.Contains(t, got, stop.Format("Monday, January 2, 15:04"), c.Procedure)
	}
}

// Whatever the plan and the day: six questions, one of them what an emergency asks for, each
// whole in every language, and none whose time has passed.
func TestThereAreAlwaysSixQuestions(t *testing.T) {
	for _, language := range guide.Languages {
		for _, p := range sayPlans(t) {
			s, err := schedule.Build(p)
			require.NoError(t, err)
			for days := -40; days <= 60; days += 4 {
				now := time.Date(2027, 3, 9+days, 11, 20, 0, 0, time.UTC)
				v := page.NewSayBack(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open(language)}, Now: now}, nil)
				require.Len(t, v.Asked, 6)
				ids := map[string]bool{}
				for _, a := range v.Asked {
					ids[a.ID] = true
					for _, text := range []string{a.Ask, a.Answer, a.Topic, a.Why} {
						require.NotEmpty(t, text, a.ID)
						require.NotRegexp(t, `\{|say-back`, text, a.ID)
					}
					require.Regexp(t, `\?$`, a.Ask)
				}
				require.Len(t, ids, 6, "each is asked once")
				require.True(t, ids["emergency"])
				require.False(t, days > 0 && (ids["food"] || ids["drink"] || ids["wash"] || ids["leave"]), "it is over")
			}
		}
	}
}

func sayPlans(t *testing.T) []plan.Plan {
	var all []plan.Plan
	for _, arrival := range []wall.Clock{330, 13 * 60, wall.NoClock} {
		for _, stay := range []plan.Stay{plan.OneNight, plan.SameDay, plan.Undecided} {
			for _, facts := range []plan.Facts{0, plan.TeamTimes, plan.AllFacts} {
				p := harmless.plan(t)
				p.Arrival, p.Stay, p.Facts = arrival, stay, facts
				all = append(all, p)
			}
		}
	}
	p := harmless.plan(t)
	p.Drive, p.Program.Phone = plan.Unknown, ""
	require.True(t, p.Program.Set(plan.StayWithHours, 0) && p.Program.Set(plan.WashMorning, 0) && p.Program.Set(plan.WashDays, 1))
	return append(all, p)
}

func TestSayBackAfterSurgeryAsksForTheNextRide(t *testing.T) {
	p := harmless.plan(t)
	p.Stay, p.Helpers = plan.SameDay, []string{"Dana"}
	p.Duties = []plan.Duty{{
		ID: 1, Kind: plan.TherapyRide, Length: 45, Who: 1, Rule: repeat.Rule{First: p.Surgery + 9, At: 10*60 + 30, Every: 1}.Canonical(),
		Ride: plan.Ride{Drive: 20, Parking: 10, Early: 10},
	}}
	got := answers(sayBack(t, p, time.Date(2027, 3, 16, 15, 0, 0, 0, time.UTC), nil))
	// By hand: 10:30 less 10 early, 10 to park, 20 and a quarter of it, 10 to get into the car.
	require.Equal(t, "Leave home by 09:35 on Thursday, March 18. Be there at 10:20. The driver is Dana.", got["ride"])
}

func TestSayBackInAnotherZoneNamesTheZone(t *testing.T) {
	s, err := schedule.Build(harmless.plan(t))
	require.NoError(t, err)
	for _, zone := range []string{"America/Chicago", "Europe/Madrid"} {
		device, err := time.LoadLocation(zone)
		require.NoError(t, err)
		in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC), Device: device}
		v := page.NewSayBack(in, nil)
		require.Equal(t, zone != "America/Chicago", strings.Contains(page.SayBackPage(&v), "Times are those of the hospital (America/Chicago)."), zone)
	}
}

// A mark holds as long as the answer does.
func TestWhatWasClearIsAskedAgainOnceThePlanSaysSomethingElse(t *testing.T) {
	now := time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC)
	p := harmless.plan(t)
	marks := map[string]page.Mark{}
	for _, a := range sayBack(t, p, now, nil).Asked {
		marks[a.ID] = page.Mark{Said: page.SaidClear, Fact: a.Fact}
	}
	v := sayBack(t, p, now, marks)
	require.True(t, v.Done)
	require.Equal(t, "6 of 6 answers are clear.", v.Clear)
	p.Arrival += 30
	v = sayBack(t, p, now, marks)
	require.False(t, v.Done)
	for _, a := range v.Asked {
		moved := a.ID == "drink" || a.ID == "leave"
		require.Equal(t, moved, a.Said == page.SaidChanged, a.ID)
	}
	p.Patient = "Mom"
	p.Arrival -= 30
	require.True(t, sayBack(t, p, now, marks).Done, "another name is no other answer")
}
