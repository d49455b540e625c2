package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// An own line with a day is on that day, by itself or among the others of its list, under its
// own words; one without a day is in no calendar, and neither is what limits movements.
func TestOwnLinesInACalendar(t *testing.T) {
	lines := func(p *plan.Plan) {
		p.Lines = []plan.Line{
			{ID: 1, List: plan.Ready, Day: -3, Text: "Ask Mr. Ode, next door; mail"},
			{ID: 2, List: plan.Ready, Day: plan.NoDay, Text: "Some day"},
			{ID: 3, List: plan.Packing, Day: -1, Text: "Reading lamp"},
			{ID: 4, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel"},
		}
	}
	file, memory := write(t, family(t, lines), everything(), "")
	event := one(t, file, "Ask Mr. Ode")
	require.Equal(t, "Ask Mr. Ode\\, next door\\; mail", line(event, "SUMMARY"), "escaped as RFC 5545 3.3.11 has it")
	require.Equal(t, "20270306", event.Props.Get("DTSTART").Value)
	require.NotContains(t, file, "Some day")
	require.NotContains(t, file, "Do not kneel")
	require.Contains(t, strings.Join(unfold(file), "\n"), "Reading lamp")

	id, sequence := line(event, "UID"), line(event, "SEQUENCE")
	file, _ = write(t, family(t, lines, func(p *plan.Plan) { p.Lines[0].Text = "Ask Ms. Ode" }), everything(), memory)
	event = one(t, file, "Ask Ms. Ode")
	require.Equal(t, id, line(event, "UID"), "another text is the same entry")
	require.Equal(t, sequence, line(event, "SEQUENCE"), "RFC 5546 2.1.4: words need no new one")
	file, _ = write(t, family(t, lines, func(p *plan.Plan) { p.Lines[0].Day = plan.NoDay }), everything(), memory)
	require.Contains(t, file, "CANCELLED", "it has no day any more")
	require.Contains(t, strings.Join(unfold(file), "\n"), "Ask Mr. Ode", "and says what it was")
}
