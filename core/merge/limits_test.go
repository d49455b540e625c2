package merge

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// What a newer page wrote is kept, joined and asked about by newer pages only.
func TestUnknownFields(t *testing.T) {
	start := New(rosa(t))
	later := Key{Field: FirstUnknown, Of: 3, Sub: 9, Name: "any bytes \x00"}
	newer := func(a Actor, value string) *Doc {
		d := start.with(a, func(p *plan.Plan) { p.Drive = 41 })
		d.Set(later, []Version{{Stamp{a, 1}, value}})
		return d
	}
	both := inAnyOrder(t, newer(luis, "x"), newer(ann, "\xff"), start)
	require.Equal(t, []string{"x", "\xff"}, both.values(later))
	require.True(t, both.Newer())
	require.False(t, start.Newer())
	require.Empty(t, both.asked())
	changed := both.with(dana, func(p *plan.Plan) { p.Helpers, p.Cover, p.Ticked = nil, [5]uint8{}, nil })
	require.Equal(t, both.Get(later), changed.Get(later), "an older page leaves it as it is")
	for _, k := range []Key{{Field: Fact, Sub: 31}, {Field: Setting, Sub: 63}, {Field: Cover, Sub: 31}} {
		d := joinAll(t, start, start)
		d.Set(k, []Version{{Stamp{Maker, 1}, "1"}})
		require.True(t, d.Newer(), "%s", k)
		require.NoError(t, d.Check(), "%s", k)
		shows(t, start.Plan(), d)
	}
}

// Revisions are a grow-only counter (G-Counter, Shapiro et al., INRIA RR-7506): each device
// adds to its own count, and all of them together count.
func TestMovesAreCounted(t *testing.T) {
	start := New(rosa(t))
	once := func(p *plan.Plan) { p.Revision++; p.Duties[0].Revision += 2 }
	a := start.with(luis, once)
	b := start.with(ann, once).with(ann, once)
	both := inAnyOrder(t, a, b)
	require.EqualValues(t, 3, both.Plan().Revision)
	require.EqualValues(t, 6, both.Plan().Duties[0].Revision)
	require.Empty(t, both.asked())
	lower := both.with(dana, func(p *plan.Plan) { p.Revision = 1 })
	require.EqualValues(t, 1, lower.Plan().Revision, "what is written in place of all counts is shown")
	most := start.with(luis, func(p *plan.Plan) { p.Revision = 1<<16 - 1 })
	require.EqualValues(t, 1<<16-1, inAnyOrder(t, most, b).Plan().Revision, "it stops at the greatest")
}

func TestNamesThatDifferInCapitals(t *testing.T) {
	p := rosa(t)
	p.Helpers, p.Cover = nil, [5]uint8{}
	start := New(p)
	named := func(a Actor, name string) *Doc {
		return start.with(a, func(p *plan.Plan) { p.Helpers = []string{name}; p.Cover[1] = 1; p.Duties[0].Who = 1 })
	}
	both := inAnyOrder(t, named(luis, "grandma"), named(ann, "Grandma"))
	shown := both.Plan()
	require.Equal(t, []string{"Grandma"}, shown.Helpers, "one helper, under the spelling that comes first")
	require.EqualValues(t, 1, shown.Cover[1])
	require.EqualValues(t, 1, shown.Duties[0].Who)
}

// Somebody is taken off the list while another gives them a ride: they are back, and have it.
func TestAHelperTakenOffAndGivenSomething(t *testing.T) {
	start := New(rosa(t))
	off := start.with(luis, func(p *plan.Plan) { p.Helpers = p.Helpers[:2] })
	given := start.with(dana, func(p *plan.Plan) { p.Duties[1].Who = 3 })
	both := inAnyOrder(t, off, given).Plan()
	require.Equal(t, []string{"Dana", "Luis", "Ann"}, both.Helpers)
	require.Equal(t, "Ann", both.Helper(both.Duties[1].Who))
}

// Two copies can have more together than a plan may: the first are shown, none are lost.
func TestMoreThanAPlanMayHave(t *testing.T) {
	start := New(rosa(t))
	helpers := func(a Actor, letter string) *Doc {
		return start.with(a, func(p *plan.Plan) {
			for i := len(p.Helpers); i < 40; i++ {
				p.Helpers = append(p.Helpers, letter+strconv.Itoa(i))
			}
		})
	}
	both := joinAll(t, helpers(luis, "a"), helpers(ann, "b"))
	require.Len(t, both.Plan().Helpers, plan.MostHelpers)
	require.Error(t, both.Check(), "it cannot be sent until somebody is taken off")
	less := both.with(dana, func(p *plan.Plan) { p.Helpers = p.Helpers[:10] })
	require.Len(t, less.Plan().Helpers, 10)
	require.NoError(t, less.Check(), "taking some off takes off those too that are not shown")

	ticks := func(a Actor, code int) *Doc {
		return start.with(a, func(p *plan.Plan) {
			for i := range plan.MaxTicks - 10 {
				*p = p.WithTick(plan.Tick{Code: uint16(code + i)}, true)
			}
		})
	}
	both = joinAll(t, ticks(luis, 1000), ticks(ann, 5000))
	require.Len(t, both.Plan().Ticked, plan.MaxTicks)
	shows(t, both.Plan(), joinAll(t, ticks(ann, 5000), ticks(luis, 1000)))
	last := Key{Field: Tick, Sub: uint32(5000+plan.MaxTicks-11) << 8}
	require.NotEmpty(t, both.Get(last), "it stays in the document")

	duties := func(a Actor) *Doc {
		return start.with(a, func(p *plan.Plan) {
			for range plan.MaxDuties {
				d := p.Duties[1]
				d.ID = p.FreshDuty(uint32(a))
				*p = p.WithDuty(d)
			}
		})
	}
	both = inAnyOrder(t, duties(luis), duties(ann))
	require.Len(t, both.Plan().Duties, 2+2*plan.MaxDuties)
}

// Whose a device is only that device says, and nobody is asked.
func TestWhoseADeviceIs(t *testing.T) {
	start := New(rosa(t))
	d := start.WithHand(luis, "Luis")
	require.Equal(t, "Luis", d.HandOf(luis))
	require.Same(t, d, d.WithHand(luis, "Luis"))
	require.Empty(t, d.WithHand(luis, "").HandOf(luis))
	both := inAnyOrder(t, d, start.WithHand(luis, "Ann")) // one number used twice
	require.NotEmpty(t, both.HandOf(luis))
	require.Empty(t, both.asked())
}

// A device whose numbers are used up writes under the next device's.
func TestADeviceWithoutNumbersLeft(t *testing.T) {
	for _, test := range []struct{ a, next Actor }{{Maker, FirstActor}, {luis, luis + 1}, {LastActor, FirstActor}} {
		d := New(rosa(t))
		d.SetSeen(Stamp{test.a, LastN})
		d = d.with(test.a, func(p *plan.Plan) { p.Drive = 50 })
		require.Equal(t, Stamp{test.next, 1}, d.Writer(Key{Field: Drive}))
		require.NoError(t, d.Check())
	}
}
