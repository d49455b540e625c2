package page_test

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// entryText is one text of an entry as it stands in the files: a pattern, since names and
// numbers are filled in.
type entryText struct{ where, text string }

// entryTexts are all texts of a file of entries.
func entryTexts(t *testing.T, language, file string) []entryText {
	data, err := os.ReadFile(filepath.Join("..", "guide", "text", language, file))
	require.NoError(t, err)
	var all []entryText
	id := ""
	for _, line := range strings.Split(string(data), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		if line[0] == '[' {
			id = line
			continue
		}
		for _, sign := range []string{"- ", "why: ", "coach: ", "patient: "} {
			line = strings.TrimPrefix(line, sign)
		}
		all = append(all, entryText{file + " " + id, line})
	}
	require.NotEmpty(t, all)
	return all
}

var filled = regexp.MustCompile(`\\\{[a-z]+\\\}`)

// pattern finds a text with anything in place of what is filled in.
func (e entryText) pattern() *regexp.Regexp {
	return regexp.MustCompile(filled.ReplaceAllString(regexp.QuoteMeta(e.text), `[^\n]{0,60}`))
}

// guidePlans are plans that differ in what decides on the words: which facts hold, whether
// the arrival is known and how late it is, which stay it is, and on which weekday the
// surgery is.
func guidePlans(t *testing.T) []plan.Plan {
	soap := plan.AllFacts &^ plan.TeamTimes &^ plan.NoSurgicalSoap
	var all []plan.Plan
	for _, c := range []struct {
		surgery string
		facts   plan.Facts
		arrival wall.Clock
		stay    plan.Stay
	}{
		{"2027-03-09", 0, 330, plan.OneNight},
		{"2027-03-09", soap, 330, plan.Undecided},
		{"2027-03-09", soap, 840, plan.SameDay},
		{"2027-03-09", soap, wall.NoClock, plan.Undecided},
		{"2027-03-09", plan.AllFacts, 330, plan.OneNight},
		{"2027-03-09", plan.AllFacts, wall.NoClock, plan.SameDay},
		{"2027-03-09", plan.SoapGiven | plan.DrinkGiven | plan.ParkingPass, 840, plan.OneNight},
		{"2027-03-09", plan.TeamTimes, wall.NoClock, plan.OneNight},
		{"2027-03-09", plan.NoSurgicalSoap, 330, plan.OneNight},
		{"2027-03-08", 0, 330, plan.OneNight}, // a Monday: the call may come on the Friday
	} {
		p := harmless.plan(t)
		day, err := wall.ParseDate(c.surgery)
		require.NoError(t, err)
		p.Surgery, p.Facts, p.Arrival, p.Stay = day, c.facts, c.arrival, c.stay
		all = append(all, p)
	}
	return all
}

// Every text of every step, duty, chapter and sign is on a page of the guide, in each
// language: with a plan where a plan decides, or without one.
func TestEveryTextIsInTheGuide(t *testing.T) {
	for _, language := range guide.Languages {
		pages := guidePages(t, language)
		for _, file := range []string{"steps.txt", "duties.txt", "signs.txt", "chapters.txt"} {
			for _, e := range entryTexts(t, language, file) {
				require.True(t, e.pattern().MatchString(pages), "%s %s: %s", language, e.where, e.text)
			}
		}
	}
}

// guidePages are all pages of the guide of all those plans, as one text without marks.
func guidePages(t *testing.T, language string) string {
	said := map[string]bool{}
	show := func(r app.Request, path string) {
		r.Path, r.Language = path, language
		answer := app.Handle(r)
		require.Equal(t, path, answer.Path)
		for _, n := range elements(parsed(t, path, answer.HTML)) {
			if text := content(n); n.Data != "div" && len(text) < 1000 {
				said[text] = true
			}
		}
	}
	for _, c := range guide.Chapters {
		show(app.Request{Random: make([]byte, 16)}, "/guide/"+c.ID)
	}
	for _, p := range guidePlans(t) {
		for _, c := range guide.Chapters {
			show(at(p, -9), "/guide/"+c.ID)
		}
	}
	return strings.Join(slices.Sorted(maps.Keys(said)), "\n")
}
