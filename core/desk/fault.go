package desk

import (
	"strconv"

	"newel/core/guide"
	"newel/core/plan"
)

// Fault is one thing that is wrong in a settings file, or to be looked at. What it is about
// was left out, all else was read. FaultText is its sentence.
type Fault struct {
	Line  int    // from 1; 0: the file as a whole
	Key   string // may be empty
	Code  string // one of the codes below, or of plan.Problem
	Ask   bool   // to be looked at; it was read
	Value string // as it stands in the file
	Low   int    // the least that may be, where the code has one
	High  int    // the greatest, where the code has one
}

// mostFaults is how many faults are listed: a file with more is no settings file.
const mostFaults = 50

// The codes of faults. The first group is of the file's form.
const (
	tomlKey       = "toml-key"        // no key stands where one should
	tomlNoEquals  = "toml-equals"     // no = behind a key
	tomlNoValue   = "toml-no-value"   // nothing behind the =
	tomlNotQuoted = "toml-not-quoted" // words without quotes, or no number
	tomlBehind    = "toml-behind"     // something behind the value
	tomlHead      = "toml-head"       // a head without its end
	tomlTwice     = "toml-twice"      // said already
	tomlOpen      = "toml-open"       // a text without its last quote
	tomlEscape    = "toml-escape"     // no such escape
	tomlControl   = "toml-control"    // a character that cannot be in a text
	tomlUnused    = "toml-unused"     // TOML, but of a kind that settings do not use

	faultLarge    = "file-large"     // more than High bytes
	faultBinary   = "file-binary"    // no text
	faultEmpty    = "file-empty"     // nothing is set
	faultMany     = "file-many"      // more than High faults: the rest was not looked at
	faultUnknown  = "key-unknown"    // no such key
	faultTable    = "table-unknown"  // no such table
	faultText     = "want-text"      // a text is wanted, in quotes
	faultWhole    = "want-whole"     // a whole number
	faultClock    = "want-clock"     // a time of day
	faultYesNo    = "want-yes-no"    // true or false
	faultDay      = "want-day"       // a day
	faultDegrees  = "want-degrees"   // a temperature
	faultNumber   = "number-outside" // the program's number, outside Low to High
	faultList     = "list-unknown"   // no such list
	faultNoList   = "list-missing"   // a line without list
	faultLanguage = "line-languages" // a line in more languages than there is room for
	faultDays     = "line-days"      // a day outside Low to High from surgery
	faultDayless  = "line-day"       // a line of a list that is due on no day, with a day

	// What a file lacks that is to be a copy of the page, see ReadProgram.
	faultNoZone   = "zone-missing"
	faultNoNumber = "number-missing"
	faultNoPlace  = "place-missing"
	faultTaken    = "number-taken"
)

// FaultText says what is wrong, where, and what to do.
func FaultText(v guide.Voice, f Fault) string {
	args := []guide.Arg{
		{Name: "key", Value: f.Key}, {Name: "value", Value: f.Value},
		{Name: "low", Value: strconv.Itoa(f.Low)}, {Name: "high", Value: strconv.Itoa(f.High)},
	}
	text := ""
	if v.Has("settings.fault." + f.Code) {
		text = v.Say("settings.fault."+f.Code, args...)
	} else {
		text = v.Problem(f.problem(), f.Key, f.Value)
	}
	if f.Line == 0 {
		return text
	}
	return v.Say("settings.fault.line", guide.Number("line", f.Line), guide.Arg{Name: "text", Value: text})
}

// problem is the fault as one of a form: the ends of a rule's range are said in its unit.
func (f *Fault) problem() plan.Problem {
	p := plan.Problem{Field: f.Key, Code: f.Code, Ask: f.Ask, Low: f.Low, High: f.High}
	if _, is := plan.RuleByKey(f.Key); is {
		p.Field = "rule." + f.Key
	}
	return p
}

// Stops tells whether something could not be read.
func Stops(faults []Fault) bool {
	for _, f := range faults {
		if !f.Ask {
			return true
		}
	}
	return false
}

// shortened is the start of a value: enough to find it.
func shortened(s string) string {
	r := []rune(plan.Clean(s))
	if len(r) > plan.MaxName {
		return string(r[:plan.MaxName]) + "…"
	}
	return string(r)
}
