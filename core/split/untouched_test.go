package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// leavesAlone tells whether a duty's settings differ from older ones only where they may: of a
// single date where its helper changes, as a whole and by weekday where all their dates that
// are not over do. Asked of each setting by itself.
func leavesAlone(old, now *plan.Duty, days []wall.Date, over func(wall.Date) bool) bool {
	all, on, single := true, [7]bool{true, true, true, true, true, true, true}, true
	for _, day := range days {
		behind := over != nil && over(day)
		changes := old.WhoHas(day) != now.WhoHas(day)
		all = all && (changes || behind)
		on[day.Weekday()] = on[day.Weekday()] && (changes || behind)
		a, inOld := takeOn(old, day)
		b, inNow := takeOn(now, day)
		single = single && (changes || behind || inOld == inNow && a == b)
	}
	for weekday := range on {
		single = single && (old.On[weekday] == now.On[weekday] || on[weekday])
	}
	return single && (old.Who == now.Who || all)
}

func takeOn(d *plan.Duty, day wall.Date) (uint8, bool) {
	for _, t := range d.Takes {
		if t.Day == day {
			return t.Who, true
		}
	}
	return 0, false
}

// staysAsDuty is the staying at home as a duty with dates: a part is a date.
func staysAsDuty(p *plan.Plan, s *schedule.Schedule) (d plan.Duty, days []wall.Date) {
	d.Who = p.Cover[plan.StayWith]
	for _, shift := range p.Shifts {
		d.Takes = append(d.Takes, plan.Take{Day: wall.Date(shift.Slot), Who: shift.Who})
	}
	for i := range s.Duties {
		if s.Duties[i].IsSlot() {
			days = append(days, wall.Date(s.Duties[i].Slot))
		}
	}
	return d, days
}

// Nothing is written for what the lines do not touch: who has it keeps it by the setting by
// which they have it.
func TestApplyLeavesTheRestAlone(t *testing.T) {
	r := rand.New(rand.NewSource(17))
	whole, behind := 0, 0
	for range 1500 {
		p := randomFamily(t, r)
		s := build(t, p)
		now := start(s)
		if r.Intn(2) == 0 {
			now = now.Add(time.Duration(r.Intn(45*24*60)) * time.Minute)
		}
		var lines []Line
		for _, l := range randomLines(r, s) {
			if !over(s, &s.Duties[l.Duty], now) {
				lines = append(lines, l)
			}
		}
		q := Apply(p, s, now, lines)
		for i := range p.Duties {
			var days []wall.Date
			left := map[wall.Date]bool{}
			for k := range s.Duties {
				if d := &s.Duties[k]; d.Family != nil && d.Family.ID == p.Duties[i].ID {
					days = append(days, d.On.Of)
					left[d.On.Of] = left[d.On.Of] || !over(s, d, now)
				}
			}
			gone := func(day wall.Date) bool { return !left[day] }
			require.True(t, leavesAlone(&p.Duties[i], &q.Duties[i], days, gone), "%+v > %+v", p.Duties[i], q.Duties[i])
			if p.Duties[i].Who != q.Duties[i].Who {
				whole++
				behind += yes(gone(days[0]))
			}
			for _, day := range days {
				if gone(day) {
					require.Equal(t, p.Duties[i].WhoHas(day), q.Duties[i].WhoHas(day), "what is over is as it was")
				}
			}
		}
		if len(places(s, "stay-with")) == 0 || !s.Duties[places(s, "stay-with")[0]].IsSlot() || now != start(s) {
			continue
		}
		was, days := staysAsDuty(&p, s)
		is, _ := staysAsDuty(&q, s)
		require.True(t, len(days) < len(places(s, "stay-with")) || leavesAlone(&was, &is, days, nil), "%+v > %+v", was, is)
	}
	require.Greater(t, whole, 30)
	require.Greater(t, behind, 5)
}

// danaSays changes one thing of a duty, as a form on Dana's phone does: a date, a weekday, or
// all of it.
func danaSays(r *rand.Rand, d plan.Duty, days []wall.Date) plan.Duty {
	day := days[r.Intn(len(days))]
	take := plan.Take{Day: day, Who: uint8(r.Intn(2))}
	switch r.Intn(4) {
	case 0:
		d.On[r.Intn(7)] = uint8(r.Intn(2))
	case 1:
		d.Who = uint8(r.Intn(2))
	default:
		takes := d.Takes
		d.Takes = nil
		for _, t := range takes {
			if t.Day < day {
				d.Takes = append(d.Takes, t)
			}
		}
		if usual := (plan.Duty{Who: d.Who, On: d.On}); usual.WhoHas(day) != take.Who {
			d.Takes = append(d.Takes, take)
		}
		for _, t := range takes {
			if t.Day > day {
				d.Takes = append(d.Takes, t)
			}
		}
	}
	return d
}

// Luis takes over a proposal while Dana says one thing on her phone. Once the two plans have
// joined, what he did not touch is as she says, and what neither did is as it was. Where they
// said different things of one setting they are asked, and nothing is claimed.
func TestWhatSomebodySaysAtTheSameTimeHolds(t *testing.T) {
	r := rand.New(rand.NewSource(18))
	hers, untouched := 0, 0
	for range 800 {
		p := family(t, func(p *plan.Plan) {
			p.Helpers, p.About = append(p.Helpers, "Ann"), nil
			d := atHome(1, plan.PetCare, 30, daily(p.Surgery+3, 600, 5+r.Intn(10)))
			d.Who, d.On[r.Intn(7)] = uint8(r.Intn(4)), uint8(r.Intn(4))
			days, _ := d.Rule.Pattern()
			for _, day := range days {
				if r.Intn(5) == 0 {
					d.Takes = append(d.Takes, plan.Take{Day: day, Who: uint8(r.Intn(4))})
				}
			}
			p.Duties = []plan.Duty{d}
			for i := range p.Helpers {
				*p = p.WithAbout(uint8(i+1), randomAbout(r, p.Surgery))
			}
		})
		doc := merge.New(p)
		p = doc.Plan()
		s := build(t, p)
		proposal := Suggest(s, Ask{Scope: Scope(r.Intn(2)), Now: start(s)})
		luis, dana := Apply(p, s, time.Time{}, proposal.Lines), p
		days, _ := p.Duties[0].Rule.Pattern()
		dana = dana.WithDuty(danaSays(r, p.Duties[0], days))
		both, err := merge.Join(doc.Change(70_001, luis), doc.Change(70_002, dana))
		require.NoError(t, err)
		if len(both.Questions()) > 0 {
			continue
		}
		joined := both.Plan()
		for _, day := range days {
			was, his := p.Duties[0].WhoHas(day), luis.Duties[0].WhoHas(day)
			if was != his {
				continue
			}
			require.Equal(t, dana.Duties[0].WhoHas(day), joined.Duties[0].WhoHas(day), "%s: %+v and %+v", day, luis.Duties[0], dana.Duties[0])
			hers += yes(dana.Duties[0].WhoHas(day) != was)
			untouched++
		}
	}
	require.Greater(t, hers, 100)
	require.Greater(t, untouched, 1000)
}
