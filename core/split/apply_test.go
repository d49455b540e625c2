package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// randomLines are any lines for any duties, whether anybody can do them or not; of dates that
// share a register all have one.
func randomLines(r *rand.Rand, s *schedule.Schedule) []Line {
	chosen := map[register]uint8{}
	var lines []Line
	most := 1 + r.Intn(6)
	for i := range s.Duties {
		reg := registerOf(&s.Duties[i])
		to, known := chosen[reg]
		if !known {
			if r.Intn(6) > most {
				continue
			}
			to = uint8(r.Intn(len(s.Plan.Helpers) + 1))
			chosen[reg] = to
		}
		lines = append(lines, Line{Duty: i, From: s.Who(&s.Duties[i]), To: to})
	}
	return lines
}

// Who has a date is who the lines say, and of every other date who had it before. The plan
// that was given keeps its own, and what comes out is a sound plan.
func TestApplyWritesExactlyWhatWasAccepted(t *testing.T) {
	r := rand.New(rand.NewSource(10))
	for range 600 {
		p := randomFamily(t, r)
		s := build(t, p)
		lines := randomLines(r, s)
		want := map[register]uint8{}
		for i := range s.Duties {
			want[registerOf(&s.Duties[i])] = s.Who(&s.Duties[i])
		}
		for _, l := range lines {
			want[registerOf(&s.Duties[l.Duty])] = l.To
		}
		was := build(t, p).Plan
		q := Apply(p, s, time.Time{}, lines)
		require.Equal(t, was, p)
		then := build(t, q)
		require.Len(t, then.Duties, len(s.Duties))
		for i := range then.Duties {
			reg := registerOf(&then.Duties[i])
			require.Equal(t, want[reg], then.Who(&then.Duties[i]), "%v", reg)
		}
		require.Equal(t, p, Apply(p, s, time.Time{}, nil), "no line, no change")
		require.Equal(t, q, Apply(q, s, time.Time{}, lines), "accepted twice is accepted once")
	}
}

// spent counts the registers in which two duties differ, and the settings of the second.
func spent(old, now *plan.Duty) (c cost) {
	c.count(old.Who != now.Who, now.Who != 0)
	for i := range old.On {
		c.count(old.On[i] != now.On[i], now.On[i] != 0)
	}
	has := func(d *plan.Duty, day wall.Date) (uint8, bool) {
		for _, t := range d.Takes {
			if t.Day == day {
				return t.Who, true
			}
		}
		return 0, false
	}
	for day := old.Rule.First - 1; day < old.Rule.First+60; day++ {
		a, inOld := has(old, day)
		b, inNow := has(now, day)
		c.count(inOld != inNow || a != b, inNow)
	}
	return c
}

// Of all settings of a duty that say the same, tried one by one, none writes fewer registers,
// and none that writes as few leaves fewer.
func TestApplyWritesTheFewestSettings(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	for range 150 {
		p := family(t, func(p *plan.Plan) {
			d := therapy(1, weekly(p.Surgery+6, 630, 1+r.Intn(7), time.Monday, time.Thursday))
			d.Who, d.On[time.Monday], d.On[time.Thursday] = uint8(r.Intn(3)), uint8(r.Intn(3)), uint8(r.Intn(3))
			days, _ := d.Rule.Pattern()
			for _, day := range days {
				if r.Intn(3) == 0 {
					d.Takes = append(d.Takes, plan.Take{Day: day, Who: uint8(r.Intn(3))})
				}
			}
			p.Duties = []plan.Duty{d}
		})
		s := build(t, p)
		old := &p.Duties[0]
		got := Apply(p, s, time.Time{}, randomLines(r, s)).Duties[0]
		least := spent(old, &got)
		days, _ := old.Rule.Pattern()
		for try := range 27 {
			d := *old
			d.Who, d.On[time.Monday], d.On[time.Thursday] = uint8(try%3), uint8(try/3%3), uint8(try/9)
			for which := range 1 << len(days) { // the dates that are settings of their own
				d.Takes = nil
				for i, day := range days {
					if which>>i&1 != 0 {
						d.Takes = append(d.Takes, plan.Take{Day: day, Who: got.WhoHas(day)})
					}
				}
				same := true
				for _, day := range days {
					same = same && d.WhoHas(day) == got.WhoHas(day)
				}
				if same && leavesAlone(old, &d, days, nil) {
					require.False(t, spent(old, &d).below(least), "%+v is less than %+v from %+v", d, got, old)
				}
			}
		}
	}
}

// A whole duty is one setting, a weekday is one, the whole staying at home is one.
func TestApplySaysItShortly(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Duties = []plan.Duty{therapy(1, weekly(p.Surgery+6, 630, 12, time.Monday, time.Wednesday))}
	})
	s := build(t, p)
	lines := func(id string, who func(d *schedule.Duty) uint8) (all []Line) {
		for _, place := range places(s, id) {
			all = append(all, Line{Duty: place, To: who(&s.Duties[place])})
		}
		return all
	}
	whole := Apply(p, s, time.Time{}, lines("therapy", func(*schedule.Duty) uint8 { return 2 })).Duties[0]
	require.EqualValues(t, 2, whole.Who)
	require.False(t, whole.Shared())
	mixed := Apply(p, s, time.Time{}, lines("therapy", func(d *schedule.Duty) uint8 {
		return map[bool]uint8{true: 1, false: 2}[d.Day.Weekday() == time.Monday]
	})).Duties[0]
	require.Empty(t, mixed.Takes)
	stay := Apply(p, s, time.Time{}, lines("stay-with", func(d *schedule.Duty) uint8 {
		return map[bool]uint8{true: 1, false: 2}[d.Slot == plan.SlotOf(1, plan.Night)]
	}))
	require.EqualValues(t, 2, stay.Cover[plan.StayWith])
	require.Equal(t, []plan.Shift{{Slot: plan.SlotOf(1, plan.Night), Who: 1}}, stay.Shifts)
}

// What needs more single dates than a duty holds is written as far as it goes, and no date
// outside the lines moves.
func TestApplyStopsAtTheMostDates(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Duties = []plan.Duty{atHome(1, plan.PetCare, 10, daily(p.Surgery, 600, repeat.MaxCount))}
		p.Duties[0].Who = 1
	})
	s := build(t, p)
	var lines []Line
	for k, place := range places(s, "pets") {
		if k%2 == 1 {
			lines = append(lines, Line{Duty: place, From: 1, To: 2})
		}
	}
	require.Len(t, lines, repeat.MaxCount/2)
	q := Apply(p, s, time.Time{}, lines)
	d := &q.Duties[0]
	require.Len(t, d.Takes, plan.MostTakes)
	require.True(t, plan.Usable(plan.Check(&q, q.Surgery)))
	for k, place := range places(s, "pets") {
		want := uint8(1)
		if k%2 == 1 && k < 2*plan.MostTakes {
			want = 2
		}
		require.Equal(t, want, d.WhoHas(s.Duties[place].On.Of))
	}
}
