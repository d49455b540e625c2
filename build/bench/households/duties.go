package households

import (
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

const (
	mo, tu, we, th, fr, sa, su = time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday
)

var (
	atHome = plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}
	clinic = plan.Ride{Own: 10, Drive: 20, Parking: 10, Early: 10}
	far    = plan.Ride{Own: 15, Drive: 35, Parking: 10, Early: 15}
)

const (
	therapyPlace = "Ferndale Therapy Rooms, 9 Canal Row"
	clinicPlace  = "Dr. Achterberg, second floor, desk C"
)

// daily is a duty at home on so many days.
func daily(first wall.Date, at wall.Clock, days int) repeat.Rule {
	return repeat.Rule{First: first, At: at, Freq: repeat.Daily, Every: 1, Count: days}
}

func once(day wall.Date, at wall.Clock) repeat.Rule { return repeat.Rule{First: day, At: at, Every: 1} }

func therapy(note string, rule repeat.Rule) plan.Duty {
	return plan.Duty{Kind: plan.TherapyRide, Place: therapyPlace, Note: note, Length: 45, Ride: clinic, Rule: rule}
}

func visit(title string, day wall.Date) plan.Duty {
	return plan.Duty{Kind: plan.VisitRide, Title: title, Place: clinicPlace, Length: 30, Ride: far, Rule: once(day, 14*60+15)}
}

func home(kind plan.DutyKind, title string, minutes int, rule repeat.Rule) plan.Duty {
	return plan.Duty{Kind: kind, Title: title, Length: minutes, Ride: atHome, Rule: rule}
}

// referenceDuties have 120 dates in twelve weeks.
func referenceDuties(s wall.Date) []plan.Duty {
	return []plan.Duty{
		therapy("Loose trousers, the exercise sheet", weekly(s+6, 10*60+30, 18, mo, we, fr)),
		home(plan.PetCare, "Walk the dog", 30, daily(s, 7*60, 21)),
		home(plan.Meals, "Supper", 45, weekly(s+2, 18*60, 24, tu, th, su)),
		therapy("", weekly(s+42, 10*60+30, 12, tu, th)),
		home(plan.Nights, "", 600, daily(s+1, 21*60, 5)),
		home(plan.OtherDuty, "Groceries", 60, weekly(s, 11*60, 12, sa)),
		home(plan.OtherDuty, "Bins to the curb", 15, weekly(s, 19*60, 12, we)),
		home(plan.Meals, "Lunch", 30, daily(s+2, 12*60, 13)),
		visit("Staples out", s+14), visit("Six-week visit", s+42), visit("Twelve-week visit", s+83),
	}
}

// heavyDuties have 600 dates in twenty-six weeks.
func heavyDuties(s wall.Date) []plan.Duty {
	all := []plan.Duty{
		therapy("Loose trousers, the exercise sheet", weekly(s+6, 10*60+30, 24, mo, we, fr)),
		home(plan.PetCare, "Walk the dog", 30, daily(s, 7*60, 56)),
		home(plan.Meals, "Supper", 45, daily(s+1, 18*60, 84)),
		therapy("The stick, not the walker", weekly(s+62, 10*60+30, 34, tu, th)),
		home(plan.Nights, "", 600, daily(s+1, 21*60, 14)),
		home(plan.PetCare, "Walk the dog", 30, daily(s, 20*60, 56)),
		home(plan.Meals, "Lunch", 30, daily(s+2, 12*60, 56)),
		home(plan.OtherDuty, "Groceries", 60, weekly(s, 11*60, 26, sa)),
		home(plan.OtherDuty, "Bins to the curb", 15, weekly(s, 19*60, 26, we)),
		home(plan.OtherDuty, "Laundry", 90, weekly(s, 9*60, 26, mo)),
		{Kind: plan.OtherRide, Title: "Pool", Place: "Millpond Baths", Length: 60, Ride: clinic, Rule: weekly(s+42, 16*60, 20, sa)},
		{Kind: plan.OtherRide, Title: "Choir", Place: "Assembly Hall, Quay Street", Length: 90, Ride: clinic, Rule: weekly(s+21, 9*60+30, 22, su)},
		home(plan.OtherDuty, "Mail and the hens", 20, weekly(s, 17*60, 78, tu, th, sa)),
		home(plan.OtherDuty, "Water the plants", 20, weekly(s, 8*60+30, 52, mo, fr)),
		home(plan.OtherDuty, "Pill box filled by the pharmacy", 20, weekly(s, 15*60, 20, fr)),
	}
	for i, title := range []string{"Staples out", "Six-week visit", "Blood drawn", "Twelve-week visit", "X-ray", "Six-month visit"} {
		all = append(all, visit(title, s+wall.Date([]int{14, 42, 49, 84, 120, 181}[i])))
	}
	return all
}
