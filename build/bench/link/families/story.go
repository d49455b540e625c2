package families

import (
	"slices"
	"time"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// The helpers, by their places.
const (
	maureen uint8 = iota + 1
	teo
	priya
	joaquin
	bernie
)

const (
	therapy = "Copperline Physical Therapy, 418 Sayles Ave, Suite 2"
	clinic  = "Dr. Okonjo, Tanager Medical Building, 3rd floor"
)

// weekly is a rule for some weeks on the given days.
func weekly(after wall.Date, at wall.Clock, weeks int, days ...time.Weekday) repeat.Rule {
	r := repeat.Rule{First: surgery + after, At: at, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(days...), Week: time.Monday}.Canonical()
	r.Last = r.First + wall.Date(7*weeks) - 1
	return r
}

// daily is a rule for some days.
func daily(after wall.Date, at wall.Clock, days int) repeat.Rule {
	return repeat.Rule{First: surgery + after, At: at, Freq: repeat.Daily, Every: 1, Count: days}
}

// day is so many days after surgery.
func day(after wall.Date) wall.Date { return surgery + after }

func once(after wall.Date, at wall.Clock) repeat.Rule {
	return repeat.Rule{First: surgery + after, At: at, Every: 1}
}

// done names steps that come once.
func done(ids ...string) (ticks []plan.Tick) {
	for _, id := range ids {
		ticks = append(ticks, plan.Tick{Code: schedule.KindByID(id).Code})
	}
	return ticks
}

var atHome = plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}

// grown plays how the plan grew: the navigator makes it, Maureen (the patient's daughter)
// fills it in and shares it, and from then on five devices change it apart from each other
// and send each other links now and then.
func grown(numbers [devicesEnd]merge.Actor) (*merge.Doc, []Step) {
	y := &play{numbers: numbers, docs: map[merge.Actor]*merge.Doc{}}
	p := starter()
	p.Arrival = wall.NoClock
	y.docs[numbers[office]] = merge.New(p)
	y.steps = append(y.steps, Step{By: numbers[office], Doc: y.docs[numbers[office]]})
	y.send(office, maureens)
	y.beforeSurgery()
	first := y.shareOut()
	y.weeksAfter(first)
	for d := office; d < devicesEnd; d++ {
		y.send(d, maureens)
	}
	return y.docs[numbers[maureens]], y.steps
}

// beforeSurgery: the facts, the helpers, the first ticks, the arrival.
func (y *play) beforeSurgery() {
	y.act(maureens, func(p plan.Plan) plan.Plan {
		p.Patient, p.Drive, p.Parking = "Walter", 35, 12
		return p
	})
	y.act(maureens, func(p plan.Plan) plan.Plan {
		p.Facts |= plan.SoapGiven | plan.HomeAnswered | plan.Stairs | plan.Pets | plan.Glasses | plan.HearingAids | plan.Tub
		return p
	})
	y.act(maureens, func(p plan.Plan) plan.Plan {
		p.Helpers = []string{"Maureen", "Teo", "Priya", "Joaquín", "Bernie"}
		return p
	})
	y.hand(maureens, "Maureen")
	y.tick(maureens, done("choose-coach", "ask-medicines", "walker", "toilet-frame")...)
	y.send(maureens, office, teos, priyas, joaquins)
	y.hand(teos, "Teo")
	y.hand(priyas, "Priya")
	y.hand(joaquins, "Joaquín")
	y.act(office, func(p plan.Plan) plan.Plan { p.Arrival = 5*60 + 45; return p })
	y.act(maureens, func(p plan.Plan) plan.Plan {
		p.Cover = [len(p.Cover)]uint8{maureen, maureen, 0, teo, 0}
		return p
	})
	y.act(teos, func(p plan.Plan) plan.Plan { p.Cover[4] = teo; return p })
	y.tick(teos, done("throw-rugs", "cords", "night-light", "stairs-rails")...)
	y.tick(priyas, done("groceries", "meals-ahead")...)
	y.send(office, maureens, teos)
}

// shared are the numbers of the duties that change later.
type shared struct{ thrice, twice, staples, dogMorning, nights, dinners, bins uint32 }

