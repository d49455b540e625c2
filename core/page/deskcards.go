package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// CardsMost is how many cards are shown, and printed, at once: each has its code drawn.
const CardsMost = 80

// cardsOnPage is how many cards stand on a page. The signs of a card have to be read by old eyes
// in a hurry, so they are all there, in print that is not small.
const cardsOnPage = 2

// DeskCards is the desk's screen for cards: what is to be printed, and the cards as they will
// be on paper.
type DeskCards struct {
	DeskFrame
	Cards   []Card       // those of this part
	Mark    bool         // the desk's own mark is printed
	Count   string       // how many cards that makes, on how many pages
	NoCodes string       // that some have no code; empty: all have
	Without string       // that some rows have no link, and so no card; empty: all have
	Problem string       // why there are none; empty: there are
	Choices []CardChoice // the patients, to choose among; those who can have a card
	Parts   []DeskPart   // where there are more cards than are shown at once
	Fields  []Hidden     // the table and the links made
}

// CardChoice is a patient of the table as a box to tick.
type CardChoice struct {
	Index  string // in the table, from 0
	Text   string
	Chosen bool
}

// Card is what is handed to one patient on paper, in the language of their message.
type Card struct {
	ID       string // of the element
	Voice    guide.Voice
	Row      string // of the table, small, so that two cards of one day are told apart; it says nothing of a patient
	Mark     string // the desk's own; empty: it is not printed
	What     string // which operation
	Day      string // of surgery
	Place    string // the hospital and its address, as far as known
	Times    []CardTime
	Calls    Calls
	Clots    string // until when to look for the signs of a clot
	Fragment string
	Code     bool // the link fits into a code of a card's size
	Long     bool // it takes a larger one than most
	Longer   bool // and one that is larger still
	Full     bool // the hospital has more to say than most: it is in smaller print, to have room
}

// CardTime is one of the six times that matter.
type CardTime struct {
	Label, When string
	Note        string
	Line        bool // it is not known yet: there is room to write it in
}

// The codes that are printed on a card. Of ISO/IEC 18004, table 7, version 19 with error correction
// L holds 792 bytes and has 93 modules a side: with its empty edge 101, each a third of a millimetre
// where the code is 34 mm wide. Version 11 holds 321 bytes; its 69 are 0.46 mm each at 32 mm. Version
// 27 holds 1465; its 133 are 0.41 mm each at 55 mm.
const (
	mostOnCard  = 1465
	mostInLong  = 792
	mostInShort = 321
)

// NewCard makes a patient's card. address is that of the whole link.
func NewCard(in Input, id, address string) Card {
	m := newMaker(in)
	c := Card{
		ID: id, Voice: m.v, What: DeskWhat(m.v, m.p), Day: m.v.Day(m.p.Surgery), Place: joined(m.p.Program.Hospital, m.p.Program.Address),
		Times: m.cardTimes(), Calls: m.calls(), Fragment: in.Fragment, Code: len(address) <= mostOnCard, Long: len(address) > mostInShort, Longer: len(address) > mostInLong,
	}
	c.Clots = m.v.Say("paper.clots", arg("day", m.v.ShortDay(m.lastClotDay())))
	c.Full = len(c.Calls.Office) > 1 || pointsOf(c.Calls.Signs.Emergency.How)+pointsOf(c.Calls.Signs.Office.How) > usualSigns
	return c
}

// usualSigns is how many signs to call about a card has room for in the usual print: ours, and two
// of the hospital's.
const usualSigns = 16

func pointsOf(lines []guide.Line) int {
	n := 0
	for _, l := range lines {
		if l.Point {
			n++
		}
	}
	return n
}

func (m *maker) lastClotDay() wall.Date {
	return m.p.Surgery + wall.Date(m.p.Program.Get(plan.ClotDays))
}

// CardPages is about how many pages so many cards take: a hospital that has many signs of its own
// makes them higher than half a page.
func CardPages(cards int) int { return (cards + cardsOnPage - 1) / cardsOnPage }

// DeskCardsPage makes the page.
func DeskCardsPage(v DeskCards) string { return deskCards(&v) }
