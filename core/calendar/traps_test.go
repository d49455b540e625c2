package calendar

import (
	"bytes"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
)

// Each test shows first that go-ical does what it is feared to do, and then that it is
// out of reach.

func encode(props ...*ical.Prop) (string, error) {
	cal, e := ical.NewCalendar(), ical.NewEvent()
	cal.Props.SetText("PRODID", "x")
	cal.Props.SetText("VERSION", "2.0")
	e.Props.SetText("UID", "x")
	e.Props.SetDateTime("DTSTAMP", now)
	for _, p := range props {
		e.Props.Add(p)
	}
	cal.Children = append(cal.Children, e.Component)
	var b bytes.Buffer
	err := ical.NewEncoder(&b).Encode(cal)
	return b.String(), err
}

// breaksOut is text that would break out of its place in a file.
const breaksOut = "Mill\r\nEND:VEVENT\rX-EVIL:1\nSUMMARY;X=\"a\":b\x00\x1b[2J\u202eend\xff,;\\n"

func hostilePlan(t *testing.T) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.Patient, p.Helpers = breaksOut, []string{breaksOut, breaksOut + "2"}
		p.Program.Hospital, p.Program.Address, p.Program.Phone = breaksOut, breaksOut, breaksOut
		for i := range p.Duties {
			p.Duties[i].Title, p.Duties[i].Place, p.Duties[i].Note = breaksOut, breaksOut, breaksOut
		}
	})
}

func TestTrapNoFolding(t *testing.T) {
	long := ical.NewProp("SUMMARY")
	long.SetText(strings.Repeat("x", 200))
	plain, err := encode(long)
	require.NoError(t, err)
	require.Contains(t, plain, strings.Repeat("x", 200))
	file, _ := write(t, hostilePlan(t), everything(), "")
	for part := range strings.SplitSeq(file, "\r\n") {
		require.LessOrEqual(t, len(part), 75)
	}
}

func TestTrapNoTimezone(t *testing.T) {
	p := ical.NewProp("DTSTART")
	p.SetDateTime(now.In(load(t, "America/New_York")))
	plain, err := encode(p)
	require.NoError(t, err)
	require.NotContains(t, plain, "VTIMEZONE")
	for _, zone := range changing {
		file, _ := write(t, family(t, func(p *plan.Plan) { p.Zone = zone }), everything(), "")
		described := map[string]bool{}
		for _, c := range parse(t, file).Children {
			if c.Name == "VTIMEZONE" {
				described[c.Props.Get("TZID").Value] = true
			}
			for _, props := range c.Props {
				for _, p := range props {
					if id := p.Params.Get("TZID"); id != "" {
						require.True(t, described[id], "%s before it is described", id)
					}
				}
			}
		}
		require.Equal(t, map[string]bool{zone: true}, described)
	}
}

func TestTrapLineEndsInTexts(t *testing.T) {
	cr := ical.NewProp("SUMMARY")
	cr.SetText("a\rb")
	_, err := encode(cr)
	require.Error(t, err)
	param := ical.NewProp("SUMMARY")
	param.Params.Set("X-A", "a\r\nX-EVIL:1")
	plain, err := encode(param)
	require.NoError(t, err)
	require.Contains(t, plain, "\r\nX-EVIL:1")

	file, _ := write(t, hostilePlan(t), everything(), "")
	names := map[string]bool{}
	for _, line := range unfold(file) {
		name, _, _ := strings.Cut(line, ":")
		name, params, _ := strings.Cut(name, ";")
		names[name] = true
		require.Contains(t, []string{"", "TZID=America/New_York", "VALUE=DATE"}, params)
		for _, r := range line {
			require.True(t, r >= ' ' && r != 0x7f && r != 0x202e && r != 0xfffd, "%q", line)
		}
	}
	require.NotContains(t, names, "X-EVIL")
	require.Len(t, names, 27, "%v", names)
}

