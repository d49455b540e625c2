package plan

import (
	"slices"
	"strings"
)

// Line is a line of a list in the family's or the hospital's own words.
type Line struct {
	ID       uint32 // from the device that added it, so that two devices never give one twice
	List     List
	Day      int  // days from surgery on which it is due, or NoDay
	Hospital bool // it is the hospital's, not the family's
	Done     bool
	Text     string              // at most MaxText characters
	Others   [MostOthers]Wording // the same in other languages, by language; what is not used is empty and comes last
}

// LanguageTag tells whether a text can be the tag of a language, such as es or zh-Hant: letters,
// digits and hyphens (BCP 47), at most twelve.
func LanguageTag(s string) bool {
	for _, r := range s {
		if r != '-' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') {
			return false
		}
	}
	return s != "" && len(s) <= 12
}

// MostOthers is in how many languages, beside the one that Text is in, a line can be said.
const MostOthers = 3

// Wording is what a line says in one language.
type Wording struct {
	Language string // a BCP 47 tag, as the folders of core/guide/text have it
	Text     string // at most MaxText characters
}

// In gives what a line says in a language: its wording there, or else the words that it has.
func (l *Line) In(language string) string {
	for _, w := range l.Others {
		if w.Language == language && w.Language != "" {
			return w.Text
		}
	}
	return l.Text
}

// WithWording returns the line with what it says in a language, in place of what it said there;
// an empty text takes it out. It is false, and the line as it was, where there is no room.
func (l Line) WithWording(language, text string) (Line, bool) {
	var all []Wording
	for _, w := range l.Others {
		if w.Language != "" && w.Language != language {
			all = append(all, w)
		}
	}
	if text != "" {
		all = append(all, Wording{language, text})
	}
	if len(all) > MostOthers || language == "" {
		return l, false
	}
	slices.SortFunc(all, func(a, b Wording) int { return strings.Compare(a.Language, b.Language) })
	l.Others = [MostOthers]Wording{}
	copy(l.Others[:], all)
	return l, true
}

// NoDay says that a line is due on no day in particular.
const NoDay = -1 << 15

// List names a list. Its number goes into links, so a list keeps its place for ever; new
// ones are added at the end.
type List uint8

// The lists. Limits are what the hospital says about movements (hip precautions and the
// like), CallNow and CallOffice what else it asks to be called about, at once or the same day.
// These are no lists to be ticked, and are empty unless the hospital gives some (Told).
const (
	Ready List = iota
	HomeSetUp
	Equipment
	Washing
	Eating
	Packing
	SurgeryDay
	GoingHome
	FirstNight
	AfterSurgery
	Therapy
	Later
	Limits
	CallNow
	CallOffice
	listEnd
)

// ListKeys name the lists in steps.txt, forms and words.
var ListKeys = [listEnd]string{
	"ready", "home", "equipment", "wash", "eat", "pack", "day", "going", "first", "after", "therapy", "later", "limits",
	"call-now", "call-office",
}

// Told tells whether a list is what the hospital says, with nothing to be ticked. Its lines are
// due on no day, and are no steps.
func (l List) Told() bool { return l == Limits || l == CallNow || l == CallOffice }

// The bounds of own lines. Forms stop at MaxPerList; of more than MaxLines, which several
// copies can have together, the first are shown. A line is due at most MaxLineDays days
// before or after surgery.
const (
	MaxLines    = 200
	MaxPerList  = 40
	MaxLineDays = 400

	// MaxLineBytes keeps a line, with its list and day, within the 400 bytes that a value
	// may have in a link.
	MaxLineBytes = 388
)

// ListEnd is the number of the next list that there will be: a line with it, or a greater
// one, is a later page's.
const ListEnd = listEnd

// ListByKey finds a list by its key.
func ListByKey(key string) (List, bool) {
	i := slices.Index(ListKeys[:], key)
	return List(max(i, 0)), i >= 0
}

// Line finds an own line by its number; nil where there is none.
func (p *Plan) Line(id uint32) *Line {
	for i := range p.Lines {
		if p.Lines[i].ID == id {
			return &p.Lines[i]
		}
	}
	return nil
}

// LinesOf gives the own lines of one list: the hospital's first, each in the order of
// their numbers.
func LinesOf(p *Plan, list List) []Line {
	var hospital, family []Line
	for _, l := range p.Lines {
		switch {
		case l.List != list:
		case l.Hospital:
			hospital = append(hospital, l)
		default:
			family = append(family, l)
		}
	}
	return append(hospital, family...)
}

// GivenLinesOf gives those lines of a list that come with the hospital's program.
func GivenLinesOf(p *Plan, list List) []Line {
	return slices.DeleteFunc(LinesOf(p, list), func(l Line) bool { return l.ID < FirstKnownLine })
}

// WithLine returns the plan with a line added or changed; they stay in the order of their
// numbers. The plan it is called on keeps its own.
func (p Plan) WithLine(l Line) Plan {
	i, found := findLine(p.Lines, l.ID)
	p.Lines = slices.Clone(p.Lines)
	if found {
		p.Lines[i] = l
	} else {
		p.Lines = slices.Insert(p.Lines, i, l)
	}
	return p
}

// WithoutLine returns the plan with a line taken out. The plan it is called on keeps its own.
func (p Plan) WithoutLine(id uint32) Plan {
	if i, found := findLine(p.Lines, id); found {
		p.Lines = slices.Delete(slices.Clone(p.Lines), i, i+1)
	}
	if len(p.Lines) == 0 {
		p.Lines = nil
	}
	return p
}

func findLine(all []Line, id uint32) (int, bool) {
	return slices.BinarySearchFunc(all, id, func(l Line, id uint32) int { return int(int64(l.ID) - int64(id)) })
}

// sameLines tells whether two plans have the same own lines, done or not.
func (p *Plan) sameLines(q *Plan) bool {
	return slices.EqualFunc(p.Lines, q.Lines, func(a, b Line) bool {
		a.Done = b.Done
		return a == b
	})
}

// SameTicks tells whether the same is done in two plans.
func (p *Plan) SameTicks(q *Plan) bool {
	return slices.Equal(p.Ticked, q.Ticked) && slices.Equal(p.Lines, q.Lines)
}
