package calendar

import (
	"errors"

	"newel/core/guide"
	"newel/core/repeat"
	"newel/core/wall"
)

// What names an entry of a file that is left, for a list.
func What(v guide.Voice, l Left) string {
	if l.What == "" {
		return v.Say("import.unnamed")
	}
	return l.What
}

// Why is the sentence for something that is left: why, and what to do. A fault of a
// rule has the rule's own sentence.
func Why(v guide.Voice, l Left) string {
	if !v.Has("import." + l.Why) {
		return v.RuleFault(repeat.Fault{Code: l.Why, Value: l.Value}, "")
	}
	value := l.Value
	if day, err := wall.ParseDate(value); err == nil {
		value = v.Day(day)
	}
	return v.Say("import."+l.Why, arg("value", value))
}

// WhyNot is the sentence for an error of Read.
func WhyNot(v guide.Voice, err error) string {
	f := Fault{NotCalendar}
	errors.As(err, &f)
	return v.Say("import."+f.Code, guide.Number("n", MaxEvents))
}
