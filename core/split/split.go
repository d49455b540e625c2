// Package split says who does what and whether it can work: which duties have somebody who
// can do them, which have nobody, which clash and why, where nobody is with the patient,
// and what the best split of the open duties is, line by line with its reasons.
//
// Look checks a schedule as it stands. Suggest makes a Proposal; Apply writes the accepted
// part of one into a plan. The optimum itself is core/assign's; the package comment there
// states it as a mathematical programme.
package split

import (
	"time"

	"newel/core/assign"
	"newel/core/plan"
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
	HasOther                // they have Other at that time, which takes them until Until
)

// Reason is why somebody cannot do a duty.
type Reason struct {
	Why         Why
	From, Until time.Time
	Other       int // HasOther: place in Schedule.Duties
}

// Gap is a time in which nobody is with the patient, in the time that somebody should be.
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
	Gaps     []Gap
	Loads    []Load
	// Counts of findings, by state.
	Count [Cannot + 1]int
}

// Because is a kind of reason for a suggestion.
type Because uint8

// The reasons for a suggestion, the most telling first.
const (
	OnlyOne   Because = iota + 1 // nobody else can
	HasSeries                    // they have the other dates of it
	Would                        // they would rather do it
	HasLess                      // they have the least for what they offered, of those who can
	IsFree                       // they can; others have more or cannot
	BestWhole                    // it makes the whole come out best
)

// Line is one duty in a proposal.
type Line struct {
	Duty     int   // place in Schedule.Duties
	From, To uint8 // who has it today, who would have it; 0: nobody
	Because  []Because
	Others   []Other // why each of the others not
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
	Weekday int8      // 0 to 6 (Sunday is 0) where it is about the times of one weekday; -1: one day
	Day     time.Time // the day, where Weekday is -1
	Clock   int       // minutes after midnight on the wall: AtWork, NotThen: could start, or stay, until then
	Starts  bool      // Clock is when they would have to be able to start; else until when they would have to stay
	Covers  []int     // places in Schedule.Duties that it would cover
}

// Proposal is what Suggest makes.
type Proposal struct {
	Lines   []Line // duties that would have somebody else than today, in order of time
	Open    []int  // places in Schedule.Duties that stay without anybody who can
	Changes []Change
	Loads   []Load // by helper
	Answer  assign.Answer
	Moved   int // dates that somebody able has today and another would have
}

// Scope says what a proposal may touch.
type Scope uint8

// The scopes.
const (
	FillOpen Scope = iota // everybody keeps what they have and can do
	Anew                  // only what a helper took on their own device stays with them (Held)
)

// Ask is what a proposal is asked for.
type Ask struct {
	Scope Scope
	Now   time.Time           // duties that are over are left alone
	Held  func(duty int) bool // whether a duty's helper took it themselves; nil: none
}

var _ = plan.Plan{}
