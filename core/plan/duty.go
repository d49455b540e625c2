package plan

import (
	"slices"
	"strings"

	"newel/core/repeat"
	"newel/core/wall"
)

// Duty is something that the family added to the plan: rides to therapy, pets,
// meals, nights. It comes once or by a rule.
type Duty struct {
	ID       uint32 // its lasting number within the plan: MadeBy<<NthBits + its place among what that device added, from 1
	Revision uint16 // how often a change moved its times; part of the SEQUENCE in calendars
	Kind     DutyKind
	Title    string   // what the family calls it; empty: what its kind is called
	Place    string   // where; empty for what is at the patient's home
	Note     string   // what to bring, whom to ask for
	Who      uint8    // 1 + the helper's place in Plan.Helpers; 0: nobody yet
	On       [7]uint8 // by time.Weekday: who has the dates on it; 0: as Who says
	Takes    []Take   // who has single dates, against Who and On; in ascending order, no twins
	Rule     repeat.Rule
	Length   int    // minutes from the rule's time until it is over
	Ride     Ride   // of rides only
	Need     Need   // how much it is needed
	Steady   bool   // whoever does it has to be able to steady or lift the patient
	Dropped  bool   // it was taken out; it stays so that calendars hear of it
	Source   uint32 // mark of the entry of somebody's calendar file that it came from; 0: none
}

// NthBits is how much of a duty's number counts those that one device added. The rest is
// the device's own number, so that two who add a duty at the same time, each on their own
// phone, never give out one number twice. Whoever made the plan has 0.
const NthBits = 10

// Take says who has a single date of a duty: 1 + the helper's place, or 0 for nobody. Day
// is the date by which it is skipped or moved (repeat.Occurrence.Of).
type Take struct {
	Day wall.Date
	Who uint8
}

// WhoHas gives who has the date of a duty that the pattern puts on a day.
func (d *Duty) WhoHas(day wall.Date) uint8 {
	if i, found := slices.BinarySearchFunc(d.Takes, day, func(t Take, day wall.Date) int { return int(t.Day - day) }); found {
		return d.Takes[i].Who
	}
	if who := d.On[day.Weekday()]; who != 0 {
		return who
	}
	return d.Who
}

// Shared tells whether not all dates are one helper's.
func (d *Duty) Shared() bool { return d.On != [7]uint8{} || len(d.Takes) > 0 }

// Has tells whether a helper has any date of the duty, as far as its settings say.
func (d *Duty) Has(who uint8) bool {
	return d.Who == who || slices.Contains(d.On[:], who) && who != 0 ||
		slices.ContainsFunc(d.Takes, func(t Take) bool { return t.Who == who })
}

// DutyKind is the kind of a family's duty. The numbers go into links.
type DutyKind uint8

// The kinds of a family's duties. The first three are rides.
const (
	TherapyRide DutyKind = iota // a ride to outpatient therapy
	VisitRide                   // a ride to a doctor’s visit
	OtherRide
	PetCare
	Meals
	Nights // with the patient overnight
	OtherDuty
	DutyKindEnd
)

// DutyKeys names the kinds as forms and words do.
var DutyKeys = [DutyKindEnd]string{"therapy", "visit", "ride", "pets", "meal", "night", "other"}

// IsRide tells whether the helper drives the patient somewhere.
func (k DutyKind) IsRide() bool { return k <= OtherRide }

// Ride is how a ride takes longer than its appointment. All are minutes.
type Ride struct {
	Own     int  // from the helper's own home to the patient's; 0: they live there
	Drive   int  // from the patient's home to the place, or Unknown
	Parking int  // to park and walk in, and the same back to the car; or Unknown
	Early   int  // to be there before the appointment
	Leaves  bool // the helper does not wait there, but goes and comes back
}

// The bounds of a family's duties. Forms stop at MaxDuties and MaxHelpers; copies that
// were changed apart from each other may have more together, up to Most….
const (
	MaxDuties   = 60
	MaxHelpers  = 12
	MostDuties  = 240
	MostHelpers = 60
	MostTakes   = 400     // of one duty
	MaxLength   = 24 * 60 // minutes
	MaxEarly    = 3 * 60
)

// BuiltIn are the duties that every plan has, by the names of core/schedule. A
// helper's place in Plan.Cover follows this order, which goes into links.
var BuiltIn = [...]string{"drive-there", "wait", "drive-home", "drive-home-morning", "stay-with"}

