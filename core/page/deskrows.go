package page

import (
	"strconv"

	"newel/core/guide"
	"newel/core/plan"
)

// DeskRowsMost is how many rows are shown at once.
const DeskRowsMost = 100

// DeskRows is the desk's screen for a table of patients: the box to paste it into, or what came
// of it.
type DeskRows struct {
	DeskFrame
	Text     string       // the table as it was pasted
	Problems []string     // of the table as a whole
	Columns  []DeskColumn // explained, beside the box
	Progress *DeskProgress
	Checked  bool // below is what came of it
	Count    string
	Repair   []DeskRow // rows without a link, or with something to be looked at
	More     string    // that there are more of these
	Rows     []DeskRow // those of this part of the table
	Notes    []string  // columns that are kept and not read, and the like
	Fields   []Hidden  // the table and the links made
	Parts    []DeskPart
	Whole    bool   // what is copied is the whole table
	Problem  string // said above the box
}

// DeskColumn is a column of the table, explained.
type DeskColumn struct{ Name, What string }

// DeskProgress is how far the making of links is.
type DeskProgress struct {
	Done, Of int
	Text     string
}

// DeskPart is a part of a long table: the place of its first row, and its name.
type DeskPart struct {
	From, Name string
	Here       bool
}

// DeskRow is one patient of the table.
type DeskRow struct {
	Number   int // in the spreadsheet
	Index    int // in the table, from 0
	Label    string
	Day      string
	Arrival  string
	What     string
	State    string
	Class    string // of the state: made, same, moved or none
	Fragment string
	SMS      string
	Faults   []DeskFault
	Code     bool
	Leave    bool // it was ticked to be left out
}

// DeskFault is one thing to look at in a row. Name is that of a field in which the cell can be
// put right; empty: it cannot.
type DeskFault struct {
	Text, Name, Label, Value string
}

// Name is that of a control of the row.
func (r *DeskRow) name(prefix string) string { return prefix + strconv.Itoa(r.Index) }

// DeskStay and the others name what a row says in a few words.
func DeskStay(v guide.Voice, p *plan.Plan) string {
	return v.Say("form.stay." + []string{"one-night", "same-day", "undecided"}[p.Stay])
}

// DeskRowsPage makes the page.
func DeskRowsPage(v DeskRows) string { return deskRows(&v) }
