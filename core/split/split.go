// Package split says who does what and whether it can work: which duties have somebody who
// can do them, which have nobody, which clash and why, where nobody is with the patient,
// and what the best split of the open duties is, line by line with its reasons.
//
// Look checks a schedule as it stands. Suggest makes a Proposal; Apply writes the accepted
// part of one into a plan. The optimum itself is core/assign's; the package comment there
// states it as a mathematical programme, and programme.go says what of a plan goes into it.
//
// # What a duty takes of its helper
//
// Two duties of one helper clash where they take the same thing at the same time. This table
// is the only judge of that: Look reads it, and the items of the programme are made of it
// (assign.Item.Takes), so that the checks and the optimum cannot disagree.
//
//	duty                      from                     until                     takes
//	drive to the hospital     leaving home             back home, if they leave  the hands, as the driver there
//	waiting in the hospital   leaving home             back home                 the hands, as the one who waits
//	drive home (same day)     leaving home             home, after the latest    the hands, as the driver home
//	                                                   end of recovery
//	drive home (next day)     leaving home             home, at the latest       the hands, as the driver of the morning
//	a ride                    leaving home             home, at the latest       the hands
//	  its helper goes home    the same, without the time at home in between
//	pets, meals, anything     its beginning            its end                   the hands
//	  at the patient's home
//	the same elsewhere        its beginning            its end                   the hands and the place
//	                          less the way there       and the way back
//	a part of staying         its beginning,           its end, at the latest    the place, in the stays
//	  at home                 at the earliest                                    that it is for
//	a night of the family     its beginning            its end                   the place, at night
//
// The hands are four uses, one for each of the four duties of the hospital; whatever is not
// of the hospital takes all four. So no two pets or rides are ever at once, nothing of them
// goes together with the hospital or the way there and back, and the four duties of the
// hospital go together in one person: who drove there and waits does not drive out again.
// The place is three uses: one for each stay, while nobody knows which it will be, and one
// for the family's nights, since a part of the staying can have such a night in its middle.
// What follows the patient (rides, the hospital) goes together with staying with the patient,
// and so does what is done in the patient's home. Both of two parts or drives of which only
// one will be needed (schedule.Branch) may be one helper's; each stay for itself must work.
//
// Home is the patient's. Between two duties that begin and end there nobody has to go to
// their own home and back. The own way counts when it is asked whether somebody is free
// (windows.go): from leaving their own home to being back in it. Of waiting in the hospital it
// is the way there from the patient's home, since no other is known. Of a duty that is elsewhere
// the only way that is known is the one that the family told for it (plan.Ride.Own), so that
// one stands in the table. All of this is ours; no published source.
//
// A duty of which no time is known takes nothing and is judged by ability alone. Where only
// a way is not known it counts nothing, and the duty from being there to its end, a minute at
// least: whoever is away all day cannot, however near it is. Of a drive home on the day of
// surgery nobody knows the end, since the checks come after recovery. It counts until the
// latest end of recovery and the way home; the checks can make it later still.
package split

import (
	"time"

	"newel/core/assign"
	"newel/core/schedule"
)

// State is how one duty stands.
type State uint8

// The states.
const (
	Covered State = iota // has somebody who can do it
	Untold               // has somebody of whom nobody has said what they can do
	Open                 // nobody has it
	Cannot               // who has it cannot do it: Why says why
)

// Finding is what there is to say of one duty that is not over.
type Finding struct {
	Duty  int   // its place in Schedule.Duties
	Who   uint8 // 1 + place in Plan.Helpers; 0: nobody
	State State
	Why   []Reason // why Who cannot; the most telling first
}

// Why is a kind of reason why somebody cannot do a duty.
type Why uint8

// The reasons.
const (
	NoCar    Why = iota + 1 // it needs someone who drives
	NoNight                 // they cannot stay the night
	NoSteady                // it needs someone who can steady or lift
	NoPets                  // they are not fine with the pets
	IsOut                   // they cannot help any more
	AtWork                  // at work From, Until
	IsAway                  // away From, Until
	NotThen                 // it is outside the times in which they can; From, Until: the nearest such time, zero where there is none
	HasOther                // they have Other at that time, which takes them From, Until
)

