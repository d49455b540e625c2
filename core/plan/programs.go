package plan

// Known is a hospital's program that comes with the page, so that a link names it by a
// number instead of carrying it.
type Known struct {
	Zone    string
	Program Program
	Given   Facts  // what every patient of the hospital is handed; the desk starts with it
	Lines   []Line // of the hospital's own, with numbers from FirstKnownLine on, in their order
}

// FirstKnownLine is the number of the first line that comes with a program. No device has
// numbers from here on, so that such a line never meets a family's.
const FirstKnownLine = LastKnownLine &^ (1<<NthBits - 1)

// Line finds a line of the program by its number; nil where there is none.
func (k *Known) Line(id uint32) *Line {
	if i, found := findLine(k.Lines, id); found {
		return &k.Lines[i]
	}
	return nil
}

// LastKnownLine is the greatest number of such a line.
const LastKnownLine = 1<<32 - 1

// Programs are the programs that come with this page, by their number. A link made with
// a number must say the same for ever: an entry is never changed or removed, a hospital
// that changes its rules gets a new number. Number 1 is the example's invented hospital.
var Programs = map[uint16]Known{
	1: {Zone: "America/Chicago", Program: Program{
		Number: 1, Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road, Alder Ferry", Phone: "555-0142",
	}},
}

// MaxProgram is the greatest number of a program.
const MaxProgram = 1<<14 - 1

// BaseOf gives what a program's number stands for; for 0, and for a number that this page
// does not know, it is common practice with the number.
func BaseOf(number uint16) Known {
	known := Programs[number]
	known.Program.Number = number
	return known
}

// Lacks tells whether the plan names a program that did not come with this page: what it
// sets is not known here.
func (p *Program) Lacks() bool {
	_, known := Programs[p.Number]
	return p.Number != 0 && !known
}
