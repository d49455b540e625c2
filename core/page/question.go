package page

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
)

// Answer is one answer to a question: a value for a register, and what it says.
type Answer struct {
	merge.Key
	Value string
	Words string
}

// claim is one of the answers that the plan holds already, with who gave it.
type claim struct {
	Answer
	by []merge.Stamp
}

// Questions asks about what was changed apart from each other, one notice each: the
// surgery day first, then the arrival, then who does what. While the day is open the arrival
// is not asked for: which time is right hangs on the day.
func Questions(people People, p *plan.Plan) []Notice {
	t := newTeller(people, p)
	var all []Notice
	day := false
	for _, q := range t.inOrder() {
		if q.Field == merge.Arrival && day {
			continue
		}
		n := t.notice("question-"+strconv.Itoa(len(all)+1), q)
		if q.Field == merge.Surgery {
			day, n.Then = true, t.arrivals()
		}
		all = append(all, n)
	}
	return all
}

// arrivals says while the day is open for which day the arrival was said, "" where none was.
func (t teller) arrivals() string {
	k := merge.Key{Field: merge.Arrival}
	versions := t.Doc.Get(k)
	if len(versions) == 0 {
		return ""
	}
	var said []string
	ofDay := false
	for _, version := range versions {
		time, words := arg("time", t.value(k, version.Value)), ""
		if day, ok := t.Doc.DayOf(version); ok {
			ofDay, words = true, t.v.Say("question.arrival-day", time, arg("day", t.v.Day(day)))
		} else {
			words = t.v.Say("question.arrival-any", time)
		}
		if !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	switch {
	case !ofDay && len(said) == 1:
		return t.v.Say("question.arrival-either", arg("time", t.value(k, versions[0].Value)))
	case !ofDay:
		return t.v.Say("question.then-arrival", t.claimed(t.claims(merge.Question{Key: k, Versions: versions})))
	}
	text := t.v.Say("question.arrival-days", arg("list", t.v.List(said)))
	if !t.p.Arrival.Known() {
		text += " " + t.v.Say("question.arrival-none")
	}
	return text
}

func (t teller) notice(id string, q merge.Question) Notice {
	n := Notice{ID: id, Text: t.question(q), Question: true}
	for _, c := range t.claims(q) {
		n.Acts = append(n.Acts, Act{Path: "/settle", Button: t.button(c), Fields: []Hidden{{"key", q.Key.String()}, {"value", c.Value}}})
	}
	if q.Field == merge.Surgery || q.Field == merge.Arrival {
		n.Unsure, n.Phones = t.v.Say("question.unsure"), officePhones(t.v, &t.p.Program)
	}
	return n
}

// FindAnswer finds the answer that was tapped. ok is false where the question is not, or
// no longer, asked, or where that is none of its answers.
func FindAnswer(people People, p *plan.Plan, key, value string) (a Answer, ok bool) {
	t := newTeller(people, p)
	for _, q := range t.Doc.Questions() {
		if q.Key.String() != key {
			continue
		}
		for _, c := range t.claims(q) {
			if plan.Clean(c.Value) == value {
				return Answer{c.Key, c.Value, t.answered(c)}, true
			}
		}
	}
	return a, false
}

// inOrder gives the questions by how much hangs on them.
func (t teller) inOrder() []merge.Question {
	all := t.Doc.Questions()
	sort.SliceStable(all, func(i, j int) bool { return weight(all[i].Field) < weight(all[j].Field) })
	return all
}

func weight(f merge.Field) int {
	switch f {
	case merge.Surgery, merge.Arrival:
		return int(f)
	case merge.Cover, merge.Who, merge.On, merge.Takes, merge.Shift:
		return int(merge.Arrival) + 1
	case merge.Gone:
		return int(merge.Arrival) + 2
	}
	return int(merge.Arrival) + 3
}

// claims gathers who says what; what is shown comes first.
func (t teller) claims(q merge.Question) []claim {
	var all []claim
	for _, v := range q.Versions {
		at := slices.IndexFunc(all, func(c claim) bool { return c.Value == v.Value })
		if at < 0 {
			at = len(all)
			all = append(all, claim{Answer: Answer{q.Key, v.Value, t.value(q.Key, v.Value)}})
		}
		all[at].by = append(all[at].by, v.Stamp)
	}
	return all
}

// button is what an answer's button says.
func (t teller) button(c claim) string {
	switch {
	case c.Field == merge.Gone && c.Value != "":
		return t.v.Say("question.take-out")
	case c.Field == merge.Gone:
		return t.v.Say("question.stay")
	case isText(c.Field) || c.Words == c.Value:
		return c.Words // as it was typed
	}
	return capital(c.Words)
}

// answered is what an answer came to.
func (t teller) answered(c claim) string {
	if c.Field == merge.Gone {
		return t.v.Say("thing.of", arg("what", t.label(c.Key)), arg("part", t.button(c)))
	}
	return t.v.Say("thing.of", arg("what", strings.TrimSuffix(t.label(c.Key), "?")), arg("part", c.Words))
}

// question puts a question in words: who says what, and what holds until it is settled.
func (t teller) question(q merge.Question) string {
	all := t.claims(q)
	said, until := t.claimed(all), arg("shown", all[0].Words)
	what := arg("what", strings.TrimSuffix(t.label(q.Key), "?"))
	switch q.Field {
	case merge.Surgery:
		return t.v.Say("question.surgery", said)
	case merge.Arrival:
		return t.v.Say("question.arrival", said, arg("day", t.v.Day(t.p.Surgery)))
	case merge.Gone:
		gone := all[len(all)-1] // what is shown, that it stays, comes first
		return t.v.Say("question.gone", arg("who", t.starting(gone.by[0], t.v.List(t.names(gone.by)))), arg("other", t.v.List(t.names(all[0].by))), what)
	case merge.Cover, merge.Who, merge.On, merge.Takes, merge.Shift:
		return t.whoQuestion(q, all, what, said) + " " + t.v.Say("question.until", until)
	}
	return t.v.Say("question.what", what, said) + " " + t.v.Say("question.until", until)
}

// whoQuestion asks who does something: that both took it, where each took it themselves.
func (t teller) whoQuestion(q merge.Question, all []claim, what, said guide.Arg) string {
	ask := t.v.Say("question.does")
	if d := t.p.Duty(q.Of); d != nil && d.Kind.IsRide() {
		ask = t.v.Say("question.drives")
	}
	var took []merge.Stamp
	for _, c := range all {
		for _, s := range c.by {
			if t.Doc.HandOf(s.Actor) == c.Value {
				took = append(took, s)
				break
			}
		}
	}
	if len(all) == 2 && len(took) == 2 {
		return t.v.Say("question.both", arg("who", t.starting(took[0], t.v.List(t.names(took)))), what) + " " + ask
	}
	return t.v.Say("question.who", what, said) + " " + ask
}

// claimed is the sentence of who says what.
func (t teller) claimed(all []claim) guide.Arg {
	return arg("claims", t.starting(all[0].by[0], t.says(all)))
}

// says lists the claims: "Dana says Tuesday, March 9 and you say Thursday, March 11".
func (t teller) says(all []claim) string {
	var parts []string
	for _, c := range all {
		names := t.names(c.by)
		n := len(names)
		if n == 1 && t.isMe(c.by[0]) {
			n = 2 // "you say", as several do
		}
		parts = append(parts, t.v.Count("question.says", n, arg("who", t.v.List(names)), arg("value", c.Words)))
	}
	return t.v.List(parts)
}