// shareOut: each adds what they know of.
func (y *play) shareOut() (s shared) {
	ride := plan.Ride{Drive: 15, Parking: 5, Early: 10}
	s.thrice = y.duty(maureens, plan.Duty{
		Kind: plan.TherapyRide, Place: therapy, Note: "Grey shorts. Ask Kirsten about the stairs", Length: 50, Ride: ride,
		Who: maureen, On: [7]uint8{time.Wednesday: teo, time.Friday: priya},
		Rule: weekly(6, 10*60+30, 6, time.Monday, time.Wednesday, time.Friday),
	})
	s.staples = y.duty(maureens, plan.Duty{
		Kind: plan.VisitRide, Title: "Staples out", Place: clinic, Note: "Bring the blue folder",
		Length: 30, Ride: plan.Ride{Drive: 35, Parking: 12, Early: 15}, Who: maureen, Rule: once(14, 14*60+15),
	})
	s.dogMorning = y.duty(teos, plan.Duty{
		Kind: plan.PetCare, Title: "Walk Biscuit", Note: "Leash is behind the back door",
		Length: 30, Ride: atHome, Who: teo, On: [7]uint8{time.Saturday: bernie, time.Sunday: bernie}, Rule: daily(0, 7*60, 21),
	})
	s.nights = y.duty(joaquins, plan.Duty{
		Kind: plan.Nights, Note: "El sofá cama está en el cuarto de Lucía", Length: 600, Ride: atHome, Who: joaquin, Rule: daily(1, 21*60, 5),
	})
	s.dinners = y.duty(priyas, plan.Duty{
		Kind: plan.Meals, Note: "No shellfish. Two lasagnas in the freezer", Length: 30, Ride: atHome, Who: priya,
		On: [7]uint8{time.Sunday: bernie}, Rule: weekly(2, 18*60, 4, time.Tuesday, time.Thursday, time.Sunday),
	})
	s.bins = y.duty(teos, plan.Duty{
		Kind: plan.OtherDuty, Title: "Trash and recycling to the curb", Length: 15, Ride: atHome, Rule: weekly(1, 19*60+30, 12, time.Wednesday),
	})
	y.send(teos, maureens, priyas, joaquins)
	y.send(priyas, maureens, teos)
	y.send(joaquins, maureens)
	s.twice = y.duty(maureens, plan.Duty{
		Kind: plan.TherapyRide, Place: therapy, Length: 50, Ride: ride, Who: joaquin, On: [7]uint8{time.Thursday: maureen},
		Rule: weekly(48, 10*60+30, 5, time.Tuesday, time.Thursday),
	})
	y.send(maureens, office, teos, priyas, joaquins)
	y.tick(maureens, done("bag", "pack-papers", "pack-glasses", "pack-hearing-aids")...)
	return s
}

// weeksAfter: swaps, exceptions, more visits, and everybody's ticks.
func (y *play) weeksAfter(s shared) {
	wash := schedule.KindByID("wash").Code
	y.tick(maureens, plan.Tick{Code: wash, N: 1}, plan.Tick{Code: wash, N: 2}, plan.Tick{Code: wash, N: 3}, plan.Tick{Code: wash, N: 4})
	y.change(priyas, s.thrice, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: day(17), Who: bernie}} })
	y.change(teos, s.thrice, func(d *plan.Duty) { d.Rule.Skipped = []wall.Date{day(27)} })
	y.change(joaquins, s.twice, func(d *plan.Duty) { d.Note = "Llevar la hoja de ejercicios y una toalla" })
	y.duty(maureens, plan.Duty{
		Kind: plan.VisitRide, Title: "Six-week X-ray", Place: "Dr. Okonjo", Length: 45, Ride: plan.Ride{Drive: 35, Parking: 12, Early: 15}, Who: teo, Rule: once(42, 9*60),
	})
	y.send(teos, maureens)
	y.send(priyas, maureens)
	y.change(maureens, s.thrice, func(d *plan.Duty) {
		d.Rule.Moved = []repeat.Move{{From: day(20), To: repeat.Moment{Day: day(20), At: 13 * 60}}, {From: day(36), To: repeat.Moment{Day: day(37), At: 10*60 + 30}}}
	})
	y.change(office, s.staples, func(d *plan.Duty) { d.Rule.At = 15 * 60 })
	y.act(office, func(p plan.Plan) plan.Plan { p.Arrival = 6 * 60; return p })
	y.send(office, maureens)
	y.send(maureens, teos, priyas, joaquins)
	y.apart(s)
	y.lastWords(s)
}

