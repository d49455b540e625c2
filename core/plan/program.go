package plan

// Program is a hospital's own rules: numbers, and the few words that a plan needs
// to name the place. A number that the hospital has not set is the common
// practice of the table in rules.go. Program is comparable.
type Program struct {
	Number uint16 // of a program that comes with the page (Programs); 0: none

	Hospital string // its name, may be empty
	Address  string // may be empty
	Phone    string // the number to call with questions, may be empty
	Texts    [programTextEnd]string

	set    uint64 // bit r: the hospital set rule r itself
	values [ruleEnd]int16
}

// Get returns a rule's value: the hospital's, or else common practice.
func (p *Program) Get(r Rule) int {
	if p.Own(r) {
		return int(p.values[r])
	}
	return Rules[r].Common
}

// Own tells whether the hospital set the rule itself. A hospital's own rule
// always beats the built-in one, even where it is laxer than guidance.
func (p *Program) Own(r Rule) bool { return p.set&(1<<r) != 0 }

// Set makes v the hospital's own value of rule r. It reports false, and changes
// nothing, when v is outside the rule's range.
func (p *Program) Set(r Rule, v int) bool {
	if r >= ruleEnd || v < Rules[r].Min || v > Rules[r].Max {
		return false
	}
	p.set |= 1 << r
	p.values[r] = int16(v)
	return true
}

// Clear goes back to common practice for rule r.
func (p *Program) Clear(r Rule) {
	p.set &^= 1 << r
	p.values[r] = 0
}

// ProgramText names one of a hospital's other words. Its number goes into links.
type ProgramText uint8

// The texts. Each may be empty, which stands for what its line says. A day is written as
// YYYY-MM-DD.
const (
	EmergencyNumber ProgramText = iota // what to dial for an ambulance; empty: 911
	ReviewedBy                         // who at the hospital has reviewed what the page says; empty: nobody yet
	ReviewedOn                         // and on which day
	TranslatedBy                       // which medical translator has reviewed the translation; empty: nobody yet
	TranslatedOn                       // and on which day
	PhoneHours                         // when somebody answers at Phone, in words
	AfterPhone                         // the number to call at other times
	AfterHours                         // and when somebody answers there, in words
	ParkAt                             // where to park on the day of surgery
	CheckIn                            // where to check in then: the entrance, the floor, the desk
	programTextEnd
)

// ProgramTextKeys name the texts in forms and words.
var ProgramTextKeys = [programTextEnd]string{"emergency", "reviewed-by", "reviewed-on", "translated-by", "translated-on",
	"phone-hours", "after-phone", "after-hours", "park-at", "check-in"}

// Emergency is the number to dial for an ambulance.
func (p *Program) Emergency() string {
	if p.Texts[EmergencyNumber] == "" {
		return "911"
	}
	return p.Texts[EmergencyNumber]
}
