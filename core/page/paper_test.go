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
			writeParted(&all, n)
		}
	}
	return strings.Join(strings.Fields(all.String()), " ")
}

// writeParted writes a text with a space behind each element that stands on lines of its own.
func writeParted(all *strings.Builder, n *html.Node) {
	if n.Type == html.TextNode {
		all.WriteString(n.Data)
	}
	for c := range n.ChildNodes() {
		writeParted(all, c)
	}
	switch n.Data {
	case "p", "li", "div", "section", "td", "th", "h1", "h2", "h3", "h4", "dt", "dd":
		all.WriteString(" ")
	}
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
	for _, sheet := range []string{"helpers", "fridge", "cover", "pack", "card", "guide"} {
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

func TestNoSheetOfNobody(t *testing.T) {
	s := exampleSchedule(t)
	now, _ := paperDay.At(s.Loc, 0)
	for _, sheet := range []string{"", "helper.", "helper.0", "helper.5", "helper.01", "helper.+1", "helper.256", "helper.257", "x", "fridge/1"} {
		in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Fragment: "abc"}
		_, ok := page.NewPaper(page.PaperInput{Input: in, Sheet: sheet})
		require.False(t, ok, sheet)
	}
}
