package merge

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
)

// The form is ours; each line was written down by hand from what LineText says of it.
func TestTheTextOfALine(t *testing.T) {
	for value, want := range map[string]plan.Line{
		"5 Reading lamp":      {List: plan.Packing, Day: plan.NoDay, Text: "Reading lamp"},
		"0-3 Ask Mr. Ode":     {List: plan.Ready, Day: -3, Text: "Ask Mr. Ode"},
		"6h+0 Bring the card": {List: plan.SurgeryDay, Day: 0, Hospital: true, Text: "Bring the card"},
		"12h Do not kneel":    {List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel"},
		"10+21 -3 h + x":      {List: plan.Therapy, Day: 21, Text: "-3 h + x"},
	} {
		got, ok := ReadLine(value)
		require.True(t, ok, value)
		require.Equal(t, want, got)
		require.Equal(t, value, LineText(want))
	}
}

// One line has one text, and nothing else is one.
func TestWhatIsNoLine(t *testing.T) {
	for _, value := range []string{
		"", "5", "5 ", " lamp", "lamp", "x lamp", "05 lamp", "5+03 lamp", "5+ lamp", "5- lamp", "5-0 lamp", "5H lamp", "5hh lamp", "5+1h lamp",
		"5  lamp", "5 lamp ", "5 la\nmp", "5 la\u202emp", "-1 lamp", "64 lamp", "5+401 lamp", "5-401 lamp", "5+-3 lamp", "5-32768 lamp",
		"12 Do not kneel", "12h+1 Do not kneel", "5 " + strings.Repeat("x", plan.MaxText+1), "5 " + strings.Repeat("🙂", 98), "63 la\x00mp",
	} {
		_, ok := ReadLine(value)
		require.False(t, ok, "%q", value)
	}
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.String(), rapid.StringMatching(`[0-9]{1,2}h?([+-][0-9]{1,3})? [a-z ]{1,5}`)).Draw(t, "value")
		if l, ok := ReadLine(value); ok {
			require.Equal(t, value, LineText(l))
			require.LessOrEqual(t, len(value), MaxUnknown, "older pages keep no longer one")
			if l.List < plan.ListEnd {
				require.Empty(t, plan.CheckLine(&l))
			}
		}
	})
	longest := LineText(plan.Line{List: maxList, Hospital: true, Day: -plan.MaxLineDays, Text: strings.Repeat("x", plan.MaxLineBytes)})
	require.LessOrEqual(t, len(longest), MaxUnknown)
}

// Removing and changing at once: the change survives, and so does what was ticked. A line
// that only was ticked meanwhile is gone.
func TestALineTakenOutAndChangedAtOnce(t *testing.T) {
	lamp := plan.Line{ID: 5, List: plan.Packing, Day: plan.NoDay, Text: "lamp"}
	start := New(rosa(t)).with(dana, func(p *plan.Plan) { *p = p.WithLine(lamp) })
	out := start.with(luis, func(p *plan.Plan) { *p = p.WithoutLine(5) })
	require.Empty(t, out.Plan().Lines)
	changed := start.with(ann, func(p *plan.Plan) { *p = p.WithLine(plan.Line{ID: 5, List: plan.Packing, Day: -1, Text: "big lamp"}) })
	ticked := start.with(dana, func(p *plan.Plan) { done := lamp; done.Done = true; *p = p.WithLine(done) })
	require.Equal(t, []plan.Line{{ID: 5, List: plan.Packing, Day: -1, Text: "big lamp"}}, inAnyOrder(t, out, changed).Plan().Lines)
	require.Empty(t, inAnyOrder(t, out, changed).asked())
	require.Empty(t, inAnyOrder(t, out, ticked).Plan().Lines)
	all := inAnyOrder(t, out, changed, ticked)
	require.True(t, all.Plan().Lines[0].Done)
	require.NoError(t, all.Check())
}

