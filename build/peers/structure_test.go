package peers

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
)

// The form of the files by RFC 5545, read line by line and not by any library.

// line is an unfolded content line.
type line struct{ name, parameters, value string }

// component is what stands between BEGIN and END.
type component struct {
	name  string
	lines []line
	inner []*component
}

func (c *component) all(name string) (found []line) {
	for _, l := range c.lines {
		if l.name == name {
			found = append(found, l)
		}
	}
	return found
}

// only is a property that must be there once.
func (c *component) theOne(t *testing.T, name string) line {
	t.Helper()
	found := c.all(name)
	require.Len(t, found, 1, "%s in %s: %v", name, c.name, c.lines)
	return found[0]
}

func (c *component) within(name string) (found []*component) {
	for _, inner := range c.inner {
		if inner.name == name {
			found = append(found, inner)
		}
	}
	return found
}

// 3.1: lines end with CRLF, hold no other control character, are at most 75 octets
// long, and are folded between characters. A tab is the one control that text may hold.
func unfolded(t *testing.T, file string) []string {
	t.Helper()
	require.True(t, strings.HasSuffix(file, "\r\n"))
	physical := strings.Split(strings.TrimSuffix(file, "\r\n"), "\r\n")
	for _, l := range physical {
		require.LessOrEqual(t, len(l), 75, l)
		require.True(t, utf8.ValidString(l), "%q is cut inside a character", l)
		require.Equal(t, -1, strings.IndexFunc(l, func(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f }), "%q", l)
	}
	return strings.Split(strings.ReplaceAll(strings.TrimSuffix(file, "\r\n"), "\r\n ", ""), "\r\n")
}

// contentLine is 3.1's name *(";" param) ":" value; a quoted parameter may hold colons.
var contentLine = regexp.MustCompile(`^([A-Z0-9-]+)((?:;[A-Z0-9-]+=(?:"[^"]*"|[^";:,]*)(?:,(?:"[^"]*"|[^";:,]*))*)*):(.*)$`)

func parsed(t *testing.T, file string) *component {
	t.Helper()
	stack := []*component{{}}
	for _, text := range unfolded(t, file) {
		m := contentLine.FindStringSubmatch(text)
		require.NotNil(t, m, "%q is no content line", text)
		top := stack[len(stack)-1]
		switch m[1] {
		case "BEGIN":
			c := &component{name: m[3]}
			top.inner = append(top.inner, c)
			stack = append(stack, c)
		case "END":
			require.Equal(t, top.name, m[3])
			stack = stack[:len(stack)-1]
		default:
			top.lines = append(top.lines, line{m[1], m[2], m[3]})
		}
	}
	require.Len(t, stack, 1)
	require.Len(t, stack[0].inner, 1, "one calendar")
	return stack[0].inner[0]
}

func TestACalendarHasTheFormOfRFC5545(t *testing.T) {
	for where := range families {
		p := family(t, where)
		for _, c := range []calendar.Choice{everybody(), {All: true, Alarm: -1, Steps: true}, {Who: 2, Alarm: 0}, {Duty: "f1", Alarm: 1440}} {
			file, memory := export(t, p, c, 0, "")
			checkForm(t, parsed(t, file))
			require.Regexp(t, `^[0-9a-fTZ \n-]+$`, memory, "what the device remembers names nobody")
		}
	}
}

// checkForm checks 3.6: what a calendar, a zone, an event and an alarm must have.
func checkForm(t *testing.T, cal *component) {
	require.Equal(t, "VCALENDAR", cal.name)
	cal.theOne(t, "PRODID")
	require.Equal(t, "2.0", cal.theOne(t, "VERSION").value)
	require.Empty(t, cal.all("METHOD"), "with one, RFC 5546 3.2.1 wants an ORGANIZER")
	require.NotEmpty(t, cal.within("VEVENT"))
	zones := []string{}
	for _, z := range cal.within("VTIMEZONE") {
		zones = append(zones, z.theOne(t, "TZID").value)
		require.NotEmpty(t, z.inner)
		for _, o := range z.inner {
			require.Contains(t, []string{"STANDARD", "DAYLIGHT"}, o.name)
			require.Regexp(t, `^\d{8}T\d{6}$`, o.theOne(t, "DTSTART").value, "3.6.5: on the wall")
			require.Regexp(t, `^[+-]\d{4}$`, o.theOne(t, "TZOFFSETFROM").value)
			require.Regexp(t, `^[+-]\d{4}$`, o.theOne(t, "TZOFFSETTO").value)
		}
	}
	require.Equal(t, slices.Compact(slices.Sorted(slices.Values(zones))), zones, "one for each zone")
	for _, e := range cal.within("VEVENT") {
		checkEvent(t, e, zones)
	}
}

