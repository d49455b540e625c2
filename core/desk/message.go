package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/message"
	"newel/core/plan"
)

// Message is the text message that goes with a link, in the language of v: that of a starter,
// where before is nil, else what says that the arrival time is known now, that the surgery has
// moved, or that something else was corrected. It takes one part (core/message) for a starter
// with a program's number on a host name of up to 24 characters. The operation and names are
// in none, since a message stands on a locked screen for all to see. Texts are without the
// accents that would double their cost.
func Message(v guide.Voice, address string, before *plan.Plan, now *plan.Plan) string {
	args := []guide.Arg{
		{Name: "day", Value: message.Plain(v.Day(now.Surgery))}, {Name: "link", Value: address},
	}
	known := now.Arrival.Known()
	if known {
		args = append(args, guide.Arg{Name: "time", Value: plainTime(v, now)})
	}
	return message.Plain(v.Say(messageKey(before, now, known), args...))
}

func messageKey(before, now *plan.Plan, known bool) string {
	switch {
	case before == nil:
		return "desk.text.starter"
	case before.Surgery != now.Surgery && known && before.Arrival != now.Arrival:
		return "desk.text.moved-time"
	case before.Surgery != now.Surgery && known: // the time was for the old day
		return "desk.text.moved-open"
	case before.Surgery != now.Surgery:
		return "desk.text.moved"
	case before.Arrival != now.Arrival && !before.Arrival.Known():
		return "desk.text.arrival"
	case before.Arrival != now.Arrival && known:
		return "desk.text.arrival-moved"
	case before.Arrival != now.Arrival:
		return "desk.text.arrival-open"
	}
	return "desk.text.corrected"
}

// plainTime is the arrival in the letters of text messages: the thin space before AM is in
// none of their alphabets.
func plainTime(v guide.Voice, p *plan.Plan) string {
	return strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(v.Clock(p.Arrival.HourMinute()))
}