// apart: the five change things without hearing of each other.
func (y *play) apart(s shared) {
	y.change(teos, s.dogMorning, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: day(8), Who: priya}, {Day: day(9), Who: priya}} })
	y.change(priyas, s.dinners, func(d *plan.Duty) { d.Rule.Skipped = []wall.Date{day(16)} })
	y.change(priyas, s.bins, func(d *plan.Duty) { d.Who = priya })
	y.duty(joaquins, plan.Duty{
		Kind: plan.PetCare, Title: "Walk Biscuit", Length: 20, Ride: atHome, Who: joaquin, Rule: daily(0, 20*60, 21),
	})
	y.duty(priyas, plan.Duty{
		Kind: plan.OtherDuty, Title: "Groceries", Note: "List on the fridge, card in the tin", Length: 60, Ride: atHome, Who: priya,
		Rule: weekly(4, 11*60, 8, time.Saturday),
	})
	y.change(joaquins, s.twice, func(d *plan.Duty) {
		d.Rule.Moved = []repeat.Move{{From: day(56), To: repeat.Moment{Day: day(57), At: 15 * 60}}}
		d.Rule.Extra = []repeat.Moment{{Day: day(83), At: 10*60 + 30}}
	})
	y.change(joaquins, s.nights, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: day(3), Who: bernie}} })
	y.change(maureens, s.dogMorning, func(d *plan.Duty) {
		d.Rule.Moved = []repeat.Move{{From: day(1), To: repeat.Moment{Day: day(1), At: 9 * 60}}}
	})
}

// lastWords: what is found out late.
func (y *play) lastWords(s shared) {
	y.act(teos, func(p plan.Plan) plan.Plan { p.Cover[2] = joaquin; return p })
	y.tick(teos, done("parking-permit", "firm-chair")...)
	y.send(joaquins, teos)
	y.change(teos, s.twice, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: day(63), Who: teo}, {Day: day(70), Who: 0}} })
	y.duty(maureens, plan.Duty{
		Kind: plan.VisitRide, Title: "Three-month check", Place: "Dr. Okonjo", Length: 30, Ride: plan.Ride{Drive: 35, Parking: 12, Early: 15}, Rule: once(84, 10*60),
	})
	y.change(teos, s.bins, func(d *plan.Duty) { d.Rule.Skipped = []wall.Date{day(50)} })
	y.change(priyas, s.dinners, func(d *plan.Duty) { d.Takes = []plan.Take{{Day: day(12), Who: maureen}} })
	y.change(maureens, s.thrice, func(d *plan.Duty) { d.Takes = append(slices.Clone(d.Takes), plan.Take{Day: day(24), Who: maureen}) })
}

// Counts are the sizes of a plan, as the benchmark states them.
type Counts struct{ Registers, Acts, Devices, Letters, Dates, Ticks int }

// Count counts a plan.
func Count(d *merge.Doc) Counts {
	p := d.Plan()
	c := Counts{Registers: len(d.Keys()), Ticks: len(p.Ticked), Devices: len(d.Seen())}
	for _, s := range d.Seen() {
		c.Acts += int(s.N)
	}
	texts := append([]string{p.Patient}, p.Helpers...)
	if p.Program.Number == 0 {
		texts = append(texts, p.Program.Hospital, p.Program.Address, p.Program.Phone)
	}
	for i := range p.Duties {
		duty := &p.Duties[i]
		texts = append(texts, duty.Title, duty.Place, duty.Note)
		all, _ := duty.Rule.All()
		c.Dates += len(all)
	}
	for _, text := range slices.Compact(texts) {
		c.Letters += len([]rune(text))
	}
	return c
}
