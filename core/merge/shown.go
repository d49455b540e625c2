package merge

import (
	"slices"

	"newel/core/plan"
	"newel/core/wall"
)

// Plan is what the copy shows. It follows from the document alone, not from the order in
// which copies were joined, and is in canonical form: lists in order, rules as
// repeat.Canonical leaves them.
//
// More ticks than plan.MaxTicks and more helpers than plan.MostHelpers can come together
// from several copies; then the first are shown. All stay in the document.
func (d *Doc) Plan() plan.Plan {
	keys := d.order()
	s := shownPlan{doc: d, helpers: d.helpers(keys), duties: map[uint32]*shownDuty{}}
	s.start()
	s.p.Helpers = s.helpers.names
	for _, k := range keys {
		if k.ofDuty() {
			s.duty(k)
		} else {
			s.own(k)
		}
	}
	s.p.Duties = s.family()
	s.p.Revision = s.moves(0)
	return s.p
}

// Shown is Plan for reading only: what its slices hold is the document's own. It is put together
// once, since one answer asks for it many times.
func (d *Doc) Shown() plan.Plan {
	if p := d.shown.Load(); p != nil {
		return *p
	}
	p := d.Plan()
	d.shown.Store(&p)
	return p
}

// shown picks the version of a register that is shown; versions is not empty.
func shown(k Key, versions []Version) Version {
	best := versions[len(versions)-1] // the greatest stamp, of these the greatest value
	if len(versions) == 1 {
		return best
	}
	rank := k.rank()
	if rank == nil {
		return best
	}
	for _, v := range versions {
		if n, m := rank(v.Value), rank(best.Value); n < m || n == m && v.Compare(best) > 0 {
			best = v
		}
	}
	return best
}

// value is the shown value of a register, "" where nobody wrote it.
func (d *Doc) value(k Key) string {
	v, _ := d.shownOf(k)
	return v.Value
}

// Writer is the act that wrote what a register shows; the zero Stamp where nobody wrote it.
func (d *Doc) Writer(k Key) Stamp {
	v, _ := d.shownOf(k)
	return v.Stamp
}

// shownPlan is a plan that is being put together.
type shownPlan struct {
	doc     *Doc
	p       plan.Plan
	given   int // how many of its lines come with its program
	helpers roster
	duties  map[uint32]*shownDuty
}

// start sets what the registers do not say.
func (s *shownPlan) start() {
	base := s.doc.base()
	s.given = len(base.Lines)
	s.p = plan.Plan{
		Number: s.doc.Number, Arrival: wall.NoClock, Zone: base.Zone,
		Drive: plan.Unknown, Parking: plan.Unknown, Program: base.Program, Lines: slices.Clone(base.Lines),
	}
}

// own takes over a register of the plan's own.
func (s *shownPlan) own(k Key) {
	v := s.doc.value(k)
	n := numberOr(v, 0)
	switch k.Field {
	case Surgery:
		s.p.Surgery = wall.Date(n)
	case Arrival:
		s.p.Arrival = wall.Clock(numberOr(v, int(wall.NoClock)))
	case Zone:
		s.p.Zone = v
	case Joint:
		s.p.Joint = plan.Joint(n)
	case Operation:
		s.p.Operation = plan.Operation(n)
	case Stay:
		s.p.Stay = plan.Stay(n)
	case Drive:
		s.p.Drive = n
	case Parking:
		s.p.Parking = n
	case Patient:
		s.p.Patient = v
	case Hospital:
		s.p.Program.Hospital = v
	case Address:
		s.p.Program.Address = v
	case Phone:
		s.p.Program.Phone = v
	default:
		s.numbered(k, v, n)
	}
}

// numbered takes over a register of which there are several.
func (s *shownPlan) numbered(k Key, v string, n int) {
	switch {
	case !k.meaning():
	case k.Field == Fact:
		s.p.Facts |= 1 << k.Sub
	case k.Field == Setting:
		if !s.p.Program.Set(plan.Rule(k.Sub), n) { // no common practice: the program's own value was taken back
			s.p.Program.Clear(plan.Rule(k.Sub))
		}
	case k.Field == Cover:
		s.p.Cover[k.Sub] = s.helpers.who(v)
	case k.Field == About || k.Field == Out:
		s.about(k, v)
	case k.Field == Line || k.Field == LineDone || k.Field == LineWords:
		s.line(k, v)
	case k.Field == HospitalText:
		s.p.Program.Texts[k.Sub] = v
	case k.Field == Shift:
		s.p.Shifts = append(s.p.Shifts, plan.Shift{Slot: plan.Slot(k.Sub), Who: s.helpers.who(v)})
	case k.Field == Tick && len(s.p.Ticked) < plan.MaxTicks:
		s.p.Ticked = append(s.p.Ticked, plan.Tick{Code: uint16(k.Sub >> 8), N: uint8(k.Sub)})
	}
}

// about takes over what is known of a helper. Where it was told in several ways that nobody
// has settled, or under several spellings of the name, what is shown is the careful sum of
// them (careful): the shown version's, or of spellings the one that is shown, with less.
func (s *shownPlan) about(k Key, v string) {
	who := s.helpers.who(k.Name)
	a := s.p.AboutOf(who)
	if k.Field == Out {
		a.Out = true
		s.p = s.p.WithAbout(who, a)
		return
	}
	told, ok := ReadAbout(v)
	if !ok { // of a later form
		return
	}
	for _, other := range s.doc.regs[k] {
		if b, ok := ReadAbout(other.Value); ok {
			told = careful(told, b)
		}
	}
	switch {
	case !a.Told:
	case k.Name == s.p.Helper(who):
		told = careful(told, a)
	default:
		told = careful(a, told)
	}
	told.Out = a.Out
	s.p = s.p.WithAbout(who, told)
}

// careful is what one of two says of a helper, less what the other says that they cannot do
// and the times at which they cannot: so nobody is given what they may have said no to.
func careful(a, b plan.About) plan.About {
	a.Can &= b.Can
	for _, t := range b.Times {
		if t.Use != plan.Free && len(a.Times) < plan.MaxTimes && !slices.ContainsFunc(a.Times, t.Equal) {
			a.Times = append(slices.Clone(a.Times), t)
		}
	}
	return a
}

// maxMoves is the greatest revision.
const maxMoves = 1<<16 - 1

// moves is how often times were moved, of a duty or (0) of the plan's own: the devices'
// counts together, so that after joining it is above that of either copy (RFC 5546 2.1.4).
func (s *shownPlan) moves(of uint32) uint16 { return uint16(min(s.doc.moves()[of], maxMoves)) }

// moves adds up the counts of all devices, by duty.
func (d *Doc) moves() map[uint32]int {
	sum := map[uint32]int{}
	for k, versions := range d.regs {
		if k.Field == Moves {
			sum[k.Of] += numberOr(shown(k, versions).Value, 0)
		}
	}
	return sum
}
