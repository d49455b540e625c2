package calendar

import (
	"strings"
	"testing"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// events gives the events of a file whose summary has a text.
func events(t *testing.T, file, summary string) []*ical.Component {
	var found []*ical.Component
	for _, c := range parse(t, file).Children {
		if c.Name == "VEVENT" && strings.Contains(unescape(c.Props.Get("SUMMARY").Value), summary) {
			found = append(found, c)
		}
	}
	return found
}

func one(t *testing.T, file, summary string) *ical.Component {
	found := events(t, file, summary)
	require.Len(t, found, 1, summary)
	return found[0]
}

func line(c *ical.Component, name string) string {
	p := c.Props.Get(name)
	if p == nil {
		return ""
	}
	for _, param := range []string{"TZID", "VALUE"} {
		if v := p.Params.Get(param); v != "" {
			return v + ":" + p.Value
		}
	}
	return p.Value
}

// Source for the required parts: RFC 5545 3.6 (VCALENDAR), 3.6.1 (VEVENT), 3.6.6
// (VALARM), 3.8.2.2 (DTEND), 3.2.19 (TZID); RFC 5546 3.2.1 (METHOD wants an ORGANIZER).
func TestTheFileIsAsTheRFCsHaveIt(t *testing.T) {
	file, _ := write(t, family(t), everything(), "")
	require.True(t, strings.HasPrefix(file, "BEGIN:VCALENDAR\r\n"))
	require.True(t, strings.HasSuffix(file, "END:VCALENDAR\r\n"))
	require.NotContains(t, strings.ReplaceAll(file, "\r\n", ""), "\n")
	for part := range strings.SplitSeq(file, "\r\n") {
		require.LessOrEqual(t, len(part), 75)
	}
	cal := parse(t, file)
	require.Equal(t, "2.0", line(cal.Component, "VERSION"))
	require.Equal(t, "-//Newel//Newel 1//EN", line(cal.Component, "PRODID"))
	require.Empty(t, line(cal.Component, "METHOD"))
	require.Equal(t, "VTIMEZONE", cal.Children[0].Name)
	seen := map[string]bool{}
	for _, c := range cal.Children[1:] {
		require.Equal(t, "VEVENT", c.Name)
		for _, name := range []string{"UID", "DTSTAMP", "DTSTART", "SUMMARY", "SEQUENCE", "STATUS"} {
			require.Len(t, c.Props[name], 1, name)
		}
		require.Equal(t, "20270301T123000Z", line(c, "DTSTAMP"))
		id := line(c, "UID") + line(c, "RECURRENCE-ID")
		require.False(t, seen[id], "twice")
		seen[id] = true
		for _, props := range c.Props {
			for _, p := range props {
				if tz := p.Params.Get("TZID"); tz != "" {
					require.Equal(t, "America/New_York", tz)
					require.Len(t, p.Value, len("20270309T053000"))
				}
			}
		}
		if start, end := line(c, "DTSTART"), line(c, "DTEND"); end != "" {
			require.Greater(t, end, start)
			require.Equal(t, strings.HasPrefix(start, "DATE"), strings.HasPrefix(end, "DATE"))
		}
		allDay := strings.HasPrefix(line(c, "DTSTART"), "DATE")
		require.Equal(t, allDay, line(c, "TRANSP") == "TRANSPARENT")
		require.Equal(t, !allDay && line(c, "STATUS") != "CANCELLED", len(c.Children) == 1, "an alarm at what has a time")
		for _, a := range c.Children {
			require.Equal(t, "DISPLAY -PT30M", line(a, "ACTION")+" "+line(a, "TRIGGER"))
			require.NotEmpty(t, line(a, "DESCRIPTION"))
		}
	}
}

func TestARideIsItsBusyTimeAndNamesTheAppointment(t *testing.T) {
	file, _ := write(t, family(t), Choice{Who: 1, Alarm: -1}, "")
	rides := events(t, file, "Ride to therapy")
	require.Len(t, rides, 2)
	// 10:30 less 10 early, 5 parking, 20 drive, 5 for traffic (25 %), 10 into the car and
	// 10 own way is 09:30: the sum of core/schedule, with the common practice of
	// core/plan/rules.go, no published source.
	main := rides[0]
	require.Equal(t, "America/New_York:20270315T093000", line(main, "DTSTART"))
	require.Equal(t, "America/New_York:20270315T120500", line(main, "DTEND"))
	require.Equal(t, "FREQ=WEEKLY;BYDAY=MO,WE,FR;COUNT=18", line(main, "RRULE"))
	require.Equal(t, "America/New_York:20270405T093000", line(main, "EXDATE"))
	require.Equal(t, "America/New_York:20270406T093000", line(main, "RDATE"))
	require.Equal(t, "10:30 Ride to therapy (leave 09:30)", line(main, "SUMMARY"))
	require.Equal(t, `Millrace Therapy\; 3 Mill Lane\, Alder Ferry`, line(main, "LOCATION"))
	for _, part := range []string{"Appointment at 10:30.", "Be there by 10:20.", "Leave home by 09:30.", "Free again by 12:05.",
		`loose trousers\, the walker`, "call Alder Ferry Hospital\\, 555-0142.", "The hospital's own instructions come first."} {
		require.Contains(t, line(main, "DESCRIPTION"), part)
	}
	require.Equal(t, "America/New_York:20270326T093000", line(rides[1], "RECURRENCE-ID")) // RFC 5545 3.8.4.4: the original start
	require.Equal(t, "America/New_York:20270326T130000", line(rides[1], "DTSTART"))
	require.Equal(t, "14:00 Ride to therapy (leave 13:00)", line(rides[1], "SUMMARY"))
	require.Equal(t, line(main, "UID"), line(rides[1], "UID"))
	require.Empty(t, events(t, file, "Dog")) // that is Lee's
	require.Len(t, events(t, file, "Another ride"), 1)
}

func TestGoingHomeInBetweenIsTwoEvents(t *testing.T) {
	p := family(t)
	p.Duties = p.Duties[:1]
	p.Duties[0].Length = 180
	file, _ := write(t, p, Choice{Duty: "f1", Alarm: -1}, "")
	there, back := one(t, file, "10:30 Ride to therapy"), one(t, file, "13:30 pick-up: ")
	require.Equal(t, "America/New_York:20270315T093000", line(there, "DTSTART"))
	require.Less(t, line(there, "DTEND"), line(back, "DTSTART"))
	require.NotEqual(t, line(there, "UID"), line(back, "UID"))
	require.Equal(t, line(there, "RRULE"), line(back, "RRULE"))
	found, err := Read(file, &p, load(t, p.Zone))
	require.NoError(t, err)
	require.Len(t, found.Duties, 1)
	require.True(t, found.Duties[0].Equal(p.Duties[0]))
}

func TestARuleGoesBackOverMidnight(t *testing.T) {
	p := family(t)
	d := plan.Duty{ID: 9, Kind: plan.OtherRide, Rule: rule(t, "2027-03-15 00:20", "FREQ=WEEKLY;BYDAY=MO,TH;COUNT=6"), Length: 30,
		Ride: plan.Ride{Drive: 40, Parking: 5}}
	p.Duties = []plan.Duty{d}
	file, _ := write(t, p, Choice{Duty: "f9", Alarm: -1}, "")
	main := one(t, file, "ride")
	require.Equal(t, "FREQ=WEEKLY;BYDAY=WE,SU;COUNT=6", line(main, "RRULE"))
	require.True(t, strings.HasPrefix(line(main, "DTSTART"), "America/New_York:20270314T23"), line(main, "DTSTART"))
	require.Contains(t, line(main, "DESCRIPTION"), "the day before")
	p.Duties[0].Rule = rule(t, "2027-04-01 00:20", "FREQ=MONTHLY;BYMONTHDAY=1;COUNT=3") // the day before the 1st is no day of a month
	file, _ = write(t, p, Choice{Duty: "f9", Alarm: -1}, "")
	rides := events(t, file, "ride")
	require.Len(t, rides, 3)
	for i, want := range []string{"20270331", "20270430", "20270531"} {
		require.Empty(t, line(rides[i], "RRULE")+line(rides[i], "RDATE"))
		require.Equal(t, want, rides[i].Props.Get("DTSTART").Value[:8])
	}
}

func TestARuleWithoutAnEndIsWrittenWithOne(t *testing.T) {
	file, _ := write(t, family(t), Choice{Duty: "f2", Alarm: 0}, "")
	dog := one(t, file, "Dog, mornings")
	require.Equal(t, "FREQ=DAILY;UNTIL=20280308T120000Z", line(dog, "RRULE")) // RFC 5545 3.3.10: in UTC beside a TZID
	require.Equal(t, "PT0M", line(dog.Children[0], "TRIGGER"))
}

func TestWhatIsNotKnownIsNotMadeUp(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Arrival, p.Drive = wall.NoClock, plan.Unknown })
	file, _ := write(t, p, Choice{All: true, Alarm: 30}, "")
	drive := one(t, file, "Drive to the hospital")
	require.Equal(t, "DATE:20270309", line(drive, "DTSTART"))
	require.Equal(t, "DATE:20270310", line(drive, "DTEND"))
	require.Contains(t, line(drive, "DESCRIPTION"), "The time follows once the hospital has confirmed the arrival.")
	require.Empty(t, drive.Children)
	visit := one(t, file, "Ride to a visit") // its drive is not known: the appointment alone
	require.Equal(t, "America/New_York:20270323T141500", line(visit, "DTSTART"))
	require.Equal(t, "America/New_York:20270323T144500", line(visit, "DTEND"))
	require.Equal(t, "Nobody yet: 14:15 Ride to a visit", line(visit, "SUMMARY"))
}

