package app

import (
	"slices"
	"strconv"

	"newel/core/desk"
	"newel/core/link"
	"newel/core/page"
	"newel/core/schedule"
)

// deskCards shows the cards of the patients that were put in, as they will be on paper. The
// printing itself is the shell's (web/paper.ts). Fields: those of the table (deskDone); "mark"
// has the desk's own mark printed; with act "show", and with "cards-from", the first card of a
// part, "only" is a row's place in the table, for each that is chosen. With act "card" it is the
// card of one link that was made, in the field "made".
func (s *session) deskCards(settings *desk.Settings) {
	if s.tableText() == "" {
		s.noCards(settings, page.DeskCards{Problem: s.voice.Say("desk-cards.none")})
		return
	}
	only := s.chosenRows()
	t, made := s.cardRows(settings)
	v := page.DeskCards{
		Mark:   s.field("mark") != "",
		Fields: []page.Hidden{{Name: "text", Value: s.tableText()}, {Name: "made", Value: desk.PackDone(made)}},
	}
	if s.field("act") == "card" {
		only = s.rowOfLink(made)
	} else if s.lines(tabText) != "" { // for the way back to the rows
		s.keepMade(s.tableText(), made, false)
	}
	var chosen []int
	without := 0
	for i := range t.Rows {
		if made[i].Fragment == "" {
			without++
			continue
		}
		is := only == nil || slices.Contains(only, i)
		if is {
			chosen = append(chosen, i)
		}
		v.Choices = append(v.Choices, page.CardChoice{Index: strconv.Itoa(i), Text: s.choiceText(&t.Rows[i], made[i]), Chosen: is})
	}
	if without > 0 {
		v.Without = s.voice.Count("desk-cards.without", without)
	}
	s.showCards(settings, v, &t, made, chosen)
}

// cardRows is the table with what came of each row. The field "made" is another one where a
// single card is asked for.
func (s *session) cardRows(settings *desk.Settings) (desk.Table, []desk.Done) {
	if s.field("act") != "card" {
		return s.deskDone(settings)
	}
	t := s.readTable(settings, s.tableText())
	return t, t.Make(s.placed(settings), s.in.Page, s.in.Random)
}

// chosenRows are the places that were ticked; nil: nobody was asked, and all are meant.
func (s *session) chosenRows() []int {
	act := s.field("act")
	if act != "show" && s.field("cards-from") == "" {
		return nil
	}
	only := []int{}
	for _, f := range s.in.Fields {
		if n, err := strconv.Atoi(f.Value); f.Name == "only" && err == nil {
			only = append(only, n)
		}
	}
	return only
}

// rowOfLink is the place of the row whose link is in the field "made".
func (s *session) rowOfLink(made []desk.Done) []int {
	wanted := link.Trim(s.field("made"))
	for i, d := range made {
		if d.Fragment == wanted {
			return []int{i}
		}
	}
	return []int{}
}

// choiceText names a row to whoever chooses among them.
func (s *session) choiceText(r *desk.Row, d desk.Done) string {
	day := r.Patient.Surgery
	if r.Patient.Link != "" {
		day = s.patientOfLink(d.Fragment, r.Patient).Surgery
	}
	text := s.voice.Say("desk-cards.choice", arg("n", strconv.Itoa(r.Number)), arg("day", s.voice.ShortDay(day)))
	if r.Patient.Label != "" {
		text += " · " + r.Patient.Label
	}
	return text
}

// showCards shows those of the chosen cards that belong to the part that was asked for.
func (s *session) showCards(settings *desk.Settings, v page.DeskCards, t *desk.Table, made []desk.Done, chosen []int) {
	from := min(max(s.number("cards-from"), 0), max(len(chosen)-1, 0)) / page.CardsMost * page.CardsMost
	noCode := 0
	here := chosen[from:min(from+page.CardsMost, len(chosen))]
	for _, i := range here {
		if c, ok := s.card(&t.Rows[i], made[i], i); ok {
			if !v.Mark {
				c.Mark = ""
			}
			v.Cards = append(v.Cards, c)
			if !c.Code {
				noCode++
			}
		}
	}
	if noCode > 0 {
		v.NoCodes = s.voice.Count("desk-cards.no-codes", noCode)
	}
	v.Parts = s.cardParts(len(chosen), from)
	v.Count = s.voice.Count("desk-cards.count", len(v.Cards), arg("pages", s.voice.Count("paper.pages", page.CardPages(len(v.Cards)))))
	switch {
	case len(v.Choices) == 0:
		v.Problem = s.voice.Say("desk-cards.no-links")
	case len(v.Cards) == 0:
		v.Problem = s.voice.Say("desk-cards.nobody")
		v.Count = v.Problem
	}
	s.noCards(settings, v)
	if len(v.Cards) > 0 {
		s.out.Focus, s.out.Say = "outcome", s.voice.Count("desk-cards.shown", len(v.Cards))
	}
}

// noCards shows the screen; where there is no card, what is missing is said.
func (s *session) noCards(settings *desk.Settings, v page.DeskCards) {
	title := s.voice.Say("desk-cards.title")
	v.DeskFrame = s.deskFrame(settings, title, s.voice.Say("desk-cards.lead"))
	s.screen("/desk/cards", title, page.DeskCardsPage(v))
	if v.Problem != "" && len(s.in.Fields) > 0 {
		s.out.Focus, s.out.Say = "no-cards", v.Problem
	}
}

// card is that of one row. ok is false where its plan cannot be laid out.
func (s *session) card(r *desk.Row, d desk.Done, at int) (page.Card, bool) {
	doc, err := s.decode(d.Fragment)
	if err != nil {
		return page.Card{}, false
	}
	sched, err := schedule.Build(doc.Plan())
	if err != nil {
		return page.Card{}, false
	}
	in := page.Input{Schedule: sched, Voice: s.voiceIn(r.Patient.Language), Now: s.now, Fragment: d.Fragment}
	c := page.NewCard(in, "card-"+strconv.Itoa(at), d.Address)
	c.Mark, c.Row = r.Patient.Label, in.Voice.Say("desk-cards.row", arg("n", strconv.Itoa(r.Number)))
	return c, true
}

// cardParts names the parts in which many cards are shown and printed.
func (s *session) cardParts(cards, from int) []page.DeskPart {
	var all []page.DeskPart
	for at := 0; at < cards; at += page.CardsMost {
		all = append(all, page.DeskPart{
			From: strconv.Itoa(at), Here: at == from,
			Name: s.voice.Say("desk-rows.part", arg("first", strconv.Itoa(at+1)), arg("last", strconv.Itoa(min(at+page.CardsMost, cards)))),
		})
	}
	return all
}
