package guide

import (
	"strconv"
	"strings"
)

// The forms of a number of things are those of CLDR. A language's words say which numbers
// take which form, in the syntax of Unicode Technical Standard 35, part 3, section 5.1
// (Plural Rules): plural.FORM for counting, ordinal-rule.FORM for 1st, 2nd, 3rd. What no
// rule takes is "other", which has no rule.

// relation is one comparison of a condition: n % 10 = 2..4, 11.
type relation struct {
	whole  bool // the operand is n or i, which of a whole number are both the number
	modulo int  // 0: none
	not    bool
	ranges [][2]int
}

// pluralRule gives the numbers of one form: any of the lists holds in all its relations.
type pluralRule struct {
	form  string
	lists [][]relation
}

// readRules reads the rules that stand in a book's words under a prefix such as "plural.".
// A fault in one is a mistake in the files and stops the first test that runs.
func (b *Book) readRules(prefix string) []pluralRule {
	var rules []pluralRule
	for _, form := range pluralForms {
		if text, ok := b.words[prefix+form]; ok {
			lists, ok := condition(text)
			if !ok {
				panic("guide: " + b.Language + ": " + prefix + form + " is no plural rule: " + text)
			}
			rules = append(rules, pluralRule{form, lists})
		}
	}
	return rules
}

// condition reads a condition; ok is false where it is none.
func condition(text string) (lists [][]relation, ok bool) {
	text, _, _ = strings.Cut(text, "@") // samples, which CLDR gives beside a rule
	for _, all := range strings.Split(text, " or ") {
		var list []relation
		for _, one := range strings.Split(all, " and ") {
			r, ok := readRelation(one)
			if !ok {
				return nil, false
			}
			list = append(list, r)
		}
		lists = append(lists, list)
	}
	return lists, true
}

// readRelation reads operand [% value] (= | !=) value or range, and so on.
func readRelation(text string) (r relation, ok bool) {
	left, right, ok := strings.Cut(text, "=")
	if !ok {
		return r, false
	}
	left, r.not = strings.CutSuffix(strings.TrimSpace(left), "!")
	operand, modulo, has := strings.Cut(left, "%")
	if r.modulo, ok = 0, true; has {
		r.modulo, ok = number(modulo)
		ok = ok && r.modulo > 0
	}
	operand = strings.TrimSpace(operand)
	r.whole = operand == "n" || operand == "i"
	if !ok || len(operand) != 1 || !strings.Contains("nivwftce", operand) {
		return r, false
	}
	for _, part := range strings.Split(right, ",") {
		low, high, is := strings.Cut(part, "..")
		if !is {
			high = low
		}
		from, ok1 := number(low)
		to, ok2 := number(high)
		if !ok1 || !ok2 || from > to {
			return r, false
		}
		r.ranges = append(r.ranges, [2]int{from, to})
	}
	return r, true
}

func number(text string) (n int, ok bool) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	return n, err == nil && n >= 0
}

// holds tells whether a relation is so of a whole number. It has no digits after a point
// and no exponent, so v, w, f, t, c and e are 0.
func (r relation) holds(n int) bool {
	if !r.whole {
		n = 0
	}
	if r.modulo > 0 {
		n %= r.modulo
	}
	for _, span := range r.ranges {
		if span[0] <= n && n <= span[1] {
			return !r.not
		}
	}
	return r.not
}

// formOf names the form that a number takes. A number below zero takes that of its amount.
func formOf(rules []pluralRule, n int) string {
	for _, rule := range rules {
		for _, all := range rule.lists {
			if allHold(all, max(n, -n)) {
				return rule.form
			}
		}
	}
	return "other"
}

func allHold(all []relation, n int) bool {
	for _, r := range all {
		if !r.holds(n) {
			return false
		}
	}
	return true
}
