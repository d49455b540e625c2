package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

func (p *phone) fileOf(whose string, more ...string) string {
	out := p.send("/calendar", append([]string{"make", "1", "whose", whose, "alarm", "30"}, more...)...)
	require.NotNil(p.t, out.File, whose)
	return out.File.Text
}

func TestCalendarFilesForOneForADutyAndForEverybody(t *testing.T) {
	p := withTherapy(t)
	p.send("/who/drive-there", "who", "Luis")
	p.send("/calendar")
	require.Contains(t, p.text(), "Everybody's Dana's Luis's")
	require.Contains(t, p.text(), "most calendars then update what they have", "in one line, what phones do with an update")
	all, dana, luis := p.fileOf("all"), p.fileOf("h1"), p.fileOf("h2")
	require.Contains(t, all, "SUMMARY:Dana: 10:30 Ride to therapy")
	require.Contains(t, dana, "SUMMARY:10:30 Ride to therapy")
	require.NotContains(t, dana, "Drive to the hospital")
	require.Contains(t, luis, "SUMMARY:05:30 Drive to the hospital (leave 04:15)")
	require.NotContains(t, luis, "therapy")
	p.send("/duty/1")
	p.send("/calendar/duty/1")
	require.Contains(t, p.text(), "Only this: Ride to therapy")
	require.Equal(t, 1, strings.Count(p.fileOf("f1"), "BEGIN:VEVENT"))
	p.send("/calendar/who/drive-there")
	require.Contains(t, p.text(), "Only this: Drive to the hospital")
	require.Equal(t, 1, strings.Count(p.fileOf("drive-there"), "BEGIN:VEVENT"))
	require.Contains(t, p.fileOf("all", "steps", "1"), "Stop eating")
	require.NotContains(t, p.fileOf("all", "alarm", "-1"), "VALARM")
	out := p.send("/calendar", "make", "1", "whose", "h3")
	require.Nil(t, out.File, "there is no third helper")
}

func TestAFileMadeAgainUpdatesTheFirst(t *testing.T) {
	p := withTherapy(t)
	first := p.fileOf("h1")
	require.Equal(t, first, p.fileOf("h1"), "nothing changed")
	p.send("/duty/1/change", therapy("at", "11:00")...)
	second := p.fileOf("h1")
	require.Equal(t, valueOf(first, "UID"), valueOf(second, "UID"))
	require.Equal(t, []string{"0", "1"}, []string{valueOf(first, "SEQUENCE"), valueOf(second, "SEQUENCE")})
	p.send("/duty/1/change", therapy("at", "11:00", "who", "Luis")...)
	third := p.fileOf("h1")
	require.Equal(t, valueOf(first, "UID"), valueOf(third, "UID"))
	require.Contains(t, third, "SUMMARY:Not yours now: Luis: 11:00 Ride to therapy")
	require.Contains(t, third, "TRANSP:TRANSPARENT")
	p.send("/duty/1/drop")
	require.Equal(t, "CANCELLED", valueOf(p.fileOf("h1"), "STATUS"))
	p.send("/forget", "number", planKey(p.plan().Number))
	for key := range p.kept {
		require.False(t, strings.HasPrefix(key, keyCalendar), "%s is left of a plan that was removed", key)
	}
}

func valueOf(file, name string) string {
	_, rest, _ := strings.Cut(file, "\r\n"+name+":")
	value, _, _ := strings.Cut(rest, "\r\n")
	return value
}

func TestAClinicsFileIsLookedAtThenTakenOver(t *testing.T) {
	p := started(t)
	file := strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Alder Ferry//Clinic//EN",
		"BEGIN:VEVENT", "UID:a", "DTSTAMP:20261120T120000Z", "DTSTART;TZID=America/Chicago:20261209T103000", "DURATION:PT45M",
		"RRULE:FREQ=WEEKLY;BYDAY=WE;COUNT=4", "EXDATE;TZID=America/Chicago:20261223T103000", "SUMMARY:Therapy\\, with Ana", "LOCATION:Room 2", "END:VEVENT",
		"BEGIN:VEVENT", "UID:b", "DTSTAMP:20261120T120000Z", "DTSTART;VALUE=DATE:20261225", "SUMMARY:Closed", "END:VEVENT",
		"END:VCALENDAR", "",
	}, "\r\n")
	p.send("/import", "text", file)
	require.Equal(t, "/import", p.path)
	require.Contains(t, p.part("found"), "1 entry can be put in the plan Therapy, with Ana Wednesdays at 10:30, 4 times from Wednesday, December 9: 3 rides")
	require.Contains(t, p.part("found"), "Closed: ")
	require.Empty(t, p.plan().Duties, "only looked at")
	p.send("/import/add", "text", file)
	require.Equal(t, "/", p.path)
	require.Contains(t, p.part("family"), "Therapy, with Ana Nobody has this yet Wednesdays at 10:30")
	d := p.plan().Duties[0]
	require.Equal(t, []any{45, "Room 2", plan.VisitRide, plan.Unknown}, []any{d.Length, d.Place, d.Kind, d.Ride.Drive})
	require.Contains(t, p.part("family"), "How far is it?")
	for _, text := range []string{"", "  \r\n", "hello", strings.Repeat("BEGIN:VCALENDAR\r\n", 20_000)} {
		p.send("/import", "text", text)
		require.NotEmpty(t, p.part("problem-file"), "%.20q", text)
	}
}

