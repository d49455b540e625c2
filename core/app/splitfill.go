package app

import (
	"slices"
	"strings"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
)

// What was last filled in stands under "fill.N": the end of the link of the plan after it,
// the plan before it, and a mark of the dates that stayed open, a space between them. It
// can be undone as long as nothing else was changed. Once it is fine with the person, only
// the mark is left, so that nobody is asked again and again to fill what cannot be filled.

// filled reads that.
func (s *session) filled() (end, before, open string) {
	end, rest, _ := strings.Cut(s.kept[keyFill+planKey(s.doc.Number)], " ")
	before, open, _ = strings.Cut(rest, " ")
	return end, before, open
}

// fine ends the notice of what was filled in, or that nothing can be.
func (s *session) fine(p plan.Plan) {
	if in, ok := s.splitInput(p); ok {
		s.keep(keyFill+planKey(p.Number), "- - "+openMark(in.Report))
	}
	s.backFrom(p)
}

// knownOpen tells whether what needs somebody is just what stayed open when it was last
// filled in.
func (s *session) knownOpen(in page.Input) bool {
	_, _, open := s.filled()
	return open != "" && open == openMark(in.Report)
}

// openMark tells apart what dates need somebody.
func openMark(r *split.Report) string {
	h := newMark()
	for _, f := range r.Findings {
		if f.State == split.Open || f.State == split.Cannot {
			h.number(uint64(f.Duty)<<8 | uint64(f.Who))
		}
	}
	return h.String()
}

// takeLines writes lines of a proposal into the plan, as one change that can be undone.
func (s *session) takeLines(p plan.Plan, sched *schedule.Schedule, lines []split.Line) {
	before := s.fragment()
	s.edited(p, split.Apply(p, sched, s.now, lines))
	in, ok := s.splitInput(planOf(s.doc))
	if ok && !s.full {
		s.keep(keyFill+planKey(p.Number), endOf(s.fragment())+" "+before+" "+openMark(in.Report))
	}
}

// fill takes over a whole proposal for what is open, at one tap. Where it gives nobody
// anything, what it would take from somebody stays: that is for whoever reads the suggestion.
func (s *session) fill(p plan.Plan) {
	in, ok := s.splitInput(p)
	if !ok {
		return
	}
	lines := s.propose(in, split.FillOpen).Lines
	if !slices.ContainsFunc(lines, func(l split.Line) bool { return l.To != 0 }) {
		lines = nil
	}
	s.base = s.doc
	s.takeLines(p, in.Schedule, lines)
	s.backFrom(planOf(s.doc))
	s.sayFilled()
}

// sayFilled leads to the notice of what was done, and reads it out.
func (s *session) sayFilled() {
	before := s.filledFrom()
	in, ok := s.splitInput(planOf(s.doc))
	if s.full || before == nil || !ok {
		return
	}
	s.out.Say = strings.ReplaceAll(page.FilledNotice(in, before, "").Text, "\n", " ")
	s.out.Focus = "notice-filled"
}

// filledFrom is the schedule of the plan before the last proposal was taken over, as long as
// nothing was changed since; nil where there is none.
func (s *session) filledFrom() *schedule.Schedule {
	end, fragment, _ := s.filled()
	if end == "" || end != endOf(s.fragment()) {
		return nil
	}
	before, err := s.decode(fragment)
	if err != nil || before.Number != s.doc.Number {
		return nil
	}
	sched, err := layOut(planOf(before))
	if err != nil {
		return nil
	}
	return sched
}

// undoFill puts the plan back as it was before a proposal was taken over, as one change.
func (s *session) undoFill(p plan.Plan) {
	before := s.filledFrom()
	if before == nil {
		s.backFrom(p)
		s.out.Focus, s.out.Say = "title", s.voice.Say("filled.too-late")
		return
	}
	s.base = s.doc
	s.drop(keyFill + planKey(p.Number))
	s.backFrom(s.edited(p, before.Plan))
	s.out.Focus, s.out.Say = "title", s.voice.Say("filled.undone")
}
