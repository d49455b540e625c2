package merge

import (
	"strings"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// kind is what a register's values are like.
type kind uint8

const (
	aNumber  kind = iota + 1 // low to high, in decimal
	aText                    // at most high characters
	aName                    // a helper's name
	aTaker                   // a helper's name, or nobody
	aMark                    // "1": only its being there counts
	aPattern                 // RuleText
	aChange                  // of a date: left out or moved
	anAbout                  // AboutText
	aLine                    // LineText
	aWording                 // what a line says in a language that Name names
	aSaying                  // of a hospital: plan.ProgramText says what it may be
)

// shape says what a field's keys and values may be.
type shape struct {
	kind      kind
	low, high int
	duty      bool   // Of is a duty's number
	sub       uint32 // the greatest Sub
	// stays says that going back to what a plan has by itself is written down (0 or an
	// empty text) and not a removal, so that it stands against another's change.
	stays bool
}

// lastExtra is the greatest day of a date that was moved or added, firstExtra the least:
// see plan's check of a rule's first day, and repeat's of what is near it.
const (
	firstExtra = wall.FirstDate - repeat.MaxSpan
	lastExtra  = wall.LastDate
)

// maxPlace bounds a helper's place in the order. Places grow only by reordering.
const maxPlace = 9999

// shapes has the rules of each field. A newer page may know more facts, settings of a
// program and duties that every plan has: their Subs go further than what has a
// meaning here (meaning).
var shapes = [fieldEnd]shape{
	Surgery:   {kind: aNumber, low: int(wall.FirstDate), high: int(wall.LastDate)},
	Arrival:   {kind: aNumber, high: 24*60 - 1},
	Zone:      {kind: aText, high: 64},
	Joint:     {kind: aNumber, high: int(plan.Hip), stays: true},
	Operation: {kind: aNumber, high: int(plan.BothSides), stays: true},
	Stay:      {kind: aNumber, high: int(plan.Undecided), stays: true},
	Drive:     {kind: aNumber, high: plan.MaxDrive},
	Parking:   {kind: aNumber, high: plan.MaxParking},
	Patient:   {kind: aText, high: plan.MaxName, stays: true},
	Fact:      {kind: aMark, sub: 31},
	Program:   {kind: aNumber, high: plan.MaxProgram, stays: true},
	Hospital:  {kind: aText, high: plan.MaxName},
	Address:   {kind: aText, high: plan.MaxText},
	Phone:     {kind: aText, high: plan.MaxName},
	Setting:   {kind: aNumber, sub: 63}, // the range is the rule's own
	Cover:     {kind: aName, sub: 31},
	Helper:    {kind: aNumber, low: 1, high: maxPlace},
	Tick:      {kind: aMark, sub: 1<<24 - 1},
	Hand:      {kind: aName, sub: uint32(LastActor)},
	Moves:     {kind: aNumber, low: 1, high: maxMoves, duty: true, sub: uint32(LastActor)},
	Alive:     {kind: aMark, duty: true},
	Gone:      {kind: aMark, duty: true},
	Kind:      {kind: aNumber, high: 255, duty: true, stays: true}, // a newer page may have more of them
	Title:     {kind: aText, high: plan.MaxName, duty: true, stays: true},
	Place:     {kind: aText, high: plan.MaxText, duty: true, stays: true},
	Note:      {kind: aText, high: plan.MaxText, duty: true, stays: true},
	Source:    {kind: aNumber, high: 1<<32 - 1, duty: true, stays: true},
	Length:    {kind: aNumber, low: 1, high: plan.MaxLength, duty: true},
	Own:       {kind: aNumber, high: plan.MaxDrive, duty: true, stays: true},
	Way:       {kind: aNumber, high: plan.MaxDrive, duty: true},
	Walk:      {kind: aNumber, high: plan.MaxParking, duty: true},
	Early:     {kind: aNumber, high: plan.MaxEarly, duty: true, stays: true},
	Leaves:    {kind: aMark, duty: true},
	Pattern:   {kind: aPattern, duty: true},
	Date:      {kind: aChange, duty: true, sub: uint32(wall.LastDate)},
	Extra:     {kind: aMark, duty: true, sub: uint32(lastExtra)<<minuteBits | 24*60 - 1},
	Who:       {kind: aName, duty: true},
	On:        {kind: aName, duty: true, sub: 6},
	Takes:     {kind: aTaker, duty: true, sub: uint32(lastExtra)},
	About:     {kind: anAbout},
	Out:       {kind: aMark},
	Shift:     {kind: aTaker, sub: 255},
	Need:      {kind: aNumber, high: 255, duty: true, stays: true},
	Steady:    {kind: aMark, duty: true},

	Line:         {kind: aLine, sub: 1<<32 - 1},
	LineDone:     {kind: aMark, sub: 1<<32 - 1},
	HospitalText: {kind: aSaying, sub: 63},
	LineWords:    {kind: aWording, sub: 1<<32 - 1},
}

// own is the value that is written where a plan's own value comes back in a field that
// stays.
func (s *shape) own() string {
	if s.kind == aNumber {
		return "0"
	}
	return ""
}

// lasting tells whether no act ever takes the register away again once it is written, so
// that Join may never do so either.
func (k Key) lasting() bool {
	switch k.Field {
	case Surgery, Length, Pattern:
		return true
	}
	return k.Field < fieldEnd && shapes[k.Field].stays
}

// pressing tells whether a register that can be taken away is one without which somebody could come late, come
// having eaten, or not know whom to call. Where each of two copies lacks what the other has, Join keeps both and
// lets people say: that two people each took away what the other wrote is less likely than a device's number
// that is used twice, and asking too much does less harm.
func (k Key) pressing() bool { return k.Field == Arrival || k.Field == Phone || k.Field == Setting }

// meaning tells whether this version of the page knows what a register is for.
func (k Key) meaning() bool {
	switch k.Field {
	case Fact:
		return k.Sub < 32 && plan.Facts(1)<<k.Sub&plan.AllFacts != 0
	case Setting:
		return k.Sub < uint32(len(plan.Rules))
	case Cover:
		return k.Sub < uint32(len(plan.BuiltIn))
	case Shift:
		return k.Sub <= uint32(plan.MaxSlot)
	case HospitalText:
		return k.Sub < uint32(len(plan.ProgramTextKeys))
	}
	return k.Field > 0 && k.Field < fieldEnd
}

// Newer tells whether the document holds something that this version of the page gives no
// meaning: the person should be told that a newer page shows more.
func (d *Doc) Newer() bool {
	for k := range d.regs {
		if !k.meaning() || k.later(d.value(k)) {
			return true
		}
	}
	return false
}

// later tells whether a value is one that only later pages give a meaning.
func (k Key) later(v string) bool {
	switch k.Field {
	case Kind:
		return numberOr(v, 0) >= int(plan.DutyKindEnd)
	case Need:
		return numberOr(v, 0) > int(plan.NiceToHave)
	case About:
		return strings.HasPrefix(v, laterAbout)
	case Line:
		l, ok := ReadLine(v)
		return ok && l.List >= plan.ListEnd
	}
	return false
}
