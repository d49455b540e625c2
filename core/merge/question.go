package merge

import (
	"slices"
	"sort"

	"newel/core/wall"
)

// Question is a register that was written apart from each other, to different values.
type Question struct {
	Key
	// Versions are at least two, with at least two different values; the first is the one
	// that is shown. What Settle is told is one of the values.
	Versions []Version
}

// Questions lists what somebody has to settle, in the order of the keys: the surgery day
// and the arrival come first. Of a duty that was taken out nothing is asked.
//
// A duty that one took out while another changed it has the field Gone: the versions with
// the value "" are the changes, those with "1" say who took it out.
func (d *Doc) Questions() []Question {
	var found []Question
	for _, k := range d.order() {
		versions := d.regs[k]
		alive := d.regs[Key{Field: Alive, Of: k.Of}]
		switch {
		case !k.asks() || k.ofDuty() && alive == nil:
		case k.Field == Gone:
			found = append(found, Question{k, asWishes(alive, versions)})
		case differ(versions):
			found = append(found, Question{k, d.shownFirst(k, versions)})
		}
	}
	return found
}

// asks tells whether people are asked about a register. Places of helpers, counts, and
// whose a device is are put right without asking, and what a line says in another language
// follows the line.
func (k Key) asks() bool {
	return k.meaning() && k.Field != Helper && k.Field != Hand && k.Field != Moves && k.Field != LineWords
}

func differ(versions []Version) bool {
	for _, v := range versions {
		if v.Value != versions[0].Value {
			return true
		}
	}
	return false
}

// asWishes lists who wants a duty and who took it out.
func asWishes(alive, gone []Version) []Version {
	var all []Version
	for _, v := range alive {
		all = append(all, Version{v.Stamp, ""})
	}
	return append(all, gone...)
}

// shownFirst puts the shown version first, the others in order behind it.
func (d *Doc) shownFirst(k Key, versions []Version) []Version {
	first, ok := d.shownOf(k)
	if !ok {
		first = shown(k, versions)
	}
	all := []Version{first}
	for _, v := range versions {
		if v != first {
			all = append(all, v)
		}
	}
	return all
}

// Settle answers a question: it writes a value in place of all that were seen, also where
// it is the one that is shown. An empty value takes a register away; one that stays goes
// back to what a plan has by itself, and a text that can be empty is written as one. Of the
// field Gone, "1" takes the duty out and "" keeps it. Where the answer moves times, whoever
// calls it counts that with a Change of the revisions. A value that cannot be there, a duty
// that is not there, and taking away what every plan or duty has change nothing: then it is
// the document itself.
func (d *Doc) Settle(a Actor, k Key, value string) *Doc {
	switch {
	case k.ofDuty() && !d.hasDuty(k.Of):
		return d
	case k.Field == Gone:
		return d.settleGone(a, k, value)
	}
	there := value != "" || k.Field < fieldEnd && k.allows("")
	if !there && k.lasting() && shapes[k.Field].stays {
		value, there = shapes[k.Field].own(), true
	}
	if there && !k.allows(value) || !there && k.lasting() || k.Field == Alive {
		return d
	}
	act := d.begin(a)
	act.next = wanted{}
	if alive := (Key{Field: Alive, Of: k.Of}); k.ofDuty() && d.regs[alive] != nil {
		act.next[alive] = mark
	}
	act.settleOther(k, value)
	if k.Field == Surgery {
		act.settleArrival(value)
	}
	act.write(k, value, there)
	return act.doc.finished()
}

func (d *Doc) settleGone(a Actor, k Key, value string) *Doc {
	act := d.begin(a)
	act.next = wanted{}
	act.write(k, mark, value != "")
	act.write(Key{Field: Alive, Of: k.Of}, mark, value == "")
	return act.doc.finished()
}

// Idle lists the dates that somebody left out or moved (field Date) and that the pattern
// does not have: somebody else changed the pattern meanwhile. One that was left out has no
// effect; one that was moved stays where it was moved, as a date beside the pattern. Both
// hold again if the pattern goes back.
func (d *Doc) Idle() []Key {
	var idle []Key
	var of uint32
	var days []wall.Date
	for _, k := range d.order() {
		if k.Field != Date || d.regs[Key{Field: Alive, Of: k.Of}] == nil {
			continue
		}
		if k.Of != of || days == nil {
			of, days = k.Of, d.days(k.Of)
		}
		i := sort.Search(len(days), func(i int) bool { return days[i] >= wall.Date(k.Sub) })
		if i == len(days) || days[i] != wall.Date(k.Sub) {
			idle = append(idle, k)
		}
	}
	return slices.Clip(idle)
}

// days are the days of a duty's pattern.
func (d *Doc) days(id uint32) []wall.Date {
	pattern, ok := readPattern(d.value(Key{Field: Pattern, Of: id}))
	if !ok {
		return []wall.Date{}
	}
	days, _ := pattern.Pattern()
	return days
}
