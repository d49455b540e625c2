package plan

// Rule names one number of a hospital's program. Its value goes into links, so a
// rule keeps its place for ever; new ones are added at the end.
type Rule uint8

// The rules. What each means, its unit and its range stand in Rules.
const (
	WashDays Rule = iota
	WashMorning
	NoShaveHours
	FoodStop
	LiquidsBefore
	PrepMinutes
	FirstMin
	FirstMax
	RevisionMin
	RevisionMax
	BothMin
	BothMax
	RecoveryMin
	RecoveryMax
	DischargeThere
	DischargeLeave
	StayWithHours
	DriveSlack
	CarMinutes
	EquipmentDays
	HomeDays
	MealsDays
	HardestDays
	ClotDays
	PresenceHours
	Fever
	BowelDays
	ruleEnd
)

// Unit is what a rule's number counts.
type Unit uint8

// The units.
const (
	Days Unit = iota
	Hours
	Minutes
	Percent
	ClockTime // minutes after midnight
	YesNo     // 1 or 0
	Degrees   // tenths of a degree; see Celsius
)

// RuleInfo describes one rule.
type RuleInfo struct {
	Key      string // in forms and data files
	Unit     Unit
	Common   int // common practice
	Min, Max int // what a form or a link may say
}

// Rules holds each rule with its common practice. Unless a line says otherwise
// the numbers are common practice without a published source: every one of them
// is the hospital's to set.
var Rules = [ruleEnd]RuleInfo{
	// First wash so many days before surgery, then daily up to the evening before.
	// CDC 2017 asks for the night before at least, so 1 is the least.
	WashDays:    {"wash-days", Days, 4, 1, 14},
	WashMorning: {"wash-morning", YesNo, 1, 0, 1},
	// WHO 2016/2018 discourages shaving at all times; the hours are practice.
	NoShaveHours: {"no-shave-hours", Hours, 48, 0, 30 * 24},
	// On the evening before. 24:00 is "nothing after midnight".
	FoodStop: {"food-stop", ClockTime, 23 * 60, 17 * 60, 24 * 60},
	// Counted back from arrival. ASA 2017 allows clear liquids until 2 h before
	// the procedure, so counting from arrival is the stricter side.
	LiquidsBefore:  {"liquids-before", Minutes, 120, 0, 24 * 60},
	PrepMinutes:    {"prep-minutes", Minutes, 60, 0, 8 * 60},
	FirstMin:       {"first-min", Minutes, 60, 10, 12 * 60},
	FirstMax:       {"first-max", Minutes, 90, 10, 12 * 60},
	RevisionMin:    {"revision-min", Minutes, 120, 10, 12 * 60},
	RevisionMax:    {"revision-max", Minutes, 120, 10, 12 * 60},
	BothMin:        {"both-min", Minutes, 150, 10, 12 * 60},
	BothMax:        {"both-max", Minutes, 180, 10, 12 * 60},
	RecoveryMin:    {"recovery-min", Minutes, 60, 0, 12 * 60},
	RecoveryMax:    {"recovery-max", Minutes, 180, 0, 12 * 60},
	DischargeThere: {"discharge-there", ClockTime, 8*60 + 30, 0, 24 * 60},
	DischargeLeave: {"discharge-leave", ClockTime, 10 * 60, 0, 24 * 60},
	// ASA: a responsible adult takes the patient home, and for 24 h after
	// anesthesia no driving, alcohol or important decisions.
	StayWithHours: {"stay-with-hours", Hours, 24, 0, 14 * 24},
	// Ours, shown beside each leave-by time: a quarter more than the usual drive,
	// and ten minutes to get into the car.
	DriveSlack:    {"drive-slack", Percent, 25, 0, 200},
	CarMinutes:    {"car-minutes", Minutes, 10, 0, 120},
	EquipmentDays: {"equipment-days", Days, 14, 0, 120},
	HomeDays:      {"home-days", Days, 7, 0, 120},
	MealsDays:     {"meals-days", Days, 2, 0, 60},
	HardestDays:   {"hardest-days", Days, 14, 1, 60},
	// ACCP 2012 (from memory): clot prevention for up to 35 days.
	ClotDays: {"clot-days", Days, 35, 1, 120},
	// Somebody in the house without a gap for so many hours after going home; the first
	// StayWithHours of them must be. Common practice, no published source, for what is
	// beyond the 24 h above. Where StayWithHours is more, that holds.
	PresenceHours: {"presence-hours", Hours, 72, 0, 14 * 24},
	// When to call the office. Common practice is 0 here, below Min: there is none. Both are the hospital's to say, and there is no number
	// until it has: CDC's page on infections at the wound names none for a fever, and
	// the days are practice that differs.
	Fever:     {"fever", Degrees, 0, 350, 1080},
	BowelDays: {"bowel-days", Days, 0, 1, 14},
}

// RuleByKey finds a rule by its key.
func RuleByKey(key string) (Rule, bool) {
	for r, info := range Rules {
		if info.Key == key {
			return Rule(r), true
		}
	}
	return 0, false
}

// Ranges pairs the rules that are the two ends of one range.
var Ranges = [...]struct{ Min, Max Rule }{
	{FirstMin, FirstMax}, {RevisionMin, RevisionMax}, {BothMin, BothMax}, {RecoveryMin, RecoveryMax},
	{DischargeThere, DischargeLeave},
}

// SurgeryRange returns the two rules that say how long an operation takes.
func SurgeryRange(o Operation) (minimum, maximum Rule) {
	switch o {
	case Revision:
		return RevisionMin, RevisionMax
	case BothSides:
		return BothMin, BothMax
	}
	return FirstMin, FirstMax
}

// Celsius tells on which scale a number of tenths of a degree is meant, since no body is
// as cold as 95 °C or as hot as 42 °F would have it: 35.0 to 42.0 is Celsius, 95.0 to 108.0
// Fahrenheit. ok is false for what is neither.
func Celsius(tenths int) (celsius, ok bool) {
	switch {
	case tenths >= 350 && tenths <= 420:
		return true, true
	case tenths >= 950 && tenths <= 1080:
		return false, true
	}
	return false, false
}
