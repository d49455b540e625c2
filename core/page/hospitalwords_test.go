package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
)

// ofHospital is a plan with all that a hospital can say in words of its own.
func ofHospital(t *testing.T) plan.Plan {
	p := withFamily(ptr(harmless.plan(t)), "Ana")
	p.Facts |= plan.ParkingPass
	p.Program.Phone = "555-0142"
	p.Program.Texts[plan.PhoneHours], p.Program.Texts[plan.AfterPhone], p.Program.Texts[plan.AfterHours] = "weekdays 8 to 4:30", "555-0143", "nurse on call"
	p.Program.Texts[plan.ParkAt], p.Program.Texts[plan.CheckIn] = "the garage on Mill Street, level 2", "main entrance, second floor"
	rash, _ := plan.Line{ID: 5, List: plan.CallNow, Day: plan.NoDay, Hospital: true, Text: "a rash with trouble swallowing"}.WithWording("es", "ronchas y problemas para tragar")
	p.Lines = []plan.Line{rash, {ID: 6, List: plan.CallOffice, Day: plan.NoDay, Hospital: true, Text: "the dressing is wet"}}
	return p
}

// said is what a page says, without its tags.
func pageText(t *testing.T, source string) string {
	root, err := html.Parse(strings.NewReader(source))
	require.NoError(t, err)
	return strings.Join(strings.Fields(content(root)), " ")
}

// What the hospital asks to be called about stands with the signs, and its second number beside
// the first, under each page and on each sheet; both dial (tel: RFC 3966). That the hospital's
// word goes with the number is common practice, no published source.
func TestTheHospitalsWordsStandWithTheSigns(t *testing.T) {
	p := ofHospital(t)
	for _, path := range []string{"/", "/facts", "/guide/signs", "/link", "/duty/1", "/print/card", "/print/card-large", "/print/fridge", "/print/helper.1", "/print/guide"} {
		r := at(p, -9)
		r.Path = path
		source := app.Handle(r).HTML
		text := pageText(t, source)
		for _, want := range []string{"a rash with trouble swallowing", "the dressing is wet", "weekdays 8 to 4:30", "nurse on call"} {
			require.Contains(t, text, want, path)
		}
		require.Contains(t, source, `href="tel:5550142"`, path)
		require.Contains(t, source, `href="tel:5550143"`, path)
		r.Language = "es"
		text = pageText(t, app.Handle(r).HTML)
		require.Contains(t, text, "ronchas y problemas para tragar", path)
		require.NotContains(t, text, "a rash with", path)
		require.Contains(t, text, "the dressing is wet", "no other wording: better in English than not at all")
	}
}

// They are in the group that they belong to, and can neither be added, changed nor ticked by a family.
func TestNobodyTicksASign(t *testing.T) {
	p := ofHospital(t)
	signs := guide.Voice{Book: guide.Open("en")}.Signs(&p)
	require.Equal(t, guide.Line{Text: "a rash with trouble swallowing", Point: true, Typed: true}, signs.Emergency.How[len(signs.Emergency.How)-1])
	require.Equal(t, guide.Line{Text: "the dressing is wet", Point: true, Typed: true}, signs.Office.How[len(signs.Office.How)-1])
	for _, send := range []struct {
		path   string
		fields []app.Field
	}{
		{"/line/add", []app.Field{{Name: "list", Value: "call-now"}, {Name: "text", Value: "hiccups"}, {Name: "hospital", Value: "1"}}},
		{"/line/5", []app.Field{{Name: "text", Value: "hiccups"}}},
		{"/line/5/out", nil},
		{"/tick", []app.Field{{Name: "line", Value: "5"}, {Name: "done", Value: "1"}}},
	} {
		r := at(p, -9)
		r.Path, r.Fields = send.path, send.fields
		out := app.Handle(r)
		require.NotContains(t, out.HTML, "hiccups", send.path)
		require.Contains(t, out.HTML, "a rash with trouble swallowing", send.path)
		require.Equal(t, r.Fragment, out.Fragment, send.path)
	}
	text := app.Handle(at(p, -9)).HTML
	require.NotContains(t, text, `id="list-call-now"`)
	require.NotContains(t, text, `id="add-call-now"`)
}

// Where to park and to check in stands at the drive; where the hospital has not said it, nothing
// does.
func TestWhereToParkAndCheckIn(t *testing.T) {
	p := ofHospital(t)
	bare := withFamily(ptr(harmless.plan(t)), "Ana")
	bare.Cover[0], p.Cover[0] = 1, 1
	for _, c := range []struct {
		path string
		day  int
	}{{"/", -9}, {"/", 0}, {"/guide/day", -9}, {"/print/helper.1", -9}, {"/print/fridge", -1}, {"/print/guide", -9}} {
		for _, want := range []bool{true, false} {
			q := p
			if !want {
				q = bare
			}
			r := at(q, c.day)
			r.Path = c.path
			text := pageText(t, app.Handle(r).HTML)
			for _, words := range []string{"the garage on Mill Street, level 2", "main entrance, second floor"} {
				require.Equal(t, want, strings.Contains(text, words), "%v %s", c, words)
			}
			require.Equal(t, want, strings.Contains(text, "Check-in"), "%v", c)
			require.Equal(t, want, strings.Contains(text, "at hand in the car") || strings.Contains(text, "parking permit along"), "%v", c)
		}
	}
}

// A copy of the page that was made for a hospital says that hospital's numbers and signs without
// a plan too; one that was made for nobody says that its number is not for everywhere.
func TestAPageOfAHospitalWithoutAPlan(t *testing.T) {
	v := guide.Voice{Book: guide.Open("en")}
	require.True(t, page.NewCalls(v, nil, "").NoPlan)
	require.Contains(t, page.Frame("en", page.Assets{}), "911 is the number in the United States")
	const number = plan.MaxProgram - 2
	p := ofHospital(t)
	known := plan.Known{Zone: p.Zone, Program: p.Program, Given: plan.ParkingPass, Lines: []plan.Line{p.Lines[0],
		{ID: plan.FirstKnownLine + 9, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel yet"}}}
	known.Program.Number = number
	known.Program.Texts[plan.EmergencyNumber] = "112"
	require.True(t, known.Program.Set(plan.HomeDays, 10))
	plan.Programs[number], plan.Home = known, number
	t.Cleanup(func() { delete(plan.Programs, number); plan.Home = 0 })
	text := pageText(t, page.Frame("en", page.Assets{}))
	for _, want := range []string{
		"Call 112 now", "a rash with trouble swallowing", "555-0142", "weekdays 8 to 4:30", "At other times: 555-0143", "nurse on call", "Do not kneel yet",
		"10 days before surgery", "Put the parking permit in the car", "the garage on Mill Street, level 2",
	} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "is the number in the United States")
	require.NotContains(t, text, "911")
}
