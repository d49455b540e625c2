package merge

import (
	"strconv"

	"newel/core/plan"
	"newel/core/wall"
)

// wanted are the registers that show a plan: those in which it differs from what its
// program's number stands for. Not among them: the revisions (Moves), which are counted,
// and whose a device is (Hand).
type wanted map[Key]string

func (w wanted) text(k Key, v, own string) {
	if v != own {
		w[k] = v
	}
}

func (w wanted) number(k Key, n, own int) { w.text(k, strconv.Itoa(n), strconv.Itoa(own)) }

func (w wanted) mark(k Key, there bool) {
	if there {
		w[k] = mark
	}
}

// registersOf lists the registers of a plan, without those of what is alike (nil: nothing).
func registersOf(p *plan.Plan, same *alike) wanted {
	w := wanted{}
	base := plan.BaseOf(p.Program.Number)
	w.number(Key{Field: Surgery}, int(p.Surgery), 0)
	w.number(Key{Field: Arrival}, int(p.Arrival), int(wall.NoClock))
	w.text(Key{Field: Zone}, p.Zone, base.Zone)
	w.number(Key{Field: Joint}, int(p.Joint), 0)
	w.number(Key{Field: Operation}, int(p.Operation), 0)
	w.number(Key{Field: Stay}, int(p.Stay), 0)
	w.number(Key{Field: Drive}, p.Drive, plan.Unknown)
	w.number(Key{Field: Parking}, p.Parking, plan.Unknown)
	w.text(Key{Field: Patient}, p.Patient, "")
	for bit := range uint32(32) {
		w.mark(Key{Field: Fact, Sub: bit}, p.Facts&(1<<bit) != 0)
	}
	w.program(&p.Program, &base.Program)
	for i, who := range p.Cover {
		w.text(Key{Field: Cover, Sub: uint32(i)}, p.Helper(who), "")
	}
	for i, name := range p.Helpers {
		w.number(Key{Field: Helper, Name: name}, i+1, 0)
		if same == nil || !same.abouts[i] {
			w.about(name, p.AboutOf(uint8(i+1)))
		}
	}
	for _, s := range p.Shifts {
		w[Key{Field: Shift, Sub: uint32(s.Slot)}] = takerOf(p, s.Who)
	}
	for _, t := range p.Ticked {
		w[Key{Field: Tick, Sub: uint32(t.Code)<<8 | uint32(t.N)}] = mark
	}
	for i := range p.Duties {
		if same == nil || !same.duties[p.Duties[i].ID] {
			w.duty(p, &p.Duties[i])
		}
	}
	for _, l := range p.Lines {
		w.line(l)
	}
	return w
}

// about lists what is known of a helper.
func (w wanted) about(name string, a plan.About) {
	if a.Told {
		w[Key{Field: About, Name: name}] = AboutText(a)
	}
	w.mark(Key{Field: Out, Name: name}, a.Out)
}

// takerOf is the name of whoever has a single date or slot, or that nobody has it.
func takerOf(p *plan.Plan, who uint8) string {
	if name := p.Helper(who); name != "" {
		return name
	}
	return nobody
}

// program lists what a hospital's rules have of their own. A rule that the program sets
// and the plan does not is written with common practice as its number.
func (w wanted) program(p, base *plan.Program) {
	w.number(Key{Field: Program}, int(p.Number), 0)
	w.text(Key{Field: Hospital}, p.Hospital, base.Hospital)
	w.text(Key{Field: Address}, p.Address, base.Address)
	w.text(Key{Field: Phone}, p.Phone, base.Phone)
	for i, text := range p.Texts {
		w.text(Key{Field: HospitalText, Sub: uint32(i)}, text, base.Texts[i])
	}
	for i := range plan.Rules {
		r := plan.Rule(i)
		if p.Own(r) != base.Own(r) || p.Get(r) != base.Get(r) {
			w[Key{Field: Setting, Sub: uint32(i)}] = strconv.Itoa(p.Get(r))
		}
	}
}

// duty lists a duty's registers. Kind, Length and Pattern are always written: by them a
// duty is known to be whole.
func (w wanted) duty(p *plan.Plan, d *plan.Duty) {
	key := func(f Field) Key { return Key{Field: f, Of: d.ID} }
	sub := func(f Field, sub uint32) Key { return Key{Field: f, Of: d.ID, Sub: sub} }
	w.mark(key(Alive), !d.Dropped)
	w.mark(key(Gone), d.Dropped)
	w[key(Kind)] = strconv.Itoa(int(d.Kind))
	w.text(key(Title), d.Title, "")
	w.text(key(Place), d.Place, "")
	w.text(key(Note), d.Note, "")
	w.number(key(Source), int(d.Source), 0)
	w[key(Length)] = strconv.Itoa(d.Length)
	w.number(key(Own), d.Ride.Own, 0)
	w.number(key(Way), d.Ride.Drive, plan.Unknown)
	w.number(key(Walk), d.Ride.Parking, plan.Unknown)
	w.number(key(Early), d.Ride.Early, 0)
	w.mark(key(Leaves), d.Ride.Leaves)
	w[key(Pattern)] = RuleText(d.Rule)
	for _, day := range d.Rule.Skipped {
		w[sub(Date, uint32(day))] = leftOut
	}
	for _, m := range d.Rule.Moved {
		w[sub(Date, uint32(m.From))] = momentText(m.To)
	}
	for _, m := range d.Rule.Extra {
		w[sub(Extra, momentKey(m))] = mark
	}
	w.text(key(Who), p.Helper(d.Who), "")
	for day, who := range d.On {
		w.text(sub(On, uint32(day)), p.Helper(who), "")
	}
	for _, t := range d.Takes {
		w[sub(Takes, uint32(t.Day))] = takerOf(p, t.Who)
	}
	w.number(key(Need), int(d.Need), 0)
	w.mark(key(Steady), d.Steady)
}
