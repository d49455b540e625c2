package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// cardOf makes the card of a patient of a program on paperDay, two weeks and more ahead.
func cardOf(t *testing.T, known plan.Known, language string, change func(*desk.Patient)) page.Card {
	t.Helper()
	known.Zone = "America/Chicago"
	patient := desk.Patient{Surgery: dateOf(t, "2026-12-10"), Arrival: 5*60 + 30, Stay: plan.OneNight}
	change(&patient)
	s, err := schedule.Build(desk.PlanOf(&known, patient, 7))
	require.NoError(t, err)
	now, _ := paperDay.At(s.Loc, 9*60)
	return page.NewCard(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open(language)}, Now: now, Fragment: "abc"}, "card-0", "https://alder.example/#abc")
}

func dateOf(t *testing.T, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

func timesOf(c page.Card) []string {
	var all []string
	for _, x := range c.Times {
		line := x.Label + ": " + x.When
		if x.Note != "" {
			line += " · " + x.Note
		}
		if x.Line {
			line += " ____"
		}
		all = append(all, line)
	}
	return all
}

// The six times of a patient who arrives at 05:30. Clear liquids end two hours before, nothing
// fried or fatty and no meat from eight hours before (ASA, Anesthesiology 2017;126(3):376-393).
// Common practice, no published source: five washes from the fourth day before, the end of food at
// 23:00, the morning after at 08:30 and 10:00, 24 hours with somebody in the house.
func TestTheSixTimesOfACard(t *testing.T) {
	same := func(*desk.Patient) {}
	require.Equal(t, []string{
		"First wash: Sun, Dec 6 · 5 in all, one a day",
		"Stop eating: Wed, Dec 9, 23:00 · no meat, nothing fried or fatty from 21:30 on",
		"Stop drinking, even water: Thu, Dec 10, 03:30 · once eating has stopped, only clear liquids",
		"Be at the hospital: Thu, Dec 10, 05:30",
		"Going home: be there Fri, Dec 11, 08:30 · most leave by 10:00",
		"Somebody in the house: the first 24 hours at home, day and night · plan for 72 hours",
	}, timesOf(cardOf(t, plan.BaseOf(0), "en", same)))
	require.Equal(t, "Llegar al hospital: jue, 10 de dic, 05:30", timesOf(cardOf(t, plan.BaseOf(0), "es", same))[3])
}

// What is not known is asked for, with room to write it in, and is not computed: no time of day
// stands on the card that follows from the arrival.
func TestACardAsksForWhatIsNotKnown(t *testing.T) {
	times := timesOf(cardOf(t, plan.BaseOf(0), "en", func(p *desk.Patient) { p.Arrival, p.Stay = wall.NoClock, plan.Undecided }))
	require.Equal(t, "Stop eating: Wed, Dec 9, 23:00 · earlier if the arrival is before 05:00: ask", times[1])
	require.Equal(t, "Stop drinking, even water: not known yet · ask when the hospital calls: ____", times[2])
	require.Equal(t, "Be at the hospital: Thu, Dec 10, time not known yet · the hospital calls Wed, Dec 9: ____", times[3])
	require.Equal(t, "Going home: Thu, Dec 10 · the nurse says when. Or, after one night: be there Fri, Dec 11, 08:30, most leave by 10:00", times[4])

	// The call before a Monday may come on the Friday.
	times = timesOf(cardOf(t, plan.BaseOf(0), "en", func(p *desk.Patient) { p.Arrival, p.Surgery = wall.NoClock, dateOf(t, "2026-12-14") }))
	require.Contains(t, times[3], "the hospital calls Fri, Dec 11, or Sun, Dec 13: ____")

	times = timesOf(cardOf(t, plan.BaseOf(0), "en", func(p *desk.Patient) { p.Facts = plan.TeamTimes }))
	require.Equal(t, []string{"Stop eating: when your team said: ____", "Stop drinking, even water: when your team said: ____"}, times[1:3])
}

// Whatever a program says, a card has six times.
func TestACardHasSixTimes(t *testing.T) {
	own := plan.BaseOf(0)
	own.Program.Set(plan.StayWithHours, 0)
	own.Program.Set(plan.PresenceHours, 0)
	own.Program.Set(plan.WashDays, 1)
	own.Program.Set(plan.WashMorning, 0)
	for _, language := range guide.Languages {
		for _, stay := range []plan.Stay{plan.OneNight, plan.SameDay, plan.Undecided} {
			for _, arrival := range []wall.Clock{wall.NoClock, 0, 11 * 60, 23*60 + 59} {
				c := cardOf(t, own, language, func(p *desk.Patient) { p.Arrival, p.Stay = arrival, stay })
				require.Len(t, c.Times, 6)
				for _, x := range c.Times {
					require.NotEmpty(t, x.Label)
					require.NotEmpty(t, x.When)
				}
			}
		}
	}
	times := timesOf(cardOf(t, own, "en", func(*desk.Patient) {}))
	require.Equal(t, "First wash: Wed, Dec 9, in the evening · 1 in all", times[0])
	require.Equal(t, "Watch for blood clots: until Thu, Jan 14, 2027", times[5])
}

// A card has all the signs, the number to call, and that the hospital's instructions come first;
// of a link that is too long for a code of its size it says how to get it.
func TestWhatACardSays(t *testing.T) {
	for _, language := range guide.Languages {
		c := cardOf(t, plan.BaseOf(1), language, func(*desk.Patient) {})
		html := page.DeskCardsPage(page.DeskCards{
			DeskFrame: page.DeskFrame{Voice: guide.Voice{Book: guide.Open("en")}}, Cards: []page.Card{c}, Choices: []page.CardChoice{{Index: "0"}},
		})
		_, html, _ = strings.Cut(html, `id="card-0" lang="`+language+`"`)
		html, _, _ = strings.Cut(html, "</article>")
		html = strings.ReplaceAll(html, "&#39;", "'")
		signs := c.Calls.Signs
		for _, l := range append(signs.Emergency.How, signs.Office.How...) {
			if l.Point {
				require.Contains(t, html, l.Text)
			}
		}
		for _, want := range []string{"555-0142", "911", c.Voice.Say("desk-cards.caution"), `data-qr="abc"`} {
			require.Contains(t, html, want)
		}
	}
	s := exampleSchedule(t)
	now, _ := paperDay.At(s.Loc, 9*60)
	long := page.NewCard(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now}, "card-0", strings.Repeat("a", 1466))
	require.False(t, long.Code, "ISO/IEC 18004, table 7: version 27-L holds 1465 bytes")
	longer := page.NewCard(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now}, "card-0", strings.Repeat("a", 793))
	require.True(t, longer.Code && longer.Longer, "version 19-L holds 792")
	fits := page.NewCard(page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now}, "card-0", strings.Repeat("a", 792))
	require.True(t, fits.Code && fits.Long && !fits.Longer)
	require.NotContains(t, fits.What, s.Plan.Patient, "who it is stands on no card")
}