// Equal tells whether two duties say the same.
func (d Duty) Equal(e Duty) bool {
	same := d.Rule.Equal(e.Rule)
	d.Rule, e.Rule = repeat.Rule{}, repeat.Rule{}
	return same && d.ID == e.ID && d.Revision == e.Revision && d.Kind == e.Kind && d.Title == e.Title &&
		d.Place == e.Place && d.Note == e.Note && d.SameWho(e) && d.Length == e.Length && d.Ride == e.Ride &&
		d.Need == e.Need && d.Steady == e.Steady && d.Dropped == e.Dropped && d.Source == e.Source
}

// SameWho tells whether the same people have two duties.
func (d Duty) SameWho(e Duty) bool {
	return d.Who == e.Who && d.On == e.On && slices.Equal(d.Takes, e.Takes)
}

// SameTimes tells whether two duties are at the same times, so that a calendar needs
// no new SEQUENCE (RFC 5546 2.1.4).
func (d Duty) SameTimes(e Duty) bool {
	return d.Rule.Equal(e.Rule) && d.Length == e.Length && d.Ride == e.Ride &&
		d.Kind.IsRide() == e.Kind.IsRide() && d.Dropped == e.Dropped
}

// Duty finds one of the family's duties by its number.
func (p *Plan) Duty(id uint32) *Duty {
	for i := range p.Duties {
		if p.Duties[i].ID == id {
			return &p.Duties[i]
		}
	}
	return nil
}

// WithDuty returns the plan with a duty added or changed; they stay in the order of their
// numbers. The plan it is called on keeps its own.
func (p Plan) WithDuty(d Duty) Plan {
	p.Duties = slices.Clone(p.Duties)
	if old := p.Duty(d.ID); old != nil {
		*old = d
		return p
	}
	at := len(p.Duties)
	for at > 0 && p.Duties[at-1].ID > d.ID {
		at--
	}
	p.Duties = slices.Insert(p.Duties, at, d)
	return p
}

// FreshDuty is the number of the next duty that a device adds: one that was never used,
// since calendars know duties by it. device is its own number, 0 for whoever made the
// plan. It is 0 where the device has given out all its numbers.
func (p Plan) FreshDuty(device uint32) uint32 {
	most := device << NthBits
	for i := range p.Duties {
		if id := p.Duties[i].ID; id>>NthBits == device {
			most = max(most, id)
		}
	}
	if (most+1)>>NthBits != device {
		return 0
	}
	return most + 1
}

// After gives the duty with a revision that counts a change of its times since old (RFC
// 5546 2.1.4: the SEQUENCE rises with the times). It stops at the greatest.
func (d Duty) After(old Duty) Duty {
	d.Revision = max(d.Revision, old.Revision)
	if !d.SameTimes(old) && d.Revision < 1<<16-1 && d.Revision == old.Revision {
		d.Revision++
	}
	return d
}

// Helper gives the first name under a helper's place, or "".
func (p *Plan) Helper(who uint8) string {
	if who == 0 || int(who) > len(p.Helpers) {
		return ""
	}
	return p.Helpers[who-1]
}

// WithHelper finds a helper by name, small and capital letters alike, or adds one. who is
// 0 for no name, and where MaxHelpers have duties already.
func (p Plan) WithHelper(name string) (q Plan, who uint8) {
	if name == "" {
		return p, 0
	}
	for i, known := range p.Helpers {
		if strings.EqualFold(known, name) {
			return p, uint8(i + 1)
		}
	}
	p.Helpers = slices.Clone(p.Helpers)
	if len(p.Helpers) < MaxHelpers {
		p.Helpers = append(p.Helpers, name)
		if p.About != nil {
			p.About = append(slices.Clone(p.About), About{})
		}
		return p, uint8(len(p.Helpers))
	}
	for i := range p.Helpers { // a name that has nothing any more gives its place
		if who := uint8(i + 1); !p.busy(who) {
			p.Helpers[i] = name
			return p, who
		}
	}
	return p, 0
}

// busy tells whether a helper has any duty, or something is known of them: then they keep
// their place.
func (p *Plan) busy(who uint8) bool { return p.AboutOf(who).Known() || p.HasDuty(who) }

// HasDuty tells whether a helper has any duty, also one that was taken out of the plan.
func (p *Plan) HasDuty(who uint8) bool {
	return slices.Contains(p.Cover[:], who) ||
		slices.ContainsFunc(p.Shifts, func(s Shift) bool { return s.Who == who }) ||
		slices.ContainsFunc(p.Duties, func(d Duty) bool { return d.Has(who) })
}
