package app

import (
	"slices"
	"strconv"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/split"
)

// split answers the paths of who does what:
//
//	/split                  what has somebody, what has not, what clashes
//	/split/from/N           the same, with the N-th two weeks after the first
//	/split/suggest, anew    a proposal for what is open, or for all of it
//	/split/accept           takes over what was ticked of one
//	/split/fill             a proposal for what is open, taken over at once
//	/split/undo, fine       takes that back, or leaves it and ends its notice
func (s *session) split(p plan.Plan, act, more string) {
	if len(s.in.Fields) == 0 && act != "suggest" && act != "anew" && act != "from" {
		act = "" // only asked for, such as by the browser's way back
	}
	switch act {
	case "suggest":
		s.suggest(p, split.FillOpen, "")
	case "anew":
		s.suggest(p, split.Anew, "")
	case "accept":
		s.accept(p)
	case "fill":
		s.fill(p)
	case "undo":
		s.undoFill(p)
	case "fine":
		s.fine(p)
	case "from":
		s.splitWeeks(p, more)
	default:
		s.splitPage(p)
	}
}

// splitPage shows who does what.
func (s *session) splitPage(p plan.Plan) {
	in, ok := s.splitInput(p)
	if !ok {
		return
	}
	in.Fills = s.fills(in)
	in.Notices = append(s.undoNotice("split"), s.splitNotices(in, "split")...)
	s.screen("/split", s.voice.Say("split.title"), page.SplitPage(page.NewSplitView(in, 0)))
}

// splitWeeks shows the same with other weeks of the plan: the number is of two weeks after the
// first. What is no such number shows the first.
func (s *session) splitWeeks(p plan.Plan, number string) {
	turn, err := strconv.ParseUint(number, 10, 8)
	in, ok := s.splitInput(p)
	if err != nil || turn == 0 || !ok {
		s.splitPage(p)
		return
	}
	view := page.NewSplitView(in, int(turn))
	s.screen("/split/from/"+strconv.Itoa(int(turn)), s.voice.Say("split.title"), page.SplitPage(view))
	if view.Grid != nil {
		s.out.Focus, s.out.Say = "weeks", view.Grid.Title()
	}
}

// splitInput is input with what there is to say of who does what.
func (s *session) splitInput(p plan.Plan) (in page.Input, ok bool) {
	if in, ok = s.input(p); ok {
		in.Report = split.Look(in.Schedule, s.now)
		in.Me = s.myPlace(&p)
	}
	return in, ok
}

// myPlace is 1 + the place of the helper whose device this is; 0: nobody's.
func (s *session) myPlace(p *plan.Plan) uint8 {
	name := s.myName(p.Number)
	if name == "" {
		return 0
	}
	return placeOf(p, name)
}

// splitNotices are what was just filled in, or how much needs somebody.
func (s *session) splitNotices(in page.Input, from string) []page.Notice {
	if before := s.filledFrom(); before != nil {
		return []page.Notice{page.FilledNotice(in, before, from)}
	}
	if n, ok := page.OpenNotice(in, from); ok {
		return []page.Notice{n}
	}
	return nil
}

// toFill is the same on the plan's own page, once somebody has said what they can do: before
// that a plan is still being put together, and what is open is no news.
func (s *session) toFill(p plan.Plan, in page.Input) []page.Notice {
	if s.filledFrom() == nil && (!slices.ContainsFunc(p.About, plan.About.Known) || s.knownOpen(in)) {
		return nil
	}
	in.Fills = s.fills(in)
	return s.splitNotices(in, "")
}

// propose makes a proposal. Of dates on which two people said different things the answer is
// theirs, and not the program's.
func (s *session) propose(in page.Input, scope split.Scope) split.Proposal {
	return split.Suggest(in.Schedule, split.Ask{
		Scope: scope, Now: s.now, Held: s.held(in.Schedule),
		Fixed: func(duty int) bool { return page.Unsettled(in, duty) },
	})
}

// suggest shows a proposal; said is what to know first, such as that it is not the one that
// was read before.
func (s *session) suggest(p plan.Plan, scope split.Scope, said string) {
	in, ok := s.splitInput(p)
	if !ok {
		return
	}
	proposal := s.propose(in, scope)
	view := page.NewSuggestView(page.SuggestInput{
		Input: in, Proposal: &proposal, Scope: scope, Digest: digestOf(in.Schedule, proposal.Lines), Said: said,
	})
	path := "/split/suggest"
	if scope == split.Anew {
		path = "/split/anew"
	}
	s.screen(path, view.Title, page.SuggestPage(view))
	if said != "" {
		s.out.Focus, s.out.Say = "notice-changed", said
	}
}

// accept takes over the lines of a proposal that were ticked, or all. It is made anew: the
// same plan gives the same one. One that is not what the person read is shown instead.
func (s *session) accept(p plan.Plan) {
	in, ok := s.splitInput(p)
	if !ok {
		return
	}
	scope := split.FillOpen
	if s.field("anew") != "" {
		scope = split.Anew
	}
	proposal := s.propose(in, scope)
	if s.field("digest") != digestOf(in.Schedule, proposal.Lines) {
		s.suggest(p, scope, s.voice.Say("suggest.changed"))
		return
	}
	lines := proposal.Lines
	if s.field("act") != "all" {
		lines = s.ticked(in, &proposal)
	}
	if len(lines) == 0 {
		s.suggest(p, scope, s.voice.Say("suggest.unticked"))
		return
	}
	s.base = s.doc // it was worked out from the plan as it stands now, and read so
	s.takeLines(p, in.Schedule, lines)
	s.splitPage(planOf(s.doc))
	s.sayFilled()
}

// ticked are the lines whose boxes are ticked: each its own, and that of its group.
func (s *session) ticked(in page.Input, proposal *split.Proposal) []split.Line {
	sent := s.typed()
	var lines []split.Line
	for _, g := range page.NewSuggestView(page.SuggestInput{Input: in, Proposal: proposal}).Groups {
		for _, l := range g.Ticked(sent) {
			lines = append(lines, proposal.Lines[l])
		}
	}
	return lines
}

// backFrom shows the page again on which a button stood.
func (s *session) backFrom(p plan.Plan) {
	if s.field("from") == "split" {
		s.visit(s.rooms.split, p, "", "")
	} else {
		s.plan(p)
	}
	s.out.Push = false
}

// backTo shows the plan again where a button stood there, else who does what.
func (s *session) backTo(p plan.Plan) {
	if s.field("from") == "plan" {
		s.plan(p)
		s.out.Push = false
	} else {
		s.splitPage(p)
	}
}

// outSaid says what it leaves open that somebody can no longer help.
func (s *session) outSaid(p plan.Plan, who uint8) string {
	in, ok := s.splitInput(p)
	if !ok {
		return ""
	}
	return page.OutSaid(in, who)
}
