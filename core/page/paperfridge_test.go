package page_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/schedule"
	"newel/core/wall"
)

// The refrigerator sheet has fourteen days from the day before surgery, or from today once that
// has come, or from the day that was asked for; and every date of those days, with who: with its
// day, or where it is the same every day once above them.
func TestTwoWeeksOnTheRefrigerator(t *testing.T) {
	s := exampleSchedule(t)
	for _, test := range []struct{ today, first wall.Date }{
		{paperDay, s.Plan.Surgery - 1}, {s.Plan.Surgery, s.Plan.Surgery}, {s.Plan.Surgery + 20, s.Plan.Surgery + 20},
	} {
		voice := guide.Voice{Book: guide.Open("en"), Today: test.today}
		v := paperOf(t, s, "en", page.PaperFridge, test.today)
		rows := rowsOf(t, v, "sheet-days")
		require.Len(t, rows, 14)
		all, once := 0, 0
		for n, row := range rows {
			date := test.first + wall.Date(n)
			without := guide.Voice{Book: voice.Book, Today: date}
			require.True(t, strings.HasPrefix(row[0], without.ShortDay(date)), row[0])
			for i := range s.Duties {
				d := &s.Duties[i]
				if d.Day != date {
					continue
				}
				all++
				if !onDay(s, voice, d, row[1]) {
					once++
					require.True(t, onEveryDay(s, voice, d, v.Sheets[0].Daily), "%s on %s", d.ID, row[0])
				}
			}
		}
		require.Greater(t, all, 20)
		require.Greater(t, once, 10)
		require.Less(t, len(v.Sheets[0].Daily), 7)
	}
	// What the patient has to do at a time stands there too.
	voice := guide.Voice{Book: guide.Open("en"), Today: paperDay}
	text := printed(t, paperOf(t, s, "en", page.PaperFridge, paperDay))
	require.Contains(t, text, voice.Time(s.Fasting.FoodStop)+" Stop eating")
	require.Contains(t, text, voice.Time(s.Fasting.LiquidStop)+" Stop drinking")
}

// onDay tells whether a day of the sheet names a duty, its time, and whoever has it.
func onDay(s *schedule.Schedule, v guide.Voice, d *schedule.Duty, text string) bool {
	title, who := v.Duty(&s.Plan, d).Title, s.Plan.Helper(s.Who(d))
	for _, time := range beginning(v, d) {
		for _, mark := range []string{"", " (cannot then) "} {
			if said := time + " " + who + mark + ": " + title; strings.Contains(text, said) || who == "" && strings.Contains(text, time+" : "+title) {
				return true
			}
		}
	}
	// What is not at a time has no line of its own for it.
	return d.There.From.IsZero() && strings.Contains(text, title)
}

// onEveryDay tells whether it is among what is the same every day, in a span that holds its day.
func onEveryDay(s *schedule.Schedule, v guide.Voice, d *schedule.Duty, daily []page.PaperDaily) bool {
	for _, e := range daily {
		from, to, _ := strings.Cut(e.Span, " – ")
		inside, begun := false, false
		for day := d.Day - 14; day <= d.Day+14; day++ {
			text := guide.Voice{Book: v.Book, Today: day}.ShortDay(day)
			begun = begun || strings.HasPrefix(from, text)
			inside = inside || begun && day == d.Day
			if strings.HasPrefix(to, text) && begun {
				break
			}
		}
		if inside && e.Title == v.Duty(&s.Plan, d).Title && e.Who == s.Plan.Helper(s.Who(d)) {
			for _, time := range beginning(v, d) {
				if time == e.Time {
					return true
				}
			}
		}
	}
	return false
}

// beginning are the times that a duty may be led by: leaving, with or without the way from the
// helper's own home, or being there.
func beginning(v guide.Voice, d *schedule.Duty) []string {
	own := time.Duration(d.Own) * time.Minute
	times := []string{v.Time(d.There.From), v.Span(d.There.From, d.There.To)}
	if !d.Leave.IsZero() {
		times = append(times, v.Time(d.Leave), v.Time(d.Leave.Add(own)))
	}
	return times
}

// A date that is not as every day stays with its day, marked; and it is never left to the line
// that is for every day.
func TestWhatDiffersFromEveryDayStaysWithItsDay(t *testing.T) {
	p := app.DemoPlan(paperDay, 7)
	day := p.Surgery + 5
	p.Duties[5].Rule.Skipped = []wall.Date{day} // no meal then: so it is not every day
	s, err := schedule.Build(p)
	require.NoError(t, err)
	sheet := paperOf(t, s, "en", page.PaperFridge, paperDay).Sheets[0]
	for _, d := range sheet.Daily {
		if strings.Contains(d.Title, "meal") {
			require.NotContains(t, d.Span, "Dec 4 – Tue, Dec 15")
		}
	}
	only := 0
	sheet = paperOf(t, exampleSchedule(t), "en", page.PaperFridge, paperDay).Sheets[0]
	for _, d := range sheet.Days {
		for _, e := range d.Entries {
			if !e.Only {
				continue
			}
			only++
			for _, every := range sheet.Daily {
				same := every.Label == e.Label && every.Time == e.Time && every.Who == e.Who && every.Title == e.Title
				require.False(t, same && e.Cannot == "", "%s: %q is said for every day", d.Date, e)
			}
		}
	}
	require.Positive(t, only)
}

// What the patient does every day comes from steps.txt: each step of the list "after" that is not
// for the helper alone, and the signs of a clot with their last day (plan.ClotDays after surgery).
func TestThePatientsDayIsOnTheRefrigerator(t *testing.T) {
	s := exampleSchedule(t)
	for _, language := range guide.Languages {
		b := guide.Open(language)
		text := printed(t, paperOf(t, s, language, page.PaperFridge, paperDay))
		for _, id := range []string{"walk-often", "ankle-pumps", "breathing-exerciser", "ice-legs-up", "pain-medicine", "wound-look", "clot-signs"} {
			require.Contains(t, text, b.Entry(id, "").Title)
		}
		v := guide.Voice{Book: b, Today: s.Plan.Surgery}
		require.Contains(t, text, b.Say("paper.care.until", guide.Arg{Name: "what", Value: b.Entry("clot-signs", "").Title}, guide.Arg{Name: "day", Value: v.ShortDay(s.Plan.Surgery + 35)})[:60])
	}
}

func TestTheDayThatWasAskedForBeginsTheRefrigeratorSheet(t *testing.T) {
	r := at(harmless.plan(t), -9)
	r.Path, r.Fields = "/print/fridge", []app.Field{{Name: "from", Value: "2027-03-12"}}
	out := app.Handle(r)
	require.Equal(t, "/print/fridge", out.Path)
	require.Regexp(t, `<table class="sheet-days">[\s\S]*?<tbody>\s*<tr>\s*<th scope="row"><time datetime="2027-03-12">`, out.HTML)
	for _, wrong := range []string{"", "x", "0001-01-01", "9999-12-31", "2027-02-30"} {
		r.Fields[0].Value = wrong
		require.Contains(t, app.Handle(r).HTML, `value="2027-03-08"`, "the day before surgery stands for %q", wrong)
	}
}
