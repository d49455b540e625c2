package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
)

func read(t testing.TB, text string) Found {
	t.Helper()
	p := family(t)
	found, err := Read(text, &p, load(t, p.Zone))
	require.NoError(t, err)
	for _, l := range found.Left {
		require.NotContains(t, Why(guide.Voice{Book: guide.Open("en")}, l), "import.", "no sentence for %s", l.Why)
	}
	return found
}

// dates writes the dates of the only duty that was found.
func dates(t testing.TB, f Found) string {
	t.Helper()
	require.Len(t, f.Duties, 1, "%+v", f.Left)
	require.NoError(t, f.Duties[0].Rule.Check())
	all, _ := f.Duties[0].Rule.All()
	var text []string
	for _, o := range all {
		text = append(text, o.Day.String()[5:]+" "+o.At.String())
	}
	return strings.Join(text, ", ")
}

func why(f Found) string {
	var text []string
	for _, l := range f.Left {
		text = append(text, strings.TrimSpace(l.Why+" "+l.Value))
	}
	return strings.Join(text, ", ")
}

func TestAClinicsEventBecomesARide(t *testing.T) {
	found := read(t, visit("DTSTART;TZID=America/New_York:20270323T141500", "DTEND;TZID=America/New_York:20270323T144500",
		`LOCATION:Alder Ferry Hospital\, second floor\nroom 12`, "DESCRIPTION:Bring the papers"))
	require.Equal(t, plan.Duty{
		Kind: plan.VisitRide, Title: "Check of the wound", Place: "Alder Ferry Hospital, second floor room 12", Note: "Bring the papers", Length: 30,
		Source: source(&group{uid: "visit-1@desk.example"}),
		Rule:   rule(t, "2027-03-23 14:15", ""), Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown},
	}, found.Duties[0])
	require.Empty(t, found.Left)
}

// Times in every form of RFC 5545 3.3.5, and zones by their names.
func TestTimesOfAllForms(t *testing.T) {
	for _, c := range []struct{ lines, want string }{
		{"DTSTART:20270323T181500Z|DURATION:PT30M", "03-23 14:15"},
		{"DTSTART:20270323T141500|DURATION:PT1H", "03-23 14:15"}, // floating: the plan's wall
		{"DTSTART;TZID=Europe/Berlin:20270323T191500|DTEND;TZID=Europe/Berlin:20270323T200000", "03-23 14:15"},
		{"DTSTART;TZID=/desk.example/2027/America/Chicago:20270323T131500|DURATION:PT1H", "03-23 14:15"},
		{`DTSTART;TZID="America/New_York":20270323T141500|DURATION:PT1H`, "03-23 14:15"},
		{"DTSTART;TZID=US/Eastern:20270301T141500|DURATION:PT1H|RRULE:FREQ=WEEKLY;COUNT=4", "03-01 14:15, 03-08 14:15, 03-15 14:15, 03-22 14:15"},
		// RFC 5545 3.3.5: a time that the clocks skip, and the first of one that comes twice.
		{"DTSTART;TZID=America/New_York:20270314T023000|DURATION:PT1H", "03-14 02:30"},
		{"DTSTART;TZID=America/New_York:20270314T023000|DURATION:PT1H|RRULE:FREQ=DAILY;COUNT=2", "03-14 02:30, 03-15 02:30"},
		{"DTSTART:20270314T073000Z|DURATION:PT1H", "03-14 03:30"},
		{"DTSTART:20271107T053000Z|DURATION:PT1H", "11-07 01:30"},
	} {
		found := read(t, visit(strings.Split(c.lines, "|")...))
		require.Equal(t, c.want, dates(t, found), c.lines)
		require.Empty(t, found.Left, c.lines)
	}
}

