package calendar

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
)

// shelf is a calendar that takes files in, as RFC 5546 2.1.5 has it: an event is known by
// UID and RECURRENCE-ID, and a version with a lower SEQUENCE changes nothing.
type shelf struct {
	whole bool // a newer event takes the moved dates of the older one away
	has   map[[2]string]*ical.Component
}

func (s *shelf) take(t testing.TB, file string) {
	if s.has == nil {
		s.has = map[[2]string]*ical.Component{}
	}
	for _, c := range parse(t, file).Children {
		key := [2]string{line(c, "UID"), line(c, "RECURRENCE-ID")}
		if old := s.has[key]; c.Name != "VEVENT" || old != nil && sequence(old) > sequence(c) {
			continue
		}
		if s.whole && key[1] == "" {
			for other := range s.has {
				if other[0] == key[0] {
					delete(s.has, other)
				}
			}
		}
		s.has[key] = c
	}
}

// busy are the times that it shows as taken; notes are those that take no time.
func (s *shelf) times(t testing.TB) (busy, notes map[timed]int) {
	var taken, free []*ical.Component
	for _, c := range s.has {
		if line(c, "TRANSP") == "TRANSPARENT" {
			free = append(free, c)
		} else {
			taken = append(taken, c)
		}
	}
	busy, notes = map[timed]int{}, map[timed]int{}
	for _, x := range expandAll(t, taken, placed) {
		busy[x]++
	}
	for _, x := range expandAll(t, free, placed) {
		notes[x]++
	}
	return busy, notes
}

// ride is one weekly ride in a zone without changes of the clocks, so that each time is
// one date.
func ride(t testing.TB) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.Zone, p.Cover = "Asia/Kathmandu", [5]uint8{3, 3, 3, 3, 3}
		p.Helpers = []string{"Dana", "Lee", "Kim"}
		p.Duties = p.Duties[:1]
		p.Duties[0].Rule = rule(t, "2027-03-15 10:30", "FREQ=WEEKLY;BYDAY=MO,WE,FR;COUNT=18")
	})
}

// Dana has all rides, gives one away, then another, gets them back, and gives all away.
// After each her calendar has her dates as taken, and of the others no more than a note
// that they are not hers; never both for one date.
func TestADateThatIsGivenAwayLeavesTheCalendar(t *testing.T) {
	wednesday := day(t, "2027-03-17")
	for _, whole := range []bool{true, false} {
		p, calendar, memory := ride(t), &shelf{whole: whole}, ""
		step := func(what string, mine int, change func(*plan.Duty)) {
			d := p.Duties[0]
			change(&d)
			d = d.After(p.Duties[0])
			p = p.WithDuty(d)
			var file string
			file, memory = write(t, p, Choice{Who: 1, Alarm: 30}, memory)
			calendar.take(t, file)
			busy, notes := calendar.times(t)
			require.Equal(t, sortedKeys(times(t, p, 1)), sortedKeys(busy), "%s\n%s", what, file)
			require.Len(t, busy, mine, what)
			for x := range notes {
				require.Zero(t, busy[x], "%s: %v is hers and is not", what, x)
			}
			again, same := write(t, p, Choice{Who: 1, Alarm: 30}, memory)
			require.Equal(t, []string{file, memory}, []string{again, same}, what)
			found, err := Read(file, &p, load(t, p.Zone))
			require.NoError(t, err)
			require.Empty(t, found.Left, what)
			for _, d := range found.Duties {
				require.True(t, d.Equal(p.Duties[0]), what)
			}
			require.Equal(t, !p.Duties[0].Dropped, len(found.Duties) == 1, what)
		}
		step("she has all", 18, func(*plan.Duty) {})
		step("one goes to Lee", 17, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: wednesday, Who: 2}} })
		_, notes := calendar.times(t)
		require.Len(t, notes, 1)
		step("another to nobody", 16, func(d *plan.Duty) { d.Takes = append(d.Takes, plan.Take{Day: wednesday + 2}) })
		step("one of hers moves", 16, func(d *plan.Duty) {
			d.Rule.Moved = []repeat.Move{{From: wednesday + 7, To: repeat.Moment{Day: wednesday + 8, At: 900}}}
		})
		step("that goes to Lee", 15, func(d *plan.Duty) { d.Takes = append(d.Takes, plan.Take{Day: wednesday + 7, Who: 2}) })
		step("all Wednesdays are Lee's", 11, func(d *plan.Duty) { d.On[time.Wednesday] = 2 })
		step("a new time", 11, func(d *plan.Duty) { d.Rule.At = 660 })
		step("she has all again", 18, func(d *plan.Duty) { d.On, d.Takes, d.Rule.Moved = [7]uint8{}, nil, nil })
		_, notes = calendar.times(t)
		require.Empty(t, notes)
		step("all go to Lee", 0, func(d *plan.Duty) { d.Who = 2 })
		step("one comes back", 1, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: wednesday, Who: 1}} })
		step("and goes again", 0, func(d *plan.Duty) { d.Takes = nil })
		step("the duty is taken out", 0, func(d *plan.Duty) { d.Dropped = true })
		_, notes = calendar.times(t)
		require.Empty(t, notes, "it is nobody's")
	}
}

