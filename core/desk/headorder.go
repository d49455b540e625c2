package desk

import (
	"slices"
	"strings"
	"unicode/utf8"

	"newel/core/guide"
)

// columnName takes apart the name of a column and what stands behind it about the order, in
// brackets or not: "Date (dd/mm/yyyy)", "Fecha día/mes/año", "Date [month first]". aside tells
// that something else stands in brackets, which may say that another day is meant: "Date (of
// birth)".
func (r *reader) columnName(cell string) (name string, o dateOrder, aside bool) {
	if at := strings.IndexAny(cell, "(["); at >= 0 {
		inside := words(cell[at:])
		o = r.orders.in(inside)
		return cell[:at], o, o == orderUnsaid && slices.ContainsFunc(inside, func(w string) bool { return !r.orders.knows(w) && !r.asides.has(w) })
	}
	all := words(cell)
	from := len(all)
	for from > 1 && r.orders.knows(all[from-1]) {
		from--
	}
	if o = r.orders.in(all[from:]); o == orderUnsaid {
		return cell, o, false // Day of surgery
	}
	return strings.Join(all[:from], " "), o, false
}

// orderWords are the words by which the name of a column tells an order.
type orderWords struct{ parts dictionary }

// The meanings of orderWords.
const (
	partDay uint8 = iota
	partMonth
	partYear
	partFirst // "day first"
)

func newOrderWords(voices []guide.Voice) orderWords {
	o := orderWords{dictionary{}}
	for part, key := range [...]string{partDay: "desk.date.day", partMonth: "desk.date.month", partYear: "desk.date.year", partFirst: "desk.date.first"} {
		o.parts.add(voices, key, uint8(part))
	}
	return o
}

// parted cuts "ddmmyyyy", in which nothing stands between the letters.
func parted(word string) []string {
	var all []string
	for len(word) > 0 {
		_, size := utf8.DecodeRuneInString(word)
		end := size
		for strings.HasPrefix(word[end:], word[:size]) {
			end += size
		}
		all, word = append(all, word[:end]), word[end:]
	}
	return all
}

// meanings are the parts that a word names; nil where it is none.
func (o orderWords) meanings(word string) []uint8 {
	if m, ok := o.parts[word]; ok {
		return []uint8{m}
	}
	var all []uint8
	for _, p := range parted(word) {
		m, ok := o.parts[p]
		if !ok || len(p) > 4 {
			return nil
		}
		all = append(all, m)
	}
	return all
}

func (o orderWords) knows(word string) bool { return o.meanings(word) != nil }

// in finds the order that words tell: by day and month, of which the first one counts, or by
// one of them with "first". Where the year comes first there is only one order.
func (o orderWords) in(all []string) dateOrder {
	var seen []uint8
	for _, word := range all {
		seen = append(seen, o.meanings(word)...)
	}
	day, month, first := slices.Index(seen, partDay), slices.Index(seen, partMonth), slices.Index(seen, partFirst)
	switch {
	case len(seen) > 0 && seen[0] == partYear:
		return orderUnsaid
	case day >= 0 && (month > day || month < 0 && first > day):
		return dayThenMonth
	case month >= 0 && (day > month || day < 0 && first > month):
		return monthThenDay
	}
	return orderUnsaid
}
