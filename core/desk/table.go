package desk

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Column names a column of a table of patients.
type Column uint8

// The columns. Only ColumnDate has to be there; what a table lacks is as the first answer of
// the form says it, or not known.
const (
	ColumnLabel     Column = iota // the desk's own mark for the patient
	ColumnDate                    // of surgery
	ColumnArrival                 // empty: not known yet
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
	MostBytes = 400 << 10 // three copies of it go through one request (app.RequestLimit)
	MostCells = 64        // of one row
)

// Table is a table of patients as it was pasted, with what was read of it.
type Table struct {
	Comma  rune       // what stands between cells: ',', ';' or '\t'
	Head   []string   // the cells of the first row, as they were
	Known  []int      // by Column: which cell of a row it is; -1: the table has none
	Extra  []int      // cells of the first row that are no column of ours; they are kept and not read
	Rows   []Row      // without empty ones
	Faults []RowFault // of the table as a whole; where one of them is not Ask there are no Rows
}

// Row is one patient.
type Row struct {
	Number  int      // of the row in the spreadsheet: the first below the head is 2
	Cells   []string // as they were
	Patient Patient  // what was read; sound where no fault stands in the way
	Faults  []RowFault
}

// Usable tells whether a link can be made of the row.
func (r *Row) Usable() bool {
	for _, f := range r.Faults {
		if !f.Ask {
			return false
		}
	}
	return true
}

// RowFault is one thing that is wrong in a table, or to be looked at. The sentence is
// desk.row.CODE in the words; it names the row and the column.
type RowFault struct {
	Column Column
	Code   string
	Ask    bool   // to be looked at; the row is used
	Value  string // the cell as it was
	Read   string // what it was read as, where that is the question: a date as YYYY-MM-DD, a time as HH:MM
	Row    int    // another row that it is about; 0: none
	Low    int
	High   int
}

// Read reads a pasted table. today serves to ask about dates that have passed, and to
// complete a year of two digits; voices are the languages whose names of columns and answers
// are understood, the desk's own first.
func Read(text string, today wall.Date, voices []guide.Voice) Table { return Table{} }

// Done is what came of a row: its link and its message.
type Done struct {
	Fragment string // "": none could be made
	Address  string // the whole link
	Text     string // the message with it
	State    State
}

// State says what a row's link is.
type State uint8

// The states.
const (
	NoLink    State = iota // something is wrong in the row
	NewLink                // it was made now
	SameLink               // the row's own link says all of this already
	MovedLink              // the row's own link said something else; this one corrects it
)

// Make makes links and messages for all rows. page is the address that links begin with, chance
// the device's 16 bytes by which new plans get their numbers. before is told how many rows are
// done, and may be nil.
func (t *Table) Make(s *Settings, page string, chance []byte) []Done { return nil }

// Text writes the table with the links, messages and notes in it, in its own columns where it
// has them and else behind the others, in the form that it came in.
func (t *Table) Text(done []Done, v guide.Voice) string { return "" }

// Message is the text message that goes with a link, in the language of v: that of a starter,
// or, moved, what says that the arrival time is known now or that the surgery has moved. It
// takes one part (core/message) for a link with a program's number on a host name of up to 24
// characters. Texts of other languages are without the accents that would double their cost.
func Message(v guide.Voice, address string, before *plan.Plan, now *plan.Plan) string { return "" }
