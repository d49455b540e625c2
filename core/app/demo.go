package app

import (
	"errors"
	"slices"
	"strings"
	"time"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// demoDays is how far away the example's surgery is.
const demoDays = 9

// demo opens the example: an invented family, hospital and town. It is a plan like
// any other and can be changed.
func (s *session) demo() {
	s.dropUntouchedDemos()
	p := DemoPlan(s.voice.Today, s.freshNumber())
	if !s.made(p) {
		s.broken(errFull)
		return
	}
	s.keep(keyDemo+planKey(p.Number), "1")
	s.plan(planOf(s.doc))
	s.out.Focus = "title"
}

// dropUntouchedDemos clears away the examples that nobody changed, so that looking
// at one ten times does not leave ten plans on the device.
func (s *session) dropUntouchedDemos() {
	for key := range s.kept {
		n, ok := strings.CutPrefix(key, keyDemo)
		if !ok {
			continue
		}
		fragment, here := s.kept[keyPlan+n]
		d, err := s.decode(fragment)
		if here && fragment == "" || errors.Is(err, link.ErrNewer) {
			continue // who knows what was done to one that cannot be read here
		}
		if err != nil || untouched(d) {
			s.dropPlan(n)
		}
	}
	slices.Sort(s.out.Drop) // a map has no order, and the same request gives the same bytes
}

// untouched tells whether nothing happened to a plan since it was made.
func untouched(d *merge.Doc) bool {
	return slices.Equal(d.Seen(), []merge.Stamp{{Actor: merge.Maker, N: 1}})
}

// demoProgram is the number of the example's invented hospital, see plan.Programs.
const demoProgram = 1

// DemoPlan is the example family's plan, with surgery nine days from today.
func DemoPlan(today wall.Date, number uint32) plan.Plan {
	base := plan.BaseOf(demoProgram)
	p := plan.Plan{
		Number: number, Patient: "Rosa",
		Surgery: today + demoDays, Arrival: 5*60 + 30,
		Joint: plan.Knee, Operation: plan.First, Stay: plan.OneNight,
		Zone: base.Zone, Drive: 40, Parking: 15, Program: base.Program,
		Facts: plan.SoapGiven | plan.DrinkGiven | plan.HomeAnswered | plan.Stairs | plan.Pets |
			plan.Glasses | plan.Tub | plan.HearingAids,
	}
	p.Helpers = []string{"Dana", "Luis", "Mina", "Tomas"}
	p.About = demoHelpers(today)
	p.Cover = [len(p.Cover)]uint8{1, 1, 0, 2, 0}
	p.Duties = demoDuties(p.Surgery)
	p.Program.Set(plan.Fever, 1010)
	p.Program.Set(plan.BowelDays, 3)
	p.Lines = demoLines()
	return p
}

// demoLines are what the example's hospital says of movements, and two lines of the family.
func demoLines() []plan.Line {
	return []plan.Line{
		{ID: 1, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel on the new knee until the surgeon says so."},
		{ID: 2, List: plan.Packing, Day: plan.NoDay, Text: "Bring Rosa's reading lamp"},
		{ID: 3, List: plan.Ready, Day: -3, Text: "Ask Mr. Ode next door to take in the mail"},
	}
}

// demoHelpers are the example's helpers: a daughter and a son with jobs, a neighbour who
// helps on weekday mornings, and the husband, who lives there, drives no more and sings in a
// choir. What Dana and Luis took in demoDuties holds a ride and a visit that their jobs forbid,
// so that the example has something to mend.
func demoHelpers(today wall.Date) []plan.About {
	weekly := func(use plan.TimesUse, from, to wall.Clock, days ...time.Weekday) plan.Times {
		first := today - 14
		return plan.Times{Use: use, Length: int(to - from), Rule: repeat.Rule{
			First: first, At: from, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(days...), Week: time.Monday, Last: first + repeat.Year,
		}.Canonical()}
	}
	everything := plan.Abilities(plan.AllAbilities)
	return []plan.About{
		{Told: true, Can: everything, Away: 20, Offer: plan.Usual, Likes: plan.HospitalTask, Times: []plan.Times{
			weekly(plan.Work, 13*60, 21*60, time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday)}},
		{Told: true, Can: everything, Away: 15, Offer: plan.Usual, Times: []plan.Times{
			weekly(plan.Work, 11*60+30, 19*60, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday)}},
		{Told: true, Can: plan.CanDrive | plan.CanSteady | plan.CanPets, Away: 5, Offer: plan.Light, Likes: plan.MealsTask, Avoids: plan.PetsTask, Times: []plan.Times{
			weekly(plan.Free, 8*60, 15*60, time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday)}},
		{Told: true, Can: everything &^ plan.CanDrive, Offer: plan.ALot, Likes: plan.PetsTask | plan.NightTask, Times: []plan.Times{
			weekly(plan.Gone, 18*60+30, 20*60, time.Sunday)}},
	}
}

// demoDuties is what the example family shares out: therapy three times a week, then
// twice, with a date that falls out and one in the afternoon; the visit after two
// weeks; the cat and the meals.
func demoDuties(surgery wall.Date) []plan.Duty {
	weekly := func(first wall.Date, at wall.Clock, weeks int, days ...time.Weekday) repeat.Rule {
		r := repeat.Rule{First: first, At: at, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(days...), Week: time.Monday}.Canonical()
		r.Last = r.First + wall.Date(7*weeks) - 1
		return r
	}
	daily := func(at wall.Clock, days wall.Date) repeat.Rule {
		return repeat.Rule{First: surgery + 1, At: at, Freq: repeat.Daily, Every: 1, Last: surgery + days}.Canonical()
	}
	thrice := weekly(surgery+6, 10*60+30, 6, time.Monday, time.Wednesday, time.Friday)
	days, _ := thrice.Pattern()
	thrice.Skipped = days[4:5]
	thrice.Moved = []repeat.Move{{From: days[7], To: repeat.Moment{Day: days[7], At: 14 * 60}}}
	twice := weekly(thrice.Last+1, 10*60+30, 3, time.Tuesday, time.Thursday)
	clinic := plan.Ride{Drive: 20, Parking: 10, Early: 10}
	away := plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}
	return []plan.Duty{
		{ID: 1, Kind: plan.TherapyRide, Place: "Millrace Therapy, 3 Quay Street", Note: "Loose trousers, the exercise sheet", Who: 1, Rule: thrice, Length: 45, Ride: clinic},
		{ID: 2, Kind: plan.TherapyRide, Place: "Millrace Therapy, 3 Quay Street", Rule: twice, Length: 45, Ride: clinic},
		{ID: 3, Kind: plan.VisitRide, Title: "Visit after two weeks", Place: "Alder Ferry Hospital, desk B", Who: 2, Length: 30,
			Rule: repeat.Rule{First: surgery + 14, At: 14*60 + 15, Every: 1}.Canonical(), Ride: plan.Ride{Own: 15, Drive: 40, Parking: 15, Early: 10}},
		{ID: 4, Kind: plan.PetCare, Title: "Feed the cat", Who: 2, Rule: daily(7*60+30, 28), Length: 20, Ride: away},
		{ID: 5, Kind: plan.PetCare, Title: "Feed the cat", Rule: daily(18*60, 28), Length: 20, Ride: away},
		{ID: 6, Kind: plan.Meals, Who: 1, Rule: daily(12*60, 14), Length: 30, Ride: away},
	}
}
