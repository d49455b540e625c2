package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// The sentence of the issue that asked for this package: "if Luis could start at 09:30 on
// Wednesdays, 6 more rides are covered".
func TestTheChangeOfTheIssue(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		luis := able()
		luis.Times = []plan.Times{times(plan.Free, p.Surgery, 10*60, 18*60, time.Wednesday)}
		p.About = []plan.About{{Out: true}, luis}
		p.Cover = [5]uint8{2, 2, 2, 2, 2}
		// 10:27 less 55 minutes is 09:32.
		p.Duties = []plan.Duty{therapy(1, weekly(p.Surgery+6, 10*60+27, 6, time.Wednesday))}
	})
	s := build(t, p)
	after := s.Duties[places(s, "therapy")[0]].Leave.Add(-time.Hour)
	proposal := Suggest(s, Ask{Now: after})
	rides := places(s, "therapy")
	require.Equal(t, rides, proposal.Open)
	require.Equal(t, []Change{
		{Who: 2, Why: NotThen, Weekday: int8(time.Wednesday), Clock: 9*60 + 30, Starts: true, Covers: rides},
		{Who: 1, Why: IsOut, Weekday: -1, Covers: rides},
	}, proposal.Changes)
}

// A night begins at 20:00 and ends at 08:00, and the way is twenty minutes: who can from 20:00 to
// 08:00 would have to begin and to end otherwise, over midnight.
func TestTheWayToANight(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		luis := able()
		luis.Away, luis.Times = 20, []plan.Times{times(plan.Free, p.Surgery, 20*60, 8*60, time.Wednesday)}
		p.Helpers, p.About = []string{"Luis"}, []plan.About{luis}
	})
	s := build(t, p)
	changes := Suggest(s, Ask{Now: start(s)}).Changes
	require.NotEmpty(t, changes)
	night := s.Duties[changes[0].Covers[0]]
	require.Equal(t, plan.SlotOf(1, plan.Night), night.Slot)
	require.Equal(t, p.Surgery+1, wall.DateOf(changes[0].Day))
	changes[0].Day, changes[0].Covers = time.Time{}, nil
	require.Equal(t, Change{Who: 1, Why: NotThen, Weekday: -1, Clock: 19*60 + 40, Starts: true, End: 8*60 + 20}, changes[0])
}

// One obstacle each, by hand: what it says, and its clock rounded to the five minutes that are
// needed. The ride takes 09:37 to 12:03.
func TestEachKindOfChange(t *testing.T) {
	wednesday := day(t, "2027-03-17")
	on := func(use plan.TimesUse, from, to wall.Clock) []plan.Times {
		return []plan.Times{times(use, wednesday, from, to, time.Wednesday)}
	}
	noon := time.Wednesday
	for _, c := range []struct {
		name  string
		about func(*plan.About)
		want  Change
	}{
		{"is out", func(a *plan.About) { a.Out = true }, Change{Why: IsOut, Weekday: -1}},
		{"works until eleven", func(a *plan.About) { a.Times = on(plan.Work, 6*60, 11*60) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true}},
		{"works from noon", func(a *plan.About) { a.Times = on(plan.Work, 12*60, 18*60) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 12*60 + 5}},
		{"works all day, the end is nearer", func(a *plan.About) { a.Times = on(plan.Work, 5*60, 13*60) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true}},
		{"works all day, the beginning is nearer", func(a *plan.About) { a.Times = on(plan.Work, 9*60, 18*60) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 12*60 + 5}},
		{"can until noon", func(a *plan.About) { a.Times = on(plan.Free, 6*60, 12*60) }, Change{Why: NotThen, Weekday: int8(noon), Clock: 12*60 + 5}},
		{"works in the middle", func(a *plan.About) { a.Times = on(plan.Work, 10*60, 11*60) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true, End: 12*60 + 5}},
		{"works in two shifts", func(a *plan.About) { a.Times = append(on(plan.Work, 9*60, 10*60), on(plan.Work, 11*60, 18*60)...) }, Change{Why: AtWork, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true, End: 12*60 + 5}},
		{"can, but not for the way", func(a *plan.About) { a.Times = on(plan.Free, 9*60+40, 12*60) }, Change{Why: NotThen, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true, End: 12*60 + 5}},
		{"can from the afternoon", func(a *plan.About) { a.Times = on(plan.Free, 15*60, 20*60) }, Change{Why: NotThen, Weekday: int8(noon), Clock: 9*60 + 35, Starts: true}},
	} {
		p := family(t, func(p *plan.Plan) {
			luis := able()
			c.about(&luis)
			p.Helpers, p.About = []string{"Luis"}, []plan.About{luis}
			ride := therapy(1, weekly(wednesday, 10*60+32, 3, time.Wednesday))
			ride.Length, ride.Steady = 46, true
			p.Duties = []plan.Duty{ride}
		})
		s := build(t, p)
		rides := places(s, "therapy")
		proposal := Suggest(s, Ask{Now: s.Duties[rides[0]].Leave.Add(-time.Hour)})
		c.want.Who, c.want.Covers = 1, rides
		require.Equal(t, []Change{c.want}, proposal.Changes, c.name)
		last := Suggest(s, Ask{Now: s.Duties[rides[2]].Leave.Add(-time.Hour)}).Changes[0]
		require.EqualValues(t, -1, last.Weekday, "of one date it is about that day")
		require.Equal(t, c.want.Clock, last.Clock)
		if c.want.Weekday >= 0 {
			require.Equal(t, wednesday+14, wall.DateOf(last.Day), c.name)
		}
	}
}

