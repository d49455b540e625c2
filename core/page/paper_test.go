package page_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// paperDay is the day on which the sheets of the tests are printed, in the zone of the example.
var paperDay, _ = wall.ParseDate("2026-11-24")

func exampleSchedule(t *testing.T) *schedule.Schedule {
	s, err := schedule.Build(app.DemoPlan(paperDay, 7))
	require.NoError(t, err)
	return s
}

// paperOf makes a sheet at 09:00 of a day.
func paperOf(t *testing.T, s *schedule.Schedule, language, sheet string, day wall.Date) page.PaperView {
	now, _ := day.At(s.Loc, 9*60)
	v, ok := page.NewPaper(page.PaperInput{
		Input: page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open(language)}, Now: now, Fragment: "abc"},
		Sheet: sheet, Address: "https://alder.example/#abc",
	})
	require.True(t, ok, sheet)
	return v
}

// printed is the text of the sheets of a view: what comes out of a printer.
func printed(t *testing.T, v page.PaperView) string {
	var all strings.Builder
	for _, n := range elements(parsed(t, v.Path, page.PaperPage(v))) {
		if class, _ := attribute(n, "class"); strings.HasPrefix(class, "sheet ") {
			all.WriteString(content(n) + "\n")
		}
	}
	return strings.Join(strings.Fields(all.String()), " ")
}

// rowsOf are the rows of a table on a sheet, each with the text of its cells.
func rowsOf(t *testing.T, v page.PaperView, class string) [][]string {
	var rows [][]string
	for _, n := range elements(parsed(t, v.Path, page.PaperPage(v))) {
		if c, _ := attribute(n, "class"); n.Data != "table" || c != class {
			continue
		}
		for tr := range n.Descendants() {
			if tr.Type == html.ElementNode && tr.Data == "tr" && tr.Parent.Data == "tbody" {
				rows = append(rows, cells(tr))
			}
		}
	}
	return rows
}

func cells(tr *html.Node) []string {
	var all []string
	for n := range tr.ChildNodes() {
		if n.Type == html.ElementNode {
			all = append(all, strings.Join(strings.Fields(content(n)), " "))
		}
	}
	return all
}

// Every date of a helper stands on their sheet, in the order of the schedule and with its
// times. What is expected is worked out here from the schedule alone.
func TestEveryDateOfAHelperStandsOnTheirSheet(t *testing.T) {
	s := exampleSchedule(t)
	voice := guide.Voice{Book: guide.Open("en"), Today: paperDay}
	for who := uint8(1); int(who) <= len(s.Plan.Helpers); who++ {
		if !s.Plan.HasDuty(who) {
			continue
		}
		rows := rowsOf(t, paperOf(t, s, "en", page.PaperHelper+string('0'+rune(who)), paperDay), "sheet-rows")
		n := 0
		for i := range s.Duties {
			d := &s.Duties[i]
			if s.Who(d) != who {
				continue
			}
			require.Less(t, n, len(rows))
			row := rows[n]
			n++
			require.Equal(t, voice.ShortDay(d.Day), row[0], d.ID)
			require.Contains(t, row[2], voice.Duty(&s.Plan, d).Title)
			text := row[1] + " " + row[2]
			require.Contains(t, text, voice.Time(d.There.From), d.ID)
			if leave := d.FromHome().From; !leave.Equal(d.There.From) && !heldBefore(s, d, leave) {
				require.True(t, strings.HasSuffix(row[1], voice.Time(leave)), "%s: %q begins with leaving at %s", d.ID, row, voice.Time(leave))
			}
			if d.Family != nil && d.Kind == schedule.Drive {
				require.Contains(t, row[2], voice.Span(d.Session.From, d.Session.To))
				require.Contains(t, row[2], voice.Time(d.Free))
				require.Contains(t, row[2], d.Family.Place)
			}
		}
		require.Len(t, rows, n)
		require.Positive(t, n)
	}
}

// heldBefore tells whether the same helper has another duty that takes in the time at which they
// would leave home: then they are at the patient's home already.
func heldBefore(s *schedule.Schedule, d *schedule.Duty, leave time.Time) bool {
	for i := range s.Duties {
		if c := &s.Duties[i]; c != d && s.Who(c) == s.Who(d) && !c.There.From.After(leave) && !(c.Ends.To.Before(leave) && c.Free.Before(leave)) {
			return true
		}
	}
	return false
}

func TestWhatIsOverIsNotOnASheet(t *testing.T) {
	s := exampleSchedule(t)
	later := s.Plan.Surgery + 10
	first := rowsOf(t, paperOf(t, s, "en", "helper.1", later), "sheet-rows")[0]
	require.Equal(t, guide.Voice{Book: guide.Open("en"), Today: later}.ShortDay(later), first[0])
	require.Contains(t, printed(t, paperOf(t, s, "en", "helper.1", s.Plan.Surgery+200)), "Nothing is left to do.")
}

// The refrigerator sheet has fourteen days from the day before surgery, or from today once that
// has come, or from the day that was asked for; and in each every date of those days, with who.
func TestTwoWeeksOnTheRefrigerator(t *testing.T) {
	s := exampleSchedule(t)
	voice := guide.Voice{Book: guide.Open("en"), Today: paperDay}
	for _, test := range []struct{ today, first wall.Date }{
		{paperDay, s.Plan.Surgery - 1}, {s.Plan.Surgery, s.Plan.Surgery}, {s.Plan.Surgery + 20, s.Plan.Surgery + 20},
	} {
		rows := rowsOf(t, paperOf(t, s, "en", page.PaperFridge, test.today), "sheet-days")
		require.Len(t, rows, 14)
		all := 0
		for n, row := range rows {
			date := test.first + wall.Date(n)
			require.True(t, strings.HasPrefix(row[0], voice.ShortDay(date)), row[0])
			count := 0
			for i := range s.Duties {
				d := &s.Duties[i]
				if d.Day != date {
					continue
				}
				count++
				who := s.Plan.Helper(s.Who(d))
				if who != "" {
					who += ": "
				}
				require.Contains(t, row[1], who+voice.Duty(&s.Plan, d).Title, row[0])
				require.Regexp(t, beginning(voice, d), row[1])
			}
			all += count
		}
		require.Greater(t, all, 20)
	}
	// What the patient has to do at a time stands there too.
	text := printed(t, paperOf(t, s, "en", page.PaperFridge, paperDay))
	require.Contains(t, text, voice.Time(s.Fasting.FoodStop)+" Stop eating")
	require.Contains(t, text, voice.Time(s.Fasting.LiquidStop)+" Stop drinking")
}

