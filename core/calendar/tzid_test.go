package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// odd is how systems with zones of their own describe one; the years are common there.
const odd = "BEGIN:VTIMEZONE\r\nTZID:Mill Time\r\nBEGIN:STANDARD\r\nDTSTART:16010101T020000\r\nTZOFFSETFROM:-0400\r\nTZOFFSETTO:-0500\r\n" +
	"RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=1SU;BYMONTH=11\r\nEND:STANDARD\r\nBEGIN:DAYLIGHT\r\nDTSTART:16010101T020000\r\nTZOFFSETFROM:-0500\r\n" +
	"TZOFFSETTO:-0400\r\nRRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=2SU;BYMONTH=3\r\nEND:DAYLIGHT\r\nEND:VTIMEZONE\r\n"

func TestAZoneThatOnlyItsMakerKnows(t *testing.T) {
	event := func(zone string, lines ...string) string {
		return strings.Replace(visit(lines...), "BEGIN:VEVENT", zone+"BEGIN:VEVENT", 1)
	}
	daily := []string{"DTSTART;TZID=Mill Time:20270312T103000", "DURATION:PT1H", "RRULE:FREQ=DAILY;COUNT=4"}
	require.Equal(t, "03-12 10:30, 03-13 10:30, 03-14 10:30, 03-15 10:30", dates(t, read(t, event(odd, daily...))))
	for name, zone := range map[string]string{
		"an hour off":             strings.NewReplacer("-0500", "-0600", "-0400", "-0500").Replace(odd),
		"another day of change":   strings.Replace(odd, "2SU", "3SU", 1),
		"no daylight time":        strings.Replace(odd, "TZOFFSETTO:-0400", "TZOFFSETTO:-0500", 1),
		"a rule we do not read":   strings.Replace(odd, "FREQ=YEARLY;INTERVAL=1;BYDAY=2SU;BYMONTH=3", "FREQ=DAILY", 1),
		"two rules":               strings.Replace(odd, "END:DAYLIGHT", "RRULE:FREQ=YEARLY\r\nEND:DAYLIGHT", 1),
		"an unreadable offset":    strings.Replace(odd, "TZOFFSETTO:-0500", "TZOFFSETTO:-5", 1),
		"nothing":                 "BEGIN:VTIMEZONE\r\nTZID:Mill Time\r\nEND:VTIMEZONE\r\n",
		"more than anybody needs": strings.Replace(odd, "END:VTIMEZONE", strings.Repeat("BEGIN:STANDARD\r\nEND:STANDARD\r\n", maxObservances)+"END:VTIMEZONE", 1),
	} {
		found := read(t, event(zone, daily...))
		require.Equal(t, "zone-differs Mill Time", why(found), name)
	}
	for _, rule := range []string{
		"BYMONTH=3;BYMONTHDAY=8,9,10,11,12,13,14;BYDAY=SU", "BYMONTH=3;BYDAY=2SU;UNTIL=20300101T000000Z", "BYMONTH=3;BYDAY=-3SU",
	} {
		zone := strings.Replace(odd, "INTERVAL=1;BYDAY=2SU;BYMONTH=3", rule, 1)
		require.Empty(t, why(read(t, event(zone, daily...))), rule)
	}
	dated := strings.Replace(odd, "RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=2SU;BYMONTH=3", "RDATE:20260308T020000,20270314T020000", 1)
	require.Empty(t, why(read(t, event(dated, daily...))))
}
