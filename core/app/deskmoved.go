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
	v.Link, v.Said, v.Asks = s.encode(d), page.DeskSaid(s.voice, &before), s.movedAsks(settings, d)
	if len(before.Helpers) > 0 {
		v.Notes = append(v.Notes, s.voice.Say("desk-moved.family"))
	}
	was := desk.PatientOf(&before)
	was.Language = s.voice.Language
	in := page.FormInput{Voice: s.voice, New: true, Values: valuesApart(patientValues(&was), desk.Apart(d))}
	focus, said := "old", v.Said[0]
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
		} else if in.Values = s.typed(); s.encode(next) == "" {
			v.Full, focus, said = true, "notice-full", s.voice.Say("desk-moved.full")
		} else {
			v.Made, focus = s.correction(d, next, s.field("language")), "made"
			said = s.voice.Say("desk-moved.made", arg("day", s.voice.Day(v.Made.Day))) + " " + v.Made.MovesSum
		}
	}
	v.Form = page.DeskForm(in, "/desk/moved", s.voice.Say("desk-moved.make"), false)
	s.showMoved(settings, v)
	s.out.Focus, s.out.Say = focus, said
	if v.Made != nil {
		s.handsOverMade(v.Made)
	}
}

// movedAsks says what is to be looked at in a link before it is corrected.
func (s *session) movedAsks(settings *desk.Settings, d *merge.Doc) []string {
	var asks []string
	p := d.Plan()
	switch hospital, unknown := desk.OfOther(settings, &p); {
	case unknown:
		asks = append(asks, s.voice.Say("desk-moved.lacks"))
	case hospital != "":
		asks = append(asks, s.voice.Say("desk-moved.hospital", arg("hospital", hospital)))
	}
	for _, c := range desk.Apart(d) {
		note := s.voice.Say("desk-moved.apart", arg("what", desk.ColumnName(s.voice, c)), arg("list", desk.ApartText(s.voice, d, c)))
		if c == desk.ColumnArrival {
			note += " " + s.voice.Say("desk-moved.apart.arrival")
		}
		asks = append(asks, note)
	}
	return asks
}

// valuesApart empties the fields of which the link holds two answers: whoever answers says so.
func valuesApart(values map[string]string, apart []desk.Column) map[string]string {
	for _, c := range apart {
		name := desk.ColumnKeys[c]
		if c == desk.ColumnDate {
			name = "surgery"
		}
		delete(values, name)
	}
	return values
}

// corrected is the plan with what was put in; the plan itself where nothing differs.
func (s *session) corrected(d *merge.Doc, was desk.Patient) (*merge.Doc, []plan.Problem) {
	e := &entry{values: s.typed()}
	p := s.patientRead(e)
	s.doc = d
	next := desk.Corrected(d, p, s.freshHand(), desk.Apart(d)...)
	s.doc = nil // it is nobody's plan on this device
	made := next.Plan()
	s.checkPatient(e, &made)
	return next, slices.DeleteFunc(unanswered(e.problems, e.values, patientValues(&was)), func(p plan.Problem) bool {
		return !deskAsks(p.Field) && p.Code != plan.ChoiceUnknown
	})
}

// correction is the link that corrects another one.
func (s *session) correction(d, next *merge.Doc, language string) *page.DeskMade {
	before, after := d.Plan(), next.Plan()
	told := desk.Told(before, desk.Apart(d))
	fragment := s.encode(next)
	m := s.madeBy(&told, &after, fragment, language, "/desk/moved")
	s.sayMoves(m, &before, &after)
	m.Card, m.Day = true, after.Surgery
	if len(m.Moves) > 0 || before.Arrival != after.Arrival {
		m.Notes = append(m.Notes, s.voice.Say("desk-moved.card"))
	}
	p := desk.PatientOf(&after)
	p.Link, p.Language = fragment, m.Language
	m.Ways.Fields = append(m.Ways.Fields, page.Hidden{Name: "link", Value: s.field("link")}, page.Hidden{Name: tabRows, Value: s.sheet([]desk.Patient{p})})
	return m
}

// correctionAgain is the correction that the fields hold.
func (s *session) correctionAgain(d *merge.Doc) *page.DeskMade {
	next, err := s.decode(link.Trim(s.field("made")))
	if err != nil || next.Number != d.Number {
		return nil
	}
	return s.correction(d, next, s.field("language"))
}

// sayMoves lists what moves, as the family's own page will.
func (s *session) sayMoves(m *page.DeskMade, before, after *plan.Plan) {
	was, err := schedule.Build(*before)
	now, err2 := schedule.Build(*after)
	if err != nil || err2 != nil {
		m.MovesSum = s.voice.Say("desk-moved.unknown")
		return
	}
	moves := schedule.Moves(was, now)
	m.Moves, m.Pressing = page.MoveLines(s.voice, after, moves), page.PressingLines(s.voice, after, moves)
	switch {
	case len(m.Moves) > 0:
		m.MovesSum = s.voice.Count("desk-moved.moves", len(m.Moves))
	case before.Arrival != after.Arrival: // what is counted from it comes or goes, and does not move
		m.MovesSum = s.voice.Say("desk-moved.arrival")
	default:
		m.MovesSum = s.voice.Say("desk-moved.corrects")
	}
}

func (s *session) showMoved(settings *desk.Settings, v page.DeskMoved) {
	title := s.voice.Say("desk-moved.title")
	v.DeskFrame = s.deskFrame(settings, title, s.voice.Say("desk-moved.lead"))
	s.screen("/desk/moved", title, page.DeskMovedPage(v))
}