// Being away is about one day. What takes two changes is not told, nor one of half a day, nor
// what nobody could change, nor that somebody should drive or lift who cannot.
func TestWhatIsNoSmallChange(t *testing.T) {
	wednesday := day(t, "2027-03-17")
	gone := plan.Times{Use: plan.Gone, Rule: once(wednesday-1, 0), Length: 3 * 24 * 60}
	for _, c := range []struct {
		about plan.About
		want  int
	}{
		{plan.About{Told: true, Can: plan.AllAbilities, Times: []plan.Times{gone}}, 1},
		{plan.About{Told: true, Times: []plan.Times{gone}}, 0},
		{plan.About{Told: true, Out: true}, 0},
		{plan.About{Told: true, Can: plan.AllAbilities &^ plan.CanDrive}, 0},
		{plan.About{Told: true, Can: plan.AllAbilities &^ plan.CanSteady}, 0},
		{plan.About{Told: true, Can: plan.AllAbilities, Times: []plan.Times{times(plan.Free, wednesday, 22*60, 23*60, time.Wednesday)}}, 0},
		{plan.About{Told: true, Can: plan.AllAbilities, Times: []plan.Times{{Use: plan.Free, Rule: once(wednesday+300, 60), Length: 60}}}, 0},
	} {
		p := family(t, func(p *plan.Plan) {
			p.Helpers, p.About = []string{"Luis"}, []plan.About{c.about}
			ride := therapy(1, once(wednesday, 10*60+27))
			ride.Steady = true
			p.Duties = []plan.Duty{ride}
		})
		s := build(t, p)
		ride := places(s, "therapy")
		proposal := Suggest(s, Ask{Now: s.Duties[ride[0]].Leave.Add(-time.Hour)})
		require.Equal(t, ride, proposal.Open)
		require.Len(t, proposal.Changes, c.want, "%+v", c.about)
		if c.want > 0 {
			change := proposal.Changes[0]
			require.Equal(t, IsAway, change.Why)
			require.EqualValues(t, -1, change.Weekday)
			require.Equal(t, wednesday, wall.DateOf(change.Day))
		}
	}
}

// What is covered is not given up for what a change would cover: Luis has a meal at the time of
// the cat's, and nobody else is there to take it.
func TestNothingIsGivenUpForAChange(t *testing.T) {
	for mealAt, want := range map[wall.Clock]int{10 * 60: 0, 14 * 60: 1} {
		p := family(t, func(p *plan.Plan) {
			luis := able()
			luis.Can &^= plan.CanPets
			p.Helpers, p.About = []string{"Luis"}, []plan.About{luis}
			meal := atHome(2, plan.Meals, 30, once(p.Surgery+10, mealAt))
			meal.Need = plan.NiceToHave
			p.Duties = []plan.Duty{atHome(1, plan.PetCare, 60, once(p.Surgery+10, 10*60)), meal}
		})
		s := build(t, p)
		proposal := Suggest(s, Ask{Now: start(s).AddDate(0, 0, 35)})
		require.Equal(t, places(s, "pets"), proposal.Open)
		require.Len(t, proposal.Changes, want)
	}
}

// A change that is made in the plan itself is worth it: with it the best cover of the whole
// plan is better. Of times it makes more than the change asks for, since those stand in rules;
// the clocks themselves are held above.
func TestChangesKeepTheirWord(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	var made [HasOther + 1]int
	for range 200 {
		p := randomFamily(t, r)
		s := build(t, p)
		ask := randomAsk(r, s)
		proposal := Suggest(s, ask)
		if !provenCover(&proposal) {
			continue
		}
		for _, c := range proposal.Changes {
			q, ok := changed(p, s, c)
			if !ok {
				continue
			}
			made[c.Why]++
			then := Suggest(build(t, q), ask)
			require.True(t, coverAbove(&then, &proposal), "%+v", c)
		}
	}
	for why, n := range made[1:HasOther] {
		switch why := Why(why + 1); why {
		case NoPets: // hardly any are open in these families
		case NoCar, NoSteady:
			require.Zero(t, n, "nobody is asked to drive or to lift")
		default:
			require.Greater(t, n, 3, "reason %d", why)
		}
	}
}

func provenCover(p *Proposal) bool {
	v := &p.Answer.Values
	return v[assign.CoverMust].Proven && v[assign.CoverShould].Proven && v[assign.CoverNice].Proven
}

// coverAbove tells whether one proposal covers more than another.
func coverAbove(p, q *Proposal) bool {
	return coversMore(&p.Answer, &q.Answer)
}

// changed makes a change in a plan; ok is false where the helper's times are not of a form in
// which the test can.
func changed(p plan.Plan, s *schedule.Schedule, c Change) (plan.Plan, bool) {
	a := p.AboutOf(c.Who)
	switch c.Why {
	case NoNight:
		a.Can |= plan.CanNight
	case NoPets:
		a.Can |= plan.CanPets
	case IsOut:
		a.Out = false
	case IsAway:
		a.Times = lessUse(a.Times, plan.Gone)
	case AtWork:
		a.Times = lessUse(a.Times, plan.Work)
	case NotThen:
		a.Times = lessUse(a.Times, plan.Free)
	}
	return p.WithAbout(c.Who, a), true
}

// lessUse leaves the times of one use out: more than the change asks for, so that all it
// covers is covered.
func lessUse(all []plan.Times, use plan.TimesUse) (left []plan.Times) {
	for _, t := range all {
		if t.Use != use {
			left = append(left, t)
		}
	}
	return left
}
