package guide

// List joins items as a sentence does: A, B and C. The words between them are
// CLDR's list patterns (two, middle, end), so that a language has its own; the
// English ones are those of en-GB, without a comma before "and".
func (v Voice) List(items []string) string {
	if len(items) == 0 {
		return ""
	}
	text, last := items[0], len(items)-1
	for i, item := range items[1:] {
		key := "join.middle"
		switch {
		case last == 1:
			key = "join.two"
		case i+1 == last:
			key = "join.end"
		}
		text = v.Say(key, Arg{"list", text}, Arg{"item", item})
	}
	return text
}

// Minutes writes a length of time: 45 minutes, 1 hour, 1 hour 30 minutes. The order
// is CLDR's list of units without commas (unit, narrow).
func (v Voice) Minutes(n int) string {
	if n < 60 || n%60 == 0 {
		return v.minutes(n)
	}
	return v.Say("unit.hours-minutes",
		Arg{"hours", v.Count("unit.hours", n/60)}, Arg{"minutes", v.Count("unit.minutes", n%60)})
}

// ordinal writes 1st, 2nd, 3rd, 11th: ordinal.FORM, by the ordinal rules of the language.
func (v Voice) ordinal(n int) string {
	return v.Say("ordinal."+formOf(v.ordinals, n), Number("n", n))
}
