package plan

import (
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// Two phones that add a duty without knowing of each other give it two numbers, and none
// comes twice, whatever was taken out since.
func TestEachDeviceCountsItsOwnDuties(t *testing.T) {
	p, _ := sound(t)
	d := duty(t)
	for _, want := range []struct{ device, id uint32 }{
		{0, 1}, {0, 2}, {64, 64<<10 | 1}, {0, 3}, {64, 64<<10 | 2}, {65, 65<<10 | 1}, {1<<22 - 1, 1<<32 - 1<<10 + 1},
	} {
		require.Equal(t, want.id, p.FreshDuty(want.device), "device %d", want.device)
		d.ID, d.Dropped = want.id, want.id == 2
		p = p.WithDuty(d)
	}
	d.ID = 1<<NthBits - 1
	p = p.WithDuty(d)
	require.Zero(t, p.FreshDuty(0), "it has given out all its numbers")
	require.EqualValues(t, 64<<10|3, p.FreshDuty(64), "the others have not")
	d.ID = 1<<32 - 1
	p = p.WithDuty(d)
	require.Zero(t, p.FreshDuty(1<<22-1), "nor does the last device begin again at 1")
}

// The narrowest answer counts: the date, then the weekday, then the duty. 15 March 2027 is
// a Monday (from a printed calendar).
func TestWhoHasADate(t *testing.T) {
	monday := day(t, "2027-03-15")
	require.Equal(t, time.Monday, monday.Weekday())
	d := duty(t)
	require.Zero(t, d.WhoHas(monday))
	require.False(t, d.Shared())
	d.Who, d.On[time.Wednesday] = 1, 2
	d.Takes = []Take{{monday + 7, 3}, {monday + 9, 0}, {monday + 16, 1}}
	require.True(t, d.Shared())
	for after, want := range map[wall.Date]uint8{0: 1, 1: 1, 2: 2, 7: 3, 8: 1, 9: 0, 14: 1, 16: 1, 23: 2} {
		require.Equal(t, want, d.WhoHas(monday+after), "%d days on", after)
	}
	for who, want := range []bool{true, true, true, true, false} {
		require.Equal(t, want, d.Has(uint8(who)), "helper %d", who)
	}
	d.Takes = d.Takes[:1]
	require.False(t, d.Has(0), "a weekday that is as the duty says is not nobody's")
	e := d
	require.True(t, d.SameWho(e))
	require.True(t, d.Equal(e))
	e.Takes = []Take{{monday + 7, 2}}
	require.False(t, d.SameWho(e))
	require.False(t, d.Equal(e))
	require.True(t, d.SameTimes(e), "who has it is no time")
	e = d
	e.On[time.Friday] = 1
	require.False(t, d.SameWho(e))
}

func TestOnlyHelpersThatThereAreHaveDates(t *testing.T) {
	monday := day(t, "2027-03-15")
	for name, c := range map[string]struct {
		spoil func(*Duty)
		sound bool
	}{
		"nothing":              {func(*Duty) {}, true},
		"two helpers":          {func(d *Duty) { d.Who, d.On[1], d.Takes = 1, 2, []Take{{monday, 0}, {monday + 7, 2}} }, true},
		"a third by weekday":   {func(d *Duty) { d.On[6] = 3 }, false},
		"a third on a date":    {func(d *Duty) { d.Takes = []Take{{monday, 3}} }, false},
		"a date twice":         {func(d *Duty) { d.Takes = []Take{{monday, 1}, {monday, 2}} }, false},
		"dates out of order":   {func(d *Duty) { d.Takes = []Take{{monday + 7, 1}, {monday, 2}} }, false},
		"as many as there may": {func(d *Duty) { d.Takes = takes(monday, MostTakes) }, true},
		"too many":             {func(d *Duty) { d.Takes = takes(monday, MostTakes+1) }, false},
	} {
		p, today := sound(t)
		d := duty(t)
		c.spoil(&d)
		p.Helpers, p.Duties = []string{"Dana", "Luis"}, []Duty{d}
		problems := Check(&p, today)
		require.Equal(t, c.sound, len(problems) == 0, name)
		if !c.sound {
			require.Equal(t, []Problem{{Field: "duty.3.who", Code: DutyUnsound}}, problems, name)
		}
	}
}

func takes(from wall.Date, n int) (all []Take) {
	for i := range n {
		all = append(all, Take{from + wall.Date(i), 1})
	}
	return all
}

// A name gives its place only when it has nothing at all any more, not even one date.
func TestAHelperOfOneDateKeepsTheirPlace(t *testing.T) {
	p, _ := sound(t)
	for i := range MaxHelpers {
		p, _ = p.WithHelper("helper " + strconv.Itoa(i))
	}
	d := duty(t)
	d.Who, d.On[1], d.Takes = 1, 2, []Take{{d.Rule.First, 3}}
	p = p.WithDuty(d)
	_, who := p.WithHelper("Dana")
	require.EqualValues(t, 4, who)
}

// What two copies have together may be more than one form lets in.
func TestJoinedCopiesMayHaveMoreThanForms(t *testing.T) {
	p, today := sound(t)
	for i := range MostHelpers {
		p.Helpers = append(p.Helpers, "helper "+strconv.Itoa(i))
	}
	for i := range MostDuties {
		d := duty(t)
		d.ID, d.Who, d.Rule.Count = uint32(i+1), uint8(i%MostHelpers+1), 2
		p.Duties = append(p.Duties, d)
	}
	require.Empty(t, Check(&p, today))
	_, who := p.WithHelper("Dana")
	require.Zero(t, who, "a form adds nobody to so many")
	_, who = p.WithHelper("Helper 59")
	require.EqualValues(t, 60, who, "but knows them all")
}
