package schedule

import "newel/core/plan"

// Stage is one part of the day in the hospital. Nobody can promise its times, so
// each end is a range, said with "usually".
type Stage struct {
	ID     string // ready, surgery, recovery
	Begins Span
	Ends   Span
}

// hospitalDay adds up the program's ranges by interval arithmetic: the least of
// one stage follows the least of the one before, the most follows the most.
// Common practice, no published source: about 1 h to get ready; surgery 1 h to
// 1 h 30, a revision about 2 h, both sides 2 h 30 to 3 h; recovery 1 to 3 h.
func (s *Schedule) hospitalDay() []Stage {
	if s.Arrival.IsZero() {
		return nil
	}
	arrive := at(s.Arrival)
	prep := s.minutes(plan.PrepMinutes)
	begin := arrive.add(prep, prep)
	least, most := plan.SurgeryRange(s.Plan.Operation)
	end := begin.add(s.minutes(least), s.minutes(most))
	awake := end.add(s.minutes(plan.RecoveryMin), s.minutes(plan.RecoveryMax))
	return []Stage{
		{"ready", arrive, begin},
		{"surgery", begin, end},
		{"recovery", end, awake},
	}
}

// outOfRecovery is when the patient usually leaves the recovery room.
func (s *Schedule) outOfRecovery() Span {
	for _, st := range s.Stages {
		if st.ID == "recovery" {
			return st.Ends
		}
	}
	return Span{}
}