func TestRulesWithTheirExceptions(t *testing.T) {
	const weekly = "DTSTART;TZID=America/New_York:20270301T103000|DURATION:PT45M|RRULE:FREQ=WEEKLY;BYDAY=MO,WE;COUNT=5|"
	for _, c := range []struct{ lines, want, why string }{
		{weekly, "03-01 10:30, 03-03 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""},
		{weekly + "EXDATE;TZID=America/New_York:20270303T103000,20270315T103000", "03-01 10:30, 03-08 10:30, 03-10 10:30", ""},
		{weekly + "EXDATE:20270315T143000Z", "03-01 10:30, 03-03 10:30, 03-08 10:30, 03-10 10:30", ""},
		{weekly + "EXDATE;VALUE=DATE:20270303", "03-01 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""},
		{weekly + "EXDATE:20270304T103000", "03-01 10:30, 03-03 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", "skip-unmatched 2027-03-04"},
		{weekly + "RDATE:20270304T090000,20270301T103000", "03-01 10:30, 03-03 10:30, 03-04 09:00, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""},
		{weekly + "RDATE;VALUE=PERIOD:20270304T140000Z/PT1H", "03-01 10:30, 03-03 10:30, 03-04 09:00, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""},
		{weekly + "RDATE;VALUE=DATE:20270304", "03-01 10:30, 03-03 10:30, 03-04 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""},
		{weekly + "RDATE:20270304T090000|EXDATE:20270304T090000", "03-01 10:30, 03-03 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", ""}, // RFC 5545 3.8.5.1
		{weekly + "EXDATE:nonsense", "03-01 10:30, 03-03 10:30, 03-08 10:30, 03-10 10:30, 03-15 10:30", "bad-date nonsense"},
		{"DTSTART:20270302T103000|DURATION:PT1H|RRULE:FREQ=WEEKLY;BYDAY=MO;COUNT=2", "03-08 10:30, 03-15 10:30", "off-pattern 2027-03-02"},
		{"DTSTART:20270302T103000|DURATION:PT1H|EXDATE:20270302T103000|RRULE:FREQ=WEEKLY;BYDAY=MO;COUNT=2", "03-08 10:30, 03-15 10:30", ""},
		{"DTSTART:20270302T103000|DURATION:PT1H|RDATE:20270305T110000", "03-02 10:30, 03-05 11:00", ""},
		{"DTSTART:20270302T103000|RRULE:FREQ=DAILY;COUNT=2", "03-02 10:30, 03-03 10:30", "no-length"},
		{"DTSTART:20270302T103000|DTEND:20270302T100000", "03-02 10:30", "no-length"},
		// In other zones: where the clocks change on the same days, and where they do not.
		{"DTSTART;TZID=America/Chicago:20270308T233000|DURATION:PT1H|RRULE:FREQ=WEEKLY;COUNT=2", "03-09 00:30, 03-16 00:30", ""},
		{"DTSTART;TZID=Europe/Berlin:20270401T153000|DURATION:PT1H|RRULE:FREQ=DAILY;COUNT=2|EXDATE;TZID=Europe/Berlin:20270402T153000", "04-01 09:30", ""},
		{"DTSTART:20270315T143000Z|DURATION:PT1H|RRULE:FREQ=DAILY;UNTIL=20270317T143000Z", "03-15 10:30, 03-16 10:30, 03-17 10:30", ""},
	} {
		found := read(t, visit(strings.Split(strings.Trim(c.lines, "|"), "|")...))
		require.Equal(t, c.want, dates(t, found), c.lines)
		require.Equal(t, c.why, why(found), c.lines)
	}
}

func TestWhatCannotBeTakenOverIsListed(t *testing.T) {
	for lines, want := range map[string]string{
		"DTSTART;VALUE=DATE:20270323":                   "all-day 2027-03-23",
		"DURATION:PT1H":                                 "no-start",
		"DTSTART:20270230T100000":                       "no-start 20270230T100000",
		"DTSTART:19700101T100000":                       "bad-date 1970-01-01",
		"DTSTART;TZID=Nowhere/Mill:20270323T100000":     "zone Nowhere/Mill",
		"DTSTART:20270323T100000|DTEND:20270325T100000": "long 2027-03-23",
		"DTSTART:20270323T100000|RRULE:FREQ=DAILY;COUNT=2|RRULE:FREQ=WEEKLY;COUNT=2":                                        "several-rules",
		"DTSTART:20270323T100000|RRULE:FREQ=DAILY;COUNT=9|EXRULE:FREQ=WEEKLY":                                               "ex-rule",
		"DTSTART:20270323T100000|RRULE:FREQ=HOURLY;COUNT=9":                                                                 "too-often FREQ=HOURLY",
		"DTSTART:20270323T100000|RRULE:FREQ=YEARLY;BYWEEKNO=20":                                                             "not-yearly BYWEEKNO=20",
		"DTSTART:20270323T100000|RRULE:nonsense":                                                                            "not-a-rule NONSENSE",
		"DTSTART:20270323T100000|STATUS:CANCELLED":                                                                          "cancelled",
		"DTSTART:20270310T150000Z|DURATION:PT1H|RRULE:FREQ=DAILY;COUNT=9":                                                   "other-zone UTC", // over 14 March
		"DTSTART;TZID=Europe/Berlin:20270310T150000|DURATION:PT1H|RRULE:FREQ=WEEKLY;COUNT=2":                                "other-zone Europe/Berlin",
		"DTSTART;TZID=America/Chicago:20270331T233000|DURATION:PT1H|RRULE:FREQ=MONTHLY;COUNT=3":                             "over-midnight",
		"DTSTART:20271107T063000Z|DURATION:PT1H":                                                                            "second-hour 2027-11-07",
		"DTSTART:20270323T100000|DURATION:PT1H|RECURRENCE-ID:20270323T090000":                                               "part-of-series",
		"DTSTART:20270323T100000|DURATION:PT1H|RRULE:FREQ=DAILY;COUNT=1|EXDATE:20270323T100000":                             "no-dates",
		"DTSTART:20270323T100000|DURATION:PT1H|RDATE:20270324T100000" + strings.Repeat(",20270324T100000", repeat.MaxCount): "list",
		"DTSTART:20270323T100000|DURATION:PT1H|RRULE:FREQ=DAILY;UNTIL=20270101T000000Z":                                     "last UNTIL=20270101T000000Z",
	} {
		found := read(t, visit(strings.Split(lines, "|")...))
		require.Empty(t, found.Duties, lines)
		require.Equal(t, want, why(found), lines)
		require.Equal(t, "Check of the wound", found.Left[0].What)
	}
	other := read(t, "BEGIN:VCALENDAR\nBEGIN:VTODO\nSUMMARY:Call\nEND:VTODO\nBEGIN:VJOURNAL\nEND:VJOURNAL\nBEGIN:VFREEBUSY\nEND:VFREEBUSY\nBEGIN:X-MILL\nEND:X-MILL\nEND:VCALENDAR")
	require.Equal(t, "todo, journal, free-busy, other", why(other))
	require.Equal(t, "Call", other.Left[0].What)
	require.Equal(t, "An entry without a name", What(guide.Voice{Book: guide.Open("en")}, other.Left[1]))
}

// series is a clinic's weekly series with other events of the same UID after it.
func series(more ...string) string {
	text := visit("SEQUENCE:1", "DTSTART;TZID=America/New_York:20270301T103000", "DURATION:PT45M", "RRULE:FREQ=WEEKLY;COUNT=4")
	for _, m := range more {
		one := visit(strings.Split(m, "|")...)
		_, one, _ = strings.Cut(one, "BEGIN:VEVENT")
		text = strings.Replace(text, "END:VCALENDAR\r\n", "BEGIN:VEVENT"+one, 1)
	}
	return text
}

func TestMovedDates(t *testing.T) {
	const of = "RECURRENCE-ID;TZID=America/New_York:20270308T103000|"
	for more, want := range map[string]string{
		of + "DTSTART:20270309T150000|DURATION:PT45M":                              "03-01 10:30, 03-09 15:00, 03-15 10:30, 03-22 10:30",
		"RECURRENCE-ID:20270308T153000Z|DTSTART:20270309T150000|DURATION:PT45M":    "03-01 10:30, 03-09 15:00, 03-15 10:30, 03-22 10:30",
		"RECURRENCE-ID;VALUE=DATE:20270308|DTSTART:20270309T150000|DURATION:PT45M": "03-01 10:30, 03-09 15:00, 03-15 10:30, 03-22 10:30",
		of + "STATUS:CANCELLED": "03-01 10:30, 03-15 10:30, 03-22 10:30",
		of + "DTSTART:20270308T103000|DURATION:PT45M|LOCATION:elsewhere":                                  "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30; other-words 2027-03-08",
		of + "DTSTART:20270309T150000|DURATION:PT1H":                                                      "03-01 10:30, 03-09 15:00, 03-15 10:30, 03-22 10:30; other-length 2027-03-08",
		of + "DTSTART;VALUE=DATE:20270309":                                                                "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30; move-all-day 2027-03-08",
		"RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=America/New_York:20270308T103000|DTSTART:20270309T150000": "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30; range 2027-03-08",
		"RECURRENCE-ID:20270309T103000|DTSTART:20270309T150000":                                           "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30; move-unmatched 2027-03-09",
	} {
		found := read(t, series(more))
		got := dates(t, found)
		if len(found.Left) > 0 {
			got += "; " + why(found)
		}
		require.Equal(t, want, got, more)
	}
}

// RFC 5546 2.1.5: the higher SEQUENCE is the newer version, then the later DTSTAMP.
func TestTheNewerVersionCounts(t *testing.T) {
	for more, want := range map[string]string{
		"SEQUENCE:2|DTSTART:20270302T110000|DURATION:PT1H": "03-02 11:00",
		"SEQUENCE:0|DTSTART:20270302T110000|DURATION:PT1H": "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30",
		"SEQUENCE:1|DTSTART:20270302T110000|DURATION:PT1H": "03-02 11:00", // as new, and later in the file
	} {
		require.Equal(t, want, dates(t, read(t, series(more))), more)
	}
	older := strings.Replace(series("SEQUENCE:1|DTSTART:20270302T110000|DURATION:PT1H"), "DTSTAMP:20270220", "DTSTAMP:20270221", 1)
	require.Equal(t, "03-01 10:30, 03-08 10:30, 03-15 10:30, 03-22 10:30", dates(t, read(t, older)))
	cancel := strings.Replace(series(), "VERSION:2.0", "VERSION:2.0\r\nMETHOD:CANCEL", 1)
	require.Equal(t, "cancelled", why(read(t, cancel)))
}

func TestTheFormOfAFile(t *testing.T) {
	p := family(t)
	text := visit("DTSTART:20270323T141500", "DURATION:PT30M")
	folded := strings.ReplaceAll(text, "SUMMARY:Check", "SUMMARY:Ch\r\n eck")
	for _, same := range []string{
		text, folded, "\ufeff" + text, strings.ReplaceAll(text, "\r\n", "\n"), strings.ReplaceAll(text, "\r\n", "\r"), "\r\n" + text + "\r\n\r\n",
		strings.ReplaceAll(text, "BEGIN:V", "begin:v"), strings.Replace(text, "UID:", "X-A;B=c\r\nX-A\r\n:x\r\nX-ALT-DESC;FMTTYPE=text/html:<b>,;\r\nUID:", 1),
		text + text, // two calendars in one file, of the same event
	} {
		require.Equal(t, "03-23 14:15", dates(t, read(t, same)), same)
	}
	for text, code := range map[string]string{
		"": NotCalendar, "hello": NotCalendar, "BEGIN:VCALENDAR": NotCalendar, "BEGIN:VEVENT\nEND:VEVENT": NotCalendar,
		text[:len(text)-20]: NotCalendar, strings.Repeat("x", MaxBytes+1): TooBig,
		"BEGIN:VCALENDAR\n" + strings.Repeat("BEGIN:VTODO\nEND:VTODO\n", MaxEvents+1) + "END:VCALENDAR": TooMany,
		"END:VCALENDAR": NotCalendar,
	} {
		_, err := Read(text, &p, load(t, p.Zone))
		require.Equal(t, Fault{code}, err)
		require.NotContains(t, WhyNot(guide.Voice{Book: guide.Open("en")}, err), "import.")
		require.Contains(t, err.Error(), code)
	}
}

func TestTextsAreCleanedAndCut(t *testing.T) {
	long := strings.Repeat("wide ", 60)
	found := read(t, visit("DTSTART:20270323T141500", "DURATION:PT30M", "LOCATION:"+long+"\\n\x1b\u202e", "SUMMARY;LANGUAGE=en:"+long))
	d := found.Duties[0]
	require.LessOrEqual(t, len([]rune(d.Title)), plan.MaxName)
	require.LessOrEqual(t, len([]rune(d.Place)), plan.MaxText)
	require.Equal(t, plan.Clean(d.Place), d.Place)
	require.True(t, strings.HasSuffix(d.Place, "…"))
}
