package page_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// daysOf are the days that a row stands for: the one in its first column, or those of its list,
// where "every day, A to B" is all from A to B. It reads them by writing every day of a year.
func daysOf(t *testing.T, v guide.Voice, row []string) []wall.Date {
	written := map[string]wall.Date{}
	for day := v.Today; day < v.Today+365; day++ {
		for _, today := range []wall.Date{v.Today, day} { // with its year and without
			v := guide.Voice{Book: v.Book, Today: today}
			written[v.ShortDay(day)] = day
		}
	}
	if day, ok := written[row[0]]; ok {
		return []wall.Date{day}
	}
	_, list, _ := strings.Cut(row[2], "[")
	list, _, _ = strings.Cut(list, "]")
	var days []wall.Date
	for piece := range strings.SplitSeq(list, "; ") {
		from, to, run := strings.Cut(strings.TrimPrefix(piece, "every day, "), " to ")
		if !run {
			to = from
		}
		require.Contains(t, written, from, row)
		require.Contains(t, written, to, row)
		for day := written[from]; day <= written[to]; day++ {
			days = append(days, day)
		}
	}
	return days
}

// helperRows are the rows of a helper's sheet, the list of dates of each as [A; B].
func helperRows(t *testing.T, s *schedule.Schedule, who uint8, day wall.Date) [][]string {
	v := paperOf(t, s, "en", page.PaperHelper+string('0'+rune(who)), day)
	for n := range v.Sheets {
		for i := range v.Sheets[n].Rows {
			if r := &v.Sheets[n].Rows[i]; len(r.Dates) > 0 {
				r.Dates = []string{"[" + strings.Join(r.Dates, "; ") + "]"}
			}
		}
	}
	return rowsOf(t, v, "sheet-rows")
}

// Every date of a helper stands on their sheet, with its times, once. What is expected is worked
// out here from the schedule alone.
func TestEveryDateOfAHelperStandsOnTheirSheet(t *testing.T) {
	s := exampleSchedule(t)
	voice := guide.Voice{Book: guide.Open("en"), Today: paperDay}
	for who := uint8(1); int(who) <= len(s.Plan.Helpers); who++ {
		if !s.Plan.HasDuty(who) {
			continue
		}
		rows, on, dates := helperRows(t, s, who, paperDay), map[wall.Date][][]string{}, 0
		for _, row := range rows {
			for _, day := range daysOf(t, voice, row) {
				on[day] = append(on[day], row)
				dates++
			}
		}
		n := 0
		for i := range s.Duties {
			if d := &s.Duties[i]; s.Who(d) == who {
				n++
				require.Equal(t, 1, matching(s, voice, d, on[d.Day]), "%s on %s: %q", d.ID, voice.Day(d.Day), on[d.Day])
			}
		}
		require.Positive(t, n)
		require.Equal(t, n, dates)
		require.Less(t, len(rows), n)
	}
}

// matching counts the rows of a day that say all of a duty.
func matching(s *schedule.Schedule, v guide.Voice, d *schedule.Duty, rows [][]string) int {
	want := []string{v.Duty(&s.Plan, d).Title, v.Time(d.There.From)}
	if d.Family != nil && d.Kind == schedule.Drive {
		want = append(want, v.Span(d.Session.From, d.Session.To), v.Time(d.Free), d.Family.Place)
	}
	count := 0
	for _, row := range rows {
		found := true
		for _, text := range want {
			found = found && strings.Contains(row[1]+" "+row[2], text)
		}
		if leave := d.FromHome().From; !leave.Equal(d.There.From) && !heldBefore(s, d, leave) {
			found = found && strings.HasSuffix(row[1], v.Time(leave))
		}
		if found {
			count++
		}
	}
	return count
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

// Whoever cannot do what they have is marked on their sheet and on the refrigerator, with room for
// another name, as often as core/split says it; one who can no longer help too.
func TestWhoCannotIsMarkedOnPaper(t *testing.T) {
	for _, out := range []bool{false, true} {
		p := app.DemoPlan(paperDay, 7)
		p.About[1].Out = out
		s, err := schedule.Build(p)
		require.NoError(t, err)
		now, _ := paperDay.At(s.Loc, 0)
		cannot, all := map[uint8]int{}, 0
		for _, f := range split.Look(s, now).Findings {
			if day := s.Duties[f.Duty].Day; f.State == split.Cannot {
				cannot[f.Who]++
				if day >= s.Plan.Surgery-1 && day < s.Plan.Surgery+13 {
					all++
				}
			}
		}
		require.Positive(t, all)
		for who, n := range cannot {
			marked := 0
			for _, r := range paperOf(t, s, "en", page.PaperHelper+string('0'+rune(who)), paperDay).Sheets[0].Rows {
				if r.Cannot != "" {
					marked += max(1, len(r.Dates))
				}
			}
			if !out { // else those that are alike are one row
				require.Equal(t, n, marked, "helper %d", who)
			}
			require.Positive(t, marked, "helper %d", who)
		}
		text := printed(t, paperOf(t, s, "en", page.PaperFridge, paperDay))
		require.Equal(t, all, strings.Count(text, "(cannot then)")+strings.Count(text, "(can no longer help)"))
		require.Equal(t, out, strings.Contains(text, "Luis (can no longer help)"))
	}
}

func TestWhatIsOverIsNotOnASheet(t *testing.T) {
	s := exampleSchedule(t)
	later := s.Plan.Surgery + 10
	voice := guide.Voice{Book: guide.Open("en"), Today: later}
	for _, row := range helperRows(t, s, 1, later) {
		for _, day := range daysOf(t, voice, row) {
			require.GreaterOrEqual(t, day, later)
		}
	}
	require.Contains(t, printed(t, paperOf(t, s, "en", "helper.1", s.Plan.Surgery+200)), "Nothing is left to do.")
}

// A year of dates does not become a book; the sheet says how many are not on it.
func TestALongSeriesEndsAndSaysSo(t *testing.T) {
	p := app.DemoPlan(paperDay, 7)
	p.Duties[3].Rule = repeat.Rule{
		First: p.Surgery + 1, At: 7*60 + 30, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(time.Tuesday, time.Thursday), Week: time.Monday,
	}.Canonical() // the cat, for ever
	p.Cover = [len(p.Cover)]uint8{}
	p.Duties[2].Who = 0
	p.About = make([]plan.About, len(p.Helpers))
	s, err := schedule.Build(p)
	require.NoError(t, err)
	all := 0
	for i := range s.Duties {
		if s.Who(&s.Duties[i]) == 2 {
			all++
		}
	}
	require.Greater(t, all, 100)
	v := paperOf(t, s, "en", "helper.2", paperDay)
	require.Len(t, v.Sheets[0].Rows, 1)
	require.Len(t, v.Sheets[0].Rows[0].Dates, 60)
	require.Contains(t, printed(t, v), guide.Open("en").Count("paper.later", all-60))
	years := 0
	for _, day := range v.Sheets[0].Rows[0].Dates {
		years += strings.Count(day, "2027")
	}
	require.Equal(t, 1, years, "the year stands once")
}
