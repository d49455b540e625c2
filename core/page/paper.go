package page

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// The sheets that can be printed, as they stand in addresses behind /print/. One helper's
// sheet is PaperHelper and their place in the plan.
const (
	PaperHelper  = "helper."
	PaperHelpers = "helpers"
	PaperFridge  = "fridge"
	PaperCover   = "cover"
	PaperPack    = "pack"
	PaperCard    = "card"
	PaperLarge   = "card-large"
	PaperGuide   = "guide"
)

// PaperInput is what a sheet is made from.
type PaperInput struct {
	Input
	Sheet   string    // one of the names above
	From    wall.Date // the first day of the refrigerator sheet; 0: the day that is useful now
	Address string    // of the plan's link, with the page's own address before it
}

// PaperView is the screen that shows a sheet as it will be on paper.
type PaperView struct {
	Voice    guide.Voice
	Calls    Calls
	Fragment string
	Path     string
	Title    string
	Pages    string  // about how many pages that makes
	From     string  // the first day of the refrigerator sheet as YYYY-MM-DD; empty on others
	Sheets   []Sheet // several where each helper has one
}

// Sheet is one sheet, of one page or more. What its kind does not have is empty.
type Sheet struct {
	Voice    guide.Voice
	Calls    Calls
	Fragment string // of the plan's link, for its code
	ID       string // of the element
	Kind     string // helper, fridge, cover, pack, card or guide
	Title    string
	Plan     string // whose operation
	Day      string // of surgery
	Facts    []string
	AsOf     string // from when it is
	Notes    []string
	Code     bool // the link fits into a code

	Large    bool         // card: one that fills the page
	Dense    bool         // card: the hospital has added to it, so that its letters are smaller
	Clots    string       // card: until when to look for the signs of a clot
	Rows     []PaperRow   // helper: the dates
	Later    string       // helper: how many more dates follow
	Bring    []PaperNote  // helper: what to bring and to know
	Phones   []string     // helper: whose numbers can be written in
	Daily    []PaperDaily // fridge: what is the same every day
	Care     []string     // fridge: what the patient does every day
	Days     []PaperDay   // fridge
	Grid     *CoverGrid   // cover; nil: nothing is to come
	List     []ListGroup  // pack
	Due      string       // pack: by when
	Chapters []Chapter    // guide
}

// NewPaper makes the view of a sheet. ok is false where there is no such sheet.
func NewPaper(in PaperInput) (v PaperView, ok bool) {
	v = PaperView{
		Voice: in.Voice, Calls: NewCalls(in.Voice, &in.Schedule.Plan, in.Fragment), Fragment: in.Fragment, Path: "/print/" + in.Sheet,
	}
	lines := 0
	switch in.Sheet {
	case PaperHelpers:
		for _, who := range helpersOnPaper(&in.Schedule.Plan) {
			v.add(newHelperSheet(in, who), &lines)
		}
		v.Title = in.Voice.Say("paper.helpers")
	case PaperFridge:
		sheet, from := newFridgeSheet(in)
		v.From = from.String()
		v.add(sheet, &lines)
	case PaperCover:
		v.add(newCoverSheet(in), &lines)
	case PaperPack:
		v.add(newPackSheet(in), &lines)
	case PaperCard:
		v.add(newCardSheet(in, false), &lines)
	case PaperLarge:
		v.add(newCardSheet(in, true), &lines)
	case PaperGuide:
		v.add(newGuideSheet(in), &lines)
	default:
		if who := helperOfSheet(in.Sheet, &in.Schedule.Plan); who != 0 {
			v.add(newHelperSheet(in, who), &lines)
		}
	}
	v.Pages = in.Voice.Count("paper.pages", lines)
	return v, len(v.Sheets) > 0
}

func (v *PaperView) add(s Sheet, pages *int) {
	v.Sheets = append(v.Sheets, s)
	v.Title = s.Title
	*pages += s.pages()
}

// newPaperMaker is a maker for paper: it reads the same all day and in every hand, so "now" is
// the beginning of the day and there is no clock but the plan's.
func newPaperMaker(in PaperInput) *paperMaker {
	m := &paperMaker{maker: newMaker(in.Input), in: in}
	m.Now, _ = m.today.At(m.s.Loc, 0)
	m.Device, m.Report = nil, nil // who can is asked as of the sheet's own now
	return m
}

