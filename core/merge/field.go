package merge

import (
	"cmp"
	"strconv"
)

// Field names a kind of register. The numbers go into links, so they never change; new
// ones are added at the end.
type Field uint8

// The fields. "Of" is the number of the duty, "Sub" as written; where a line names
// neither, there is one register. The value is what the line says of it: a number in
// decimal, a text as it is, "1" where it only counts that it is there. A register that
// nobody has written, or whose value was taken away, stands for what plan.Plan has by
// itself. Days are days from 1 January 1970.
const (
	Surgery      Field = iota + 1 // days
	Arrival                       // minutes after midnight; none while not known
	Zone                          // IANA name; none: that of the program
	Joint                         // number
	Operation                     // number
	Stay                          // number
	Drive                         // minutes; none while not known
	Parking                       // minutes; none while not known
	Patient                       // text
	Fact                          // Sub: the bit's place; "1"
	Program                       // number
	Hospital                      // text; none: that of the program
	Address                       // text; none: that of the program
	Phone                         // text; none: that of the program
	Setting                       // Sub: the rule; its number; none: that of the program
	Cover                         // Sub: place in plan.BuiltIn; a helper's name
	Helper                        // Name: the helper's; their place in the order, from 1
	Tick                          // Sub: code<<8 | n; "1"
	Hand                          // Sub: the device; the name of the helper whose it is
	Moves                         // Of: a duty or 0; Sub: the device; how often it moved times there (plan.Revision)
	Alive                         // Of; "1": the duty is in the plan. Written anew by each change of the duty
	Gone                          // Of; "1": somebody took the duty out of the plan
	Kind                          // Of; number
	Title                         // Of; text
	Place                         // Of; text
	Note                          // Of; text
	Source                        // Of; number
	Length                        // Of; minutes
	Own                           // Of; minutes
	Way                           // Of; minutes of the drive; none while not known
	Walk                          // Of; minutes of parking; none while not known
	Early                         // Of; minutes
	Leaves                        // Of; "1"
	Pattern                       // Of; a rule without its exceptions, see RuleText
	Date                          // Of, Sub: days; "-": left out, or "DAY MINUTES": moved there
	Extra                         // Of, Sub: days<<11 | minutes; "1"
	Who                           // Of; a helper's name
	On                            // Of, Sub: weekday, 0 is Sunday; a helper's name
	Takes                         // Of, Sub: days; a helper's name, or "-" for nobody
	About                         // Name: the helper's; what is told of them, see AboutText
	Out                           // Name: the helper's; "1": they cannot help any more
	Shift                         // Sub: plan.Slot; a helper's name, or "-" for nobody
	Need                          // Of; number
	Steady                        // Of; "1"
	Line                          // Sub: the line; what it says, see LineText
	LineDone                      // Sub: the line; "1"
	HospitalText                  // Sub: plan.ProgramText; text; none: that of the program
	LineWords                     // Sub: the line; Name: a language's tag; what the line says in it
	fieldEnd
)

// FirstUnknown is the first field that this version gives no meaning. Registers of later
// versions have numbers from here on; they are kept, joined and sent on like the others.
const FirstUnknown = fieldEnd

// Key names one register.
type Key struct {
	Field Field
	Of    uint32
	Sub   uint32
	Name  string
}

// Compare orders keys: by field, Of, Sub, Name.
func (k Key) Compare(l Key) int {
	switch {
	case k.Field != l.Field:
		return cmp.Compare(k.Field, l.Field)
	case k.Of != l.Of:
		return cmp.Compare(k.Of, l.Of)
	case k.Sub != l.Sub:
		return cmp.Compare(k.Sub, l.Sub)
	}
	return cmp.Compare(k.Name, l.Name)
}

// String is for errors and tests: field/Of/Sub/Name.
func (k Key) String() string {
	n := func(n uint32) string { return strconv.FormatUint(uint64(n), 10) }
	return n(uint32(k.Field)) + "/" + n(k.Of) + "/" + n(k.Sub) + "/" + k.Name
}

// ofDuty tells whether the register belongs to one duty of the family and is known here.
func (k Key) ofDuty() bool {
	return k.Field < fieldEnd && shapes[k.Field].duty && (k.Field != Moves || k.Of != 0)
}
