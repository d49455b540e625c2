package plan

import (
	"strconv"
	"strings"

	"newel/core/wall"
)

// The codes of problems with own lines and with the hospital's settings.
const (
	LinesMany   = "lines-many"   // over MaxLines, or over MaxPerList in one list
	LineEmpty   = "line-empty"   // a line without words
	LineFar     = "line-far"     // more than MaxLineDays from surgery
	LineUnsound = "line-unsound" // in a link only: no version of the page writes this
	LimitLong   = "limit-long"   // the Low-th movement limit has more than High characters

	NumberToCall = "number-to-call" // not a number that a phone can dial
	FeverUnclear = "fever-unclear"  // no temperature
	FeverScale   = "fever-scale"    // the scale that is written beside the number is not the one that it can be on
	FeverLow     = "fever-low"      // asked about: lower than most hospitals say
	FeverHigh    = "fever-high"     // asked about: higher than most hospitals say, so that the office is called late
	ReviewNobody = "review-nobody"  // a day, and nobody who reviewed
	ReviewNoDay  = "review-no-day"  // somebody, and no day
	ReviewFuture = "review-future"  // asked about: a day that is still to come
)

// CheckLine lists what is wrong with one line. The fields are those of its form.
func CheckLine(l *Line) []Problem {
	found := checkText("text", l.Text, MaxText)
	if len(l.Text) > MaxLineBytes && len(found) == 0 { // of characters that take four bytes each
		found = append(found, Problem{Field: "text", Code: TextLong, High: MaxLineBytes / 4})
	}
	if l.Text == "" {
		found = append(found, Problem{Field: "text", Code: LineEmpty})
	}
	for i, w := range l.Others {
		found = append(found, checkText("text."+w.Language, w.Text, MaxText)...)
		if (w.Language == "") != (w.Text == "") || w.Language != "" && !LanguageTag(w.Language) || i > 0 && w.Language != "" && w.Language <= l.Others[i-1].Language || len(w.Text) > MaxLineBytes {
			found = append(found, Problem{Field: "text", Code: LineUnsound})
		}
	}
	if l.List >= listEnd || l.List.Told() && (!l.Hospital || l.Day != NoDay) {
		found = append(found, Problem{Field: "list", Code: ChoiceUnknown})
	}
	if l.Day != NoDay && (l.Day < -MaxLineDays || l.Day > MaxLineDays) {
		found = append(found, Problem{Field: "day", Code: LineFar, High: MaxLineDays})
	}
	return found
}

// checkLines looks at all of them together.
func checkLines(p *Plan) []Problem {
	if len(p.Lines) > MaxLines {
		return []Problem{{Field: "lines", Code: LinesMany, High: MaxLines}}
	}
	var found []Problem
	var last uint32
	for i := range p.Lines {
		l := &p.Lines[i]
		problems := CheckLine(l)
		if l.ID <= last {
			problems = append(problems, Problem{Field: "id", Code: LineUnsound})
		}
		for _, problem := range problems {
			problem.Field = "line." + strconv.FormatUint(uint64(l.ID), 10) + "." + problem.Field
			found = append(found, problem)
		}
		last = l.ID
	}
	return found
}

// TextMost is how many characters a text of a hospital may have.
func (t ProgramText) TextMost() int {
	switch t {
	case EmergencyNumber:
		return MaxName
	case ReviewedOn, TranslatedOn:
		return len("2006-01-02")
	}
	return 2 * MaxName // in any script below the bytes that a link's value may have
}

// IsDay tells whether a text of a hospital is a day.
func (t ProgramText) IsDay() bool { return t == ReviewedOn || t == TranslatedOn }

// Allows tells whether a text of a hospital can be that: a day is one that there is, a
// number has a digit. An empty text always can.
func (t ProgramText) Allows(s string) bool {
	if s == "" {
		return true
	}
	if t.IsDay() {
		_, err := wall.ParseDate(s)
		return err == nil
	}
	return len([]rune(s)) <= t.TextMost()
}

// checkTexts looks at the hospital's other words: who has reviewed goes with a day, and the
// number to call is one.
func checkTexts(p *Program, today wall.Date) []Problem {
	var found []Problem
	for t, s := range p.Texts {
		field := ProgramTextKeys[t]
		switch t := ProgramText(t); {
		case t.IsDay() && !t.Allows(s):
			_, err := wall.ParseDate(s)
			found = append(found, Problem{Field: field, Code: DateFault(err)})
		case t.IsDay():
			found = append(found, checkReview(field, p.Texts[t-1], s, today)...)
		default:
			found = append(found, checkText(field, s, t.TextMost())...)
		}
	}
	if n := p.Texts[EmergencyNumber]; n != "" && !Dialable(n) {
		found = append(found, Problem{Field: ProgramTextKeys[EmergencyNumber], Code: NumberToCall})
	}
	return found
}

// checkReview looks at who has reviewed what the page says, and on which day.
func checkReview(field, by, on string, today wall.Date) []Problem {
	day, err := wall.ParseDate(on)
	switch {
	case by == "" && on != "":
		return []Problem{{Field: field, Code: ReviewNobody}}
	case by != "" && on == "":
		return []Problem{{Field: field, Code: ReviewNoDay}}
	case err == nil && day > today:
		return []Problem{{Field: field, Code: ReviewFuture, Ask: true}}
	}
	return nil
}

// Dial gives what a phone dials for a number as it is typed: digits, at least two, with a
// plus sign before them where one stands there; visual separators are dropped (RFC 3966 5.1.1).
// Two are the ambulance's in some countries, such as 15 in France. It is "" for anything else,
// such as a number with letters.
func Dial(typed string) string {
	var dial strings.Builder
	digits := 0
	for i, r := range typed {
		switch {
		case r >= '0' && r <= '9':
			digits++
			dial.WriteRune(r)
		case r == '+' && i == 0:
			dial.WriteRune(r)
		case r == '-', r == '.', r == '(', r == ')', r == ' ':
		default:
			return ""
		}
	}
	if digits < 2 {
		return ""
	}
	return dial.String()
}

// Dialable tells whether a phone can dial a number as it is typed.
func Dialable(typed string) bool { return Dial(typed) != "" }
