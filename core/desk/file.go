package desk

import (
	"slices"
	"strings"
	"unicode/utf8"

	"newel/core/plan"
	"newel/core/wall"
)

// MostFileBytes is how large a settings file may be. One with every text and line at its
// longest, in any script, is below.
const MostFileBytes = 128 << 10

// The keys of a settings file beside those of plan.Rules, plan.ProgramTextKeys and the facts
// of plan.Given. In a [[line]] there is a key for each language too.
const (
	keyNumber   = "number" // of the program, for a hospital's own copy of the page
	keyHospital = "hospital"
	keyAddress  = "address"
	keyPhone    = "phone"
	keyZone     = "zone"
	keyLine     = "line"

	lineList = "list"
	lineDay  = "day"
	lineText = "text" // words in no language in particular
)

// ReadFile reads a settings file, which is TOML (see readTOML). What is wrong is left out and
// listed, in the order of the file; what is right is in the settings. today serves to ask about
// a review that is still to come. A file without a zone gives settings without one.
func ReadFile(text string, today wall.Date) (Settings, []Fault) {
	text = strings.TrimPrefix(text, "\ufeff")
	switch {
	case len(text) > MostFileBytes:
		return Settings{}, []Fault{{Code: faultLarge, High: MostFileBytes >> 10}}
	case !utf8.ValidString(text), strings.ContainsRune(text, 0):
		return Settings{}, []Fault{{Code: faultBinary}}
	}
	doc, faults := readTOML(text)
	r := &fileReader{faults: faults, at: map[string]*tomlEntry{}}
	for i := range doc.Entries {
		r.entry(&doc.Entries[i])
	}
	if len(r.at) == 0 && len(r.lines) == 0 && len(r.faults) == 0 {
		r.faults = append(r.faults, Fault{Code: faultEmpty})
	}
	r.s.Lines = Numbered(r.s.Program.Number, r.lines)
	r.together(today)
	slices.SortStableFunc(r.faults, func(a, b Fault) int { return a.Line - b.Line })
	if len(r.faults) > mostFaults {
		r.faults = append(r.faults[:mostFaults:mostFaults], Fault{Code: faultMany, High: mostFaults})
	}
	return r.s, r.faults
}

// fileReader takes a file's entries into settings.
type fileReader struct {
	s      Settings
	lines  []plan.Line
	at     map[string]*tomlEntry // what was taken over, by key
	faults []Fault
}

func (r *fileReader) fault(e *tomlEntry, code string, low, high int) {
	r.faults = append(r.faults, Fault{Line: e.Line, Key: shortened(e.Key), Code: code, Value: shortened(e.Value.Text), Low: low, High: high})
}

// entry takes one key of the file.
func (r *fileReader) entry(e *tomlEntry) {
	rule, isRule := plan.RuleByKey(e.Key)
	fact, isFact := plan.FactByKey(e.Key)
	text := slices.Index(plan.ProgramTextKeys[:], e.Key)
	switch {
	case e.Key == keyLine && e.Value.Kind == tomlTable:
		r.line(e.Value.Table)
	case e.Key == keyLine && e.Value.Kind == tomlTables:
		for _, t := range e.Value.Tables {
			r.line(t)
		}
	case e.Value.Kind == tomlTable, e.Value.Kind == tomlTables:
		r.fault(e, faultTable, 0, 0)
	case isRule:
		r.rule(e, rule)
	case isFact && plan.Given.Has(fact):
		if e.Value.Kind != tomlYesNo {
			r.fault(e, faultYesNo, 0, 0)
		} else if r.at[e.Key] = e; e.Value.Text == "true" {
			r.s.Given |= fact
		}
	case text >= 0 && plan.ProgramText(text).IsDay() && e.Value.Kind != tomlDay && e.Value.Kind != tomlText:
		r.fault(e, faultDay, 0, 0)
	case text >= 0 && e.Value.Kind == tomlDay && plan.ProgramText(text).IsDay():
		r.at[e.Key], r.s.Program.Texts[text] = e, e.Value.Text
	case text >= 0:
		r.text(e, &r.s.Program.Texts[text])
	case e.Key == keyNumber:
		r.number(e)
	default:
		r.plain(e)
	}
}

// plain takes the words that name the place.
func (r *fileReader) plain(e *tomlEntry) {
	p := &r.s.Program
	into := map[string]*string{keyHospital: &p.Hospital, keyAddress: &p.Address, keyPhone: &p.Phone, keyZone: &r.s.Zone}[e.Key]
	if into == nil {
		r.fault(e, faultUnknown, 0, 0)
		return
	}
	r.text(e, into)
}

