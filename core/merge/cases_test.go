package merge

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// What the family of the example does, case by case. That changes to one register which did
// not know of each other are both kept is the MV-Register of Shapiro, Preguiça, Baquero and
// Zawirski, INRIA RR-7506 (2011). Which of two is shown meanwhile, and that a change wins
// against taking out, are our own rules (package comment), with no published source.

func TestBothTookTuesday(t *testing.T) {
	start := New(rosa(t))
	tuesday := day(t, "2027-03-23")
	take := func(a Actor, who uint8) *Doc {
		return start.with(a, func(p *plan.Plan) { p.Duties[0].Takes = []plan.Take{{Day: tuesday, Who: who}} })
	}
	both := inAnyOrder(t, take(luis, 2), take(ann, 3))
	k := Key{Field: Takes, Of: therapyID, Sub: uint32(tuesday)}
	require.Equal(t, []Key{k}, both.asked())
	require.Equal(t, []string{"Luis", "Ann"}, both.values(k))
	require.Equal(t, "Ann", both.Questions()[0].Versions[0].Value, "the greatest stamp is shown, on every phone")
	require.Equal(t, []plan.Take{{Day: tuesday, Who: 3}}, both.Plan().Duties[0].Takes)

	alike := inAnyOrder(t, take(luis, 2), take(ann, 2))
	require.Empty(t, alike.asked(), "two who say the same need not be asked")
	require.Len(t, alike.Get(k), 2)
}

func TestSurgeryAndArrivalChangedApart(t *testing.T) {
	start := New(rosa(t))
	for _, test := range []struct {
		name        string
		field       Field
		one, other  func(p *plan.Plan)
		shown, also string
	}{
		{
			"two days", Surgery,
			func(p *plan.Plan) { p.Surgery++ }, func(p *plan.Plan) { p.Surgery += 7 },
			strconv.Itoa(int(rosa(t).Surgery) + 1), strconv.Itoa(int(rosa(t).Surgery) + 7),
		},
		{
			"two arrivals", Arrival,
			func(p *plan.Plan) { p.Arrival = 9*60 + 5 }, func(p *plan.Plan) { p.Arrival = 10 * 60 }, "545", "600",
		},
	} {
		for _, who := range [][2]Actor{{luis, ann}, {ann, luis}} {
			both := inAnyOrder(t, start.with(who[0], test.one), start.with(who[1], test.other))
			q := both.Questions()
			require.Len(t, q, 1, test.name)
			require.Equal(t, Key{Field: test.field}, q[0].Key, test.name)
			require.Equal(t, test.shown, q[0].Versions[0].Value, "%s: the earlier is shown, whoever wrote it", test.name)
			require.Equal(t, test.also, q[0].Versions[1].Value, test.name)
			require.Equal(t, Stamp{who[0], 1}, both.Writer(Key{Field: test.field}))
		}
	}
}

// An arrival that one takes back while another enters a new one: the new one stays.
func TestAnArrivalTakenBackAndChangedAtOnce(t *testing.T) {
	start := New(rosa(t))
	both := inAnyOrder(t,
		start.with(luis, func(p *plan.Plan) { p.Arrival = wall.NoClock }),
		start.with(ann, func(p *plan.Plan) { p.Arrival = 6 * 60 }))
	require.Equal(t, wall.Clock(6*60), both.Plan().Arrival)
	require.Empty(t, both.asked())
}

