package desk

import (
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// Patient is what the desk puts in for one patient.
type Patient struct {
	Label     string // tells patients apart at the desk; it goes into no link
	Surgery   wall.Date
	Arrival   wall.Clock // wall.NoClock: not known yet
	Joint     plan.Joint
	Operation plan.Operation
	Stay      plan.Stay
	Facts     plan.Facts // what was handed out (plan.Given), plan.NoSurgicalSoap and plan.TeamTimes; nothing else
	Language  string     // of the message
	Link      string     // the fragment of a link that was sent before; empty: there is none
}

// DeskFacts are the facts that the desk knows of a patient.
const DeskFacts = plan.Given | plan.NoSurgicalSoap | plan.TeamTimes

// PlanOf is the plan of a patient as the hospital hands it over.
func PlanOf(s *Settings, p Patient, number uint32) plan.Plan {
	made := blankOf(*s)
	made.Number = number
	return with(made, p)
}

// with puts in what the desk knows of a patient, and leaves what a family knows.
func with(made plan.Plan, p Patient) plan.Plan {
	made.Surgery, made.Arrival = p.Surgery, p.Arrival
	made.Joint, made.Operation, made.Stay = p.Joint, p.Operation, p.Stay
	made.Facts = made.Facts&^DeskFacts | p.Facts&DeskFacts
	return made
}

// Starter is the fragment of a patient's first link.
func Starter(s *Settings, p Patient, number uint32) string {
	return link.Encode(merge.New(PlanOf(s, p, number)))
}

// PatientOf is what the desk knows of the patient of a plan.
func PatientOf(p *plan.Plan) Patient {
	return Patient{
		Surgery: p.Surgery, Arrival: p.Arrival, Joint: p.Joint, Operation: p.Operation, Stay: p.Stay, Facts: p.Facts & DeskFacts,
	}
}

// Corrected is a document with what the desk knows now, written by device a, which the
// document has not seen. Where nothing differs it is the document itself. A family's copy takes
// it over by joining: what the family has put in stays.
//
// Of the columns in answers what p says holds from then on where two answers stood (Apart), also
// if it is the one that was shown.
func Corrected(d *merge.Doc, p Patient, a merge.Actor, answers ...Column) *merge.Doc {
	var settled []merge.Key
	for _, c := range answers {
		settled = append(settled, columnKey(c))
	}
	return d.Decide(a, with(d.Plan(), p), settled...)
}

// OfOther names the hospital of a plan where it is another one than the settings'; unknown tells
// that the plan's program did not come with this page.
func OfOther(s *Settings, p *plan.Plan) (hospital string, unknown bool) {
	if p.Program.Lacks() {
		return "", true
	}
	if p.Program.Hospital == s.Program.Hospital {
		return "", false
	}
	return p.Program.Hospital, false
}
