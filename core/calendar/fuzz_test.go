package calendar

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
)

// Whatever is in a file, Read answers, within its bounds, with duties that the plan can
// hold and sentences for the rest.
func FuzzRead(f *testing.F) {
	p := sharedRides(f)
	file, _ := write(f, p, Choice{All: true, Alarm: 30}, "")
	f.Add(file)
	f.Add(withoutOurs(file))
	_, memory := write(f, family(f), Choice{Who: 1, Alarm: -1}, "")
	part, _ := write(f, p, Choice{Who: 1, Alarm: -1}, memory)
	f.Add(part)
	f.Add(withoutOurs(part))
	f.Add(visit("DTSTART:20270323T141500", "DURATION:PT30M", "RRULE:FREQ=MONTHLY;BYDAY=-1FR;COUNT=5", "EXDATE:20270326T141500,x", "RDATE;VALUE=PERIOD:20270323T141500/PT1H"))
	f.Add(series("RECURRENCE-ID:20270308T103000|DTSTART:20270309T150000", "RECURRENCE-ID:20270315T103000|STATUS:CANCELLED"))
	f.Add("BEGIN:VCALENDAR\r\n" + odd + visit("DTSTART;TZID=Mill Time:20270312T103000")[len("BEGIN:VCALENDAR\r\n"):])
	loc, voice := load(f, p.Zone), guide.Voice{Book: guide.Open("en")}
	f.Fuzz(func(t *testing.T, text string) {
		found, err := Read(text, &p, loc)
		if err != nil {
			require.NotEmpty(t, WhyNot(voice, err))
			return
		}
		require.LessOrEqual(t, len(found.Duties), MaxEvents)
		for _, d := range found.Duties {
			require.NoError(t, d.Rule.Check())
			require.Equal(t, d.Title, plan.Clean(d.Title))
			require.LessOrEqual(t, len([]rune(d.Title)), plan.MaxName)
			require.LessOrEqual(t, len([]rune(d.Place)), plan.MaxText)
			require.True(t, d.Length >= 0 && d.Length <= plan.MaxLength)
		}
		for _, l := range found.Left {
			require.NotEmpty(t, Why(voice, l))
		}
	})
}