func TestTakenOutAndChangedAtOnce(t *testing.T) {
	start := New(rosa(t))
	out := start.with(luis, func(p *plan.Plan) { p.Duties[0].Dropped = true })
	for name, change := range map[string]func(p *plan.Plan){
		"a text":       func(p *plan.Plan) { p.Duties[0].Note = "bring the walker" },
		"who has it":   func(p *plan.Plan) { p.Duties[0].Who = 3 },
		"a date":       func(p *plan.Plan) { p.Duties[0].Rule.Skipped = []wall.Date{day(t, "2027-03-19")} },
		"its revision": func(p *plan.Plan) { p.Duties[0].Revision++ },
	} {
		both := inAnyOrder(t, out, start.with(ann, change))
		require.False(t, both.Plan().Duties[0].Dropped, "%s: the change survives", name)
		require.Equal(t, []Key{ofTherapy(Gone)}, both.asked(), name)
		require.Equal(t, []Version{{Stamp{ann, 1}, ""}, {Stamp{luis, 1}, "1"}}, both.Questions()[0].Versions, name)

		gone := both.Settle(dana, ofTherapy(Gone), "1")
		require.True(t, gone.Plan().Duties[0].Dropped, name)
		kept := both.Settle(dana, ofTherapy(Gone), "")
		require.False(t, kept.Plan().Duties[0].Dropped, name)
		for _, answered := range []*Doc{gone, kept} {
			require.Empty(t, answered.asked(), name)
			same(t, answered, inAnyOrder(t, answered, both, out))
		}
	}
	require.True(t, inAnyOrder(t, out, start).Plan().Duties[0].Dropped, "nobody changed it: it is out")
}

func TestBothTookItOut(t *testing.T) {
	start := New(rosa(t))
	out := func(p *plan.Plan) { p.Duties[0].Dropped = true }
	both := inAnyOrder(t, start.with(luis, out), start.with(ann, out))
	require.True(t, both.Plan().Duties[0].Dropped)
	require.Empty(t, both.asked())
}

func TestTakenOutAndPutBack(t *testing.T) {
	start := New(rosa(t))
	out := start.with(luis, func(p *plan.Plan) { p.Duties[0].Dropped = true })
	back := out.with(luis, func(p *plan.Plan) { p.Duties[0].Dropped = false })
	shows(t, start.Plan(), back)
	require.Empty(t, back.Get(ofTherapy(Gone)))
	same(t, back, inAnyOrder(t, back, out, start))

	again := out.with(ann, func(p *plan.Plan) { p.Duties[0].Dropped = false })
	require.False(t, inAnyOrder(t, back, again).Plan().Duties[0].Dropped)
	lacking := start.with(ann, func(p *plan.Plan) { p.Duties = p.Duties[1:] })
	require.True(t, lacking.Plan().Duties[0].Dropped, "a duty that a plan lacks is taken out and stays, for calendars")
}

// An answer ends the question on every copy that hears of it, also on those that go on.
func TestSettleEndsTheQuestion(t *testing.T) {
	start := New(rosa(t))
	a := start.with(luis, func(p *plan.Plan) { p.Arrival = 6 * 60 })
	b := start.with(ann, func(p *plan.Plan) { p.Arrival = 7 * 60 })
	both := joinAll(t, a, b)
	for _, answer := range []string{"360", "420"} {
		settled := both.Settle(dana, Key{Field: Arrival}, answer)
		require.Empty(t, settled.asked())
		require.Equal(t, answer, strconv.Itoa(int(settled.Plan().Arrival)))
		same(t, settled, inAnyOrder(t, settled, a, b, both))
	}
	goesOn := b.with(ann, func(p *plan.Plan) { p.Drive = 50 })
	require.Empty(t, inAnyOrder(t, both.Settle(dana, Key{Field: Arrival}, "360"), goesOn).asked())
}

func TestSettledTwiceApart(t *testing.T) {
	start := New(rosa(t))
	k := Key{Field: Arrival}
	both := joinAll(t,
		start.with(luis, func(p *plan.Plan) { p.Arrival = 6 * 60 }),
		start.with(ann, func(p *plan.Plan) { p.Arrival = 7 * 60 }))
	require.Empty(t, inAnyOrder(t, both.Settle(dana, k, "360"), both.Settle(otto, k, "360")).asked())
	differ := inAnyOrder(t, both.Settle(dana, k, "360"), both.Settle(otto, k, "420"))
	require.Equal(t, []Key{k}, differ.asked(), "two answers are a question again")
	require.Equal(t, []string{"360", "420"}, differ.values(k))
}

