package merge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// The lines of a program that only the tests have.
const (
	withLinesOf = plan.MaxProgram - 1
	lampID      = plan.FirstKnownLine
	redID       = plan.FirstKnownLine + 1
)

// hospitalPlan is Rosa's plan under a program that brings a line of the packing list and a sign.
func hospitalPlan(t *testing.T) (plan.Plan, []plan.Line) {
	lamp, _ := plan.Line{ID: lampID, List: plan.Packing, Day: -1, Hospital: true, Text: "Bring the blue folder"}.WithWording("es", "Lleve la carpeta azul")
	red := plan.Line{ID: redID, List: plan.CallNow, Day: plan.NoDay, Hospital: true, Text: "a rash with trouble swallowing"}
	known := plan.Known{Zone: "America/Chicago", Lines: []plan.Line{lamp, red}}
	known.Program.Number = withLinesOf
	plan.Programs[withLinesOf] = known
	t.Cleanup(func() { delete(plan.Programs, withLinesOf) })
	p := rosa(t)
	p.Program, p.Lines = known.Program, known.Lines
	return p, known.Lines
}

// They are shown without a register, and what is ticked of them joins.
func TestLinesThatComeWithAProgram(t *testing.T) {
	p, lines := hospitalPlan(t)
	d := New(p)
	for _, k := range d.Keys() {
		require.False(t, k.ofProgram(), "%s", k)
	}
	require.Equal(t, lines, d.Plan().Lines)
	p.Lines = nil // whoever makes the plan need not know of them
	require.Equal(t, lines, New(p).Plan().Lines)

	done := lines[0]
	done.Done = true
	ticked := d.with(luis, func(p *plan.Plan) { *p = p.WithLine(done) })
	own := d.with(ann, func(p *plan.Plan) {
		*p = p.WithLine(plan.Line{ID: d.FreshLines(ann, 1)[0], List: plan.Ready, Day: plan.NoDay, Text: "x"})
	})
	both := inAnyOrder(t, ticked, own)
	require.NoError(t, both.Check())
	shown := both.Plan()
	require.Len(t, shown.Lines, 3)
	require.True(t, shown.Line(lampID).Done)
	require.Equal(t, "Lleve la carpeta azul", shown.Line(lampID).In("es"))
	for i := range shown.Lines[1:] {
		require.Less(t, shown.Lines[i].ID, shown.Lines[i+1].ID, "in the order of their numbers")
	}
	open := both.with(dana, func(p *plan.Plan) { *p = p.WithLine(lines[0]) })
	require.False(t, open.Plan().Lines[len(open.Plan().Lines)-2].Done)
	require.Empty(t, both.asked())
}

// What a link says of them changes nothing but what is done, and taking one out does neither.
func TestAProgramsLineIsNotAFamilysToChange(t *testing.T) {
	p, lines := hospitalPlan(t)
	d := New(p)
	for k, v := range map[Key]string{
		{Field: Line, Sub: lampID}:                  "5h Bring nothing at all",
		{Field: Line, Sub: redID}:                   "5 Never call",
		{Field: Line, Sub: redID + 7}:               "13h call whom you like",
		{Field: LineWords, Sub: lampID, Name: "es"}: "No lleve nada",
		{Field: LineWords, Sub: redID, Name: "es"}:  "No llame",
	} {
		d.Set(k, []Version{{Stamp{Maker, 1}, v}})
	}
	require.NoError(t, d.Check())
	require.Equal(t, lines, d.Plan().Lines)
	require.Equal(t, lines, d.with(luis, func(p *plan.Plan) { *p = p.WithoutLine(lampID) }).Plan().Lines)
	changed := lines[1]
	changed.Text = "Never call"
	require.Equal(t, lines, d.with(luis, func(p *plan.Plan) { *p = p.WithLine(changed) }).Plan().Lines)
}

// A page without the program keeps what is ticked of its lines, whatever it changes itself.
func TestAPageWithoutTheProgramKeepsItsTicks(t *testing.T) {
	p, lines := hospitalPlan(t)
	done := lines[0]
	done.Done = true
	d := New(p.WithLine(done))
	k := Key{Field: LineDone, Sub: lampID}
	require.NotEmpty(t, d.Get(k))
	known := plan.Programs[withLinesOf]
	delete(plan.Programs, withLinesOf)
	require.Empty(t, d.Plan().Lines)
	changed := d.with(luis, func(p *plan.Plan) { p.Patient, p.Helpers, p.Cover, p.Ticked = "Mom", nil, [5]uint8{}, nil })
	require.Equal(t, d.Get(k), changed.Get(k))
	plan.Programs[withLinesOf] = known
	shown := changed.Plan()
	require.True(t, shown.Line(lampID).Done)
	require.Equal(t, "Mom", shown.Patient)
}

// Wordings join by language; of more than a line has room for, the first by language are shown
// and all are kept. A tag that this page has no folder for is one like others.
func TestWhatALineSaysInOtherLanguages(t *testing.T) {
	start := New(rosa(t)).with(dana, func(p *plan.Plan) {
		*p = p.WithLine(plan.Line{ID: 5, List: plan.Packing, Day: plan.NoDay, Text: "lamp"})
	})
	says := func(a Actor, languages ...string) *Doc {
		return start.with(a, func(p *plan.Plan) {
			l := *p.Line(5)
			for _, tag := range languages {
				l, _ = l.WithWording(tag, "lamp in "+tag)
			}
			*p = p.WithLine(l)
		})
	}
	both := inAnyOrder(t, says(luis, "es", "tlh"), says(ann, "zh-Hant", "vi"))
	require.NoError(t, both.Check())
	shown := both.Plan()
	l := shown.Line(5)
	require.Equal(t, []string{"lamp in es", "lamp in tlh", "lamp in vi", "lamp"}, []string{l.In("es"), l.In("tlh"), l.In("vi"), l.In("zh-Hant")})
	require.Len(t, both.Get(Key{Field: LineWords, Sub: 5, Name: "zh-Hant"}), 1, "kept")
	require.Empty(t, both.asked(), "they follow the line")
	for _, bad := range []Key{{Field: LineWords, Sub: 5}, {Field: LineWords, Name: "es"}, {Field: LineWords, Sub: 5, Name: "e s"}, {Field: LineWords, Sub: 5, Name: "es-es-es-es-es"}} {
		d := joinAll(t, both)
		d.Set(bad, []Version{{Stamp{Maker, 1}, "x"}})
		require.Error(t, d.Check(), "%s", bad)
	}
}
