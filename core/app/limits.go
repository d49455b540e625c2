package app

import (
	"slices"
	"strings"

	"newel/core/plan"
)

// withLimits makes the lines of the field for movement limits the hospital's own lines of
// that list. A line that stands there already stays as it is; a changed one takes the
// place of one that is gone, so that two who change one are asked which holds.
func (s *session) withLimits(p plan.Plan, e *entry) plan.Plan {
	field, sent := e.values["limits"]
	if !sent || field == limitsText(&p, s.voice.Language) { // nothing is said of them, or what stands there already
		return p
	}
	given := textsOf(plan.GivenLinesOf(&p, plan.Limits), s.voice.Language)
	typed := slices.DeleteFunc(limitsOf(field), func(text string) bool { return slices.Contains(given, text) }) // they are there
	for i, text := range typed {
		l := plan.Line{List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: text}
		if len(plan.CheckLine(&l)) > 0 {
			e.problems = append(e.problems, plan.Problem{Field: "limits", Code: plan.LimitLong, Low: i + 1, High: plan.MaxText})
			return p
		}
	}
	if len(typed)+len(given) > plan.MaxPerList {
		e.problems = append(e.problems, plan.Problem{Field: "limits", Code: plan.LinesMany, High: plan.MaxPerList})
		return p
	}
	return s.limited(p, typed)
}

// limited is the plan with these movement limits. What is new in them and what is missing is
// told by the screen that they come from: what came in by a link meanwhile was not on it.
func (s *session) limited(p plan.Plan, texts []string) plan.Plan {
	had := ownLimits(&p)
	if s.stale(p) {
		base := planOf(s.base)
		had = ownLimits(&base)
	}
	gone, fresh := differentLimits(had, texts, s.voice.Language)
	gone, fresh = undone(&p, had, gone, fresh, s.voice.Language)
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
		if now := p.Line(l.ID); now != nil && now.Text == l.Text && now.Others == l.Others { // one that was changed meanwhile was not read here
			p = p.WithoutLine(l.ID)
		}
	}
	return p
}

// differentLimits gives the limits that are not among the texts, and the texts that are not
// among the limits, as they read in a language.
func differentLimits(had []plan.Line, texts []string, language string) (gone []plan.Line, fresh []string) {
	left := map[string]int{}
	for _, text := range texts {
		left[text]++
	}
	for _, l := range had {
		text := l.In(language)
		if left[text] == 0 {
			gone = append(gone, l)
			continue
		}
		left[text]--
	}
	for _, text := range texts {
		if left[text] > 0 {
			left[text]--
			fresh = append(fresh, text)
		}
	}
	return gone, fresh
}

// undone leaves out what others did meanwhile in the same way: texts that a line of the plan
// came to say since the screen was made, and the lines in whose place those stand.
func undone(p *plan.Plan, had, gone []plan.Line, fresh []string, language string) ([]plan.Line, []string) {
	for _, l := range ownLimits(p) {
		at := slices.Index(fresh, l.In(language))
		if at < 0 || slices.Contains(had, l) {
			continue
		}
		fresh = slices.Delete(fresh, at, at+1)
		gone = slices.DeleteFunc(gone, func(g plan.Line) bool { return g.ID == l.ID })
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

// ownLimits are the plan's own: those that come with the hospital's program are not in the field.
func ownLimits(p *plan.Plan) []plan.Line {
	return slices.DeleteFunc(plan.LinesOf(p, plan.Limits), func(l plan.Line) bool { return l.ID >= plan.FirstKnownLine })
}

// limitsText writes the plan's own movement limits as the field has them in a language.
func limitsText(p *plan.Plan, language string) string {
	return strings.Join(textsOf(ownLimits(p), language), "\n")
}

func textsOf(lines []plan.Line, language string) []string {
	var all []string
	for _, l := range lines {
		all = append(all, l.In(language))
	}
	return all
}
