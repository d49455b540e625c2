package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/plan"
)

// A line is added to a list, stands there with a box, a day and whose it is, counts in the
// progress of the list, and can be changed, ticked and taken out. Common practice of lists,
// no published source.
func TestALineOfOnesOwn(t *testing.T) {
	p := started(t)
	progress := func() string { return strings.Join(strings.Fields(p.part("list-pack"))[:8], " ") }
	before := progress()
	out := p.send("/line/add", "list", "pack", "from", "", "text", " Bring  the lamp ", "day", "2026-12-01")
	require.Equal(t, "/", p.path)
	require.Equal(t, "Added to What to pack: Bring the lamp", out.Say)
	l := p.plan().Lines[0]
	require.Equal(t, plan.Line{ID: l.ID, List: plan.Packing, Day: -2, Text: "Bring the lamp"}, l)
	item := "item-own-" + number(l.ID)
	require.Equal(t, item, out.Focus)
	require.Contains(t, p.part(item), "Bring the lamp")
	require.Contains(t, p.part(item), "by Tue, Dec 1")
	require.Contains(t, p.part(item), "Added by the family")
	require.NotEqual(t, before, progress(), "it is counted")
	require.Contains(t, p.part("days"), "Bring the lamp")

	out = p.send("/tick", "line", number(l.ID), "done", "1")
	require.Equal(t, "Done: Bring the lamp", out.Say)
	require.True(t, p.plan().Lines[0].Done)
	require.Contains(t, out.HTML, `id="`+item+`-box" aria-describedby="`+item+`-when" data-send checked`)
	out = p.send("/tick", "line", number(l.ID))
	require.Equal(t, "Not done: Bring the lamp", out.Say)
	require.False(t, p.plan().Lines[0].Done)

	p.send("/line/" + number(l.ID))
	require.Equal(t, "2026-12-01", p.values()["day"])
	require.Equal(t, "Bring the lamp", p.values()["text"])
	out = p.send("/line/"+number(l.ID), "text", "Bring two lamps", "day", "", "hospital", "1", "list", "pack", "from", "")
	require.Equal(t, item, out.Focus)
	require.Equal(t, plan.Line{ID: l.ID, List: plan.Packing, Day: plan.NoDay, Hospital: true, Text: "Bring two lamps"}, p.plan().Lines[0])
	require.Contains(t, p.part(item), "From the hospital")
	require.NotContains(t, p.part("days"), "lamps", "without a day it stands in its list alone")

	out = p.send("/line/"+number(l.ID)+"/out", "list", "pack", "from", "")
	require.Equal(t, "Taken out of What to pack: Bring two lamps", out.Say)
	require.Equal(t, "notice-undo", out.Focus)
	require.Empty(t, p.plan().Lines)
	require.Equal(t, before, progress())
	out = p.send("/line/"+number(l.ID), "text", "again", "day", "")
	require.Equal(t, "Somebody has taken this line out.", out.Say)
}

func number(id uint32) string { return strings.TrimPrefix(dutyPath(id), "/duty/") }

// What is wrong with a line is said at its field, nothing that was typed is lost, and nothing
// is stored.
func TestProblemsOfALine(t *testing.T) {
	for _, c := range []struct{ text, day, field, want string }{
		{"", "2026-12-01", "text", "please write a few words"},
		{"lamp", "2026-02-30", "day", "is not a day of the calendar"},
		{"lamp", "2029-01-01", "day", "more than 400 days from surgery"},
		{strings.Repeat("x", plan.MaxText+1), "", "text", "Use at most 120 characters"},
		{strings.Repeat("🙂", 100), "", "text", "Use at most 97 characters"},
	} {
		p := started(t)
		out := p.send("/line/add", "list", "ready", "from", "/guide/get-ready", "text", c.text, "day", c.day, "hospital", "1")
		require.Contains(t, p.part("problem-"+c.field), c.want)
		require.Equal(t, "problems", out.Focus)
		require.Equal(t, c.text, p.values()["text"])
		require.Equal(t, c.day, p.values()["day"])
		require.Equal(t, "1", p.values()["hospital"])
		require.Contains(t, out.HTML, `name="list" value="ready"`)
		require.Contains(t, out.HTML, `name="from" value="/guide/get-ready"`)
		require.Empty(t, p.plan().Lines)
		p.send("/line/add", "list", "ready", "from", "", "text", "lamp", "day", "")
		l := p.plan().Lines[0]
		p.send("/line/"+number(l.ID), "list", "ready", "from", "", "text", c.text, "day", c.day)
		require.Contains(t, p.part("problem-"+c.field), c.want)
		require.Equal(t, l, p.plan().Lines[0])
	}
}

