package desk

import (
	"slices"
	"strings"

	"newel/core/guide"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// Done is what came of a row: its link and its message.
type Done struct {
	Fragment string // "": none could be made
	Address  string // the whole link
	Text     string // the message with it
	State    State
	Fault    string // what only came out when the row's link was opened: codes, as in RowFault, with a space between; "" for nothing
}

// State says what a row's link is.
type State uint8

// The states.
const (
	NoLink    State = iota // something is wrong in the row
	NewLink                // it was made now
	SameLink               // the row's own link says all of this already
	MovedLink              // the row's own link said something else; this one corrects it
	stateEnd
)

// The faults that come out only where a link is made.
const (
	faultDamaged = "link-damaged"
	faultFull    = "link-full"

	// To be looked at; there is a link all the same.
	askSettled   = "link-settled"   // it held two answers of something; the row's holds now
	askUnsettled = "link-unsettled" // it holds two answers of what the row does not say
	askOther     = "link-other"     // it is of another operation than the row
	askHospital  = "link-hospital"  // it is of another hospital than the settings
	askUnknown   = "link-unknown"   // it names a program that this page lacks
)

// Make makes links and messages for all rows. page is the address that links begin with, chance
// the device's 16 bytes by which new plans get their numbers.
func (t *Table) Make(s *Settings, page string, chance []byte) []Done {
	return t.MakeSome(s, page, chance, 0, len(t.Rows), nil)
}

// MakeSome makes those of the rows from one place to another, not with it, behind what was made
// before: one Done for each row in front of them. So a device can do a few rows at a time and
// say how far it is. Each time has its own chance.
func (t *Table) MakeSome(s *Settings, page string, chance []byte, from, to int, made []Done) []Done {
	m := maker{t: t, settings: s, page: page, numbers: newNumbers(chance), voices: map[string]guide.Voice{}}
	for _, v := range t.voices {
		m.voices[v.Language] = v
	}
	for i := range t.Rows {
		if r := &t.Rows[i]; r.Patient.Link != "" {
			m.numbers.take(r.number)
		}
	}
	for _, d := range made {
		if head, err := link.ReadHead(d.Fragment); err == nil {
			m.numbers.take(head.Number)
		}
	}
	for i := from; i < to && i < len(t.Rows); i++ {
		made = append(made, m.row(&t.Rows[i]))
	}
	return made
}

// maker makes the links of a table.
type maker struct {
	t        *Table
	settings *Settings
	page     string
	numbers  *numbers
	voices   map[string]guide.Voice
	starters link.Starters
	reader   link.Reader
}

// row makes the link and the message of a row.
func (m *maker) row(r *Row) Done {
	switch {
	case !r.Usable():
		return Done{}
	case r.Patient.Link != "":
		return m.again(r)
	}
	p := PlanOf(m.settings, r.Patient, m.numbers.next())
	return m.done(r, m.starters.Encode(&p), NewLink, nil, &p)
}

// again looks at a row's own link, and corrects it where the row says something else.
func (m *maker) again(r *Row) Done {
	d, err := m.reader.Decode(r.Patient.Link)
	if err != nil {
		return Done{Fault: faultDamaged}
	}
	before := d.Plan()
	was := PatientOf(&before)
	patient := r.over(was)
	asks, answered := r.asks(m.settings, &before, patient), r.answered(d)
	if len(answered) > 0 {
		asks = append(asks, askSettled)
	}
	if len(answered) < len(Apart(d)) {
		asks = append(asks, askUnsettled)
	}
	var done Done
	if patient == was && len(answered) == 0 {
		done = m.done(r, r.Patient.Link, SameLink, nil, &before)
	} else {
		next := Corrected(d, patient, m.numbers.actor(d), answered...)
		after := next.Plan()
		told := Told(before, answered)
		done = m.done(r, link.Encode(next), MovedLink, &told, &after)
	}
	if done.Fault == "" {
		done.Fault = strings.Join(asks, " ")
	}
	return done
}

// asks lists why a row's link may be another patient's: nothing in a link says whose it is.
func (r *Row) asks(s *Settings, was *plan.Plan, now Patient) []string {
	var all []string
	if now.Joint != was.Joint || now.Operation != was.Operation {
		all = append(all, askOther)
	}
	switch hospital, unknown := OfOther(s, was); {
	case unknown:
		all = append(all, askUnknown)
	case hospital != "" && s.Program.Hospital != "": // without settings every link is of another hospital
		all = append(all, askHospital)
	}
	return all
}

// answered lists the columns of which a link holds two answers and the row has one.
func (r *Row) answered(d *merge.Doc) []Column {
	return slices.DeleteFunc(Apart(d), func(c Column) bool { return !r.said[c] })
}

// over puts what a row says over what its link says.
func (r *Row) over(was Patient) Patient {
	now := was
	for c := range columnEnd {
		if r.said[c] {
			r.put(&now, c)
		}
	}
	return now
}

// put takes one column over.
func (r *Row) put(now *Patient, c Column) {
	p := &r.Patient
	switch c {
	case ColumnDate:
		now.Surgery = p.Surgery
	case ColumnArrival:
		now.Arrival = p.Arrival
	case ColumnJoint:
		now.Joint = p.Joint
	case ColumnOperation:
		now.Operation = p.Operation
	case ColumnStay:
		now.Stay = p.Stay
	}
	if f := columnFact(c); f != 0 {
		now.Facts = now.Facts&^f | p.Facts&f
	}
}

func (m *maker) done(r *Row, fragment string, state State, before, now *plan.Plan) Done {
	if fragment == "" {
		return Done{Fault: faultFull}
	}
	d := Done{Fragment: fragment, Address: m.page + "#" + fragment, State: state}
	v, ok := m.voices[r.Patient.Language]
	if !ok {
		v = m.t.voices[0]
	}
	d.Text = Message(v, d.Address, before, now)
	return d
}

// actor draws a device's number that a document has not seen.
func (n *numbers) actor(d *merge.Doc) merge.Actor {
	for {
		// Without the last one, whose lines are a program's (plan.FirstKnownLine).
		a := merge.FirstActor + merge.Actor(n.draw()%uint64(merge.LastActor-merge.FirstActor))
		if d.Last(a) == 0 {
			return a
		}
	}
}
