package desk

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// WriteFile writes settings as ReadFile reads them, with comments in the language of v: what
// each number is and what is common practice. What the hospital has not set stands there as a
// comment, ready to be filled in.
func WriteFile(s *Settings, v guide.Voice) string {
	w := &fileWriter{v: v}
	p := &s.Program
	w.comment(v.Say("settings.file.head"))
	w.comment(v.Say("settings.file.how"))
	w.section("settings.group.hospital")
	w.text(keyHospital, "form.hospital.name", p.Hospital)
	w.text(keyAddress, "form.hospital.address", p.Address)
	w.text(keyZone, "form.zone", s.Zone)
	w.text(keyPhone, "form.hospital.phone", p.Phone)
	for _, t := range []plan.ProgramText{plan.PhoneHours, plan.AfterPhone, plan.AfterHours, plan.ParkAt, plan.CheckIn} {
		w.programText(p, t)
	}
	w.section("form.group.given")
	for _, f := range plan.FactKeys {
		if plan.Given.Has(f.Fact) {
			w.comment(v.Say("fact." + f.Key))
			w.set(f.Key, strconv.FormatBool(s.Given.Has(f.Fact)), s.Given.Has(f.Fact))
		}
	}
	w.section("form.rules")
	for r := range plan.Rules {
		w.rule(p, plan.Rule(r))
	}
	w.section("settings.group.calls")
	for _, t := range []plan.ProgramText{plan.EmergencyNumber, plan.ReviewedBy, plan.ReviewedOn, plan.TranslatedBy, plan.TranslatedOn} {
		w.programText(p, t)
	}
	w.section("settings.group.copy")
	w.comment(v.Say("settings.file.number"))
	if p.Lacks() {
		w.comment(v.Say("settings.file.number.lacks"))
	}
	w.set(keyNumber, strconv.Itoa(max(int(p.Number), FirstProgram)), p.Number >= FirstProgram)
	w.lines(s.Lines)
	return w.b.String()
}

type fileWriter struct {
	v guide.Voice
	b strings.Builder
}

func (w *fileWriter) comment(text string) { w.b.WriteString("# " + text + "\n") }

func (w *fileWriter) section(key string) { w.b.WriteString("\n# ---- " + w.v.Say(key) + "\n") }

// set writes a key; one that the hospital has not set as a comment.
func (w *fileWriter) set(key, value string, own bool) {
	if !own {
		w.b.WriteString("# ")
	}
	w.b.WriteString(strings.TrimRight(key+" = "+value, " ") + "\n")
}

func (w *fileWriter) text(key, label, value string) {
	w.comment(w.v.Say(label))
	w.set(key, tomlQuoted(value), value != "")
}

func (w *fileWriter) programText(p *plan.Program, t plan.ProgramText) {
	key, value := plan.ProgramTextKeys[t], p.Texts[t]
	_, err := wall.ParseDate(value)
	switch {
	case t.IsDay() && err == nil:
		w.comment(w.v.Say("form." + key))
		w.set(key, value, true)
	case t.IsDay():
		w.comment(w.v.Say("form." + key))
		w.set(key, w.v.Today.String(), false)
	default:
		w.text(key, "form."+key, value)
	}
}

// The ends of the two scales of a temperature that lie between those of its rule (plan.Celsius).
const leastFahrenheit, mostCelsius = 950, 420

// rule writes a number with what it is, common practice and its range before it.
func (w *fileWriter) rule(p *plan.Program, r plan.Rule) {
	info, own := plan.Rules[r], p.Own(r)
	label, amount := w.v.Say("rule."+info.Key), func(n int) string { return w.v.Amount(info.Unit, n) }
	if info.Unit == plan.ClockTime {
		amount = func(n int) string { return ruleValue(info, n) } // as it has to be written here
	}
	key, value := "settings.file.rule", ruleValue(info, p.Get(r))
	switch {
	case info.Unit == plan.YesNo:
		key = "settings.file.yes-no"
	case info.Unit == plan.Degrees:
		key = "settings.file.degrees"
	case info.Common < info.Min:
		key = "settings.file.nobody"
	}
	w.comment(w.v.Say(key, guide.Arg{Name: "label", Value: label}, guide.Arg{Name: "common", Value: amount(info.Common)},
		guide.Arg{Name: "low", Value: amount(info.Min)}, guide.Arg{Name: "high", Value: amount(info.Max)},
		guide.Arg{Name: "low-f", Value: w.v.Degrees(leastFahrenheit)}, guide.Arg{Name: "high-c", Value: w.v.Degrees(mostCelsius)}))
	if info.Common < info.Min && !own {
		value = "" // an example would be taken for advice
		if info.Unit == plan.Degrees {
			value = tomlQuoted("")
		}
	}
	w.set(info.Key, value, own)
}

// ruleValue writes a rule's number as ruleOf reads it.
func ruleValue(info plan.RuleInfo, n int) string {
	switch info.Unit {
	case plan.ClockTime:
		return tomlQuoted(wall.Clock(n).String())
	case plan.Degrees:
		return tomlQuoted(plan.DegreesText(n))
	case plan.YesNo:
		return strconv.FormatBool(n != 0)
	}
	return strconv.Itoa(n)
}

// lines writes the hospital's own lines, each as a table.
func (w *fileWriter) lines(all []plan.Line) {
	w.section("settings.group.lines")
	w.comment(w.v.Say("settings.file.lines"))
	w.comment(w.v.Say("settings.file.lists", guide.Arg{Name: "lists", Value: strings.Join(plan.ListKeys[:], ", ")}))
	for _, l := range all {
		w.b.WriteString("\n[[" + keyLine + "]]\n")
		w.set(lineList, tomlQuoted(plan.ListKeys[l.List]), true)
		if l.Day != plan.NoDay {
			w.set(lineDay, strconv.Itoa(l.Day), true)
		}
		if key := mainKey(&l); key != "" {
			w.set(key, tomlQuoted(l.Text), true)
		}
		for _, other := range l.Others {
			if other.Language != "" {
				w.set(other.Language, tomlQuoted(other.Text), true)
			}
		}
	}
}

// mainKey is the key of what a line says to those whose language it does not have: English, or
// none in particular where English is something else; "" where it is the first of the others.
func mainKey(l *plan.Line) string {
	english := guide.Languages[0]
	if first := l.Others[0]; first.Text == l.Text && l.In(english) == l.Text && first.Language != english {
		return ""
	}
	for _, other := range l.Others {
		if other.Language == english {
			return lineText
		}
	}
	return english
}

// tomlQuoted writes a basic string (TOML 1.0.0, String).
func tomlQuoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			hex := strconv.FormatInt(int64(r), 16)
			b.WriteString(`\u` + strings.Repeat("0", 4-len(hex)) + hex)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
