package schedule

import (
	"cmp"
	"slices"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// DutyKind is what a duty asks of the helper.
type DutyKind uint8

// The kinds of duty.
const (
	Drive DutyKind = iota // take the patient somewhere
	Wait                  // be there while nothing is asked
	Stay                  // be with the patient at home
	Help                  // everything else that the family shares out
)

// Duty is something one helper does at a time.
type Duty struct {
	ID       string // of its words: one of plan.BuiltIn, or a key of plan.DutyKeys
	Kind     DutyKind
	Homeward bool // a drive that brings the patient home
	Branch   Branch
	Must     bool // nobody may be left without it; otherwise it is good to have
	Place    Place
	Day      wall.Date // the day on which it begins, leaving home included; always known
	Trip     Trip      // how Leave was worked out; zero while not known
	Leave    time.Time // leave home by; zero while not known
	There    Span      // be there, or begins
	Ends     Span      // usually ends: handed over, home, or relieved
	Home     Span      // about when the patient is home, for the drives home
	Free     time.Time // free again at the latest; zero while not known
	Open     bool      // nobody can say when it ends: Ends and Home are the earliest, Free is not known
	Needs    Need      // what has to be told for the missing times
	Slot     plan.Slot // of a Stay: which part of the time at home it is
	Own      int       // minutes from the helper's own home to the patient's; the family's own duties hold it in Leave and Free, see FromHome

	// Of the family's own duties only.
	Family  *plan.Duty        // which of them; nil for what every plan has
	On      repeat.Occurrence // which of its dates
	Fit     zone.Fit          // whether the clocks skip or repeat the date's time
	Session Span              // from the appointment, or the beginning, to its end
	Gap     Span              // of a ride whose helper does not wait: home again, and leave again
}

// begin is the time by which a duty is sorted, shown and called next.
func (d *Duty) begin() time.Time {
	if !d.Leave.IsZero() {
		return d.Leave
	}
	return d.There.From
}

// duties lists them in order of day and time; of two at one time the earlier
// listed comes first.
func (s *Schedule) duties() []Duty {
	all := []Duty{s.driveThere(), s.wait()}
	var homes []Duty
	for _, b := range s.branches() {
		homes = append(homes, s.driveHome(b))
	}
	family := s.familyDuties()
	all = append(append(all, homes...), s.stays(homes, family)...)
	s.ownWays(all)
	s.mustNights(family)
	return s.inOrder(all, family)
}

// inOrder sorts the duties and lets each series know where its dates went. Their
// places are sorted, not the duties: a family has hundreds, and they are large.
func (s *Schedule) inOrder(all, family []Duty) []Duty {
	at := func(i int) *Duty {
		if i < len(all) {
			return &all[i]
		}
		return &family[i-len(all)]
	}
	places := make([]place, len(all)+len(family))
	for i := range places {
		d := at(i)
		places[i] = place{d.Day, d.begin().Unix(), i}
	}
	slices.SortFunc(places, place.compare)
	sorted := make([]Duty, len(places))
	series := map[*plan.Duty]*Series{}
	for i := range s.Series {
		series[s.Series[i].Duty] = &s.Series[i]
	}
	for i, p := range places {
		sorted[i] = *at(p.listed)
		if own := series[sorted[i].Family]; own != nil {
			own.Dates = append(own.Dates, i)
		}
	}
	return sorted
}

// place is where a duty was listed, with what it is sorted by: no two are alike.
type place struct {
	day    wall.Date
	begin  int64 // in seconds since 1970; plans know no less than minutes
	listed int
}

func (p place) compare(q place) int {
	return cmp.Or(cmp.Compare(p.day, q.day), cmp.Compare(p.begin, q.begin), cmp.Compare(p.listed, q.listed))
}

// driveThere takes the patient to the hospital for the arrival time.
func (s *Schedule) driveThere() Duty {
	d := Duty{ID: "drive-there", Must: true, Place: Hospital, Day: s.Plan.Surgery}
	if s.Arrival.IsZero() {
		d.Needs = NeedsArrival
		return d
	}
	d.There, d.Ends = at(s.Arrival), at(s.Arrival)
	s.leaveFor(&d, s.Arrival)
	d.startAtLeave()
	return d
}

// wait is for the helper who stays: they can usually wait in the room.
func (s *Schedule) wait() Duty {
	d := Duty{ID: "wait", Kind: Wait, Place: Hospital, Day: s.Plan.Surgery}
	if s.Arrival.IsZero() {
		d.Needs = NeedsArrival
		return d
	}
	d.There, d.Ends = at(s.Arrival), s.outOfRecovery()
	d.Free = d.Ends.To
	return d
}

// driveHome takes the patient home, on the day or on the morning after.
func (s *Schedule) driveHome(b Branch) Duty {
	if b == IfOneNight {
		return s.driveHomeMorning()
	}
	return s.driveHomeSameDay()
}

// driveHomeMorning is after one night, at the program's times (common practice: be
// there 08:30, most leave by 10:00).
func (s *Schedule) driveHomeMorning() Duty {
	d := Duty{ID: "drive-home-morning", Homeward: true, Branch: IfOneNight, Must: true, Place: Hospital, Day: s.Plan.Surgery + 1}
	d.There, d.Ends = at(s.clock(d.Day, plan.DischargeThere)), at(s.clock(d.Day, plan.DischargeLeave))
	d.Home = s.homeward(d.Ends)
	d.Free = d.Home.To
	s.leaveFor(&d, d.There.From)
	d.startAtLeave()
	return d
}

// driveHomeSameDay begins with the earliest end of recovery. It has no end: the
// checks before going home come after recovery, and may take hours.
func (s *Schedule) driveHomeSameDay() Duty {
	d := Duty{ID: "drive-home", Homeward: true, Branch: IfSameDay, Must: true, Place: Hospital, Day: s.Plan.Surgery, Open: true}
	recovery := s.outOfRecovery()
	if !recovery.Known() {
		d.Needs = NeedsArrival
		return d
	}
	d.There, d.Ends = at(recovery.From), at(recovery.From)
	if home := s.homeward(d.Ends); home.Known() {
		d.Home = at(home.From)
	}
	s.leaveFor(&d, d.There.From)
	d.Free = time.Time{}
	return d
}

// startAtLeave puts a duty on the day of leaving home, which a long drive or an
// early arrival may make the day before.
func (d *Duty) startAtLeave() {
	if !d.Leave.IsZero() {
		d.Day = wall.DateOf(d.Leave)
	}
}

// leaveFor fills in when to leave home to be at the hospital by a time.
func (s *Schedule) leaveFor(d *Duty, there time.Time) {
	trip, ok := s.trip(there)
	if !ok {
		d.Needs = NeedsDrive
		return
	}
	d.Trip, d.Leave = trip, trip.Leave
	if d.Free.IsZero() {
		d.Free = there
	}
}
