// Package desk is the navigator's side: a hospital's settings as a file and as an address, a
// link for one patient or for a table of them, the text message that goes with each, and what
// a moved surgery changes in a link that was sent before.
//
// Nothing in here stores or sends anything, and nothing needs to know who a patient is: a
// label that tells rows apart stays in the table.
//
// Where is what: address.go writes settings as the fragment of the desk's own address;
// toml.go reads and writes the small part of TOML that settings files use, file.go the
// settings in it, guidance.go says where a rule is laxer than what is published; patient.go
// makes links. csv.go reads and writes tables; table.go has the types of a table of patients,
// read.go finds its columns and columns.go says what was not read, row.go and choices.go read
// its rows, answers.go and fold.go know the words in them; when.go reads dates, order.go and
// headorder.go know whether the day or the month comes first, clock.go reads times of day,
// serial.go both as spreadsheets number them;
// sentence.go says what is wrong. make.go makes links of the rows, text.go gives the table back
// with them, message.go has the text messages.
package desk

import "newel/core/plan"

// Settings are what a hospital sets once: its rules and words, its zone, what every patient is
// handed, and its own lines. They are those of a program that comes with the page, or the
// desk's own; then Program.Number is 0.
type Settings = plan.Known

// MostLines is how many own lines settings may hold: as many as a plan's first act may add
// (merge.Doc.FreshLines).
const MostLines = plan.MaxPerList
