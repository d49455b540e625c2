package desk

import (
	"slices"
	"strings"
)

// mayStandTwice tells whether a table may have two columns of this kind under different names,
// of which the one with the plainer name is read: "Procedure" before "Surgery", "DOS" before
// "Date". A link or a message goes into one place. Columns of yes and no are all read: a yes in
// one of "Skin condition" and "Soap allergy" is a yes.
func mayStandTwice(c Column) bool {
	switch c {
	case ColumnLabel, ColumnDate, ColumnArrival, ColumnJoint, ColumnOperation, ColumnStay, ColumnLanguage:
		return true
	}
	return false
}

// rankColumns notes the place of each name of a column in its list: the first is the plainest.
func (r *reader) rankColumns() {
	for _, v := range r.voices {
		for _, key := range ColumnKeys {
			for i, name := range strings.Split(v.Say("desk.column."+key), "|") {
				if _, known := r.ranks[fold(name)]; !known {
					r.ranks[fold(name)] = i
				}
			}
		}
	}
}

// second settles which of two cells of the head is a column's, and keeps the other one apart;
// ok is false where nobody can tell.
func (t *Table) second(r *reader, column Column, at int) (ok bool) {
	first := t.Known[column]
	a, _, asideA := r.columnName(t.Head[first])
	b, _, asideB := r.columnName(t.Head[at])
	switch {
	case fold(a) == fold(b) && asideA == asideB:
		return false
	case columnFact(column) != 0:
		t.more[column] = append(t.more[column], at)
		return true
	case !mayStandTwice(column):
		return false
	}
	left := at
	if asideA && !asideB || asideA == asideB && r.ranks[fold(b)] < r.ranks[fold(a)] {
		t.Known[column], left = at, first
	}
	t.Faults = append(t.Faults, RowFault{Column: column, Code: "column-second", Ask: true, Value: shown(t.Head[left]), Low: t.Known[column] + 1, High: left + 1})
	t.Extra, t.named = append(t.Extra, left), append(t.named, left)
	return true
}

// mostLooked is how many rows are looked at for what a column without a known name may hold.
const mostLooked = 50

// unread says what was not read of a table that may matter: the joint, the arrival, and the
// columns whose names are not known, those first that may hold a caution.
func (t *Table) unread(r *reader) {
	ask := func(f RowFault) { f.Ask = true; t.Faults = append(t.Faults, f) }
	fresh := slices.ContainsFunc(t.Rows, func(row Row) bool { return row.Patient.Link == "" })
	if t.Known[ColumnJoint] < 0 && fresh {
		f := RowFault{Column: ColumnJoint, Code: "joint-none"}
		if at := t.holding(func(cell string) bool { _, ok := r.procedure(cell); return ok }); at >= 0 {
			f.Code, f.Value = "joint-unread", shown(t.Head[at])
			t.named = append(t.named, at)
		}
		ask(f)
	}
	for _, c := range []Column{ColumnDate, ColumnArrival} {
		if at := t.Known[c]; at >= 0 {
			if _, _, aside := r.columnName(t.Head[at]); aside {
				ask(RowFault{Column: c, Code: "column-aside", Value: shown(t.Head[at])})
			}
		}
	}
	if t.Known[ColumnArrival] < 0 {
		if at := t.holding(r.timed); at >= 0 {
			ask(RowFault{Column: ColumnArrival, Code: "arrival-unread", Value: shown(t.Head[at])})
			t.named = append(t.named, at)
		}
	}
	if names := t.extraNames(r); len(names) > 0 {
		ask(RowFault{Code: "columns-unread", Value: strings.Join(names, ", ")})
	}
}

// timed tells whether a cell is a time of day beyond doubt.
func (r *reader) timed(cell string) bool {
	if !strings.ContainsAny(cell, ":") {
		return false
	}
	at := r.clocks.clock(cell)
	return at.fault == "" && at.clock.Known()
}

// holding is the first column without a known name of which a cell is as asked; -1: none.
func (t *Table) holding(is func(cell string) bool) int {
	for _, at := range t.Extra {
		for i := range t.Rows[:min(len(t.Rows), mostLooked)] {
			if row := &t.Rows[i]; at < len(row.Cells) && len(row.Cells[at]) < 8*mostShown && is(row.Cells[at]) {
				return at
			}
		}
	}
	return -1
}

// mostNamed is how many columns a sentence names.
const mostNamed = 8

// extraNames are the names of the columns that were not read and hold anything, those that may
// hold a caution first.
func (t *Table) extraNames(r *reader) []string {
	var cautions, others []string
	for _, at := range t.Extra {
		name := shown(t.Head[at])
		said := slices.ContainsFunc(t.Rows, func(row Row) bool { return at < len(row.Cells) && strings.TrimSpace(row.Cells[at]) != "" })
		switch {
		case name == "" || !said || slices.Contains(t.named, at):
		case r.cautions.hasWord(t.Head[at]):
			cautions = append(cautions, `"`+name+`"`)
		default:
			others = append(others, `"`+name+`"`)
		}
	}
	all := append(cautions, others...)
	if len(all) > mostNamed {
		all = append(all[:max(mostNamed, len(cautions)):max(mostNamed, len(cautions))], "…")
	}
	return all
}
