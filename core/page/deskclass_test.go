package page

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

func class(t *testing.T, language string, known plan.Known, c ClassSample, day int) Class {
	t.Helper()
	today, err := wall.ParseDate("2026-11-26")
	require.NoError(t, err)
	s, err := schedule.Build(ClassPlan(&known, c, today))
	require.NoError(t, err)
	now := time.Date(2026, 11, 26, 15, 0, 0, 0, time.UTC)
	return NewClass(Input{Schedule: s, Voice: guide.Voice{Book: guide.Open(language), Today: today}, Now: now, Fragment: "desk"}, c, day)
}

func samples() []ClassSample {
	var all []ClassSample
	for n := range 8 {
		all = append(all, ClassSample{Joint: plan.Joint(n & 1), SameDay: n&2 != 0, NotYet: n&4 != 0})
	}
	return all
}

// The days of a sample can be stepped through from the first to the last and back, in every
// language, whatever the sample: each has something on it and says how far it is from surgery.
func TestTheClassStepsThroughTheDays(t *testing.T) {
	for _, language := range guide.Languages {
		for _, c := range samples() {
			first := class(t, language, plan.Known{}, c, 0)
			require.Empty(t, first.Before)
			surgery := 0
			for day := range first.Stops {
				v := class(t, language, plan.Known{}, c, day)
				require.Equal(t, day, v.At)
				require.NotEmpty(t, v.Rows, v.Title)
				require.Equal(t, first.Stops[day].Path, v.Path)
				if v.Stops[day].Surgery {
					surgery++
				}
				if v.After != "" {
					got, next := ReadClassPath(strings.TrimPrefix(v.After, "/desk/class/"))
					require.Equal(t, c, got)
					require.Equal(t, day+1, next)
				}
				html := ClassPage(&v)
				require.NotRegexp(t, `class\.[a-z]|\{[a-z]`, html)
				require.NotContains(t, html, `type="checkbox"`, "there is nothing to tick in a class")
			}
			require.Equal(t, 1, surgery)
			require.Empty(t, class(t, language, plan.Known{}, c, len(first.Stops)-1).After)
			require.Equal(t, len(first.Stops)-1, class(t, language, plan.Known{}, c, 255).At, "a day behind the last")
		}
	}
}

// What the class sees follows the hospital's rules: the first wash stands on its day. CDC 2017
// (JAMA Surg 152(8):784-791) asks for the night before at least; the four days are common
// practice, no published source.
func TestTheClassFollowsTheSettings(t *testing.T) {
	washes := func(known plan.Known) (stops []string) {
		for day := range class(t, "en", known, ClassSample{}, 0).Stops {
			v := class(t, "en", known, ClassSample{}, day)
			for _, r := range v.Rows {
				if strings.HasPrefix(r.ID, "day-40-") { // the code of washing in steps.txt
					stops = append(stops, v.Stops[day].Short)
				}
			}
		}
		return stops
	}
	var known plan.Known
	require.Equal(t, "−4", washes(known)[0])
	known.Program.Set(plan.WashDays, 6)
	require.Equal(t, "−6", washes(known)[0])
}

// Where the arrival is not known, the class sees no time that is worked out from one: the day of
// surgery says whom to ask. ASA 2017 counts back from the procedure, whose time nobody knows then.
func TestTheClassGuessesNoTime(t *testing.T) {
	v := class(t, "en", plan.Known{}, ClassSample{NotYet: true}, 0)
	for day, stop := range v.Stops {
		if stop.Surgery {
			for _, r := range class(t, "en", plan.Known{}, ClassSample{NotYet: true}, day).Rows {
				require.Empty(t, r.Time, r.Title)
			}
		}
	}
}

// What is done every day stands from the day on which it begins, and no day of a sample's calendar
// is on the page: somebody in the room might take it for their own.
func TestTheClassNamesNoDate(t *testing.T) {
	began := map[string]string{}
	first := class(t, "en", plan.Known{}, ClassSample{}, 0)
	for day, stop := range first.Stops {
		v := class(t, "en", plan.Known{}, ClassSample{}, day)
		for _, title := range v.Daily {
			if began[title] == "" {
				began[title] = stop.Short
			}
		}
		html := ClassPage(&v)
		require.NotRegexp(t, `\b(Dec|December|January) \d`, html)
		for _, r := range v.Rows {
			if r.Time != "" {
				require.Contains(t, html, `<span class="sample">sample</span>`)
			}
		}
	}
	require.Equal(t, "surgery", began["Every hour awake: ankle pumps"], began)
	require.NotContains(t, began, "", "each has words")
	require.Greater(t, len(began), 5)
}
