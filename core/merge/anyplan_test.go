package merge

import (
	"math/rand"
	"slices"
	"time"

	"pgregory.net/rapid"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// chance gives a number from 0 to n-1. What is made by chance is made from it alone, so
// that a seed or a shrinking test makes it again.
type chance func(n int) int

func fromSeed(seed int64) chance { return rand.New(rand.NewSource(seed)).Intn }

func fromRapid(t *rapid.T) chance {
	return func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "chance") }
}

func (c chance) half() bool { return c(2) == 0 }

func pick[T any](c chance, list ...T) T { return list[c(len(list))] }

// The names are few, so that people often mean the same thing.
var (
	someNames  = []string{"Dana", "Luis", "Ann", "José", "Grandma"}
	someTexts  = []string{"", "Alder Ferry", "12 Millrace Road", "use the side door", "ring twice", "ß 王 🙂"}
	someZones  = []string{"America/Chicago", "America/Denver", "Europe/Madrid"}
	someActors = []Actor{Maker, FirstActor, FirstActor + 1, 70_000, LastActor}
)

// anyPlan makes a plan that plan.Check lets through.
func anyPlan(c chance) plan.Plan {
	p := plan.Plan{
		Number: 7, Patient: pick(c, "", "Rosa", "Otto"), Surgery: anySurgery(c), Arrival: wall.Clock(c(1441) - 1),
		Joint: plan.Joint(c(2)), Operation: plan.Operation(c(3)), Stay: plan.Stay(c(3)), Zone: pick(c, someZones...),
		Drive: c(91) - 1, Parking: c(31) - 1, Facts: plan.Facts(c(1<<15)) & plan.AllFacts,
		Program: plan.Program{Hospital: pick(c, someTexts...), Address: pick(c, someTexts...), Phone: pick(c, "", "555-0142")},
	}
	if c.half() {
		p.Program.Set(plan.WashDays, 1+c(14))
	}
	p.Helpers = slices.Clone(someNames[:c(len(someNames)+1)])
	for i := range p.Cover {
		p.Cover[i] = anyHelper(c, len(p.Helpers))
	}
	for i := range p.Helpers {
		if c.half() {
			p = p.WithAbout(uint8(i+1), anyAbout(c))
		}
	}
	for range c(3) {
		p = p.WithShift(plan.Slot(c(12)), anyHelper(c, len(p.Helpers)))
	}
	for range c(4) {
		p = p.WithTick(plan.Tick{Code: uint16(c(6)), N: uint8(c(2))}, true)
	}
	for range c(3) {
		p = p.WithLine(anyLine(c, uint32(1+c(9))))
	}
	if c.half() {
		p.Program.Texts = [len(p.Program.Texts)]string{"112", "Ward 3", "2026-11-20", "", ""}
	}
	for i := range c(3) {
		p = p.WithDuty(anyDuty(c, uint32(i+1), len(p.Helpers)))
	}
	return p
}

// anyLine makes an own line that plan.CheckLine lets through.
func anyLine(c chance, id uint32) plan.Line {
	l := plan.Line{ID: id, List: plan.List(c(int(plan.ListEnd))), Day: c(9) - 4, Hospital: c.half(), Done: c.half(), Text: pick(c, someTexts[1:]...)}
	if c.half() {
		l.Day = plan.NoDay
	}
	if l.List.Told() {
		l.Day, l.Hospital = plan.NoDay, true
	}
	for range c(3) {
		l, _ = l.WithWording(pick(c, "es", "en", "zh-Hant"), pick(c, someTexts...))
	}
	return l
}

func anySurgery(c chance) wall.Date { return 20888 + wall.Date(c(5)) }

func anyHelper(c chance, helpers int) uint8 { return uint8(c(helpers + 1)) }