var (
	utcTime   = regexp.MustCompile(`^\d{8}T\d{6}Z$`)
	localTime = regexp.MustCompile(`^\d{8}T\d{6}$`)
	wholeDay  = regexp.MustCompile(`^\d{8}$`)
	uuid      = regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`)
	until     = regexp.MustCompile(`UNTIL=([^;]*)`)
)

func checkEvent(t *testing.T, e *component, zones []string) {
	require.Regexp(t, uuid, e.theOne(t, "UID").value, "RFC 7986 5.3: it says nothing of anybody")
	require.Regexp(t, utcTime, e.theOne(t, "DTSTAMP").value, "3.8.7.2")
	require.Regexp(t, `^\d+$`, e.theOne(t, "SEQUENCE").value)
	require.Contains(t, []string{"CONFIRMED", "CANCELLED"}, e.theOne(t, "STATUS").value)
	e.theOne(t, "SUMMARY")
	require.Empty(t, e.all("DURATION"))
	kind := checkTime(t, e.theOne(t, "DTSTART"), zones)
	if len(e.all("DTEND")) > 0 {
		end := checkTime(t, e.theOne(t, "DTEND"), zones)
		require.Equal(t, kind == "day", end == "day", "3.8.2.2: of DTSTART's type")
	}
	for _, name := range []string{"EXDATE", "RDATE", "RECURRENCE-ID"} {
		for _, l := range e.all(name) {
			require.Equal(t, kind == "day", checkTime(t, l, zones) == "day", "%s: of DTSTART's type", name)
			require.NotContains(t, l.value, ",", "one value a line, which all programs read")
		}
	}
	if rules := e.all("RRULE"); len(rules) > 0 {
		require.Len(t, rules, 1, "3.8.5.3: SHOULD NOT be there twice")
		require.True(t, strings.HasPrefix(rules[0].value, "FREQ="), "3.3.10: first, for old programs")
		require.Empty(t, e.all("RECURRENCE-ID"))
		if m := until.FindStringSubmatch(rules[0].value); m != nil {
			require.Regexp(t, utcTime, m[1], "3.3.10: in UTC beside a DTSTART with a zone")
			require.NotContains(t, rules[0].value, "COUNT")
		}
	}
	for _, a := range e.inner {
		require.Equal(t, "VALARM", a.name)
		require.Equal(t, "DISPLAY", a.theOne(t, "ACTION").value)
		require.Regexp(t, `^(-PT\d+M|PT0M)$`, a.theOne(t, "TRIGGER").value)
		a.theOne(t, "DESCRIPTION")
	}
}

// checkTime checks a time's value and its zone (3.2.19): utc, local or day.
func checkTime(t *testing.T, l line, zones []string) string {
	switch {
	case wholeDay.MatchString(l.value):
		require.Equal(t, ";VALUE=DATE", l.parameters, l)
		return "day"
	case utcTime.MatchString(l.value):
		require.Empty(t, l.parameters, l)
		return "utc"
	}
	require.Regexp(t, localTime, l.value, l)
	name, ok := strings.CutPrefix(l.parameters, ";TZID=")
	require.True(t, ok, l)
	require.Contains(t, zones, strings.Trim(name, `"`), "3.6.5: a VTIMEZONE for every TZID")
	return "local"
}

// The words arrive as they were typed: escaped by 3.3.11, folded, and read by two others.
func TestTheWordsOfACalendarArrive(t *testing.T) {
	p := family(t, "America/Chicago")
	file, _ := export(t, p, calendar.Choice{All: true, Alarm: 45, Steps: true}, 0, "")
	words := func(name string) map[string]int {
		events, _, err := start(t, name).Calendar(file)
		require.NoError(t, err)
		found := map[string]int{}
		for _, e := range events {
			found[e.Summary+"\n--\n"+e.Description+"\n--\n"+e.Location]++
		}
		return found
	}
	js, c := words(IcalJS), words(Libical)
	for text := range js {
		require.Contains(t, c, text)
	}
	require.Len(t, c, len(js))
	for _, d := range p.Duties {
		for _, typed := range []string{d.Title, d.Place, d.Note} {
			require.True(t, slices.ContainsFunc(slices.Collect(maps.Keys(js)), func(text string) bool { return strings.Contains(text, typed) }), typed)
		}
	}
}