// The words of what stays in a calendar fit.
func TestWhatIsLeftOfASharedDutySaysWhatItIs(t *testing.T) {
	p := ride(t)
	before, memory := write(t, p, Choice{Who: 1, Alarm: 30}, "")
	whole := line(events(t, before, "therapy")[0], "UID")
	given := func(change func(*plan.Duty)) plan.Plan {
		d := p.Duties[0]
		change(&d)
		return p.WithDuty(d)
	}
	some := given(func(d *plan.Duty) { d.On[time.Wednesday] = 2 })
	file, after := write(t, some, Choice{Who: 1, Alarm: 30}, memory)
	rest := one(t, file, "Not yours now: Lee: 10:30 Ride to therapy")
	require.Equal(t, []string{whole, "TRANSPARENT", "CONFIRMED", "FREQ=WEEKLY;BYDAY=WE;COUNT=6"},
		[]string{line(rest, "UID"), line(rest, "TRANSP"), line(rest, "STATUS"), line(rest, "RRULE")})
	require.Empty(t, rest.Children, "it does not remind")
	mine := events(t, file, "therapy")[0]
	require.Equal(t, "FREQ=WEEKLY;BYDAY=MO,FR;COUNT=12", line(mine, "RRULE"))
	require.NotEqual(t, whole, line(mine, "UID"))

	file, _ = write(t, p, Choice{Who: 1, Alarm: 30}, after) // all is hers again
	old := one(t, file, "Old entry: Ride to therapy")
	require.Equal(t, []string{line(mine, "UID"), "CANCELLED"}, []string{line(old, "UID"), line(old, "STATUS")})
	require.NotContains(t, file, "Not yours")

	file, _ = write(t, given(func(d *plan.Duty) { d.Who = 2 }), Choice{Who: 1, Alarm: 30}, after) // nothing is
	require.Len(t, events(t, file, "Not yours now: "), 2)
	old = one(t, file, "Not yours now: Ride to therapy")
	require.Equal(t, []string{line(mine, "UID"), "CANCELLED"}, []string{line(old, "UID"), line(old, "STATUS")})

	file, _ = write(t, given(func(d *plan.Duty) { d.On[time.Wednesday], d.Dropped = 2, true }), Choice{Who: 1, Alarm: 30}, after)
	require.NotContains(t, file, "Not yours")
	for _, c := range events(t, file, "therapy") {
		require.Equal(t, "CANCELLED", line(c, "STATUS"))
	}
}

// Two helpers take their files into one calendar, in either order and again and again:
// it has the dates of both (RFC 5546 2.1.5 replaces what has one UID).
func TestTwoHelpersShareACalendar(t *testing.T) {
	r := rand.New(rand.NewSource(5546))
	for n := range 40 {
		p, shelves := ride(t), []*shelf{{whole: true}, {whole: false}}
		memory := map[uint8]string{}
		for range 6 {
			d := p.Duties[0]
			share(r, &d, 2)
			d.Takes = append([]plan.Take{{Day: d.Rule.First, Who: 1}, {Day: d.Rule.First + 2, Who: 2}}, // each always has one
				slices.DeleteFunc(d.Takes, func(k plan.Take) bool { return k.Day <= d.Rule.First+2 })...)
			p = p.WithDuty(d)
			want := times(t, p, 1)
			for x := range times(t, p, 2) {
				want[x]++
			}
			for _, who := range r.Perm(2) {
				who := uint8(who + 1)
				var file string
				file, memory[who] = write(t, p, Choice{Who: who, Alarm: -1}, memory[who])
				for _, s := range shelves {
					s.take(t, file)
				}
			}
			for _, s := range shelves {
				busy, _ := s.times(t)
				require.Equal(t, sortedKeys(want), sortedKeys(busy), "plan %d: %+v", n, d)
			}
		}
	}
}
