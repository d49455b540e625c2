package desk

import (
	"slices"

	"newel/core/guide"
	"newel/core/plan"
)

// The answers of columns with a choice, by the value that they stand for.
var (
	jointAnswers     = []string{plan.Knee: "desk.answer.knee", plan.Hip: "desk.answer.hip"}
	operationAnswers = []string{plan.First: "desk.answer.first", plan.Revision: "desk.answer.revision", plan.BothSides: "desk.answer.both"}
	stayAnswers      = []string{plan.OneNight: "desk.answer.one-night", plan.SameDay: "desk.answer.same-day", plan.Undecided: "desk.answer.undecided"}
	yesAnswers       = []string{"desk.answer.no", "desk.answer.yes"}
)

// answerKeys are the answers of a column; nil where it has no choice.
func answerKeys(c Column) []string {
	switch c {
	case ColumnJoint:
		return jointAnswers
	case ColumnOperation:
		return operationAnswers
	case ColumnStay:
		return stayAnswers
	case ColumnSoap, ColumnDrink, ColumnPass, ColumnNoSoap, ColumnTeam:
		return yesAnswers
	}
	return nil
}

// columnFact is the fact that a column of yes and no sets; 0 for others.
func columnFact(c Column) plan.Facts {
	switch c {
	case ColumnSoap:
		return plan.SoapGiven
	case ColumnDrink:
		return plan.DrinkGiven
	case ColumnPass:
		return plan.ParkingPass
	case ColumnNoSoap:
		return plan.NoSurgicalSoap
	case ColumnTeam:
		return plan.TeamTimes
	}
	return 0
}

// reader knows the words of a table's columns and answers, in all languages.
type reader struct {
	voices    []guide.Voice
	columns   dictionary
	joints    dictionary
	kinds     dictionary // of operations
	stays     dictionary
	yes       dictionary
	languages dictionary // places in guide.Languages
	filler    dictionary // words of an operation's name that say nothing here, such as the side
	calendar  calendarWords
	clocks    clockWords
	orders    orderWords
	dayFirst  dictionary // words of languages in which the day comes before the month
}

func newReader(voices []guide.Voice) *reader {
	r := &reader{
		voices: voices, columns: dictionary{}, joints: dictionary{}, kinds: dictionary{}, stays: dictionary{}, yes: dictionary{},
		languages: dictionary{}, filler: dictionary{}, calendar: newCalendarWords(voices), clocks: newClockWords(voices),
		orders: newOrderWords(voices), dayFirst: newDayFirst(voices),
	}
	for c, key := range ColumnKeys {
		r.columns.add(voices, "desk.column."+key, uint8(c))
	}
	for _, choice := range []struct {
		d    dictionary
		keys []string
	}{{r.joints, jointAnswers}, {r.kinds, operationAnswers}, {r.stays, stayAnswers}, {r.yes, yesAnswers}} {
		for i, key := range choice.keys {
			choice.d.add(voices, key, uint8(i))
		}
	}
	r.filler.add(voices, "desk.answer.filler", 0)
	for i, tag := range guide.Languages {
		r.languages[fold(tag)], r.languages[fold(guide.Name(tag))] = uint8(i), uint8(i)
		r.languages.add(voices, "desk.language."+tag, uint8(i))
	}
	return r
}

// answer looks an answer up, whole and then without the words that say nothing here.
func (r *reader) answer(d dictionary, value string) (uint8, bool) {
	if n, ok := d.find(value); ok {
		return n, ok
	}
	n, ok := d[joined(r.without(words(value)))]
	return n, ok
}

// without leaves out words such as "left", "total" and "replacement".
func (r *reader) without(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(w string) bool { _, drop := r.filler[w]; return drop })
}

func joined(all []string) string {
	s := ""
	for _, w := range all {
		s += w
	}
	return s
}

// procedure reads a joint, and the operation where it stands beside it: "L knee", "Revision
// THA", "bilateral TKA". kind is First, said false, where there is nothing else.
func (r *reader) procedure(value string) (joint plan.Joint, kind plan.Operation, said, ok bool) {
	all := r.without(words(value))
	if n, found := r.joints[joined(all)]; found {
		return plan.Joint(n), 0, false, true
	}
	for i, w := range all {
		n, found := r.joints[w]
		if !found {
			continue
		}
		rest := append(slices.Clone(all[:i]), all[i+1:]...)
		if k, found := r.kinds[joined(rest)]; found {
			return plan.Joint(n), plan.Operation(k), true, true
		}
	}
	return 0, 0, false, false
}
