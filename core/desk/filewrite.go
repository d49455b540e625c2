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
	w.set(keyNumber, strconv.Itoa(max(int(p.Number), FirstProgram)), p.Number != 0)
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
	w.b.WriteString(key + " = " + value + "\n")
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

// rule writes a number with what it is, common practice and its range before it.
func (w *fileWriter) rule(p *plan.Program, r plan.Rule) {
	info, own := plan.Rules[r], p.Own(r)
	args := []guide.Arg{
		{Name: "label", Value: w.v.Say("rule." + info.Key)}, {Name: "common", Value: w.v.Amount(info.Unit, info.Common)},
		{Name: "low", Value: w.v.Amount(info.Unit, info.Min)}, {Name: "high", Value: w.v.Amount(info.Unit, info.Max)},
	}
	n := p.Get(r)
	switch {
	case info.Unit == plan.YesNo:
		w.comment(w.v.Say("settings.file.yes-no", args...))
	case info.Common < info.Min:
		w.comment(w.v.Say("settings.file.nobody", args...))
		if !own {
			n = map[plan.Rule]int{plan.Fever: 1010, plan.BowelDays: 3}[r] // an example of how it is written
		}
	default:
		w.comment(w.v.Say("settings.file.rule", args...))
	}
	w.set(info.Key, ruleValue(info, n), own)
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
