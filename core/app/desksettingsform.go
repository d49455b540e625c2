package app

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
)

// lineCount is for how many own lines the form that was sent had places.
func (s *session) lineCount() int { return min(s.number("lines"), plan.MaxPerList) }

// lineName is the name of a field of the n-th own line.
func lineName(n int, field string) string { return "line." + strconv.Itoa(n) + "." + field }

// settingsValues writes settings as the fields of their form, with a place for one more line.
func (s *session) settingsValues(settings *desk.Settings) (values map[string]string, lines int) {
	p := desk.PlanOf(settings, desk.Patient{Facts: settings.Given}, 0)
	values = valuesOf(p)
	if p.Zone == "" && s.device != nil {
		values["zone"] = s.in.Zone
	}
	for n, l := range settings.Lines {
		values[lineName(n, "list")] = plan.ListKeys[l.List]
		if l.Day != plan.NoDay {
			values[lineName(n, "day")] = strconv.Itoa(l.Day)
		}
		for _, language := range guide.Languages {
			values[lineName(n, language)] = wordsIn(&l, language)
		}
	}
	return values, min(len(settings.Lines)+1, plan.MaxPerList)
}

// wordsIn is what a line says in a language and in no other: its main words are English, if no
// other language has the same.
func wordsIn(l *plan.Line, language string) string {
	for _, w := range l.Others {
		if w.Language == language || language == guide.Languages[0] && w.Text == l.Text {
			if w.Language == language {
				return w.Text
			}
			return ""
		}
	}
	if language == guide.Languages[0] {
		return l.Text
	}
	return ""
}

// enteredSettings reads the form of the settings.
func (s *session) enteredSettings(program uint16) (desk.Settings, []plan.Problem) {
	e := &entry{values: s.typed()}
	settings := desk.Settings{Zone: e.values["zone"], Program: e.program(program), Given: e.facts() & plan.Given}
	for _, key := range []string{"hospital", "phone"} {
		if e.values[key] == "" {
			e.wrong(key, settingsMissing)
		}
	}
	var lines []plan.Line
	for n := range s.lineCount() {
		if l, ok := e.line(n); ok {
			lines = append(lines, l)
		}
	}
	settings.Lines = lines
	settings = numbered(settings)
	for _, problem := range desk.Check(&settings, s.voice.Today) {
		if strings.HasPrefix(problem.Field, "line.") || e.has(problem.Field) || problem.Ask && s.confirmed(e.values[problem.Field]) {
			continue // each line was looked at by itself
		}
		e.problems = append(e.problems, problem)
	}
	return settings, e.problems
}

// numbered gives the lines of settings their numbers. Where they are not those of the program, whose
// number says them, the links have to carry all of the settings themselves. So they have where this
// page does not know the program.
func numbered(settings desk.Settings) desk.Settings {
	lines := settings.Lines
	settings.Lines = desk.Numbered(settings.Program.Number, lines)
	if settings.Program.Lacks() || !slices.Equal(settings.Lines, plan.BaseOf(settings.Program.Number).Lines) {
		settings.Program.Number = 0
		settings.Lines = desk.Numbered(0, lines)
	}
	return settings
}

// settingsMissing is the problem of an empty field that settings cannot do without.
const settingsMissing = "settings-missing"

// line reads the n-th own line; ok is false where there is none.
func (e *entry) line(n int) (l plan.Line, ok bool) {
	value := func(field string) string { return e.values[lineName(n, field)] }
	l = plan.Line{Day: plan.NoDay, Hospital: true}
	for i, language := range guide.Languages {
		if i == 0 {
			l.Text = value(language)
		} else {
			l, _ = l.WithWording(language, value(language))
		}
	}
	if l.Text == "" {
		l.Text = l.Others[0].Text
	}
	if l.Text == "" || value("out") != "" {
		return l, false
	}
	l.List, ok = plan.ListByKey(value("list"))
	if !ok {
		e.wrong(lineName(n, "list"), plan.ChoiceUnknown)
	}
	e.lineDay(&l, lineName(n, "day"))
	for _, problem := range plan.CheckLine(&l) {
		e.lineProblem(n, problem)
	}
	return l, true
}

// lineDay reads on which day from surgery a line is due. The lists of what the hospital says have
// no days.
func (e *entry) lineDay(l *plan.Line, field string) {
	if e.values[field] == "" {
		return
	}
	day, ok := e.number(field, e.values[field])
	switch {
	case !ok:
	case l.List.Told():
		e.wrong(field, settingsDayless)
	case day < -plan.MaxLineDays || day > plan.MaxLineDays:
		e.problems = append(e.problems, plan.Problem{Field: field, Code: settingsDays, Low: -plan.MaxLineDays, High: plan.MaxLineDays})
	default:
		l.Day = day
	}
}

// The problems of the day of a line.
const (
	settingsDayless = "settings-dayless" // of a list that is due on no day
	settingsDays    = "settings-days"    // outside Low to High
)

// lineProblem puts a problem of a line to its field in the form.
func (e *entry) lineProblem(n int, problem plan.Problem) {
	language, other := strings.CutPrefix(problem.Field, "text.")
	if !other {
		language = guide.Languages[0]
	}
	problem.Field = lineName(n, language)
	if !e.has(problem.Field) {
		e.problems = append(e.problems, problem)
	}
}