// Two who change one line are asked; the words of both are there.
func TestALineChangedTwice(t *testing.T) {
	start := New(rosa(t)).with(dana, func(p *plan.Plan) {
		*p = p.WithLine(plan.Line{ID: 5, List: plan.Packing, Day: plan.NoDay, Text: "lamp"})
	})
	says := func(a Actor, text string) *Doc {
		return start.with(a, func(p *plan.Plan) { *p = p.WithLine(plan.Line{ID: 5, List: plan.Packing, Day: plan.NoDay, Text: text}) })
	}
	both := inAnyOrder(t, says(luis, "two lamps"), says(ann, "no lamp"))
	k := Key{Field: Line, Sub: 5}
	require.ElementsMatch(t, []string{"5 two lamps", "5 no lamp"}, both.values(k))
	require.Equal(t, k, both.Questions()[0].Key)
	require.Equal(t, "no lamp", both.Settle(dana, k, "5 no lamp").Plan().Lines[0].Text)
	require.Empty(t, both.Settle(dana, k, "5 no lamp").Questions())
}

// A line of a list that only later pages know is kept, and is not shown.
func TestALineOfALaterPage(t *testing.T) {
	d := joinAll(t, New(rosa(t)), New(rosa(t)))
	k := Key{Field: Line, Sub: 9}
	d.Set(k, []Version{{Stamp{Maker, 1}, strconv.Itoa(int(plan.ListEnd)) + "h+2 later"}})
	require.NoError(t, d.Check())
	require.True(t, d.Newer())
	require.Empty(t, d.Plan().Lines)
	changed := d.with(dana, func(p *plan.Plan) {
		p.Helpers, p.Cover, p.Ticked = nil, [5]uint8{}, nil
		*p = p.WithLine(plan.Line{ID: 10, List: plan.Ready, Day: plan.NoDay, Text: "x"})
	})
	require.Equal(t, d.Get(k), changed.Get(k))
}

// A program that comes with the page and sets a fever can have it taken back, to nothing.
func TestANumberWithoutCommonPracticeTakenBack(t *testing.T) {
	const number = plan.MaxProgram
	known := plan.Known{Zone: "America/Chicago"}
	known.Program.Number = number
	known.Program.Set(plan.Fever, 1010)
	plan.Programs[number] = known
	defer delete(plan.Programs, number)
	p := rosa(t)
	p.Program = known.Program
	d := New(p)
	p.Program.Clear(plan.Fever)
	d = d.Change(dana, p)
	require.NoError(t, d.Check())
	shown := d.Plan()
	require.False(t, shown.Program.Own(plan.Fever))
	shows(t, p, d)
}

// A number is not given out again before a thousand acts have passed, and none that a
// register has.
func TestFreshLines(t *testing.T) {
	d := New(rosa(t))
	require.Equal(t, []uint32{41, 42, 43}, d.FreshLines(Maker, 3), "40 can have been used by making it")
	require.Equal(t, []uint32{1, 2, 3}, NewDoc(7).FreshLines(Maker, 3))
	require.Equal(t, uint32(luis)<<plan.NthBits|1, d.FreshLines(luis, 1)[0])
	d = d.with(Maker, func(p *plan.Plan) { *p = p.WithLine(plan.Line{ID: 41, List: plan.Ready, Day: plan.NoDay, Text: "x"}) })
	d = d.with(Maker, func(p *plan.Plan) { *p = p.WithoutLine(41) })
	require.NotContains(t, d.FreshLines(Maker, 1), uint32(41))
	for i := range uint32(1 << plan.NthBits) {
		if i != 0 && i != 700 {
			d.Set(Key{Field: Line, Sub: i}, []Version{{Stamp{Maker, 1}, "0 x"}})
		}
	}
	require.Equal(t, []uint32{700}, d.FreshLines(Maker, 5), "no more than there are, and never 0")
}

// More lines than a plan may have can come together; the first are shown, none are lost.
func TestMoreLinesThanAPlanMayHave(t *testing.T) {
	start := New(rosa(t))
	many := func(a Actor) *Doc {
		return start.with(a, func(p *plan.Plan) {
			for _, id := range start.FreshLines(a, plan.MaxLines) {
				*p = p.WithLine(plan.Line{ID: id, List: plan.Ready, Day: plan.NoDay, Text: "x"})
			}
		})
	}
	both := inAnyOrder(t, many(luis), many(ann))
	require.Len(t, both.Plan().Lines, plan.MaxLines)
	require.NoError(t, both.Check())
	p := both.Plan()
	for _, problem := range plan.Check(&p, p.Surgery) {
		require.NotEqual(t, plan.LinesMany, problem.Code)
	}
}
