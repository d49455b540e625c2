package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

const bag, torch = 21, 22

// inTwoLanguages is a phone with a plan whose lines are in English and Spanish.
func inTwoLanguages(t *testing.T) *phone {
	p := started(t)
	q := p.plan()
	line, _ := plan.Line{ID: bag, List: plan.Packing, Day: -1, Hospital: true, Text: "Bring the blue folder"}.WithWording("es", "Lleve la carpeta azul")
	limit, _ := plan.Line{ID: torch, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel yet"}.WithWording("es", "No se arrodille todavía")
	doc, err := link.Decode(p.fragment)
	require.NoError(t, err)
	p.open(link.Encode(doc.Change(merge.Maker, q.WithLine(line).WithLine(limit))))
	return p
}

// A line is read, said and changed in the words of the page's language. Which words stand in the
// form is ours; no published source.
func TestALineInTheReadersLanguage(t *testing.T) {
	p := inTwoLanguages(t)
	item := "item-own-21"
	require.Contains(t, p.part(item), "Bring the blue folder")
	p.language = "es"
	p.send("/")
	require.Contains(t, p.part(item), "Lleve la carpeta azul")
	require.NotContains(t, p.last.HTML, "blue folder")
	require.Equal(t, "Hecho: Lleve la carpeta azul", p.send("/tick", "line", "21", "done", "1").Say)
	p.send("/tick", "line", "21")

	p.send("/line/21")
	require.Equal(t, "Lleve la carpeta azul", p.values()["text"])
	p.send("/line/21", "text", "Lleve la carpeta azul", "day", "", "hospital", "1")
	line := *ptrTo(p.plan()).Line(bag)
	require.Equal(t, plan.NoDay, line.Day)
	require.Equal(t, "Bring the blue folder", line.Text, "only the day was changed")
	require.Equal(t, "Lleve la carpeta azul", line.In("es"))
	p.send("/line/21", "text", "Lleve la carpeta roja", "day", "", "hospital", "1")
	line = *ptrTo(p.plan()).Line(bag)
	require.Equal(t, plan.Line{ID: bag, List: plan.Packing, Day: plan.NoDay, Hospital: true, Text: "Lleve la carpeta roja"}, line, "blue in English would be another thing")
}

// The form of the facts has the limits in the words of the page's language, and takes what was
// not changed for what it was.
func TestLimitsInTheReadersLanguage(t *testing.T) {
	p := inTwoLanguages(t)
	p.language = "es"
	p.send("/facts")
	require.Contains(t, p.last.HTML, "No se arrodille todavía")
	require.NotContains(t, p.last.HTML, "Do not kneel")
	before := p.plan()
	p.send("/facts", facts("limits", "No se arrodille todavía\nNo levante peso")...)
	after := p.plan()
	require.Equal(t, *before.Line(torch), *after.Line(torch))
	require.Len(t, plan.LinesOf(&after, plan.Limits), 2)
	p.send("/facts", facts("limits", "No levante peso")...)
	after = p.plan()
	require.Nil(t, after.Line(torch))
}

// ofProgram is a phone with a plan of a program that brings lines.
func ofProgram(t *testing.T) *phone {
	const number = plan.MaxProgram - 3
	known := plan.Known{Zone: "America/Chicago", Lines: []plan.Line{
		{ID: plan.FirstKnownLine, List: plan.Packing, Day: plan.NoDay, Hospital: true, Text: "Bring the blue folder"},
		{ID: plan.FirstKnownLine + 1, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel yet"},
	}}
	known.Program.Number, known.Program.Hospital = number, "Alder Ferry Hospital"
	plan.Programs[number] = known
	t.Cleanup(func() { delete(plan.Programs, number) })
	p := started(t)
	q := p.plan()
	q.Program = known.Program
	p.open(link.Encode(merge.New(q)))
	return p
}

// A line that comes with the hospital's program can be ticked, and nothing else. That a
// hospital's own instructions are not the family's to change is common practice, no published source.
func TestALineOfTheProgram(t *testing.T) {
	p := ofProgram(t)
	id := number(plan.FirstKnownLine)
	require.Contains(t, p.part("item-own-"+id), "From the hospital")
	require.Contains(t, p.part("item-own-"+id), "About this line")
	p.send("/tick", "line", id, "done", "1")
	require.True(t, ptrTo(p.plan()).Line(plan.FirstKnownLine).Done)
	for _, path := range []string{"/line/" + id, "/line/" + id + "/out", "/line/" + id + "/in-guide"} {
		before := p.fragment
		out := p.send(path, "text", "Bring nothing", "day", "")
		require.Contains(t, out.HTML, "From the program of Alder Ferry Hospital", path)
		require.Contains(t, out.HTML, "Bring the blue folder", path)
		require.NotContains(t, out.HTML, "Bring nothing", path)
		require.NotContains(t, out.HTML, `name="text"`, path)
		require.Equal(t, before, p.fragment, path)
	}
}

// The form of the facts neither drops nor doubles the program's limits.
func TestLimitsOfTheProgramStay(t *testing.T) {
	p := ofProgram(t)
	p.send("/facts")
	require.Contains(t, p.part("told-limits"), "Do not kneel yet")
	require.NotContains(t, p.part("field-limits"), "kneel")
	send := func(limits string) []string {
		p.send("/facts", facts("hospital", "Alder Ferry Hospital", "limits", limits+" ")...) // an empty value is none that is sent
		require.Equal(t, "/", p.path)
		return p.limits()
	}
	require.Equal(t, []string{"Do not kneel yet"}, send(""))
	require.ElementsMatch(t, []string{"Do not kneel yet", "No lifting"}, send("No lifting\nDo not kneel yet"))
	require.Equal(t, []string{"Do not kneel yet"}, send(""))
}

// The hospital's texts go into the family's form and come out of it as they were.
func TestTheFormKeepsTheHospitalsTexts(t *testing.T) {
	p := started(t)
	given := facts("phone", "555-0142", "phone-hours", "weekdays 8 to 4:30", "after-phone", "555-0143", "after-hours", "nurse on call",
		"park-at", "the garage on Mill Street", "check-in", "main entrance", "fact.parking-pass", "1")
	p.send("/facts", given...)
	texts := p.plan().Program.Texts
	require.Equal(t, "weekdays 8 to 4:30|555-0143|nurse on call|the garage on Mill Street|main entrance",
		texts[plan.PhoneHours]+"|"+texts[plan.AfterPhone]+"|"+texts[plan.AfterHours]+"|"+texts[plan.ParkAt]+"|"+texts[plan.CheckIn])
	require.True(t, p.plan().Facts.Has(plan.ParkingPass))
	p.send("/facts")
	var again []string
	for name, value := range p.values() {
		again = append(again, name, value)
	}
	before := p.plan()
	p.send("/facts", append(again, "limits", "")...)
	require.Equal(t, before.Program, p.plan().Program)
	require.Equal(t, before.Facts, p.plan().Facts)
}

func ptrTo[T any](v T) *T { return &v }