func TestAllDayEventsEndOnTheDayAfter(t *testing.T) {
	// Source: RFC 5545 3.6.1: 28 June to 8 July 2007 is DTSTART 20070628, DTEND 20070709.
	w := &writer{loc: load(t, "America/New_York"), plan: &plan.Plan{}}
	e := w.allDay("x", day(t, "2007-06-28"), day(t, "2007-07-08"))
	require.Equal(t, "20070628 20070709", e.start.text()+" "+e.end.text())
	require.Equal(t, "DATE", e.end.prop("DTEND", "").Params.Get("VALUE"))
	file, _ := write(t, family(t), everything(), "")
	ill := one(t, file, "Cold, fever") // kept up from 14 days before to the day of surgery
	require.Equal(t, "DATE:20270223 DATE:20270310", line(ill, "DTSTART")+" "+line(ill, "DTEND"))
}

func TestStepsAreInTheFileWhereAskedFor(t *testing.T) {
	without, _ := write(t, family(t), Choice{All: true, Alarm: 30}, "")
	require.Empty(t, events(t, without, "Set up the home"))
	file, _ := write(t, family(t), everything(), "")
	home := one(t, file, "Set up the home")
	require.Greater(t, strings.Count(line(home, "DESCRIPTION"), `\n- `), 8)
	stop := one(t, file, "Stop eating")
	require.Equal(t, "America/New_York:20270308T230000", line(stop, "DTSTART"))
	require.Empty(t, line(stop, "DTEND"))
	require.Len(t, stop.Children, 1)
}

func TestTheWordForNobodyAndForAll(t *testing.T) {
	all, _ := write(t, family(t), Choice{All: true, Alarm: -1}, "")
	require.Len(t, events(t, all, "Dana: 05:30 Drive to the hospital"), 1)
	dana, _ := write(t, family(t), Choice{Who: 1, Alarm: -1}, "")
	require.Empty(t, events(t, dana, "Dana"))
	require.Empty(t, events(t, dana, "Wait at the hospital"))
	alone, _ := write(t, family(t), Choice{Duty: "wait", Alarm: -1}, "")
	require.Len(t, parse(t, alone).Children, 2)
}

func TestNothingToWriteIsNoFile(t *testing.T) {
	p := family(t)
	p.Helpers = append(p.Helpers, "Kim")
	file, memory := write(t, p, Choice{Who: 3, Alarm: 30}, "")
	require.Empty(t, file)
	require.Empty(t, memory)
}

func TestTheSameInputGivesTheSameBytes(t *testing.T) {
	file, memory := write(t, family(t), everything(), "")
	again, memoryAgain := write(t, family(t), everything(), memory)
	require.Equal(t, file, again)
	require.Equal(t, memory, memoryAgain)
}
