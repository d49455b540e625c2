package plan

import "newel/core/repeat"

// About is what is known of a helper beside their first name: what they can do and when.
// The zero value stands for somebody who has not been asked yet; such a helper is taken to
// be able to do everything, and the page says that nobody has said so.
type About struct {
	Told   bool      // somebody filled it in; the rest counts only then
	Can    Abilities // what they can do
	Out    bool      // they cannot help any more
	Away   int       // minutes from their own home to the patient's; 0: they live there, or Unknown
	Offer  Offer     // how much they offered
	Likes  Tasks     // would rather do these
	Avoids Tasks     // would rather not do these; no task is in both
	Times  []Times   // when they can and cannot, in the order in which they were entered
}

// Abilities is a set of what a helper can do. The bits go into links.
type Abilities uint8

// The abilities.
const (
	CanDrive     Abilities = 1 << iota // drives, and has a car that the patient can get into
	CanNight                           // may stay the night
	CanSteady                          // can steady or lift the patient
	CanPets                            // is fine with the pets
	AllAbilities = 1<<iota - 1
)

// Offer is how much a helper offered to do. The numbers go into links.
type Offer uint8

// The offers, in hours a week (OfferHours): ours, shown beside each.
const (
	Usual Offer = iota
	Light
	ALot
	offerEnd
)

// OfferHours is what each offer comes to in a week. They are one, two and four times the
// least, so that loads over offers stay plain numbers.
var OfferHours = [offerEnd]int{Usual: 6, Light: 3, ALot: 12}

// Tasks is a set of kinds of work that helpers have likings about. The bits go into links.
type Tasks uint8

// The tasks.
const (
	RideTask     Tasks = 1 << iota // driving the patient to therapy and visits
	HospitalTask                   // the day of surgery and going home
	PetsTask
	MealsTask
	NightTask   // being there overnight
	CompanyTask // being there by day
	OtherTask
	AllTasks = 1<<iota - 1
)

// Times is a repeating time in which a helper can help, or cannot.
type Times struct {
	Use    TimesUse
	Rule   repeat.Rule // when it begins; without skipped, moved and extra dates
	Length int         // minutes until it is over, from 1 to MaxTimesLength
}

// TimesUse says what somebody's time is. The numbers go into links.
type TimesUse uint8

// The uses. Somebody with any Free times can help only in those; a Work or Gone time takes
// away from whatever is left.
const (
	Work TimesUse = iota // at work
	Gone                 // away
	Free                 // can help then
	timesUseEnd
)

// The bounds of what is told of a helper.
const (
	MaxTimes       = 12
	MaxTimesLength = 60 * 24 * 60 // minutes: sixty days of being away
)

// Need is how much a duty is needed. The numbers go into links.
type Need uint8

// The needs. ByKind leaves it to the kind of the duty.
const (
	ByKind Need = iota
	MustBe
	ShouldBe
	NiceToHave
	needEnd
)

// Slot is a part of the time in which somebody stays with the patient at home: three a day,
// counted from the day of surgery, so that they move along with it. The slot of day n (0 is
// the day of surgery) and part p is 3n + p.
type Slot uint8

// The parts of a day: 08:00 to 14:00, 14:00 to 20:00, 20:00 to 08:00 on the wall.
const (
	Morning Slot = iota
	Afternoon
	Night
	slotParts
)

// MaxSlot bounds the slots: twenty days. Going home on the day after surgery, with the
// longest drive that a plan takes, and fourteen days from then on end within them.
const MaxSlot = 20*slotParts - 1

// Shift says who has one slot: 1 + the helper's place, or 0 for nobody.
type Shift struct {
	Slot Slot
	Who  uint8
}
