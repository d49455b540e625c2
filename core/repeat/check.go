package repeat

import (
	"time"

	"newel/core/wall"
)

// Check tells what is wrong with a rule, as a Fault: the first thing that is. A rule
// that passes is canonical and stays within the bounds of this package.
func (r Rule) Check() error {
	if err := r.checkFields(); err != nil {
		return err
	}
	if err := r.checkEnd(); err != nil {
		return err
	}
	if err := r.checkLists(); err != nil {
		return err
	}
	if !r.Canonical().Equal(r) {
		return Fault{Code: ListFault}
	}
	days, whole := r.pattern(nil)
	if !whole && !r.Endless() {
		return Fault{Code: TooLong}
	}
	if len(days)+len(r.Extra) <= len(r.Skipped) {
		return Fault{Code: NoDates}
	}
	return nil
}

// checkFields looks at each field by itself, so that what follows may count with them.
func (r Rule) checkFields() error {
	switch {
	case r.Freq >= freqEnd:
		return Fault{Code: NotARule}
	case r.At < 0 || r.At >= 24*60:
		return Fault{Code: TimeFault}
	case r.Every < 1 || r.Every > MaxEvery:
		return Fault{Code: EveryFault}
	case r.Freq == Weekly && (r.Days == 0 || r.Days > AllDays || r.Week < 0 || r.Week > 6):
		return Fault{Code: DayFault}
	case r.Freq == Monthly && !r.monthFits():
		return Fault{Code: DayFault}
	case len(r.Skipped) > MaxList || len(r.Moved) > MaxList || len(r.Extra) > MaxList:
		return Fault{Code: ListFault}
	}
	return nil
}

// monthFits tells whether a monthly rule names days of the month or weekdays of it,
// not both, and all of them can be.
func (r Rule) monthFits() bool {
	if (len(r.MonthDays) == 0) == (len(r.Nth) == 0) || len(r.MonthDays) > 62 || len(r.Nth) > 7*11 {
		return false
	}
	for _, d := range r.MonthDays {
		if d == 0 || d > 31 || d < -31 {
			return false
		}
	}
	for _, n := range r.Nth {
		if n.N < -5 || n.N > 5 || n.Day < time.Sunday || n.Day > time.Saturday {
			return false
		}
	}
	return true
}

func (r Rule) checkEnd() error {
	switch {
	case r.Count != 0 && r.Last != 0:
		return Fault{Code: TwoEnds}
	case r.Count < 0 || r.Count > MaxCount:
		return Fault{Code: CountFault}
	case r.Last != 0 && (r.Last < r.First || r.Last > r.First+MaxSpan):
		return Fault{Code: LastFault}
	}
	return nil
}

// checkLists looks at moved and extra dates: each a moment near the rule.
func (r Rule) checkLists() error {
	near := func(m Moment) bool {
		return m.At >= 0 && m.At < 24*60 && within(m.Day, r.First-MaxSpan, r.First+2*MaxSpan)
	}
	for _, m := range r.Moved {
		if !near(m.To) {
			return Fault{Code: ListFault}
		}
	}
	for _, m := range r.Extra {
		if !near(m) {
			return Fault{Code: ListFault}
		}
	}
	return nil
}

func within(d, from, to wall.Date) bool { return d >= from && d <= to }
