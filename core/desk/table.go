package desk

import "newel/core/guide"

// Column names a column of a table of patients.
type Column uint8

// The columns. Only ColumnDate has to be there; what a table lacks is as the first answer of
// the form says it, or not known.
const (
	ColumnLabel     Column = iota // the desk's own mark for the patient
	ColumnDate                    // of surgery
	ColumnArrival                 // empty: not known yet, or what the row's link says
	ColumnJoint                   // knee or hip
	ColumnOperation               // first, revision or both sides
	ColumnStay                    // one night, same day, not decided
	ColumnSoap                    // yes or no: a surgical soap was handed out
	ColumnDrink                   // a pre-surgery drink
	ColumnPass                    // a parking pass
	ColumnNoSoap                  // the patient must not use a surgical soap
	ColumnTeam                    // the team gave its own times for eating and drinking
	ColumnLanguage                // of the message
	ColumnLink                    // what was made before, or is to be made
	ColumnMessage                 // the text message; it is written and never read
	ColumnNote                    // what is to be looked at; it is written and never read
	columnEnd
)

// ColumnKeys name the columns in words (desk.column.KEY) and ids.
var ColumnKeys = [columnEnd]string{
	"label", "date", "arrival", "joint", "operation", "stay", "soap", "drink", "pass", "no-soap", "team", "language", "link", "message", "note",
}

// The bounds of a table. A pasted text of more is refused whole, before it is looked at.
const (
	MostRows  = 2000
	MostBytes = 2 << 20 // it goes through one request together with what was made of it (app.RequestLimit)
	MostCells = 64      // of one row
	mostEnds  = 100_000 // of lines, empty ones and those within cells too; each takes memory
)

// Table is a table of patients as it was pasted, with what was read of it.
type Table struct {
	Comma  rune       // what stands between cells: ',', ';' or '\t'
	Head   []string   // the cells of the first row, as they were
	Known  []int      // by Column: which cell of a row it is; -1: the table has none
	Extra  []int      // cells of the first row that are no column of ours; they are kept and not read
	Rows   []Row      // without empty ones
	Faults []RowFault // of the table as a whole; where one of them is not Ask there are no Rows

	named  []int            // those of Extra that a sentence names already
	more   map[Column][]int // further cells of a row for columns of yes and no
	mark   string           // the byte order mark, where there was one
	lines  []line           // all that was pasted
	head   int              // which of them has the names of the columns
	voices []guide.Voice
}

// Row is one patient.
type Row struct {
	Number  int      // of the row in the spreadsheet: the first below the head is 2
	Cells   []string // as they were
	Patient Patient  // what was read; sound where no fault stands in the way
	Faults  []RowFault

	line   int             // place in Table.lines
	said   [columnEnd]bool // the cell says something; what it does not say a link does
	number uint32          // of the plan of the row's link
}

// Usable tells whether a link can be made of the row.
func (r *Row) Usable() bool { return usable(r.Faults) }

func usable(faults []RowFault) bool {
	for _, f := range faults {
		if !f.Ask {
			return false
		}
	}
	return true
}

// RowFault is one thing that is wrong in a table, or to be looked at. The sentence is
// desk.row.CODE in the words (Sentence); it names the row and the column.
type RowFault struct {
	Column Column
	Code   string
	Ask    bool   // to be looked at; the row is used
	Value  string // the cell as it was, cut and without what cannot be seen
	Read   string // what it was read as, where that is the question: a date as YYYY-MM-DD, a time as HH:MM
	Or     string // what else it could be read as, in the same form
	Row    int    // another row that it is about; 0: none
	Low    int
	High   int
}