func (r *fileReader) text(e *tomlEntry, into *string) {
	if e.Value.Kind != tomlText {
		r.fault(e, faultText, 0, 0)
		return
	}
	r.at[e.Key], *into = e, plan.Clean(e.Value.Text)
}

func (r *fileReader) number(e *tomlEntry) {
	switch n := e.Value.Whole; {
	case e.Value.Kind != tomlWhole:
		r.fault(e, faultWhole, 0, 0)
	case n < FirstProgram || n > plan.MaxProgram:
		r.fault(e, faultNumber, FirstProgram, plan.MaxProgram)
	default:
		r.at[e.Key], r.s.Program.Number = e, uint16(n)
	}
}

// FirstProgram is the least number of a hospital's program: 1 is the example's.
const FirstProgram = 2

// rule takes the hospital's number of a rule, in the form that goes with its unit.
func (r *fileReader) rule(e *tomlEntry, rule plan.Rule) {
	info := plan.Rules[rule]
	n, code := ruleOf(e, info)
	switch {
	case code != "":
		r.fault(e, code, 0, 0)
	case !r.s.Program.Set(rule, n):
		r.fault(e, plan.RuleOutside, info.Min, info.Max)
	default:
		r.at[e.Key] = e
	}
}

// ruleOf reads a rule's value; code says what is wrong with it.
func ruleOf(e *tomlEntry, info plan.RuleInfo) (n int, code string) {
	v := e.Value
	switch info.Unit {
	case plan.ClockTime:
		c, err := wall.ParseClock(v.Text)
		if err != nil || v.Kind != tomlText && v.Kind != tomlClock {
			return 0, faultClock
		}
		if c == 0 && info.Min > 0 {
			c = 24 * 60 // "00:00" for a time of the evening is its midnight
		}
		return int(c), ""
	case plan.YesNo:
		if v.Kind != tomlYesNo {
			return 0, faultYesNo
		}
		if v.Text == "true" {
			return 1, ""
		}
		return 0, ""
	case plan.Degrees:
		if v.Kind != tomlText && v.Kind != tomlWhole && v.Kind != tomlDecimal {
			return 0, faultDegrees
		}
		return plan.ParseDegrees(v.Text)
	}
	if v.Kind != tomlWhole {
		return 0, faultWhole
	}
	return int(max(min(v.Whole, 1<<20), -1<<20)), ""
}

// together looks at what hangs together, once all is read: what is wrong is left out.
func (r *fileReader) together(today wall.Date) {
	for _, problem := range Check(&r.s, today) {
		key := strings.TrimPrefix(problem.Field, "rule.")
		if key == keyZone && r.s.Zone == "" {
			continue // the device's own
		}
		f := Fault{Key: key, Code: problem.Code, Ask: problem.Ask, Low: problem.Low, High: problem.High}
		if e := r.at[key]; e != nil {
			f.Line, f.Value = e.Line, shortened(e.Value.Text)
		} else if e := r.at[partner(key)]; e != nil {
			f.Line = e.Line
		}
		r.faults = append(r.faults, f)
		if !problem.Ask {
			r.leaveOut(key)
		}
	}
}

// partner is the key that stands with another: the other end of a range, the name to a day.
func partner(key string) string {
	for _, ends := range plan.Ranges {
		if plan.Rules[ends.Min].Key == key {
			return plan.Rules[ends.Max].Key
		}
	}
	if t := slices.Index(plan.ProgramTextKeys[:], key); t > 0 && plan.ProgramText(t).IsDay() {
		return plan.ProgramTextKeys[t-1]
	}
	return ""
}

// leaveOut takes a key and its partner out of the settings.
func (r *fileReader) leaveOut(key string) {
	p := &r.s.Program
	for _, k := range []string{key, partner(key)} {
		if rule, ok := plan.RuleByKey(k); ok {
			p.Clear(rule)
		}
		if t := slices.Index(plan.ProgramTextKeys[:], k); t >= 0 {
			p.Texts[t] = ""
		}
		switch k {
		case keyHospital:
			p.Hospital = ""
		case keyAddress:
			p.Address = ""
		case keyPhone:
			p.Phone = ""
		case keyZone:
			r.s.Zone = ""
		}
	}
}
