package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
)

// DeskMoved is the desk's screen on which a link that was sent before is corrected.
type DeskMoved struct {
	DeskFrame
	Text    string   // that was pasted
	Problem string   // why no plan was found in it
	Link    string   // the fragment of the link that was read; empty: none yet
	Said    []string // what that link says
	Asks    []string // what it says in two ways, and whose it is where that is another hospital's
	Notes   []string
	Same    bool // nothing was changed
	Full    bool // the link has no room for what was changed
	Form    Form
	Made    *DeskMade
}

// MoveLines says in a line each what moved.
func MoveLines(v guide.Voice, p *plan.Plan, moves []schedule.Move) []string {
	var all []string
	for _, m := range moves {
		all = append(all, moveLine(v, p, m))
	}
	return all
}

// PressingLines are those of what may never stand behind a fold when its time is another one.
func PressingLines(v guide.Voice, p *plan.Plan, moves []schedule.Move) []string {
	var all []schedule.Move
	for _, id := range pressingMoves {
		for _, m := range moves {
			if m.ID == id {
				all = append(all, m)
			}
		}
	}
	return MoveLines(v, p, all)
}

// DeskMovedPage makes the page.
func DeskMovedPage(v DeskMoved) string { return deskMoved(&v) }