func TestTrapLists(t *testing.T) {
	list := "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTART:20270301T100000Z\r\nRRULE:FREQ=DAILY;COUNT=5\r\n" +
		"EXDATE:20270302T100000Z,20270303T100000Z\r\nDTEND:20270301T103000Z\r\nSUMMARY:a, b\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
	cal, err := ical.NewDecoder(strings.NewReader(list)).Decode()
	require.NoError(t, err)
	_, err = cal.Children[0].RecurrenceSet(time.UTC)
	require.Error(t, err)
	text, err := cal.Children[0].Props.Text("SUMMARY")
	require.NoError(t, err)
	require.Equal(t, "a", text)

	p := family(t)
	found, err := Read(list, &p, load(t, p.Zone))
	require.NoError(t, err)
	require.Empty(t, found.Left)
	require.Equal(t, "a, b", found.Duties[0].Title)
	require.Len(t, found.Duties[0].Rule.Skipped, 2)
	file, _ := write(t, family(t), everything(), "")
	for _, c := range parse(t, file).Children {
		for _, name := range []string{"EXDATE", "RDATE"} {
			for _, v := range c.Props[name] {
				require.NotContains(t, v.Value, ",")
				require.Equal(t, c.Props.Get("DTSTART").Params, v.Params)
			}
		}
	}
}

// UNTIL without Z is the wall's time here; go-ical's rrule-go takes it as UTC.
func TestTrapUntilOnTheWall(t *testing.T) {
	p := family(t)
	text := visit("DTSTART;TZID=America/New_York:20270301T220000", "DTEND;TZID=America/New_York:20270301T223000",
		"RRULE:FREQ=DAILY;UNTIL=20270303T220000")
	cal := parse(t, text)
	set, err := cal.Children[0].RecurrenceSet(nil)
	require.NoError(t, err)
	require.Len(t, set.All(), 2)
	found, err := Read(text, &p, load(t, p.Zone))
	require.NoError(t, err)
	dates, _ := found.Duties[0].Rule.All()
	require.Len(t, dates, 3)
}

func TestTrapPanicsAndSlowLines(t *testing.T) {
	for _, text := range []string{
		"BEGIN:VCALENDAR\r\nA;B=c\r\nEND:VCALENDAR\r\n", "A;B=c", `A;B="c"`, `A;B="c"d:e`, "BEGIN:VCALENDAR\r\nA;B=c,\r\nEND:VCALENDAR\r\n",
	} {
		require.Panics(t, func() { _, _ = ical.NewDecoder(strings.NewReader(text)).Decode() }, text)
		require.NotPanics(t, func() { _, _ = decode(text) })
		_, _, ok := wellFormed(unfold(text)[min(1, len(unfold(text))-1)])
		require.False(t, ok)
	}
	// A long parameter takes the square of its length; it is never handed on.
	_, _, ok := wellFormed("DTSTART;X=" + strings.Repeat("a", maxHead) + ":20270301T100000Z")
	require.False(t, ok)
	_, err := decode(strings.Repeat("BEGIN:X\r\n", 20000))
	require.Equal(t, Fault{NotCalendar}, err)
}

// Hostile rules never reach rrule-go: Read asks core/repeat, and go-ical's
// RecurrenceSet is not used.
func TestTrapHostileRules(t *testing.T) {
	p := family(t)
	for rule, why := range map[string]string{
		"FREQ=SECONDLY": repeat.TooOften, "FREQ=HOURLY;INTERVAL=2;BYHOUR=1": repeat.TooOften, "FREQ=DAILY;INTERVAL=1000000000": repeat.EveryFault,
		"FREQ=DAILY;COUNT=1000000000": repeat.CountFault, "FREQ=MONTHLY;BYDAY=-20MO": repeat.NotARule, "FREQ=YEARLY;BYEASTER=400": repeat.NotARule,
	} {
		found, err := Read(visit("DTSTART:20270301T220000", "RRULE:"+rule), &p, load(t, p.Zone))
		require.NoError(t, err)
		require.Empty(t, found.Duties)
		require.Equal(t, why, found.Left[0].Why, rule)
	}
}

// visit is a clinic's file with one event.
func visit(lines ...string) string {
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Alder Ferry//Desk//EN\r\nBEGIN:VEVENT\r\nUID:visit-1@desk.example\r\nDTSTAMP:20270220T080000Z\r\n" +
		"SUMMARY:Check of the wound\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
}
