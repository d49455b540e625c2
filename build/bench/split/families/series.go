package families

import "newel/core/assign"

// aroundSurgery makes the days that every family has. Durations vary by multiples of five
// minutes, as people enter them.
func aroundSurgery(r *Random) []series {
	drive := 5 * r.Between(4, 12)
	arrival := 5*hour + 30*r.Between(0, 4)
	from := func(minute, minutes int, uses assign.Uses) []assign.Take {
		return []assign.Take{{From: minute, To: minute + minutes, Uses: uses}}
	}
	return []series{
		{"drive-there", hospital, assign.Must, 8, drive + 30, from(arrival-drive-15, drive+30, both), []int{0}},
		{"wait", hospital, assign.Must, 6, 6 * hour, from(arrival+15, 6*hour, both), []int{0}},
		{"drive-home", ride, assign.Must, 8, drive + 60, from(10*hour, drive+60, both), []int{1}},
		{"mornings", company, assign.Must, 4, 6 * hour, from(8*hour, 6*hour, there), []int{2, 3, 4}},
		{"afternoons", company, assign.Must, 4, 6 * hour, from(14*hour, 6*hour, there), []int{1, 2, 3}},
		{"nights", night, assign.Must, 5, 4 * hour, from(20*hour, 12*hour, there), []int{1, 2, 3}},
	}
}

// afterwards makes the weeks that follow. The more duties there have to be, the longer they
// go on and the more series there are.
func afterwards(r *Random, count int) []series {
	drive := 5 * r.Between(2, 8)
	starts := 8*hour + 30*r.Between(1, 14)
	wholeRide := []assign.Take{{From: starts - drive, To: starts + 60 + drive, Uses: both}}
	thereAndBack := []assign.Take{
		{From: starts - drive - 10, To: starts + drive + 5, Uses: both},
		{From: starts + 50 - drive, To: starts + 60 + drive + 10, Uses: both},
	}
	petDays, mealDays := 15, 28
	if count > 120 {
		petDays, mealDays = 52, 50
	}
	all := []series{
		therapy(r, drive, wholeRide, thereAndBack),
		{"pets-early", pets, assign.Should, 3, 30, []assign.Take{at(7, 30, 30, hands)}, everyDay(0, petDays-1)},
		{"pets-late", pets, assign.Should, 3, 30, []assign.Take{at(18, 0, 30, hands)}, everyDay(0, petDays-1)},
		{"visit", ride, assign.Must, 6, 2 * hour, []assign.Take{at(11, 15, 2*hour, both)}, []int{14, 42}},
		{"supper", meals, assign.Should, 2, 60, []assign.Take{at(17, 15, 60, hands)}, onDays(1, mealDays, 0, 2, 4)},
		{"shopping", other, assign.Nice, 2, 75, []assign.Take{at(10, 0, 75, both)}, onDays(2, 44, 4)},
		{"laundry", other, assign.Nice, 1, 45, []assign.Take{at(16, 0, 45, hands)}, onDays(2, 44, 5)},
	}
	if count <= 60 {
		return all
	}
	all = append(all, series{"lunch", meals, assign.Should, 2, 40, []assign.Take{at(12, 0, 40, hands)}, everyDay(4, mealDays)},
		series{"bins", other, assign.Nice, 1, 10, []assign.Take{at(19, 0, 10, hands)}, onDays(1, 44, 1)},
		series{"garden", other, assign.Nice, 1, 90, []assign.Take{at(15, 0, 90, hands)}, onDays(7, 44, 4)})
	if count <= 120 {
		return all
	}
	return append(all,
		series{"late-nights", night, assign.Should, 4, 4 * hour, []assign.Take{at(20, 0, 12*hour, there)}, everyDay(4, 13)},
		series{"late-mornings", company, assign.Should, 3, 3 * hour, []assign.Take{at(8, 0, 3*hour, there)}, everyDay(5, 18)},
		series{"errands", ride, assign.Nice, 2, 50, []assign.Take{at(13, 30, 50, both)}, onDays(5, 46, 1, 3)},
		series{"mail", other, assign.Nice, 1, 0, []assign.Take{at(9, 30, 10, hands)}, onDays(0, 46, 0, 3, 6)},
		series{"walk", company, assign.Nice, 2, 35, []assign.Take{at(16, 30, 35, both)}, onDays(6, 48, 0, 2, 3, 5)})
}

// therapy makes the eighteen rides: three a week for six weeks, and the helper either waits
// there or comes back.
func therapy(r *Random, drive int, whole, apart []assign.Take) series {
	s := series{"therapy", ride, assign.Must, 5, 60 + 2*drive, whole, onDays(5, 46, 0, 2, 4)[:18]}
	if r.Percent(50) {
		s.takes, s.load = apart, 4*drive+30
	}
	return s
}
