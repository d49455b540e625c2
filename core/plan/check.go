package plan

import (
	"errors"

	"newel/core/wall"
	"newel/core/zone"
)

// Problem is one thing that is wrong with a plan, or that a person should look
// at twice. Core/guide has the sentence for each Code in every language; the
// sentence names the field and says what to do.
type Problem struct {
	Field string // the form field it belongs to, such as "surgery" or "rule.wash-days"
	Code  string // one of the codes below
	Ask   bool   // true: ask "is that right?"; false: the plan cannot be used like this
	Low   int    // the least allowed value, where the code has one
	High  int    // the greatest allowed value, where the code has one
}

// The codes of problems.
const (
	DateMissing    = "date-missing"
	DateUnreal     = "date-unreal"
	DateOutside    = "date-outside"    // before wall.FirstDate or after wall.LastDate
	DatePast       = "date-past"       // asked about: families also start late
	DateFar        = "date-far"        // asked about: more than a year away
	ClockUnreal    = "clock-unreal"    // not a time of day
	ClockSkipped   = "clock-skipped"   // the clocks jump over it that night
	ClockOdd       = "clock-odd"       // asked about: before four in the morning or after six in the evening
	NumberUnreal   = "number-unreal"   // not a whole number
	NumberNegative = "number-negative" // below zero
	DriveLong      = "drive-long"      // over MaxDrive
	ParkingLong    = "parking-long"    // over MaxParking
	ZoneUnknown    = "zone-unknown"
	ChoiceUnknown  = "choice-unknown"
	RuleOutside    = "rule-outside" // outside Low to High
	RangeTurned    = "range-turned" // the least is more than the most
	TextLong       = "text-long"    // more than High characters
)

// DateFault is the code for an error of wall.ParseDate.
func DateFault(err error) string {
	if errors.Is(err, wall.ErrYears) {
		return DateOutside
	}
	return DateUnreal
}

// MaxName and MaxText bound the texts of a plan, in characters.
const (
	MaxName = 40
	MaxText = 120
)

// Arrivals before oddBefore or from oddAfter on are asked about.
const (
	oddBefore wall.Clock = 4 * 60
	oddAfter  wall.Clock = 18 * 60
)

// FarDays is how many days ahead a surgery date is asked about.
const FarDays = 366

// Check lists what is wrong with a plan, in the order of the form, or what to ask
// about. today is the day on the device's wall; it only serves to ask about dates
// that have passed or are far away.
func Check(p *Plan, today wall.Date) []Problem {
	var found []Problem
	add := func(field, code string) { found = append(found, Problem{Field: field, Code: code}) }
	found = append(found, checkText("patient", p.Patient, MaxName)...)
	if p.Surgery < wall.FirstDate || p.Surgery > wall.LastDate {
		add("surgery", DateMissing)
	} else {
		found = append(found, checkDay(p.Surgery, today)...)
	}
	found = append(found, checkArrival(p)...)
	if p.Joint >= jointEnd {
		add("joint", ChoiceUnknown)
	}
	if p.Operation >= operationEnd {
		add("operation", ChoiceUnknown)
	}
	if p.Stay >= stayEnd {
		add("stay", ChoiceUnknown)
	}
	found = append(found, checkMinutes("drive", p.Drive, MaxDrive, DriveLong)...)
	found = append(found, checkMinutes("parking", p.Parking, MaxParking, ParkingLong)...)
	found = append(found, checkProgram(&p.Program, today)...)
	found = append(found, checkFamily(p)...)
	return append(found, checkLines(p)...)
}

// Usable tells whether none of the problems stands in the way of a schedule.
func Usable(problems []Problem) bool {
	for _, p := range problems {
		if !p.Ask {
			return false
		}
	}
	return true
}

func checkDay(day, today wall.Date) []Problem {
	switch {
	case day < today:
		return []Problem{{Field: "surgery", Code: DatePast, Ask: true}}
	case day > today+FarDays:
		return []Problem{{Field: "surgery", Code: DateFar, Ask: true}}
	}
	return nil
}

// checkArrival looks at the arrival and at the zone, which decides whether the
// clocks skip it.
func checkArrival(p *Plan) []Problem {
	var found []Problem
	onClock := p.Arrival.Known() && p.Arrival != 1440
	if !onClock && p.Arrival != wall.NoClock {
		found = append(found, Problem{Field: "arrival", Code: ClockUnreal})
	}
	loc, err := zone.Load(p.Zone)
	if err != nil {
		return append(found, Problem{Field: "zone", Code: ZoneUnknown})
	}
	if !onClock || p.Surgery < wall.FirstDate || p.Surgery > wall.LastDate {
		return found // the day's own problem is listed already
	}
	if _, fit := p.Surgery.At(loc, p.Arrival); fit == zone.Skipped {
		return append(found, Problem{Field: "arrival", Code: ClockSkipped})
	}
	// A time field with AM and PM is easily filled in half: 02:50 for 12:50 or 14:50.
	if p.Arrival < oddBefore || p.Arrival >= oddAfter {
		found = append(found, Problem{Field: "arrival", Code: ClockOdd, Ask: true})
	}
	return found
}

func checkMinutes(field string, n, most int, long string) []Problem {
	switch {
	case n < Unknown:
		return []Problem{{Field: field, Code: NumberNegative}}
	case n > most:
		return []Problem{{Field: field, Code: long, High: most}}
	}
	return nil
}

func checkProgram(p *Program, today wall.Date) []Problem {
	var found []Problem
	for r, info := range Rules {
		if v := p.Get(Rule(r)); p.Own(Rule(r)) && (v < info.Min || v > info.Max) {
			found = append(found, Problem{Field: "rule." + info.Key, Code: RuleOutside, Low: info.Min, High: info.Max})
		}
	}
	for _, ends := range Ranges {
		if p.Get(ends.Min) > p.Get(ends.Max) {
			found = append(found, Problem{Field: "rule." + Rules[ends.Min].Key, Code: RangeTurned})
		}
	}
	found = append(found, checkText("hospital", p.Hospital, MaxName)...)
	found = append(found, checkText("address", p.Address, MaxText)...)
	found = append(found, checkText("phone", p.Phone, MaxName)...)
	found = append(found, checkFever(p)...)
	return append(found, checkTexts(p, today)...)
}

// lowFever are the tenths below which a fever to call about is asked about: 37.5 °C and
// 99.5 °F. Common practice, no published source: pages of hospitals say 38 °C or more.
const lowCelsius, lowFahrenheit = 375, 995

// highFever are the tenths above which it is asked about: 38.6 °C and 101.5 °F. Common practice,
// no published source: pages of hospitals say 101.5 °F or less.
const highCelsius, highFahrenheit = 386, 1015

// checkFever looks at the temperature from which on to call: it is on one of the scales.
func checkFever(p *Program) []Problem {
	if !p.Own(Fever) {
		return nil
	}
	n, field := p.Get(Fever), "rule."+Rules[Fever].Key
	celsius, ok := Celsius(n)
	switch {
	case !ok:
		return []Problem{{Field: field, Code: FeverUnclear}}
	case celsius && n < lowCelsius, !celsius && n < lowFahrenheit:
		return []Problem{{Field: field, Code: FeverLow, Ask: true}}
	case celsius && n > highCelsius, !celsius && n > highFahrenheit:
		return []Problem{{Field: field, Code: FeverHigh, Ask: true}}
	}
	return nil
}

func checkText(field, s string, most int) []Problem {
	if len([]rune(s)) > most {
		return []Problem{{Field: field, Code: TextLong, High: most}}
	}
	return nil
}
