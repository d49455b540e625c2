package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/desk"
	"newel/core/guide"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// What comes from outside is bounded here, before anything goes through it; every loop of the core over what a
// link, a form, a file or the device holds is one over something in this list. Each bound is shown by what is one too many. Deep
// calls are bounded by build/check/recursion.go, and the work of a split by assign.DefaultWork
// (core/assign/hostile_test.go).
func TestBounds(t *testing.T) {
	demo := DemoPlan(20_780, 0xabc)
	loc, err := zone.Load(demo.Zone)
	require.NoError(t, err)
	known := plan.BaseOf(1)
	voices := []guide.Voice{{Book: guide.Open("en")}}
	has := func(problems []plan.Problem, code string) bool {
		for _, p := range problems {
			if p.Code == code && !p.Ask {
				return true
			}
		}
		return false
	}
	check := func(change func(p *plan.Plan)) []plan.Problem {
		p := demo
		change(&p)
		return plan.Check(&p, p.Surgery)
	}
	for name, refused := range map[string]bool{
		"a request, app.RequestLimit": func() bool { _, err := ReadRequest(make([]byte, RequestLimit+8)); return err != nil }(),
		"a link, link.MaxLength":      func() bool { _, err := link.Decode(strings.Repeat("A", link.MaxLength+1)); return err != nil }(),
		"a pasted text, link.Trim":    len(link.Trim(strings.Repeat("A", 1<<20))) <= 2*link.MaxLength,
		"registers that no link holds": link.Encode(func() *merge.Doc {
			d := merge.New(demo)
			for n := range uint32(20_000) {
				d.Set(merge.Key{Field: merge.LineDone, Sub: n}, []merge.Version{{Stamp: merge.Stamp{Actor: merge.Maker, N: 1}, Value: "1"}})
			}
			return d
		}()) == "",
		"helpers, plan.MostHelpers": has(check(func(p *plan.Plan) { p.Helpers = make([]string, plan.MostHelpers+1) }), plan.HelpersMany),
		"duties, plan.MostDuties":   has(check(func(p *plan.Plan) { p.Duties = make([]plan.Duty, plan.MostDuties+1) }), plan.DutiesMany),
		"a name, plan.MaxName":      has(check(func(p *plan.Plan) { p.Patient = strings.Repeat("x", plan.MaxName+1) }), plan.TextLong),
		"lines, plan.MaxPerList": has(check(func(p *plan.Plan) {
			p.Lines = nil
			for id := range uint32(500) {
				p.Lines = append(p.Lines, plan.Line{ID: id + 1, List: plan.Limits, Day: plan.NoDay, Text: "x"})
			}
		}), plan.LinesMany),
		"a day, wall.LastDate":      func() bool { _, err := wall.ParseDate("9999-12-31"); return err != nil }(),
		"dates of a rule, MaxCount": repeat.Rule{First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Count: repeat.MaxCount + 1}.Check() != nil,
		"days of a rule, MaxSpan":   repeat.Rule{First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Last: 20_900 + repeat.MaxSpan + 1}.Check() != nil,
		"exceptions, MaxList":       repeat.Rule{First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Count: 200, Skipped: daysFrom(20_900, repeat.MaxList+1)}.Check() != nil,
		"a rule's text": func() bool {
			_, err := repeat.Parse("FREQ=DAILY;"+strings.Repeat("X", 600), repeat.Moment{Day: 20_900}, loc)
			return err != nil
		}(),
		"a calendar file, calendar.MaxBytes": func() bool {
			_, err := calendar.Read(strings.Repeat("x", calendar.MaxBytes+1), &demo, loc)
			return err != nil
		}(),
		"its entries, calendar.MaxEvents": func() bool {
			_, err := calendar.Read("BEGIN:VCALENDAR\r\n"+strings.Repeat("BEGIN:VEVENT\r\nEND:VEVENT\r\n", calendar.MaxEvents+1)+"END:VCALENDAR\r\n", &demo, loc)
			return err != nil
		}(),
		"a table, desk.MostBytes": len(desk.Read(strings.Repeat("x", desk.MostBytes+1), &known, 20_780, voices).Rows) == 0,
		"its rows, desk.MostRows": func() bool {
			table := desk.Read("Date\tLabel\n"+strings.Repeat("3/1/2027\tA\n", desk.MostRows+1), &known, 20_780, voices)
			return len(table.Faults) > 0 && len(table.Rows) <= desk.MostRows
		}(),
		"a settings file, desk.MostFileBytes": func() bool {
			_, faults := desk.ReadFile(strings.Repeat("#", desk.MostFileBytes+1), 20_780)
			return desk.Stops(faults)
		}(),
	} {
		require.True(t, refused, name)
	}
}

func daysFrom(first wall.Date, n int) []wall.Date {
	var all []wall.Date
	for i := range n {
		all = append(all, first+wall.Date(i))
	}
	return all
}