// anyAbout makes something that is known of a helper, anything that plan.CheckAbout lets through.
func anyAbout(c chance) plan.About {
	a := plan.About{
		Told: c(4) > 0, Out: c(4) == 0, Can: plan.Abilities(c(int(plan.AllAbilities) + 1)), Away: c(plan.MaxDrive+2) - 1,
		Offer: plan.Offer(c(3)), Likes: plan.Tasks(c(int(plan.AllTasks)+1) & c(int(plan.AllTasks)+1)),
	}
	a.Avoids = plan.Tasks(c(int(plan.AllTasks)+1)) &^ a.Likes
	for range c(4) {
		r := anyPattern(c)
		if len(a.Times) > 0 && c.half() {
			r.First = a.Times[0].Rule.First
			r.Last = min(r.Last, r.First+300)
			r = r.Canonical()
		}
		if r.Check() == nil {
			a.Times = append(a.Times, plan.Times{Use: plan.TimesUse(c(3)), Rule: r, Length: anyLength(c)})
		}
	}
	if !a.Told {
		return plan.About{Out: a.Out}
	}
	return a
}

func anyLength(c chance) int {
	return pick(c, 15*(1+c(96)), 1+c(24*60), 24*60*(1+c(60)), 1+c(plan.MaxTimesLength))
}

// anyDuty makes a duty of any kind with any of its fields.
func anyDuty(c chance, id uint32, helpers int) plan.Duty {
	d := plan.Duty{
		ID: id, Kind: plan.DutyKind(c(int(plan.DutyKindEnd))), Title: pick(c, someTexts...), Place: pick(c, someTexts...),
		Note: pick(c, someTexts...), Who: anyHelper(c, helpers), Length: 1 + c(plan.MaxLength), Dropped: c(8) == 0,
		Ride: plan.Ride{Own: c(30), Drive: c(40) - 1, Parking: c(10) - 1, Early: c(20), Leaves: c.half()},
		Need: plan.Need(c(4)), Steady: c.half(),
		Rule: withExceptions(c, anyPattern(c)), Source: uint32(c(3)), Revision: uint16(c(3)),
	}
	d.On[c(7)] = anyHelper(c, helpers)
	for range c(3) {
		d.Takes = append(d.Takes, plan.Take{Day: d.Rule.First + wall.Date(len(d.Takes)*7+c(7)), Who: anyHelper(c, helpers)})
	}
	return d
}

// anyPattern makes a canonical rule without exceptions that has few dates.
func anyPattern(c chance) repeat.Rule {
	r := repeat.Rule{First: 20895 + wall.Date(c(20)), At: wall.Clock(c(1440)), Freq: repeat.Freq(c(4)), Every: 1 + c(3)}
	switch r.Freq {
	case repeat.Weekly:
		r.Days, r.Week = repeat.Days(1+c(int(repeat.AllDays))), time.Weekday(c(7))
	case repeat.Monthly:
		for range 1 + c(3) {
			if r.Nth == nil && (r.MonthDays != nil || c.half()) {
				r.MonthDays = append(r.MonthDays, pick(c, int8(1+c(28)), int8(-1-c(28))))
			} else {
				r.Nth = append(r.Nth, repeat.Nth{N: int8(c(9) - 4), Day: time.Weekday(c(7))})
			}
		}
	}
	if c.half() {
		r.Count = 1 + c(12)
	} else {
		r.Last = r.First + 250 + wall.Date(c(40))
	}
	return r.Canonical()
}

// withExceptions leaves out, moves and adds dates, and stays a rule that Check lets through.
func withExceptions(c chance, r repeat.Rule) repeat.Rule {
	q := r
	days, _ := r.Pattern()
	for range c(3) {
		q.Skipped = append(q.Skipped, pick(c, days...))
	}
	for range c(3) {
		q.Moved = append(q.Moved, repeat.Move{From: pick(c, days...), To: anyMoment(c, r)})
	}
	for range c(3) {
		q.Extra = append(q.Extra, anyMoment(c, r))
	}
	if q = q.Canonical(); q.Check() != nil {
		return r
	}
	return q
}

func anyMoment(c chance, r repeat.Rule) repeat.Moment {
	return repeat.Moment{Day: r.First + wall.Date(c(60)), At: pick(c, r.At, 600, 900)}
}
