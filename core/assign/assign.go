// Package assign finds the best split of timed items among helpers, and says how much of it
// is proven. It knows nothing of plans: core/split makes a Problem of one and says what an
// answer means.
//
// # The programme
//
// Given are helpers i, items j, each item in one series s(j), and
//
//	a[i,j]  1 where helper i can take item j, else 0          Item.Able
//	w[j]    the item's weight within its tier                 Item.Weight
//	d[j]    minutes that it counts as load                    Item.Load
//	o[i]    minutes that the helper offered                   Helper.Offer
//	r[i,j]  1 would rather, -1 would rather not, else 0       Item.Rather
//	n[i,j]  1 where helper i has item j today, else 0         Item.Now
//
// Sought are x[i,j] in {0, 1}: helper i takes item j. Always:
//
//	x[i,j] ≤ a[i,j]                                           for all i, j
//	sum over i of x[i,j] ≤ 1                                  for all j
//	sum over j in K(u,t) of x[i,j] ≤ 1                        for all i, uses u, instants t
//	x[i,j] = n[i,j]                                           for all i, and the held items j
//
// where K(u,t) are the items that take use u during the minute that begins at t; it is
// enough to write the row for each t at which an item begins to take u. The aims, each
// fixed at its best before the next is looked at, with L[i] = sum over j of d[j] x[i,j]:
//
//	1a  most  sum of w[j] x[i,j] over items that must be covered
//	1b  most  the same over items that should be
//	1c  most  the same over items that are nice to have
//	2   T* = least T such that L[i] ≤ T o[i] for all i; then, from here on,
//	    L[i] ≤ max(o[i], 1.10 T* o[i])                        for all i
//	3   least sum of y[i,s], with y[i,s] ≥ x[i,j] for s = s(j): different (series, helper)
//	4   most  sum of r[i,j] x[i,j]
//	5   least sum over i of q[i] L[i]²                        q: see Problem.Scale
//	6   least number of items with n[i,j] = 1 for an able i and x[i,j] = 0: changes
//
// Of several answers that are equally good in all of them, the one is given that a fixed
// search meets first, going by keys and times alone, so that the same problem has the same
// answer, in whatever order its helpers and items are listed and however series are numbered.
//
// Why not the plain least T before continuity: it binds only the busiest helper, costs a
// third to a half more changing of faces for the last few minutes of fairness, and leaves
// ties, so that a quarter of the items would change hands at each reload.
package assign

// Problem is one programme. Times are minutes on any one axis of elapsed time.
type Problem struct {
	Helpers []Helper
	Items   []Item // in any order
}

// Helper is somebody who takes items.
type Helper struct {
	Key   string // tells helpers apart
	Offer int    // minutes that they offered for all items together, from 1 to MaxOffer
}

// Tier says how much an item is needed. A higher one is never given up for lower ones.
type Tier uint8

// The tiers.
const (
	Nice Tier = iota
	Should
	Must
	tierEnd
)

// Nobody is the place of no helper.
const Nobody = -1

// Item is something that one helper does.
type Item struct {
	Key    string // tells items apart
	Series int    // items of one series are one duty on several dates; any number from 0
	Tier   Tier
	Weight int    // from 1 to MaxWeight
	Load   int    // minutes, from 0 to MaxLoad
	Takes  []Take // what it takes of its helper; two items that overlap in one use are never one helper's
	Able   []bool // by helper
	Now    int    // who has it today, or Nobody
	Held   bool   // it stays with Now, who is able; two held items of one helper do not overlap
	Rather []int8 // by helper; nil: nobody said
}

// Take is a time in which an item needs some of its helper's uses.
type Take struct {
	From, To int // minutes; From < To. An item that ends when another begins does not overlap it
	Uses     Uses
}

// Uses is a set of what a helper has only one of. What they stand for is the caller's.
type Uses uint8

// The bounds of a programme.
const (
	MaxHelpers = 60
	MaxItems   = 3000
	MaxWeight  = 1000
	MaxLoad    = 24 * 60
	MaxOffer   = 1 << 20
)

// Level names one aim.
type Level uint8

// The levels, in the order in which they count.
const (
	CoverMust Level = iota
	CoverShould
	CoverNice
	Peak
	Pairs
	Rather
	Square
	Moves
	LevelEnd
)

// Ratio is a fraction in lowest terms; Den is above 0.
type Ratio struct{ Num, Den int64 }

// Value is what an answer reaches in one level, and what it could reach at most.
type Value struct {
	// Got is the sum of the level's formula as it stands in the package comment. Of Peak it
	// is the smallest largest load over offer that was found on the way, which the answer
	// itself may exceed by the tenth.
	Got Ratio
	// Bound is proven: no answer that is as good in all levels before does better. Where a
	// level before is not proven, it holds for answers with what was got there.
	Bound  Ratio
	Proven bool // Got equals Bound
}

// Answer is a split.
type Answer struct {
	To     []int // by item of the problem: the helper, or Nobody
	Values [LevelEnd]Value
	Cap    []int // by helper: minutes of load that level 2 allows
	Work   int   // how much was done, in units of Options.Work
}

// Options bound a search. Work is counted and not timed, so that an answer is the same on
// every machine.
type Options struct {
	// Work is about how many elementary steps may be taken; 0 is DefaultWork. A level
	// that is begun may take some more. TestHostileSizes took 8 to 40 nanoseconds a step
	// natively; how long one takes depends on the problem.
	Work int
	// Until is the last level that is looked at; 0 is all of them.
	Until Level
}
