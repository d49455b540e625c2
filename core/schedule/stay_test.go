package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// slots lists the parts of staying with the patient: branch, slot, times, and * where
// somebody must be there.
func (s *Schedule) slots() []string {
	var all []string
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Kind == Stay {
			text := [...]string{"always", "same day", "one night"}[d.Branch] + " " + [...]string{"morning", "afternoon", "night"}[d.Slot.Part()] +
				" " + string('0'+rune(d.Slot.Day())) + ": " + span(d.There) + " – " + span(d.Ends)
			if d.Open {
				text += " at the earliest"
			}
			if d.Must {
				text += " *"
			}
			all = append(all, text)
		}
	}
	return all
}

// The borders at 08:00, 14:00 and 20:00 and the 72 hours are ours (common practice, no
// published source). The first 24 hours must be: ASA, Anesthesia & You, and 42 CFR
// 416.52(c)(3) for the escort. Home at 10:40 to 11:00, as in TestMorningDischarge.
func TestStayInParts(t *testing.T) {
	s := build(t, family(t))
	require.Equal(t, []string{
		"one night morning 1: 2027-03-10 10:40 to 2027-03-10 11:00 – 2027-03-10 14:00 *",
		"one night afternoon 1: 2027-03-10 14:00 – 2027-03-10 20:00 *",
		"one night night 1: 2027-03-10 20:00 – 2027-03-11 08:00 *",
		"one night morning 2: 2027-03-11 08:00 – 2027-03-11 14:00 *",
		"one night afternoon 2: 2027-03-11 14:00 – 2027-03-11 20:00",
		"one night night 2: 2027-03-11 20:00 – 2027-03-12 08:00",
		"one night morning 3: 2027-03-12 08:00 – 2027-03-12 14:00",
		"one night afternoon 3: 2027-03-12 14:00 – 2027-03-12 20:00",
		"one night night 3: 2027-03-12 20:00 – 2027-03-13 08:00",
		"one night morning 4: 2027-03-13 08:00 – 2027-03-13 10:40 to 2027-03-13 11:00",
	}, s.slots())
	require.Len(t, s.Presence(), 1)
	require.Equal(t, "2027-03-10 10:40 to 2027-03-11 11:00", span(s.Presence()[0].Must))
	require.Equal(t, "2027-03-10 10:40 to 2027-03-13 11:00", span(s.Presence()[0].Whole))
}

// Of an undecided stay a part that both ways need is one duty, and holds both.
func TestStayUndecided(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.Undecided }))
	slots := s.slots()
	require.Equal(t, []string{
		"same day morning 0: 2027-03-09 09:10 – 2027-03-09 14:00 *",
		"same day afternoon 0: 2027-03-09 14:00 – 2027-03-09 20:00 *",
		"same day night 0: 2027-03-09 20:00 – 2027-03-10 08:00 *",
		"always morning 1: 2027-03-10 08:00 to 2027-03-10 11:00 – 2027-03-10 14:00 *",
		"always afternoon 1: 2027-03-10 14:00 – 2027-03-10 20:00 *",
		"always night 1: 2027-03-10 20:00 – 2027-03-11 08:00 *",
		"always morning 2: 2027-03-11 08:00 – 2027-03-11 14:00 *",
	}, slots[:7])
	require.Equal(t, []string{
		"always morning 3: 2027-03-12 08:00 – 2027-03-12 09:10 to 2027-03-12 14:00", // on the same day at least until 09:10
		"one night afternoon 3: 2027-03-12 14:00 – 2027-03-12 20:00",
		"one night night 3: 2027-03-12 20:00 – 2027-03-13 08:00",
	}, slots[9:12])
	require.Equal(t, "one night morning 4: 2027-03-13 08:00 – 2027-03-13 10:40 to 2027-03-13 11:00", slots[len(slots)-1])
	require.Len(t, s.Presence(), 2)
}

// Going home on the day has no end, and neither has its last part. Somebody must be there
// for 24 hours from midnight at the latest, since the day is over then.
func TestStaySameDay(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.SameDay }))
	slots := s.slots()
	require.Equal(t, "same day morning 0: 2027-03-09 09:10 – 2027-03-09 14:00 *", slots[0])
	require.Equal(t, "same day night 1: 2027-03-10 20:00 – 2027-03-11 08:00 *", slots[5])
	require.Equal(t, "same day morning 2: 2027-03-11 08:00 – 2027-03-11 14:00", slots[6])
	require.Equal(t, "same day morning 3: 2027-03-12 08:00 – 2027-03-12 09:10 at the earliest", slots[len(slots)-1])
	require.Equal(t, "2027-03-09 09:10 to 2027-03-12 09:10", span(s.Presence()[0].Whole))
}

// nights adds a duty of the family: so many nights from a day on.
func nights(t *testing.T, first string, at wall.Clock, length, times int) func(*plan.Plan) {
	return func(p *plan.Plan) {
		r := repeat.Rule{First: day(t, first), At: at, Freq: repeat.Daily, Every: 1, Count: times}
		*p = p.WithDuty(plan.Duty{ID: uint32(len(p.Duties) + 1), Kind: plan.Nights, Rule: r.Canonical(), Length: length,
			Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}})
	}
}

