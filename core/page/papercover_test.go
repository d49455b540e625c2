package page_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// paperPlans are plans whose guides together have every wording: each kind of soap, each stay, an
// arrival that is known and one that is not, the family's times and the team's.
func paperPlans(t *testing.T) []*schedule.Schedule {
	const home = plan.HomeAnswered | plan.HomeFacts
	given := plan.SoapGiven | plan.DrinkGiven | plan.ParkingPass
	var all []*schedule.Schedule
	for _, change := range []func(*plan.Plan){
		func(p *plan.Plan) { p.Facts = home&^plan.OwnWalker | given },
		func(p *plan.Plan) { p.Facts, p.Stay = home|given|plan.NoSurgicalSoap, plan.SameDay },
		func(p *plan.Plan) { p.Facts, p.Arrival = home|plan.DrinkGiven, wall.NoClock },
		func(p *plan.Plan) { p.Facts, p.Stay = home|given|plan.TeamTimes, plan.Undecided },
		func(p *plan.Plan) { p.Surgery += 4 }, // the day before is a Sunday
		func(p *plan.Plan) { p.Program.Clear(plan.Fever); p.Program.Clear(plan.BowelDays) },
		func(p *plan.Plan) {
			p.Program.Texts[plan.ReviewedBy], p.Program.Texts[plan.ReviewedOn] = "Nora", "2026-11-02"
			p.Program.Texts[plan.TranslatedBy], p.Program.Texts[plan.TranslatedOn] = "Ines", "2026-11-03"
		},
	} {
		p := app.DemoPlan(paperDay, 7)
		change(&p)
		s, err := schedule.Build(p)
		require.NoError(t, err)
		all = append(all, s)
	}
	return all
}

// onPaper is the text of the guide and the card of all of these plans.
func onPaper(t *testing.T, language string) string {
	var all strings.Builder
	for _, s := range paperPlans(t) {
		for _, sheet := range []string{page.PaperGuide, page.PaperCard} {
			all.WriteString(printed(t, paperOf(t, s, language, sheet, paperDay)) + "\n")
		}
	}
	return strings.ToLower(all.String())
}

// said matches a phrase of a table with something in place of each {name}.
func said(phrase string) *regexp.Regexp {
	parts := regexp.MustCompile(`\{[a-z]+\}`).Split(strings.ToLower(phrase), -1)
	for i := range parts {
		parts[i] = regexp.QuoteMeta(parts[i])
	}
	return regexp.MustCompile(strings.Join(parts, `.{1,40}?`))
}

// Each clause of the table of common practice and each sign stands on paper, in both languages.
// What is checked elsewhere is left out: numbers of rules and columns of steps.txt (core/guide),
// the words "due.…", which stand on the page without dates (on paper are the dates themselves), and
// where the text comes from, which is a page of its own.
func TestEveryClauseOfCommonPracticeIsOnPaper(t *testing.T) {
	for file, language := range map[string]string{"table_rows.txt": "en", "table_rows_es.txt": "es"} {
		data, err := os.ReadFile("../../testdata/guide/" + file)
		require.NoError(t, err)
		text, clauses := onPaper(t, language), 0
		for line := range strings.SplitSeq(string(data), "\n") {
			if line == "" || line[0] == '#' {
				continue
			}
			col := strings.Split(line, " | ")
			require.Len(t, col, 4, line)
			kind, id, found := strings.Cut(col[2], ":")
			if found && (kind == "rule" || kind == "due" || kind == "when" || kind == "words" && (strings.HasPrefix(id, "due.") || strings.HasPrefix(id, "sources."))) {
				continue
			}
			if strings.HasSuffix(col[2], ".general") || language == "en" && strings.HasPrefix(id, "translation.") {
				continue // without a plan there is no sheet; the words of all other languages, about themselves
			}
			clauses++
			require.True(t, said(col[3]).MatchString(text), "not on paper, %s: %s", language, line)
		}
		require.Greater(t, clauses, 120, language)
	}
}

// Every line of the guide, of every kind, is on paper: no step, duty, chapter or sign is left out.
func TestEveryEntryIsOnPaper(t *testing.T) {
	for _, language := range guide.Languages {
		text, b := onPaper(t, language), guide.Open(language)
		for i := range schedule.Kinds {
			if k := &schedule.Kinds[i]; !strings.HasPrefix(k.ID, "wash") { // several, with their number
				require.True(t, said(b.Entry(k.ID, "").Title).MatchString(text), "%s: %s", language, k.ID)
			}
		}
		for i := range guide.Chapters {
			e := b.Entry("chapter-"+guide.Chapters[i].ID, "")
			require.True(t, said(e.Title).MatchString(text), e.Title)
			for _, l := range e.How {
				require.True(t, said(l.Text).MatchString(text), l.Text)
			}
		}
		for _, s := range paperPlans(t) {
			signs := guide.Voice{Book: b, Today: paperDay}.Signs(&s.Plan)
			for _, sheet := range []string{page.PaperCard, page.PaperGuide, page.PaperFridge, page.PaperPack, "helper.1"} {
				shown := printed(t, paperOf(t, s, language, sheet, paperDay))
				for _, e := range []guide.Entry{signs.Emergency, signs.Office} {
					require.Contains(t, shown, e.Title, sheet)
					for _, l := range e.How {
						if l.Point {
							require.Contains(t, shown, l.Text, sheet)
						}
					}
				}
				require.Contains(t, shown, s.Plan.Program.Phone, sheet)
				require.Contains(t, shown, b.Say("app.caution"), sheet)
			}
			card := printed(t, paperOf(t, s, language, page.PaperCard, paperDay))
			for _, l := range signs.Say.How {
				require.Contains(t, card, l.Text)
			}
		}
	}
}

// The times in the guide are the schedule's.
func TestTheTimesOnPaperAreTheSchedules(t *testing.T) {
	s := exampleSchedule(t)
	v := guide.Voice{Book: guide.Open("en"), Today: paperDay}
	text := printed(t, paperOf(t, s, "en", page.PaperGuide, paperDay))
	require.NotEmpty(t, s.Stages)
	for _, st := range s.Stages {
		require.Contains(t, text, v.Span(st.Ends.From, st.Ends.To), st.ID)
	}
	washes := 0
	for i := range s.Steps {
		st := &s.Steps[i]
		if st.ID == "wash" {
			washes++
			require.Contains(t, text, "Wash "+string('0'+rune(st.N))+" of "+string('0'+rune(st.Of)))
		}
		if st.Due == schedule.AtTime {
			require.Contains(t, text, v.ShortDayTime(st.Until), st.ID)
		}
	}
	require.Equal(t, 5, washes)
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Family == nil && !d.There.From.IsZero() {
			require.Contains(t, text, v.Time(d.There.From), d.ID)
		}
	}
}

// A plan that two people left unsettled says so on the sheet.
func TestWhatIsNotSettledIsSaidOnPaper(t *testing.T) {
	r := at(harmless.plan(t), -9)
	r.Fragment, r.Path = asking(t, harmless), "/print/fridge"
	require.Contains(t, app.Handle(r).HTML, guide.Open("en").Say("paper.unsettled"))
}
