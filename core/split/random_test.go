package split

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// randomFamily is an invented family: up to five helpers with jobs, some told and some not,
// with duties of every kind that some of them have. It is one that plan.Check lets through.
func randomFamily(t testing.TB, r *rand.Rand) plan.Plan {
	for {
		p := plan.Plan{
			Number: 7, Surgery: day(t, "2027-03-01") + wall.Date(r.Intn(28)), Arrival: wall.Clock(5*60 + 15*r.Intn(24)),
			Zone: pick(r, "America/New_York", "Europe/Madrid", "America/Phoenix"), Stay: plan.Stay(r.Intn(3)),
			Drive: 5 * r.Intn(12), Parking: 5 * r.Intn(4),
		}
		if r.Intn(12) == 0 {
			p.Arrival = wall.NoClock
		}
		if r.Intn(12) == 0 {
			p.Drive = plan.Unknown
		}
		p.Program.Set(plan.PresenceHours, pick(r, 0, 24, 48, 72))
		p.Helpers = slices.Clone([]string{"Dana", "Luis", "Mina", "Otto", "Rosa"}[:1+r.Intn(5)])
		for i := range p.Helpers {
			p = p.WithAbout(uint8(i+1), randomAbout(r, p.Surgery))
		}
		for i := range p.Cover {
			p.Cover[i] = someone(r, &p)
		}
		for range r.Intn(4) {
			p = p.WithShift(plan.Slot(r.Intn(12)), someone(r, &p))
		}
		for i := range 1 + r.Intn(6) {
			p = p.WithDuty(randomDuty(r, &p, uint32(i+1)))
		}
		if plan.Usable(plan.Check(&p, p.Surgery)) {
			return p
		}
	}
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.Intn(len(list))] }

// someone is a helper, or more often nobody.
func someone(r *rand.Rand, p *plan.Plan) uint8 {
	return uint8(max(r.Intn(2*len(p.Helpers)+1)-len(p.Helpers), 0))
}

func randomAbout(r *rand.Rand, surgery wall.Date) plan.About {
	if r.Intn(5) == 0 {
		return plan.About{Out: r.Intn(4) == 0}
	}
	a := plan.About{
		Told: true, Can: plan.AllAbilities &^ plan.Abilities(r.Intn(16)&r.Intn(16)), Out: r.Intn(12) == 0,
		Away: pick(r, 0, 0, 10, 25, 70, plan.Unknown), Offer: plan.Offer(r.Intn(3)),
	}
	a.Likes = plan.Tasks(r.Intn(128) & r.Intn(128) & r.Intn(128))
	a.Avoids = plan.Tasks(r.Intn(128)&r.Intn(128)&r.Intn(128)) &^ a.Likes
	for range r.Intn(3) {
		from := wall.Clock(30 * r.Intn(44))
		use := pick(r, plan.Work, plan.Work, plan.Free)
		days := []time.Weekday{time.Weekday(r.Intn(7)), time.Weekday(r.Intn(7)), time.Weekday(r.Intn(7))}
		a.Times = append(a.Times, times(use, surgery-10, from, (from+wall.Clock(60*(2+r.Intn(12))))%(24*60), days...))
	}
	if r.Intn(5) == 0 {
		gone := once(surgery+wall.Date(r.Intn(20)), 0)
		a.Times = append(a.Times, plan.Times{Use: plan.Gone, Rule: gone, Length: 24 * 60 * (1 + r.Intn(3))})
	}
	return a
}

func randomDuty(r *rand.Rand, p *plan.Plan, id uint32) plan.Duty {
	d := plan.Duty{
		ID: id, Kind: plan.DutyKind(r.Intn(int(plan.DutyKindEnd))), Length: 10 + 10*r.Intn(12), Who: someone(r, p),
		Ride: plan.Ride{Own: pick(r, 0, 0, 20), Drive: 5 + 5*r.Intn(8), Parking: 5 * r.Intn(3), Early: 10, Leaves: r.Intn(3) == 0},
		Need: plan.Need(r.Intn(4)), Steady: r.Intn(5) == 0,
	}
	if r.Intn(8) == 0 {
		d.Ride.Drive = plan.Unknown
	}
	if r.Intn(4) == 0 {
		d.Place = "Millrace"
	}
	at := wall.Clock(7*60 + 15*r.Intn(50))
	if d.Kind == plan.Nights {
		at, d.Length = 21*60, 10*60
	}
	d.Rule = randomRule(r, p.Surgery+wall.Date(r.Intn(8)), at)
	d.On[r.Intn(7)] = someone(r, p)
	dates, _ := d.Rule.All()
	for _, date := range dates {
		if r.Intn(6) == 0 && (len(d.Takes) == 0 || d.Takes[len(d.Takes)-1].Day < date.Of) {
			d.Takes = append(d.Takes, plan.Take{Day: date.Of, Who: someone(r, p)})
		}
	}
	return d
}

func randomRule(r *rand.Rand, first wall.Date, at wall.Clock) repeat.Rule {
	rule := once(first, at)
	switch r.Intn(3) {
	case 0:
		rule = daily(first, at, 1+r.Intn(12))
	case 1:
		rule = weekly(first, at, 1+r.Intn(8), first.Weekday(), time.Weekday(r.Intn(7)))
	}
	if r.Intn(3) == 0 { // another date on a day of the pattern, later than it or at the same time
		rule.Extra = []repeat.Moment{{Day: first, At: at + wall.Clock(pick(r, 1, 30, 120))}}
	}
	if days, _ := rule.Pattern(); len(days) > 1 && r.Intn(3) == 0 {
		rule.Moved = []repeat.Move{{From: days[1], To: repeat.Moment{Day: days[1], At: at + 60}}}
	}
	return rule.Canonical()
}

// randomAsk asks for a proposal of either scope, some time of which is over; some dates are
// held.
func randomAsk(r *rand.Rand, s *schedule.Schedule) Ask {
	ask := Ask{Scope: Scope(r.Intn(2)), Now: start(s)}
	if r.Intn(4) == 0 {
		ask.Now = ask.Now.Add(time.Duration(r.Intn(45*24*60)) * time.Minute)
	}
	if held := r.Intn(5); held > 0 {
		ask.Held = func(duty int) bool { return duty%5 < held-1 }
	}
	return ask
}

func TestRandomFamiliesAreOfEveryKind(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	var states [Cannot + 1]int
	var whys [HasOther + 1]int
	for range 300 {
		s := build(t, randomFamily(t, r))
		for _, f := range Look(s, start(s)).Findings {
			states[f.State]++
			for _, why := range f.Why {
				whys[why.Why]++
			}
		}
	}
	for state, n := range states {
		require.Greater(t, n, 200, "state %d", state)
	}
	for why, n := range whys[1:] {
		require.Greater(t, n, 10, "reason %d", why+1)
	}
}