// A night of the family's takes the slot's place. What is left of it goes with the parts
// beside it.
func TestANightTakesTheSlotsPlace(t *testing.T) {
	s := build(t, family(t, nights(t, "2027-03-10", 21*60, 10*60, 1), nights(t, "2027-03-11", 20*60, 12*60, 1), nights(t, "2027-03-12", 19*60, 12*60, 1)))
	require.Equal(t, []string{
		"one night morning 1: 2027-03-10 10:40 to 2027-03-10 11:00 – 2027-03-10 14:00 *",
		"one night afternoon 1: 2027-03-10 14:00 – 2027-03-10 21:00 *",
		"one night morning 2: 2027-03-11 07:00 – 2027-03-11 14:00 *",
		"one night afternoon 2: 2027-03-11 14:00 – 2027-03-11 20:00",
		"one night morning 3: 2027-03-12 08:00 – 2027-03-12 14:00",
		"one night afternoon 3: 2027-03-12 14:00 – 2027-03-12 19:00",
		"one night morning 4: 2027-03-13 07:00 – 2027-03-13 10:40 to 2027-03-13 11:00",
	}, s.slots())
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Family != nil {
			require.Equal(t, d.Family.ID == 1, d.Must, "the first night is in the hours in which somebody must be there")
		}
	}
	dropped := s.Plan
	for _, d := range s.Plan.Duties {
		d.Dropped = true
		dropped = dropped.WithDuty(d)
	}
	require.Len(t, build(t, dropped).slots(), 10)
}

// Parts of up to an hour go with the one beside them.
func TestShortParts(t *testing.T) {
	home := func(there wall.Clock) []string {
		return build(t, family(t, func(p *plan.Plan) {
			p.Program.Set(plan.DischargeThere, int(there))
			p.Program.Set(plan.DischargeLeave, int(there))
		})).slots()
	}
	slots := home(12*60 + 30) // home at 13:10 to 13:30
	require.Equal(t, "one night afternoon 1: 2027-03-10 13:10 to 2027-03-10 13:30 – 2027-03-10 20:00 *", slots[0])
	require.Equal(t, "one night morning 4: 2027-03-13 08:00 – 2027-03-13 13:10 to 2027-03-13 13:30", slots[len(slots)-1])
	slots = home(13*60 + 10) // home at 13:50 to 14:10, over the border
	require.Equal(t, "one night afternoon 1: 2027-03-10 13:50 to 2027-03-10 14:10 – 2027-03-10 20:00 *", slots[0])
	require.Equal(t, "one night morning 4: 2027-03-13 08:00 – 2027-03-13 13:50 to 2027-03-13 14:10", slots[len(slots)-1])
	slots = home(20*60 - 30) // home at 20:10 to 20:30
	require.Equal(t, "one night night 1: 2027-03-10 20:10 to 2027-03-10 20:30 – 2027-03-11 08:00 *", slots[0])
	require.Equal(t, "one night afternoon 4: 2027-03-13 14:00 – 2027-03-13 20:10 to 2027-03-13 20:30", slots[len(slots)-1])
}

// Over a change of the clocks the borders stay on the wall, and 72 hours are 72 hours. New
// York, 14 March 2027, as in testdata/zone.
func TestStayOverClockChange(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Surgery = day(t, "2027-03-12") }))
	slots := s.slots()
	require.Contains(t, slots, "one night night 1: 2027-03-13 20:00 – 2027-03-14 08:00 *")
	require.Equal(t, "one night morning 4: 2027-03-16 08:00 – 2027-03-16 11:40 to 2027-03-16 12:00", slots[len(slots)-1])
}

// While the coming home is not known there is one row for each branch that says what is missing.
func TestStayWithoutTimes(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay, p.Drive = plan.Undecided, plan.Unknown }))
	require.Empty(t, s.Presence())
	var needs []Need
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Kind == Stay {
			require.False(t, d.IsSlot())
			require.True(t, d.Must)
			needs = append(needs, d.Needs)
		}
	}
	require.Equal(t, []Need{NeedsDrive, NeedsDrive}, needs)
	s = build(t, family(t, func(p *plan.Plan) { p.Stay, p.Arrival = plan.Undecided, wall.NoClock }))
	require.Len(t, s.Presence(), 1, "the morning after is known")
	require.Equal(t, NeedsArrival, s.duty(t, "stay-with").Needs)
}

func TestWhoHasAPart(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Helpers = []string{"Dana", "Luis"} }).WithCover(plan.StayWith, 1)
	p = p.WithShift(plan.SlotOf(1, plan.Night), 2).WithShift(plan.SlotOf(2, plan.Morning), 0)
	s := build(t, p)
	var who []uint8
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Kind == Stay {
			who = append(who, s.Who(d))
		}
	}
	require.Equal(t, []uint8{1, 1, 2, 0, 1, 1, 1, 1, 1, 1}, who)
}
