package desk

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// today is a Monday.
var today = day("2026-11-16")

func day(text string) wall.Date {
	d, err := wall.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

// voices are those of the page, English first.
func voices() []guide.Voice {
	var all []guide.Voice
	for _, tag := range guide.Languages {
		all = append(all, guide.Voice{Book: guide.Open(tag), Clock12: tag == "en", Today: today})
	}
	return all
}

const page = "https://plans.alderferry.example/"

var chance = []byte("0123456789abcdef")

// known are the settings of the example's hospital, which links name by a number.
func known() *Settings {
	s := plan.BaseOf(1)
	return &s
}

// own are settings that travel in each link, of a hospital that says much.
func own() *Settings {
	s := &Settings{Zone: "America/New_York", Given: plan.SoapGiven | plan.DrinkGiven}
	s.Program.Hospital, s.Program.Address, s.Program.Phone = "Alder Ferry Hospital", "12 Millrace Road, Alder Ferry", "555-0142"
	s.Program.Set(plan.WashDays, 4)
	return s
}

func readAll(t *testing.T, text string) Table {
	t.Helper()
	table := Read(text, known(), today, voices())
	require.True(t, usable(table.Faults), "%s", text)
	return table
}

// codes are the codes of a row's faults.
func codes(faults []RowFault) []string {
	var all []string
	for _, f := range faults {
		all = append(all, f.Code)
	}
	return all
}

// bigTable has rows of all sorts; links[i] goes into row i where there is one.
func bigTable(rows int, links []string) string {
	var b strings.Builder
	b.WriteString("Label\tSurgery date\tArrival\tJoint\tOperation\tStay\tSoap\tLanguage\tLink\tRoom\n")
	for i := range rows {
		link := ""
		if i < len(links) {
			link = page + "#" + links[i]
		}
		b.WriteString("P" + strconv.Itoa(i) + "\t" + (today + 10 + wall.Date(i%200)).String() + "\t" + []string{"5:30 AM", "", "06:15", "7.00 am"}[i%4] +
			"\t" + []string{"L knee", "R THA"}[i%2] + "\t" + []string{"first", "revision", "both"}[i%3] + "\t" + []string{"1 night", "same day"}[i%2] +
			"\t" + []string{"yes", "no", ""}[i%3] + "\t" + []string{"English", "español"}[i%2] + "\t" + link + "\tB" + strconv.Itoa(i) + "\n")
	}
	return b.String()
}

func fragments(done []Done) []string {
	var all []string
	for _, d := range done {
		all = append(all, d.Fragment)
	}
	return all
}