// An answer that cannot be there, or that would take away what every plan has, is none.
func TestAnswersThatCannotBe(t *testing.T) {
	d := New(rosa(t))
	for _, test := range []struct {
		k     Key
		value string
	}{
		{Key{Field: Surgery}, ""}, {Key{Field: Surgery}, "soon"}, {Key{Field: Zone}, "a\nb"}, {ofTherapy(Pattern), ""},
		{ofTherapy(Pattern), "every Tuesday"}, {ofTherapy(Length), ""}, {ofTherapy(Length), "0"}, {ofTherapy(Alive), ""},
		{Key{Field: Gone, Of: 99}, ""}, {Key{Field: Note, Of: 99}, "x"},
	} {
		require.Same(t, d, d.Settle(dana, test.k, test.value), "%s %q", test.k, test.value)
	}
	for _, test := range []struct {
		k     Key
		value string
		holds []string
	}{
		{Key{Field: Arrival}, "", nil}, {Key{Field: Stay}, "", []string{"0"}}, {Key{Field: Patient}, "", []string{""}},
		{Key{Field: Hospital}, "", []string{""}}, {Key{Field: Zone}, "", nil}, {ofTherapy(Kind), "", []string{"0"}},
	} {
		settled := d.Settle(dana, test.k, test.value)
		require.Equal(t, test.holds, settled.values(test.k), "%s", test.k)
		require.NoError(t, settled.Check(), "%s", test.k)
	}
}

// The pattern changes while another leaves a date out: both hold, as far as the new pattern
// has the date. If it does not, the exception is named as idle, and holds again when the
// pattern goes back.
func TestADateAndThePatternAtOnce(t *testing.T) {
	start := New(rosa(t))
	tuesday, friday := day(t, "2027-03-23"), day(t, "2027-03-26")
	out := start.with(luis, func(p *plan.Plan) {
		p.Duties[0].Rule.Skipped = []wall.Date{tuesday, friday}
	})
	only := start.with(ann, func(p *plan.Plan) {
		p.Duties[0].Rule.Days = repeat.DaysOf(2)
	})
	both := inAnyOrder(t, out, only)
	require.Equal(t, []wall.Date{tuesday}, both.Plan().Duties[0].Rule.Skipped)
	require.Equal(t, []Key{{Field: Date, Of: therapyID, Sub: uint32(friday)}}, both.Idle())
	require.Empty(t, start.Idle())
	back := both.with(dana, func(p *plan.Plan) { p.Duties[0].Who = 2 })
	require.Equal(t, both.Idle(), back.Idle(), "what is not shown is left alone")
	later := both.with(dana, func(p *plan.Plan) { p.Duties[0].Rule.At = 11 * 60 })
	require.Empty(t, later.Idle(), "who enters another pattern says anew what is left out")
	require.Equal(t, []wall.Date{tuesday}, later.Plan().Duties[0].Rule.Skipped)
}

// Exceptions that together leave no date: the duty shows its pattern and counts as taken out.
func TestNoDateIsLeft(t *testing.T) {
	p := rosa(t)
	first, second := day(t, "2027-03-16"), day(t, "2027-03-19")
	p.Duties[0].Rule.Count = 2
	p.Duties[0].Rule = p.Duties[0].Rule.Canonical()
	start := New(p)
	skip := func(a Actor, day wall.Date) *Doc {
		return start.with(a, func(p *plan.Plan) { p.Duties[0].Rule.Skipped = []wall.Date{day} })
	}
	both := inAnyOrder(t, skip(luis, first), skip(ann, second))
	shown := both.Plan().Duties[0]
	require.True(t, shown.Dropped)
	require.NoError(t, shown.Rule.Check())
	back := both.with(dana, func(p *plan.Plan) { p.Duties[0].Dropped, p.Duties[0].Rule.Skipped = false, nil })
	require.False(t, back.Plan().Duties[0].Dropped)
	require.NoError(t, back.Check())
}