func TestOurOwnFileChangesNothing(t *testing.T) {
	p := newPhone(t)
	p.open("demo")
	before := p.plan()
	file := p.fileOf("all", "steps", "1")
	p.send("/import", "text", file)
	require.Contains(t, p.part("found"), "6 entries are in the plan already, just so")
	p.send("/import/add", "text", file)
	require.Equal(t, before, p.plan())
}

func TestTheCalendarsAnswersAreRemembered(t *testing.T) {
	p := withTherapy(t)
	p.fileOf("all", "steps", "1", "alarm", "60")
	p.send("/calendar")
	require.Equal(t, []string{"60", "1"}, []string{p.values()["alarm"], p.values()["steps"]})
}

func clinic(events ...[]string) string {
	lines := []string{"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Alder Ferry//Clinic//EN"}
	for _, e := range events {
		lines = append(append(append(lines, "BEGIN:VEVENT", "DTSTAMP:20261120T120000Z"), e...), "END:VEVENT")
	}
	return strings.Join(append(lines, "END:VCALENDAR", ""), "\r\n")
}

func TestAClinicsFileThatComesAgain(t *testing.T) {
	p := started(t)
	weekly := []string{"UID:w", "DTSTART:20261208T100000", "RRULE:FREQ=WEEKLY;COUNT=4", "SUMMARY:Therapy", "DESCRIPTION:Bring the sheet"}
	p.send("/import/add", "text", clinic(weekly))
	d := p.plan().Duties[0]
	require.Equal(t, []any{30, "Bring the sheet", "Therapy"}, []any{d.Length, d.Note, d.Title})
	p.send("/duty/1/change", therapy("first", "2026-12-08", "at", "10:00", "often", "weekly", "day-1", "", "day-2", "1", "day-3", "", "day-5", "",
		"ends", "times", "times", "4", "length", "60", "note", "the sheet, loose trousers", "title", "Knee group")...)
	p.send("/duty/1/date", "act", "skip", "day", "2026-12-22")
	was := p.plan().Duties[0]
	p.send("/import", "text", clinic(weekly))
	require.Contains(t, p.part("found"), "1 entry is in the plan already, just so.")
	require.NotContains(t, p.part("found"), "how long")
	weekly[1] = "DTSTART:20261208T113000"
	p.send("/import", "text", clinic(weekly))
	require.Contains(t, p.part("found"), "It changes what the plan has: Knee group")
	p.send("/import/add", "text", clinic(weekly))
	require.Len(t, p.plan().Duties, 1)
	now := p.plan().Duties[0]
	require.Equal(t, "11:30", now.Rule.At.String())
	require.Equal(t, []any{60, "the sheet, loose trousers", "Knee group", was.Who, was.Ride}, []any{now.Length, now.Note, now.Title, now.Who, now.Ride})
	require.Equal(t, was.Rule.Skipped, now.Rule.Skipped)
	require.Greater(t, now.Revision, was.Revision)
	p.send("/import", "text", clinic(weekly))
	require.Contains(t, p.part("found"), "1 entry is in the plan already, just so.")
}

func TestAClinicsFileWithoutUIDs(t *testing.T) {
	p := started(t)
	file := clinic([]string{"DTSTART:20261215T100000", "DTEND:20261215T103000", "SUMMARY:A"}, []string{"DTSTART:20261216T100000", "DTEND:20261216T103000", "SUMMARY:B"})
	for range 2 {
		p.send("/import/add", "text", file)
		require.Len(t, p.plan().Duties, 2)
		require.Equal(t, []string{"A", "B"}, []string{p.plan().Duties[0].Title, p.plan().Duties[1].Title})
	}
}

func TestAnotherPlansFile(t *testing.T) {
	other := newPhone(t)
	other.open("demo")
	file := other.fileOf("all", "steps", "1")
	p := started(t)
	p.send("/import", "text", file)
	require.Contains(t, p.part("found"), "belong to another plan and were left alone")
	for range 2 {
		p.send("/import/add", "text", file)
		require.Len(t, p.plan().Duties, 6)
	}
}

func TestAnOldFileOfOursTakesNoWordsBack(t *testing.T) {
	p := withTherapy(t)
	old := p.fileOf("all")
	p.send("/duty/1/change", therapy("title", "Knee group", "note", "the card")...)
	before := p.plan()
	p.send("/import/add", "text", old)
	require.Equal(t, before.Duties, p.plan().Duties)
}
