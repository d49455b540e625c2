package app

import (
	"strconv"
	"strings"

	"newel/core/plan"
)

// degrees reads a temperature in tenths: "101", "38.3 °C", "38,3". The scale follows from the
// number (plan.Celsius); one that is written beside it has to be that one. A number with more
// than one place after the point is none.
func (e *entry) degrees(name, typed string) (tenths int, ok bool) {
	text := strings.ToUpper(strings.Map(func(r rune) rune {
		if r == '°' || r == 'º' || r == ' ' {
			return -1
		}
		return r
	}, typed))
	number := strings.TrimRight(text, "CF")
	scale := text[len(number):]
	tenths, ok = decimal(number)
	celsius, sound := plan.Celsius(tenths)
	switch {
	case !ok || !sound || len(scale) > 1:
		e.wrong(name, plan.FeverUnclear)
		return 0, false
	case scale != "" && celsius != (scale == "C"):
		e.wrong(name, plan.FeverScale)
		return 0, false
	}
	return tenths, true
}

// decimal reads a number with at most one place after the point or comma, in tenths.
func decimal(text string) (tenths int, ok bool) {
	whole, rest, _ := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if len(rest) == 0 {
		rest = "0"
	}
	n, err := strconv.ParseUint(whole, 10, 8)
	tenth, err2 := strconv.ParseUint(rest, 10, 8)
	if err != nil || err2 != nil || len(rest) > 1 {
		return 0, false
	}
	return int(n)*10 + int(tenth), true
}

// degreesText writes a temperature as degrees reads it.
func degreesText(tenths int) string {
	text := strconv.Itoa(tenths / 10)
	if tenths%10 != 0 {
		text += "." + strconv.Itoa(tenths%10)
	}
	if celsius, _ := plan.Celsius(tenths); celsius {
		return text + " °C"
	}
	return text + " °F"
}

// withLimits makes the lines of the field for movement limits the hospital's own lines of
// that list. A line that stands there already stays as it is; a changed one takes the
// place of one that is gone, so that two who change one are asked which holds.
func (s *session) withLimits(p plan.Plan, e *entry) plan.Plan {
	field, sent := e.values["limits"]
	if !sent { // a form without the field says nothing of them
		return p
	}
	typed := limitsOf(field)
	for i, text := range typed {
		l := plan.Line{List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: text}
		if len(plan.CheckLine(&l)) > 0 {
			e.problems = append(e.problems, plan.Problem{Field: "limits", Code: plan.LimitLong, Low: i + 1, High: plan.MaxText})
			return p
		}
	}
	if len(typed) > plan.MaxPerList {
		e.problems = append(e.problems, plan.Problem{Field: "limits", Code: plan.LinesMany, High: plan.MaxPerList})
		return p
	}
	return s.limited(p, typed)
}

// limited is the plan with these movement limits.
func (s *session) limited(p plan.Plan, texts []string) plan.Plan {
	gone, fresh := differentLimits(plan.LinesOf(&p, plan.Limits), texts)
	ids := s.freshLines(p, max(len(fresh)-len(gone), 0))
	for i, text := range fresh {
		l := plan.Line{List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: text}
		switch {
		case i < len(gone):
			l.ID = gone[i].ID
		case i-len(gone) < len(ids):
			l.ID = ids[i-len(gone)]
		default:
			return p // the device has used up its numbers, a thousand of them
		}
		p = p.WithLine(l)
	}
	for _, l := range gone[min(len(fresh), len(gone)):] {
		p = p.WithoutLine(l.ID)
	}
	return p
}

// differentLimits gives the limits that are not among the texts, and the texts that are not
// among the limits.
func differentLimits(had []plan.Line, texts []string) (gone []plan.Line, fresh []string) {
	left := map[string]int{}
	for _, text := range texts {
		left[text]++
	}
	for _, l := range had {
		if left[l.Text] == 0 {
			gone = append(gone, l)
			continue
		}
		left[l.Text]--
	}
	for _, text := range texts {
		if left[text] > 0 {
			left[text]--
			fresh = append(fresh, text)
		}
	}
	return gone, fresh
}

// limitsOf reads the field: a line each, without empty ones.
func limitsOf(field string) []string {
	var all []string
	for _, line := range strings.Split(field, "\n") {
		if text := plan.Clean(line); text != "" {
			all = append(all, text)
		}
	}
	return all
}

// limitsText writes the movement limits of a plan as the field has them.
func limitsText(p *plan.Plan) string {
	var all []string
	for _, l := range plan.LinesOf(p, plan.Limits) {
		all = append(all, l.Text)
	}
	return strings.Join(all, "\n")
}
