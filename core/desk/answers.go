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

	sideWords   = [...]string{"desk.answer.left", "desk.answer.right"}
	pluralWords = []string{plan.Knee: "desk.answer.knees", plan.Hip: "desk.answer.hips"}
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
	ranks     map[string]int // of the columns' names: 0 is the plainest
	asides    dictionary     // words in brackets that leave a column's name as it is
	cautions  dictionary     // words of names of columns that may hold a caution
	joints    dictionary
	kinds     dictionary // of operations
	stays     dictionary
	yes       dictionary
	languages dictionary // places in guide.Languages
	filler    dictionary // words of an operation's name that say nothing here
	sides     dictionary // left and right, of which nothing hangs on one, and much on both
	plurals   dictionary // of joints: both of them
	calendar  calendarWords
	clocks    clockWords
	orders    orderWords
	dayFirst  dictionary // words of languages in which the day comes before the month
}

func newReader(voices []guide.Voice) *reader {
	r := &reader{
		voices: voices, columns: dictionary{}, ranks: map[string]int{}, asides: dictionary{}, cautions: dictionary{}, joints: dictionary{}, kinds: dictionary{}, stays: dictionary{}, yes: dictionary{},
		languages: dictionary{}, filler: dictionary{}, sides: dictionary{}, plurals: dictionary{}, calendar: newCalendarWords(voices), clocks: newClockWords(voices),
		orders: newOrderWords(voices), dayFirst: newDayFirst(voices),
	}
	for c, key := range ColumnKeys {
		r.columns.add(voices, "desk.column."+key, uint8(c))
	}
	for _, choice := range []struct {
		d    dictionary
		keys []string
	}{{r.joints, jointAnswers}, {r.kinds, operationAnswers}, {r.stays, stayAnswers}, {r.yes, yesAnswers}, {r.sides, sideWords[:]}, {r.plurals, pluralWords}} {
		for i, key := range choice.keys {
			choice.d.add(voices, key, uint8(i))
		}
	}
	r.rankColumns()
	r.cautions.add(voices, "desk.caution", 0)
	r.asides.add(voices, "desk.aside", 0)
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
	return slices.DeleteFunc(slices.Clone(all), func(w string) bool {
		_, drop := r.filler[w]
		_, side := r.sides[w]
		return drop || side
	})
}

// bothSides tells whether words name the left and the right.
func (r *reader) bothSides(all []string) bool {
	var seen [len(sideWords)]bool
	for _, w := range all {
		if n, ok := r.sides[w]; ok {
			seen[n] = true
		}
	}
	return seen == [len(sideWords)]bool{true, true}
}

func joined(all []string) string {
	s := ""
	for _, w := range all {
		s += w
	}
	return s
}

// procedureRead is what a cell says of the operation.
type procedureRead struct {
	joint plan.Joint
	kind  plan.Operation
	said  bool // it says which kind of operation
	twice bool // that is both sides, by naming left and right, or by a plural
}

// procedure reads a joint, and the operation where it stands beside it: "L knee", "Revision
// THA", "bilateral TKA", "L/R hip", "knees".
func (r *reader) procedure(value string) (p procedureRead, ok bool) {
	spelled := words(value)
	p.twice = r.bothSides(spelled)
	all := r.without(spelled)
	n, found := r.joints[joined(all)]
	if !found {
		if n, found = r.plurals[joined(all)]; found {
			p.twice = true
		}
	}
	for i := 0; i < len(all) && !found; i++ {
		m, one := r.joints[all[i]]
		many, several := r.plurals[all[i]]
		if !one && !several {
			continue
		}
		rest := append(slices.Clone(all[:i]), all[i+1:]...)
		var kind uint8
		if kind, found = r.kinds[joined(rest)]; found {
			n, p.kind, p.said, p.twice = max(m, many), plan.Operation(kind), true, p.twice || several
		}
	}
	if p.joint = plan.Joint(n); p.twice && p.said && p.kind != plan.BothSides {
		return p, false // the revision of left and right: no plan is for both
	}
	p.twice = p.twice && !p.said
	if p.twice {
		p.kind, p.said = plan.BothSides, true
	}
	return p, found
}