// paperMaker is a maker with what only paper needs.
type paperMaker struct {
	*maker
	in PaperInput
}

// sheet makes what every sheet has: whose operation and when, the hospital, from when it is.
func (m *paperMaker) sheet(kind, title string) Sheet {
	s := Sheet{
		Voice: m.v, Calls: m.calls(), Fragment: m.Fragment, ID: "sheet-" + kind, Kind: kind, Title: title,
		Plan: Title(m.v.Book, m.p), Day: m.v.Day(m.p.Surgery), Code: len(m.in.Address) <= mostOnPaper,
		AsOf: m.v.Say("paper.as-of", arg("when", m.v.ShortDayTime(m.in.Now.In(m.s.Loc)))),
	}
	arrival := m.v.Say("arrival.unknown")
	if !m.s.Arrival.IsZero() {
		arrival = m.v.Say("part.arrival", arg("time", m.v.Time(m.s.Arrival)))
	}
	s.Facts = []string{arrival}
	if place := joined(m.p.Program.Hospital, m.p.Program.Address); place != "" {
		s.Facts = append(s.Facts, place)
	}
	if m.in.Device != nil && m.in.Device.String() != m.s.Loc.String() {
		s.Notes = append(s.Notes, m.v.Say("calendar.zone", arg("zone", m.p.Zone)))
	}
	if len(m.Unsettled) > 0 {
		s.Notes = append(s.Notes, m.v.Say("paper.unsettled"))
	}
	if m.Demo {
		s.Notes = append(s.Notes, m.v.Say("paper.demo"))
	}
	return s
}

// mostOnPaper is how many letters a code may hold that is printed five centimetres wide. Of
// ISO/IEC 18004, table 7, version 25 with error correction L holds 1273 bytes; its 117 modules
// and the empty edge are then 0.4 mm each, which the camera of a phone still reads.
const mostOnPaper = 1273

// helperOfSheet reads the helper's place from the name of a sheet; 0 where there is none.
func helperOfSheet(sheet string, p *plan.Plan) uint8 {
	text, ok := strings.CutPrefix(sheet, PaperHelper)
	n, err := strconv.ParseUint(text, 10, 8)
	if !ok || err != nil || p.Helper(uint8(n)) == "" || strconv.Itoa(int(n)) != text {
		return 0
	}
	return uint8(n)
}

// helpersOnPaper are the places of those who have something to do.
func helpersOnPaper(p *plan.Plan) []uint8 {
	var all []uint8
	for i := range p.Helpers {
		if who := uint8(i + 1); p.HasDuty(who) {
			all = append(all, who)
		}
	}
	return all
}

// over tells whether a duty was over before today.
func (m *paperMaker) over(d *schedule.Duty) bool { return max(d.Day, lastDay(d)) < m.today }

// PaperPage makes the screen.
func PaperPage(v PaperView) string { return paperPage(&v) }

// PaperChoice is the screen on which a sheet is chosen.
type PaperChoice struct {
	Voice    guide.Voice
	Calls    Calls
	Fragment string
	Sheets   []Option // by the names above, with their titles
	Helpers  []Option // those who have a sheet of their own
}

// NewPaperChoice makes it.
func NewPaperChoice(in Input) PaperChoice {
	p := &in.Schedule.Plan
	c := PaperChoice{Voice: in.Voice, Calls: NewCalls(in.Voice, p, in.Fragment), Fragment: in.Fragment}
	for _, kind := range []string{PaperFridge, PaperCover, PaperCard, PaperLarge, PaperPack, PaperGuide} {
		c.Sheets = append(c.Sheets, Option{Value: kind, Label: in.Voice.Say("paper." + kind)})
	}
	for _, who := range helpersOnPaper(p) {
		c.Helpers = append(c.Helpers, Option{Value: PaperHelper + number(int(who)), Label: p.Helper(who)})
	}
	return c
}

// PaperChoicePage makes the screen.
func PaperChoicePage(c PaperChoice) string { return paperChoicePage(&c) }
