package plan

import (
	"errors"
	"slices"
	"strconv"

	"newel/core/repeat"
	"newel/core/wall"
)

// The codes of problems with the family's duties. A fault of the rule has the code
// RuleFault and the fault's own code behind it.
const (
	LengthLong  = "length-long"  // over MaxLength, or no time at all
	EarlyLong   = "early-long"   // over MaxEarly
	DutiesMany  = "duties-many"  // over MaxDuties or MaxDates
	HelpersMany = "helpers-many" // over MaxHelpers
	RuleFault   = "rule."
	DutyUnsound = "duty-unsound" // in a link only: no version of the page writes this

	// From the form that reads them (core/app).
	ClockMissing  = "clock-missing"
	NumberMissing = "number-missing"
	DutyOver      = "duty-over" // asked about: all its dates have passed
)

// MaxDates bounds the dates of all duties together, so that a link cannot ask for
// more memory than a phone has.
const MaxDates = 3000

// faultFields names the form's field that a fault of a rule belongs to.
var faultFields = map[string]string{
	repeat.EveryFault: "every", repeat.CountFault: "times", repeat.LastFault: "last", repeat.TooLong: "ends",
	repeat.TimeFault: "at", repeat.DayFault: "days", repeat.TwoEnds: "last", repeat.NoDates: "first",
}

// CheckDuty lists what is wrong with one of the family's duties. The fields are
// those of its form.
func CheckDuty(d *Duty) []Problem {
	var found []Problem
	found = append(found, checkText("title", d.Title, MaxName)...)
	found = append(found, checkText("place", d.Place, MaxText)...)
	found = append(found, checkText("note", d.Note, MaxText)...)
	if d.Kind >= DutyKindEnd {
		found = append(found, Problem{Field: "kind", Code: ChoiceUnknown})
	}
	if d.Need >= needEnd {
		found = append(found, Problem{Field: "need", Code: ChoiceUnknown})
	}
	found = append(found, checkRule(&d.Rule)...)
	switch {
	case d.Length < 0:
		found = append(found, Problem{Field: "length", Code: NumberNegative})
	case d.Length > MaxLength, d.Length == 0:
		found = append(found, Problem{Field: "length", Code: LengthLong, Low: 1, High: MaxLength})
	}
	return append(found, checkRide(d.Ride)...)
}

func checkRule(r *repeat.Rule) []Problem {
	if r.First < wall.FirstDate || r.First > wall.LastDate-repeat.MaxSpan*2 {
		return []Problem{{Field: "first", Code: DateMissing}}
	}
	var fault repeat.Fault
	if err := r.Check(); errors.As(err, &fault) {
		field := faultFields[fault.Code]
		if field == "" {
			field = "often"
		}
		return []Problem{{Field: field, Code: RuleFault + fault.Code}}
	}
	return nil
}

func checkRide(r Ride) []Problem {
	var found []Problem
	if r.Own < 0 {
		found = append(found, Problem{Field: "own", Code: NumberNegative})
	}
	found = append(found, checkMinutes("own", max(r.Own, 0), MaxDrive, DriveLong)...)
	found = append(found, checkMinutes("drive", r.Drive, MaxDrive, DriveLong)...)
	found = append(found, checkMinutes("parking", r.Parking, MaxParking, ParkingLong)...)
	switch {
	case r.Early < 0:
		found = append(found, Problem{Field: "early", Code: NumberNegative})
	case r.Early > MaxEarly:
		found = append(found, Problem{Field: "early", Code: EarlyLong, High: MaxEarly})
	}
	return found
}

// checkFamily looks at the helpers and at all duties together.
func checkFamily(p *Plan) []Problem {
	var found []Problem
	if len(p.Helpers) > MostHelpers {
		found = append(found, Problem{Field: "who", Code: HelpersMany, High: MostHelpers})
	}
	for i, name := range p.Helpers {
		if name == "" || slices.Contains(p.Helpers[:i], name) {
			found = append(found, Problem{Field: "who", Code: DutyUnsound})
		}
		found = append(found, checkText("who", name, MaxName)...)
	}
	for _, who := range p.Cover {
		if int(who) > len(p.Helpers) {
			found = append(found, Problem{Field: "who", Code: DutyUnsound})
		}
	}
	found = append(found, checkHelpers(p)...)
	if len(p.Duties) > MostDuties {
		return append(found, Problem{Field: "duties", Code: DutiesMany, High: MostDuties})
	}
	return append(found, checkDuties(p)...)
}

func checkDuties(p *Plan) []Problem {
	var found []Problem
	var last uint32
	dates := 0
	for i := range p.Duties {
		d := &p.Duties[i]
		problems := CheckDuty(d)
		if d.ID <= last || !soundWho(d, len(p.Helpers)) {
			problems = append(problems, Problem{Field: "who", Code: DutyUnsound})
		}
		for _, problem := range problems {
			problem.Field = "duty." + strconv.Itoa(int(d.ID)) + "." + problem.Field
			found = append(found, problem)
		}
		last = d.ID
		if len(problems) == 0 && !d.Dropped {
			days, _ := d.Rule.Pattern()
			dates += len(days) + len(d.Rule.Extra)
		}
		if dates > MaxDates {
			return append(found, Problem{Field: "duties", Code: DutiesMany, High: MaxDuties})
		}
	}
	return found
}

// soundWho tells whether a duty names helpers that there are, and dates in order.
func soundWho(d *Duty, helpers int) bool {
	for _, who := range d.On {
		if int(who) > helpers {
			return false
		}
	}
	for i, t := range d.Takes {
		if int(t.Who) > helpers || i > 0 && t.Day <= d.Takes[i-1].Day {
			return false
		}
	}
	return int(d.Who) <= helpers && len(d.Takes) <= MostTakes
}
