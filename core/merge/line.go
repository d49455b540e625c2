package merge

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/plan"
)

// LineText writes an own line as the value of its register: the list's number, an h where
// the hospital says it, the days from surgery with their sign where it is due on one, a
// space, and the words: "5 Reading lamp", "0-3 Ask Mr. Ode", "12h Do not kneel". It is one
// value since one person writes it in one act; what is done is a register of its own.
func LineText(l plan.Line) string {
	text := strconv.Itoa(int(l.List))
	if l.Hospital {
		text += "h"
	}
	if l.Day != plan.NoDay {
		if l.Day >= 0 {
			text += "+"
		}
		text += strconv.Itoa(l.Day)
	}
	return text + " " + l.Text
}

// ReadLine reads what LineText wrote, without number and done mark; false for anything
// else. A line of a list that only later pages know reads as one: then List is at least
// plan.ListEnd.
func ReadLine(value string) (l plan.Line, ok bool) {
	head, text, found := strings.Cut(value, " ")
	l = plan.Line{Day: plan.NoDay, Text: text}
	if at := strings.IndexAny(head, "+-"); at >= 0 {
		day, err := strconv.Atoi(head[at:])
		if err != nil {
			return l, false
		}
		l.Day, head = day, head[:at]
	}
	head, l.Hospital = strings.CutSuffix(head, "h")
	list, ok := number(head)
	if !found || !ok || list < 0 || list > maxList {
		return l, false
	}
	l.List = plan.List(list)
	if l.List >= plan.ListEnd {
		return l, soundText(text, plan.MaxText) && LineText(l) == value
	}
	return l, len(plan.CheckLine(&l)) == 0 && soundText(text, plan.MaxText) && LineText(l) == value
}

// maxList is the greatest number that a list of a later page may have.
const maxList = 63

// eachActor is how many numbers of lines a device has, before they come round again.
const eachActor = 1 << plan.NthBits

// FreshLines gives numbers for lines that a device adds in its next act: such as no register
// has, and none of the last thousand or so that the device has given out, so that a line that
// was taken out does not come back under another one's words.
func (d *Doc) FreshLines(a Actor, n int) []uint32 {
	var fresh []uint32
	if uint32(a)<<plan.NthBits >= plan.FirstKnownLine { // those are of lines that come with programs
		return nil
	}
	last := d.lastNumber(a)
	for at := uint32(1); len(fresh) < n && at <= eachActor; at++ {
		id := uint32(a)<<plan.NthBits | (last+at)%eachActor
		taken := d.regs[Key{Field: Line, Sub: id}] != nil || d.regs[Key{Field: LineDone, Sub: id}] != nil
		if id != 0 && !taken {
			fresh = append(fresh, id)
		}
	}
	return fresh
}

// lastNumber is the last number that a device can have given out, before they come round:
// numbers and acts are one count. The act that makes a plan is the first, whatever it adds:
// that is one list of the form (plan.MaxPerList).
func (d *Doc) lastNumber(a Actor) uint32 {
	last := d.Last(a)
	if a == Maker && last > 0 {
		last += plan.MaxPerList - 1
	}
	return last
}

// usesNumbers counts an act on by as many numbers as it gives out, since one act can add
// several lines. The numbers of acts that are left out so were seen like all below the last.
func (c *change) usesNumbers(before *Doc) {
	a, most := c.stamp.Actor, uint32(1)
	last := before.lastNumber(a)
	for k := range c.next {
		n := (k.Sub - last) % eachActor // one that is far on comes back after it was taken out
		if k.Field == Line && before.regs[k] == nil && Actor(k.Sub>>plan.NthBits) == a && n <= plan.MaxLines {
			most = max(most, n)
		}
	}
	c.stamp.N = min(before.Last(a)+most, LastN)
	c.doc.seen[a] = c.stamp.N
}

// line lists an own line. Of one that comes with a program it is only said that it is done.
func (w wanted) line(l plan.Line) {
	w.mark(Key{Field: LineDone, Sub: l.ID}, l.Done)
	if l.ID >= plan.FirstKnownLine {
		return
	}
	w[Key{Field: Line, Sub: l.ID}] = LineText(l)
	for _, say := range l.Others {
		w.text(Key{Field: LineWords, Sub: l.ID, Name: say.Language}, say.Text, "")
	}
}

// ofProgram tells whether a register is of a line that comes with a program. A page that has not
// got that program knows nothing of the line, and keeps what is ticked of it.
func (k Key) ofProgram() bool {
	return (k.Field == Line || k.Field == LineDone || k.Field == LineWords) && k.Sub >= plan.FirstKnownLine
}

// lineUnknown tells whether a register is of a line that comes with a program, and not with the
// document's own as this page has it.
func (d *Doc) lineUnknown(k Key) bool {
	if !k.ofProgram() {
		return false
	}
	base := d.base()
	return base.Line(k.Sub) == nil
}

// base is what comes with the program that the document names.
func (d *Doc) base() plan.Known {
	return plan.BaseOf(uint16(numberOr(d.value(Key{Field: Program}), 0)))
}

// line takes over an own line; of more than a plan may have the first ones. A mark without
// its line is of one that was taken out meanwhile.
func (s *shownPlan) line(k Key, v string) {
	if k.Field != LineDone && k.ofProgram() {
		return // what it says is not a family's to change
	}
	if k.Field == LineWords { // in the order of languages, and after all lines
		if l := s.p.Line(k.Sub); l != nil {
			*l, _ = l.WithWording(k.Name, v)
		}
		return
	}
	if k.Field == LineDone {
		if l := s.p.Line(k.Sub); l != nil {
			l.Done = true
		}
		return
	}
	l, ok := ReadLine(v)
	if !ok || k.later(v) || len(s.p.Lines) >= plan.MaxLines {
		return
	}
	l.ID = k.Sub
	at := len(s.p.Lines) - s.given // those have the greatest numbers
	s.p.Lines = slices.Insert(s.p.Lines, at, l)
}
