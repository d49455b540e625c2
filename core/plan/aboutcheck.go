package plan

import "strconv"

// The codes of problems with what is told of a helper. Those of a time are as those of a
// duty's rule, and LengthLong.
const (
	TimesMany  = "times-many"  // over MaxTimes of one helper, or MaxTimesDates of all
	AwayLong   = "away-long"   // over MaxDrive
	LikesTwice = "likes-twice" // one task is both liked and avoided
)

// MaxTimesDates bounds the dates of the times of all helpers together, so that a link cannot
// ask for more work than a phone does in a moment. Twelve helpers with three times each on
// five days a week, for a year, have 9,360.
const MaxTimesDates = 20_000

// CheckAbout lists what is wrong with what is told of a helper. The fields are away, can,
// offer, likes, times, and of the nth time (from 0) times.N. and length or the field of a
// duty's rule: first, at, days, every, times, last, ends, often.
func CheckAbout(a *About) []Problem {
	var found []Problem
	found = append(found, checkMinutes("away", a.Away, MaxDrive, AwayLong)...)
	if a.Can&^AllAbilities != 0 {
		found = append(found, Problem{Field: "can", Code: ChoiceUnknown})
	}
	if a.Offer >= offerEnd {
		found = append(found, Problem{Field: "offer", Code: ChoiceUnknown})
	}
	switch {
	case (a.Likes|a.Avoids)&^AllTasks != 0:
		found = append(found, Problem{Field: "likes", Code: ChoiceUnknown})
	case a.Likes&a.Avoids != 0:
		found = append(found, Problem{Field: "likes", Code: LikesTwice})
	}
	if len(a.Times) > MaxTimes {
		return append(found, Problem{Field: "times", Code: TimesMany, High: MaxTimes})
	}
	for i := range a.Times {
		for _, problem := range checkTimes(&a.Times[i]) {
			problem.Field = "times." + strconv.Itoa(i) + "." + problem.Field
			found = append(found, problem)
		}
	}
	return found
}

func checkTimes(t *Times) []Problem {
	found := checkRule(&t.Rule)
	if len(t.Rule.Skipped)+len(t.Rule.Moved)+len(t.Rule.Extra) > 0 {
		found = append(found, Problem{Field: "often", Code: DutyUnsound})
	}
	if t.Use >= timesUseEnd {
		found = append(found, Problem{Field: "use", Code: ChoiceUnknown})
	}
	switch {
	case t.Length < 0:
		found = append(found, Problem{Field: "length", Code: NumberNegative})
	case t.Length > MaxTimesLength, t.Length == 0:
		found = append(found, Problem{Field: "length", Code: LengthLong, Low: 1, High: MaxTimesLength})
	}
	return found
}

// checkHelpers looks at what is told of all helpers, and at the slots.
func checkHelpers(p *Plan) []Problem {
	var found []Problem
	if len(p.About) != 0 && len(p.About) != len(p.Helpers) || !soundShifts(p) {
		found = append(found, Problem{Field: "who", Code: DutyUnsound})
	}
	dates := 0
	for i := range p.About {
		a := &p.About[i]
		problems := CheckAbout(a)
		if !a.Told && !a.Equal(About{Out: a.Out}) {
			problems = append(problems, Problem{Field: "told", Code: DutyUnsound})
		}
		for _, problem := range problems {
			problem.Field = "helper." + strconv.Itoa(i+1) + "." + problem.Field
			found = append(found, problem)
		}
		if len(problems) == 0 {
			for t := range a.Times {
				days, _ := a.Times[t].Rule.Pattern()
				dates += len(days)
			}
		}
		if dates > MaxTimesDates {
			return append(found, Problem{Field: "helper." + strconv.Itoa(i+1) + ".times", Code: TimesMany, High: MaxTimes})
		}
	}
	return found
}

// soundShifts tells whether the slots name helpers that there are, in order.
func soundShifts(p *Plan) bool {
	for i, s := range p.Shifts {
		if s.Slot > MaxSlot || int(s.Who) > len(p.Helpers) || i > 0 && s.Slot <= p.Shifts[i-1].Slot {
			return false
		}
	}
	return true
}
