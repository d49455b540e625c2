package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
)

// choices reads what is chosen from a few answers, and the language.
func (r *rowReader) choices(row *Row, c cells) {
	p := &row.Patient
	if value := c.of(ColumnJoint); value != "" {
		r.operation(row, value)
	} else if p.Link == "" && c.t.Known[ColumnJoint] >= 0 {
		row.fault(RowFault{Column: ColumnJoint, Code: "joint-missing", Ask: true})
	}
	named := row.said[ColumnOperation]
	if n, ok := r.choice(row, c, ColumnOperation, r.kinds); ok {
		if named && plan.Operation(n) != p.Operation {
			row.fault(RowFault{Column: ColumnOperation, Code: "operation-apart", Value: shown(c.of(ColumnOperation))})
		}
		p.Operation = plan.Operation(n)
	}
	row.said[ColumnOperation] = row.said[ColumnOperation] || named
	if n, ok := r.choice(row, c, ColumnStay, r.stays); ok {
		p.Stay = plan.Stay(n)
	}
	for column := ColumnSoap; column <= ColumnTeam; column++ {
		if n, ok := r.anyYes(row, c, column); ok {
			p.Facts &^= columnFact(column)
			if n == 1 {
				p.Facts |= columnFact(column)
			}
		}
	}
	if both := plan.SoapGiven | plan.NoSurgicalSoap; p.Facts.Has(both) && row.said[ColumnSoap] {
		row.fault(RowFault{Column: ColumnSoap, Code: "soap-apart", Ask: true})
	}
	if n, ok := r.choice(row, c, ColumnLanguage, r.languages); ok {
		p.Language = guide.Languages[n]
	}
}

// operation reads the cell that names the joint, and maybe the kind of operation.
func (r *rowReader) operation(row *Row, value string) {
	read, ok := r.procedure(value)
	if !ok {
		row.fault(RowFault{Column: ColumnJoint, Code: "answer-unknown", Value: shown(value)})
		return
	}
	row.Patient.Joint = read.joint
	if read.said {
		row.Patient.Operation = read.kind
		row.said[ColumnOperation] = true
	}
	if read.twice {
		row.fault(RowFault{Column: ColumnJoint, Code: "joint-twice", Ask: true, Value: shown(value)})
	}
}

// anyYes reads a column of yes and no, of which a table may have several: a yes in one is a yes.
func (r *rowReader) anyYes(row *Row, c cells, column Column) (n uint8, ok bool) {
	n, ok = r.choice(row, c, column, r.yes)
	for _, at := range c.t.more[column] {
		if at >= len(row.Cells) {
			continue
		}
		if m, also := r.answered(row, strings.TrimSpace(row.Cells[at]), column, r.yes); also {
			n, ok = max(n, m), true
			row.said[column] = true
		}
	}
	return n, ok
}

// choice reads one answer; ok is false where there is none, or none that is known.
func (r *rowReader) choice(row *Row, c cells, column Column, d dictionary) (n uint8, ok bool) {
	return r.answered(row, c.of(column), column, d)
}

func (r *rowReader) answered(row *Row, value string, column Column, d dictionary) (n uint8, ok bool) {
	if value == "" {
		return 0, false
	}
	if n, ok = r.answer(d, value); !ok {
		f := RowFault{Column: column, Code: "answer-unknown", Value: shown(value)}
		if plan.Given.Has(columnFact(column)) && columnFact(column) != 0 {
			f.Code, f.Ask = "given-unknown", true // "Parking: Lot B"
			row.said[column] = false
		}
		row.fault(f)
	}
	return n, ok
}
