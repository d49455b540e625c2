package desk

import (
	"errors"
	"strings"

	"newel/core/link"
	"newel/core/plan"
	"newel/core/wall"
)

// rowReader reads rows.
type rowReader struct {
	*reader
	settings *Settings
	today    wall.Date
	order    order
}

// row reads the record at a place of the table's.
func (r *rowReader) row(t *Table, at int) Row {
	row := Row{Number: at + 1, line: at, Patient: Patient{Arrival: wall.NoClock, Facts: r.settings.Given & DeskFacts}}
	row.Patient.Language = r.voices[0].Language
	all := t.lines[at].cells
	for _, c := range all[:min(len(all), MostCells)] {
		row.Cells = append(row.Cells, c.value)
	}
	if beyond := firstSaid(all[min(len(all), len(t.Head)):]); beyond != "" {
		row.fault(RowFault{Code: "cells-many", Value: shown(beyond), Low: len(all), High: len(t.Head)})
	}
	c := cells{t: t, row: &row}
	row.Patient.Label = c.of(ColumnLabel)
	r.link(&row, c.of(ColumnLink))
	r.when(&row, c)
	r.choices(&row, c)
	for column, at := range t.Known {
		if at >= 0 && at < len(row.Cells) && all[at].loose && Column(column) < ColumnMessage {
			row.fault(RowFault{Column: Column(column), Code: "quote-open", Ask: true, Value: shown(row.Cells[at])})
		}
	}
	return row
}

// firstSaid is the first cell that says something.
func firstSaid(all []cell) string {
	for _, c := range all {
		if strings.TrimSpace(c.value) != "" {
			return c.value
		}
	}
	return ""
}

func (r *Row) fault(f RowFault) { r.Faults = append(r.Faults, f) }

// cells gives the cells of a row by their column.
type cells struct {
	t   *Table
	row *Row
}

// of is the cell of a column, "" where there is none, and notes whether it says anything.
func (c cells) of(column Column) string {
	at := c.t.Known[column]
	if at < 0 || at >= len(c.row.Cells) {
		return ""
	}
	value := strings.TrimSpace(c.row.Cells[at])
	c.row.said[column] = value != ""
	return value
}

// link reads the head of a row's link. What its cells do not say the link does; what its
// head has is put in at once, the rest where the link is opened (Make).
func (r *rowReader) link(row *Row, value string) {
	if value == "" {
		return
	}
	fragment := link.Trim(value)
	head, err := link.ReadHead(fragment)
	fault := RowFault{Column: ColumnLink, Value: shown(value)}
	switch {
	case errors.Is(err, link.ErrNewer):
		fault.Code = "link-newer"
	case err != nil:
		fault.Code = "link-damaged"
	case head.Locked:
		fault.Code = "link-locked"
	case head.Part:
		fault.Code = "link-part"
	case head.Version == 0:
		head, fault.Code = r.oldHead(fragment)
	}
	if fault.Code != "" {
		row.fault(fault)
		return
	}
	row.Patient.Link, row.number = fragment, head.Number
	p := &row.Patient
	p.Surgery, p.Arrival, p.Joint, p.Operation, p.Stay = head.Surgery, head.Arrival, head.Joint, head.Operation, head.Stay
	p.Facts = 0
}

// oldHead makes the head of a link of an older version, which has none, from its plan.
func (r *rowReader) oldHead(fragment string) (link.Head, string) {
	d, err := link.Decode(fragment)
	if err != nil {
		return link.Head{}, "link-damaged"
	}
	p := d.Plan()
	return link.Head{Number: p.Number, Surgery: p.Surgery, Arrival: p.Arrival, Joint: p.Joint, Operation: p.Operation, Stay: p.Stay}, ""
}

// when reads the day and the arrival, and what plan.Check says of them.
func (r *rowReader) when(row *Row, c cells) {
	p := &row.Patient
	before := *p
	dateSound := r.day(row, c.of(ColumnDate))
	at := r.clocks.clock(c.of(ColumnArrival))
	row.said[ColumnArrival] = at.said
	if at.said {
		p.Arrival = at.clock
	}
	if before.Link != "" && before.Arrival.Known() && at.said && at.fault == "" && !at.clock.Known() {
		row.fault(RowFault{Column: ColumnArrival, Code: "time-open", Ask: true, Value: shown(c.of(ColumnArrival)), Read: before.Arrival.String()})
		row.said[ColumnArrival] = true
	}
	if at.fault != "" {
		row.fault(RowFault{Column: ColumnArrival, Code: at.fault, Ask: at.ask, Value: shown(c.of(ColumnArrival)), Read: at.clock.String()})
	}
	if !dateSound {
		return
	}
	if p.Link != "" && p.Surgery != before.Surgery && !at.said && before.Arrival.Known() {
		row.fault(RowFault{Column: ColumnArrival, Code: "time-old", Ask: true, Read: before.Arrival.String()})
	}
	for _, problem := range plan.Check(&plan.Plan{
		Surgery: p.Surgery, Arrival: p.Arrival, Zone: r.settings.Zone, Drive: plan.Unknown, Parking: plan.Unknown,
	}, r.today) {
		r.problem(row, problem, at.fault)
	}
}

// day reads the date of surgery.
func (r *rowReader) day(row *Row, value string) (sound bool) {
	if value == "" {
		if row.Patient.Link == "" {
			row.fault(RowFault{Column: ColumnDate, Code: "date-missing"})
		}
		return row.Patient.Link != ""
	}
	said, had := r.calendar.cell(value, r.today), wall.Date(0)
	if row.Patient.Link != "" {
		had = row.Patient.Surgery
	}
	d := said.in(r.order, had)
	if d.fault != "" {
		row.fault(RowFault{Column: ColumnDate, Code: d.fault, Ask: d.ask, Value: shown(value), Read: d.read, Or: d.or, Low: d.low})
	}
	if d.bad() {
		return false
	}
	if said.clock && d.fault != "date-clock" {
		row.fault(RowFault{Column: ColumnDate, Code: "date-clock", Ask: true, Value: shown(value), Read: d.day.String()})
	}
	row.Patient.Surgery = d.day
	return true
}

// planFaults are the problems of a plan that a row can have, as faults of it. The zone and the
// rules are the settings': the desk's form says what is wrong there.
var planFaults = map[string]struct {
	code   string
	column Column
}{
	plan.DateMissing: {"date-unreal", ColumnDate}, plan.DatePast: {"date-past", ColumnDate}, plan.DateFar: {"date-far", ColumnDate},
	plan.ClockSkipped: {"time-skipped", ColumnArrival}, plan.ClockOdd: {"time-odd", ColumnArrival}, plan.ClockUnreal: {"time-unreal", ColumnArrival},
}

// problem takes over a problem of the plan, but for a time that is doubted already.
func (r *rowReader) problem(row *Row, problem plan.Problem, clockFault string) {
	f, ok := planFaults[problem.Code]
	if !ok || f.column == ColumnArrival && clockFault != "" && problem.Ask {
		return
	}
	read := row.Patient.Surgery.String()
	if f.column == ColumnArrival {
		read = row.Patient.Arrival.String()
	}
	row.fault(RowFault{Column: f.column, Code: f.code, Ask: problem.Ask, Value: read, Read: read})
}