// Reason is why somebody cannot do a duty.
type Reason struct {
	Why         Why
	From, Until time.Time
	Other       int // HasOther: place in Schedule.Duties
}

// Gap is a time in which nobody is with the patient, in the time that somebody should be.
// One that goes on after the hours that must be is two gaps, one after the other.
type Gap struct {
	Branch   schedule.Branch
	From, To time.Time
	Must     bool // in the hours for which somebody must be there (plan.StayWithHours)
}

// Load is how much a helper has.
type Load struct {
	Who    uint8
	Before int // minutes today
	After  int // minutes with the proposal; as Before in a Report
	Offer  int // minutes offered for the same time
}

// Report is what Look finds.
type Report struct {
	Findings []Finding // by place in Schedule.Duties, of those that are not over
	Gaps     []Gap     // one stay after the other, in order of time
	Loads    []Load    // of each helper, in the plan's order
	// Counts of findings, by state.
	Count [Cannot + 1]int

	v *view // what it was found in
}

// Because is a kind of reason for a suggestion.
type Because uint8

// The reasons for a suggestion, the most telling first.
const (
	OnlyOne    Because = iota + 1 // nobody else can, whatever they have
	HasSeries                     // they have the most dates of it, and whoever has this one has not all of them today
	Would                         // they would rather do it
	HasLess                       // they have the least for what they offered, of those who can, and still would
	IsFree                        // they have the least so far for what they offered, of those who can
	OthersBusy                    // who else could has something else then, today or in this proposal
	BestWhole                     // it makes the whole come out best
)

// Line is one duty in a proposal. Where To is 0 it is given back: whoever has it cannot do
// it, nobody else can, and it overlaps something that they keep or get.
type Line struct {
	Duty     int   // place in Schedule.Duties
	From, To uint8 // who has it today, who would have it; 0: nobody
	Because  []Because
	Others   []Other // why each of the others not; plan.MaxHelpers of them at most
}

// Other is somebody who does not get a duty.
type Other struct {
	Who uint8
	Why []Reason // empty: they could
}

// Change is the smallest change that would cover more.
type Change struct {
	Who     uint8
	Why     Why       // what stands in the way: only that would have to change
	Weekday int8      // 0 to 6 (Sunday is 0) where it is about the times of one weekday; -1: one day, or no day at all
	Day     time.Time // a time on the day, where it is about one day; zero: it is about no day
	Clock   int       // minutes after midnight on the wall: AtWork, NotThen: could start, or stay, until then
	Starts  bool      // Clock is when they would have to be able to start; else until when they would have to stay
	End     int       // where both would have to change: until when, on the same day or else on the next; 0: only Clock would
	Covers  []int     // places in Schedule.Duties that it would cover
}

// Proposal is what Suggest makes.
type Proposal struct {
	Lines   []Line // duties that would have somebody else than today, in order of time
	Open    []int  // places in Schedule.Duties that stay without anybody who can
	Changes []Change
	Loads   []Load // of each helper, in the plan's order
	Answer  assign.Answer
	Beyond  int // duties that were left out, since a programme takes assign.MaxItems: the latest
}

// Scope says what a proposal may touch.
type Scope uint8

// The scopes.
const (
	FillOpen Scope = iota // everybody keeps what they have and can do, unless it keeps them from what nobody else can do
	Anew                  // only what a helper took on their own device stays with them (Held)
)

// Ask is what a proposal is asked for.
type Ask struct {
	Scope Scope
	Now   time.Time           // duties that are over are left alone
	Held  func(duty int) bool // whether a duty's helper took it themselves; nil: none
	// Fixed tells of which duties it is being asked who has them, since two people said different
	// things: they stay with whoever has them in the plan, in no line and in nothing that is open
	// or would be covered by a change, and that helper gets nothing beside them. What shares a
	// register with one is fixed too. nil: none.
	Fixed func(duty int) bool
}