// A list has an end, and nobody adds to what is no list of the family's.
func TestHowManyLines(t *testing.T) {
	p := started(t)
	for range plan.MaxPerList {
		p.send("/line/add", "list", "ready", "from", "", "text", "again", "day", "")
	}
	require.Len(t, p.plan().Lines, plan.MaxPerList)
	p.send("/line/add", "list", "ready", "from", "", "text", "one too many", "day", "")
	require.Contains(t, p.text(), "This list is full. A list can hold 40 lines of your own.")
	require.Equal(t, "one too many", p.values()["text"])
	p.send("/line/add", "list", "pack", "from", "", "text", "another list", "day", "")
	require.Len(t, p.plan().Lines, plan.MaxPerList+1)
	for _, list := range []string{"limits", "duties", "", "x"} {
		p.send("/line/add", "list", list, "text", "no", "day", "")
		require.Len(t, p.plan().Lines, plan.MaxPerList+1, list)
	}
	p.send("/line/999999", "text", "no", "day", "")
	p.send("/tick", "line", "999999", "done", "1")
	p.send("/tick", "code", "0", "n", "0", "done", "1") // the mark of no step
	require.Len(t, p.plan().Lines, plan.MaxPerList+1)
	require.Empty(t, p.plan().Ticked)
}

// What others add, change, tick and take out is news with their names; a line with a day
// moves along with surgery.
func TestNewsOfLines(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	luis.send("/line/add", "list", "ready", "from", "", "text", "Ask Mr. Ode about the mail", "day", "2026-11-30")
	require.NotContains(t, luis.news(), "lamp", "what a person does is no news to them")
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Luis added to What to pack: Bring the lamp")
	require.Contains(t, dana.news(), "Luis added to Get ready: Ask Mr. Ode about the mail")
	dana.send("/read")
	lamp, mail := dana.plan().Lines[0].ID, dana.plan().Lines[1].ID
	dana.send("/line/"+number(lamp), "text", "Bring two lamps", "day", "", "from", "")
	dana.send("/tick", "line", number(mail), "done", "1")
	luis.open(dana.fragment)
	require.Contains(t, luis.news(), "Changed: Bring the lamp. It now says: Bring two lamps (What to pack, Added by the family) (changed by Dana)")
	require.Contains(t, luis.news(), "Dana ticked: Ask Mr. Ode about the mail")
	luis.send("/read")
	luis.send("/facts", facts("surgery", "2026-12-05")...)
	require.Contains(t, luis.news(), "Ask Mr. Ode about the mail: from Mon, Nov 30 to Wed, Dec 2")
	dana.open(luis.fragment)
	dana.send("/read")
	dana.send("/line/"+number(lamp)+"/out", "from", "")
	luis.open(dana.fragment)
	require.Contains(t, luis.news(), "Taken out of What to pack: Bring two lamps (taken out by Dana)")
	require.Len(t, luis.plan().Lines, 1)
}

// One takes a line out while the other changes it: it stays, as it was changed.
func TestALineTakenOutAndChangedAtOnce(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	dana.open(luis.fragment)
	id := number(dana.plan().Lines[0].ID)
	dana.send("/line/"+id+"/out", "from", "")
	luis.send("/line/"+id, "text", "Bring two lamps", "day", "", "from", "")
	dana.open(luis.fragment)
	require.Equal(t, "Bring two lamps", dana.plan().Lines[0].Text)
	luis.open(dana.fragment)
	require.Equal(t, dana.plan(), luis.plan())
}

// Both change it: they are asked which holds, with both texts.
func TestALineChangedByTwo(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	dana.open(luis.fragment)
	id := number(dana.plan().Lines[0].ID)
	dana.send("/line/"+id, "text", "Bring no lamp", "day", "", "from", "")
	luis.send("/line/"+id, "text", "Bring two lamps", "day", "", "from", "")
	dana.open(luis.fragment)
	require.Contains(t, dana.text(), "Bring no lamp (What to pack, Added by the family)")
	require.Contains(t, dana.text(), "Bring two lamps (What to pack, Added by the family)")
}

// A helper's part holds no own lines, and the hospital's numbers.
func TestAPartHasNoLines(t *testing.T) {
	dana, _ := danaAndLuis(t)
	dana.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	dana.send("/facts", facts("emergency", "112", "rule.fever", "101")...)
	require.Len(t, dana.plan().Lines, 1, "a form without movement limits leaves the lists alone")
	part, _, err := link.DecodePart(link.EncodePart(dana.plan(), "Luis"))
	require.NoError(t, err)
	require.Empty(t, part.Lines)
	require.Equal(t, "112", part.Program.Emergency())
	require.Equal(t, 1010, part.Program.Get(plan.Fever))
}
