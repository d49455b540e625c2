package app

import (
	"errors"
	"slices"

	"newel/core/desk"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
)

// deskMoved corrects a link that was sent before. What a family has put into it stays; nothing
// of it is kept here.
func (s *session) deskMoved(settings *desk.Settings) {
	v := page.DeskMoved{Text: s.lines("text")}
	var d *merge.Doc
	if old := s.field("link"); old != "" {
		d, v.Problem = s.oldLink(old)
	} else if len(s.in.Fields) > 0 {
		d, v.Problem = s.oldLink(v.Text)
	}
	if d == nil {
		s.showMoved(settings, v)
		s.out.Focus = "field-paste"
		s.out.Say = v.Problem
		return
	}
	s.correct(settings, v, d)
}

// oldLink finds the plan of a link, or of a message with it, and says what is wrong otherwise.
func (s *session) oldLink(text string) (*merge.Doc, string) {
	if plan.Clean(text) == "" {
		return nil, s.voice.Say("paste.empty")
	}
	all := wholeLinks(text)
	if len(all) == 0 {
		if hasPartOfLink(text) {
			return nil, s.voice.Say("desk-moved.damaged")
		}
		return nil, s.voice.Say("paste.no-link")
	}
	docs, others := s.ofOnePlan(all)
	if len(docs) == 0 {
		return nil, s.notRead(all[0])
	}
	if others {
		return nil, s.voice.Say("desk-moved.others")
	}
	whole := docs[0]
	for _, d := range docs[1:] {
		if joined, err := merge.Join(whole, d); err == nil {
			whole = joined
		}
	}
	return whole, ""
}

// notRead says why a link that arrived whole shows no plan here.
func (s *session) notRead(fragment string) string {
	_, err := s.decode(fragment)
	switch {
	case errors.Is(err, link.ErrLocked):
		return s.voice.Say("desk-moved.locked")
	case errors.Is(err, link.ErrPart):
		return s.voice.Say("desk-moved.part")
	case errors.Is(err, link.ErrNewer):
		return s.voice.Say("desk-moved.newer")
	}
	return s.voice.Say("desk-moved.damaged")
}

// correct shows the form for a link that was read, or what came of it.
func (s *session) correct(settings *desk.Settings, v page.DeskMoved, d *merge.Doc) {
	before := d.Plan()
	v.Link, v.Said = s.encode(d), page.DeskSaid(s.voice, &before)
	was := desk.PatientOf(&before)
	was.Language = s.voice.Language
	in := page.FormInput{Voice: s.voice, New: true, Values: patientValues(&was)}
	if len(before.Helpers) > 0 || len(d.Seen()) > 1 {
		v.Notes = append(v.Notes, s.voice.Say("desk-moved.family"))
	}
	focus, said := "old", ""
	switch {
	case s.field("made") != "":
		v.Made, focus = s.correctionAgain(d), ""
	case s.field("surgery") != "" || s.field("act") == "correct":
		var next *merge.Doc
		if next, in.Problems = s.corrected(d, was); len(in.Problems) > 0 {
			in.Values, focus = s.typed(), "problems"
			said = s.voice.Count("form.problems", len(in.Problems))
		} else if next == d {
			v.Same, focus, said = true, "notice-same", s.voice.Say("desk-moved.same")
		} else {
			in.Values = s.typed()
			v.Made, focus = s.correction(&before, next, s.field("language")), "made"
			said = v.Made.MovesSum
		}
	}
	v.Form = page.DeskForm(in, "/desk/moved", s.voice.Say("desk-moved.make"), false)
	s.showMoved(settings, v)
	s.out.Focus, s.out.Say = focus, said
	if v.Made != nil {
		s.handsOverMade(v.Made)
	}
}

// corrected is the plan with what was put in; the plan itself where nothing differs.
func (s *session) corrected(d *merge.Doc, was desk.Patient) (*merge.Doc, []plan.Problem) {
	e := &entry{values: s.typed()}
	p := s.patientRead(e)
	s.doc = d
	next := desk.Corrected(d, p, s.freshHand())
	s.doc = nil // it is nobody's plan on this device
	made := next.Plan()
	s.checkPatient(e, &made)
	return next, slices.DeleteFunc(unanswered(e.problems, e.values, patientValues(&was)), func(p plan.Problem) bool {
		return !deskAsks(p.Field) && p.Code != plan.ChoiceUnknown
	})
}

// correction is the link that corrects another one.
func (s *session) correction(before *plan.Plan, next *merge.Doc, language string) *page.DeskMade {
	after := next.Plan()
	m := s.madeBy(before, &after, s.encode(next), language, "/desk/moved")
	m.Moves, m.MovesSum = s.movesOf(before, &after)
	m.Ways.Fields = append(m.Ways.Fields, page.Hidden{Name: "link", Value: s.field("link")})
	return m
}

// correctionAgain is the correction that the fields hold.
func (s *session) correctionAgain(d *merge.Doc) *page.DeskMade {
	before := d.Plan()
	next, err := s.decode(link.Trim(s.field("made")))
	if err != nil || next.Number != d.Number {
		return nil
	}
	return s.correction(&before, next, s.field("language"))
}

// movesOf lists what moves, as the family's own page will.
func (s *session) movesOf(before, after *plan.Plan) (lines []string, sum string) {
	was, err := schedule.Build(*before)
	now, err2 := schedule.Build(*after)
	if err != nil || err2 != nil {
		return nil, s.voice.Say("desk-moved.unknown")
	}
	lines = page.MoveLines(s.voice, after, schedule.Moves(was, now))
	if len(lines) == 0 {
		return nil, s.voice.Say("desk-moved.corrects")
	}
	return lines, s.voice.Count("desk-moved.moves", len(lines))
}

func (s *session) showMoved(settings *desk.Settings, v page.DeskMoved) {
	title := s.voice.Say("desk-moved.title")
	v.DeskFrame = s.deskFrame(settings, title, s.voice.Say("desk-moved.lead"))
	s.screen("/desk/moved", title, page.DeskMovedPage(v))
}