// beginning matches the times that a duty may be led by: leaving, with or without the way from the
// helper's own home, or being there.
func beginning(v guide.Voice, d *schedule.Duty) string {
	own := time.Duration(d.Own) * time.Minute
	times := []string{v.Time(d.There.From)}
	if !d.Leave.IsZero() {
		times = append(times, v.Time(d.Leave), v.Time(d.Leave.Add(own)))
	}
	return strings.Join(times, "|")
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

func TestThePackingListHasABoxForEachLine(t *testing.T) {
	p := app.DemoPlan(paperDay, 7)
	p.Lines = []plan.Line{
		{ID: 1, List: plan.Packing, Day: -1, Text: "The blue blanket"},
		{ID: 2, List: plan.Packing, Day: plan.NoDay, Hospital: true, Done: true, Text: "The yellow form"},
	}
	s, err := schedule.Build(p)
	require.NoError(t, err)
	html := page.PaperPage(paperOf(t, s, "en", page.PaperPack, paperDay))
	text := printed(t, paperOf(t, s, "en", page.PaperPack, paperDay))
	lines := 0
	for i := range s.Steps {
		if st := &s.Steps[i]; st.List == "pack" {
			lines++
			title := guide.Open("en").Entry(st.ID, st.Variant).Title
			if st.Line != nil {
				title = st.Line.Text
			}
			require.Contains(t, text, title)
		}
	}
	require.Greater(t, lines, 10)
	require.Equal(t, lines+3, strings.Count(html, `class="tick-box`), "and three to write on")
	require.Equal(t, 1, strings.Count(html, `class="tick-box done"`))
	require.Contains(t, text, "hearing aids in a case with the name on it")
	require.NotContains(t, text, "denture")
}

// What the sheet says holds in every hand: no "today" that is another day tomorrow, and no time
// by the clock of the phone that printed it.
func TestASheetReadsTheSameTomorrow(t *testing.T) {
	s := exampleSchedule(t)
	auckland, err := time.LoadLocation("Pacific/Auckland")
	require.NoError(t, err)
	for _, sheet := range []string{"helpers", "fridge", "pack", "card", "guide"} {
		now, _ := (s.Plan.Surgery - 1).At(s.Loc, 9*60)
		in := page.PaperInput{Input: page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Fragment: "abc"}, Sheet: sheet}
		here, ok := page.NewPaper(in)
		require.True(t, ok)
		if sheet != "guide" { // whose words may speak of the reader's own today
			require.NotRegexp(t, regexp.MustCompile(`(?i)\b(tomorrow|yesterday|due today|days to go|your time)\b`), printed(t, here), sheet)
		}
		in.Device = auckland
		there, ok := page.NewPaper(in)
		require.True(t, ok)
		zone := "Times are those in America/Chicago. "
		require.Contains(t, printed(t, there), zone)
		require.Equal(t, printed(t, here), strings.ReplaceAll(printed(t, there), zone, ""))
		require.Contains(t, printed(t, here), "As of Wed, Dec 2, 09:00.")
	}
}

// The plan's link is drawn where a camera can still read it: see the table of ISO/IEC 18004 in
// core/page/paper.go.
func TestOnlyALinkThatFitsIsDrawn(t *testing.T) {
	s := exampleSchedule(t)
	for length, drawn := range map[int]bool{1273: true, 1274: false} {
		now, _ := paperDay.At(s.Loc, 9*60)
		in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Fragment: "abc"}
		v, ok := page.NewPaper(page.PaperInput{Input: in, Sheet: "helper.1", Address: strings.Repeat("x", length)})
		require.True(t, ok)
		require.Equal(t, drawn, strings.Contains(page.PaperPage(v), `data-qr="abc"`))
	}
}

// A year of dates does not become a book; the sheet says how many are not on it.
func TestALongSeriesEndsAndSaysSo(t *testing.T) {
	p := app.DemoPlan(paperDay, 7)
	p.Duties[3].Rule.Last = 0 // the cat, for ever
	s, err := schedule.Build(p)
	require.NoError(t, err)
	all := 0
	for i := range s.Duties {
		if s.Who(&s.Duties[i]) == 2 {
			all++
		}
	}
	v := paperOf(t, s, "en", "helper.2", paperDay)
	rows := rowsOf(t, v, "sheet-rows")
	require.Len(t, rows, 60)
	require.Contains(t, printed(t, v), guide.Open("en").Count("paper.later", all-60))
}

func TestNoSheetOfNobody(t *testing.T) {
	s := exampleSchedule(t)
	now, _ := paperDay.At(s.Loc, 0)
	for _, sheet := range []string{"", "helper.", "helper.0", "helper.5", "helper.01", "helper.+1", "helper.256", "helper.257", "x", "fridge/1"} {
		in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Fragment: "abc"}
		_, ok := page.NewPaper(page.PaperInput{Input: in, Sheet: sheet})
		require.False(t, ok, sheet)
	}
}
