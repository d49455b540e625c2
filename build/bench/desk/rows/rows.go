// Package rows makes the table of patients that the benchmark of the desk reads: a thousand
// rows with a hospital's settings in each link, half of them with a link that was sent before,
// a tenth of those corrected.
package rows

import (
	"fmt"
	"strings"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Count is how many rows the table has.
const Count = 1000

// Page is what the links begin with.
const Page = "https://plans.example.org/"

// Today is 16 November 2026.
const Today wall.Date = 20773

var chance = []byte("0123456789abcdef")

// Settings are a hospital's that no page comes with, so that each link carries them.
func Settings() *desk.Settings {
	s := &desk.Settings{Zone: "America/New_York", Given: plan.SoapGiven}
	s.Program.Hospital, s.Program.Address, s.Program.Phone = "Alder Ferry Hospital", "12 Millrace Road, Alder Ferry", "555-0142"
	s.Program.Set(plan.WashDays, 4)
	return s
}

// Voices are all languages of the page.
func Voices() (all []guide.Voice) {
	for _, tag := range guide.Languages {
		all = append(all, guide.Voice{Book: guide.Open(tag), Clock12: tag == "en", Today: Today})
	}
	return all
}

// Text is the table.
func Text() string {
	var links []string
	for i, d := range Do(table(nil, 0)) {
		if i%2 == 0 {
			links = append(links, d.Address)
		} else {
			links = append(links, "")
		}
	}
	return table(links, 7)
}

// table writes the rows; every twentieth has its surgery so many days later.
func table(links []string, later wall.Date) string {
	var b strings.Builder
	b.WriteString("Label\tSurgery date\tArrival\tJoint\tOperation\tStay\tSoap\tLanguage\tLink\n")
	for i := range Count {
		link, day := "", Today+10+wall.Date(i%200)
		if i < len(links) {
			link = links[i]
		}
		if i%20 == 0 {
			day += later
		}
		fmt.Fprintf(&b, "P%d\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", i, day, []string{"5:30 AM", "", "06:15"}[i%3], []string{"L knee", "R THA"}[i%2],
			[]string{"first", "revision"}[i%2], []string{"1 night", "same day"}[i%2], []string{"yes", "no", ""}[i%3], []string{"English", "español"}[i%2], link)
	}
	return b.String()
}

// Do reads a table and makes its links and messages.
func Do(text string) []desk.Done {
	t := desk.Read(text, Settings(), Today, Voices())
	return t.Make(Settings(), Page, chance)
}

// All does all that is done with a table, and gives it written: its bytes, and how many rows of
// each state there are.
func All(text string) (written int, states [4]int) {
	t := desk.Read(text, Settings(), Today, Voices())
	done := t.Make(Settings(), Page, chance)
	for _, d := range done {
		states[d.State]++
	}
	return len(t.Text(done, Voices()[0])), states
}
