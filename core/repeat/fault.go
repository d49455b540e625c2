package repeat

// Fault is what is wrong with a rule, as a code; core/guide has the sentence for
// each in every language. Value is the part of the text that was not understood,
// where there is one.
type Fault struct {
	Code  string
	Value string
}

// Error gives the code and the value, for tests and logs; people read core/guide's
// sentence.
func (f Fault) Error() string {
	if f.Value == "" {
		return "repeat: " + f.Code
	}
	return "repeat: " + f.Code + ": " + f.Value
}

// The codes of faults.
const (
	NotARule    = "not-a-rule"    // the text is no RECUR value of RFC 5545
	TooOften    = "too-often"     // every hour, minute or second
	NotYearly   = "not-yearly"    // by weeks or days of the year, or only in some months
	NotThatPart = "not-that-part" // BYSETPOS, or a part together with another, that no rule of ours can say
	OtherTime   = "other-time"    // BYHOUR and its like name other times than the first date's
	EveryFault  = "every"         // not every 1 to MaxEvery
	CountFault  = "count"         // not 1 to MaxCount
	LastFault   = "last"          // the last day is before the first, or more than MaxSpan days after it
	TwoEnds     = "two-ends"      // both a number of dates and a last day
	TimeFault   = "time"          // not a time of day
	DayFault    = "day"           // no weekday, no day of a month, or a day that no month has
	NoDates     = "no-dates"      // the pattern has no date at all, or none that is not skipped
	TooLong     = "too-long"      // more than MaxCount dates, or more than MaxSpan days
	ListFault   = "list"          // skipped, moved or extra dates: too many, or not dates of the rule
)
