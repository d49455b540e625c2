package merge

import (
	"slices"
	"strconv"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// value is what an act writes into a register; there is false where it takes it away.
type value struct {
	text  string
	there bool
}

func says(text string) value { return value{text, true} }
func saysN(n int) value      { return says(strconv.Itoa(n)) }

// when gives the value, or that the register goes.
func (v value) when(there bool) value {
	if !there {
		return value{}
	}
	return v
}

func onlyThere(on bool) value { return says("1").when(on) }

// given is the value of a register whose being empty is its being away.
func given(text string) value { return says(text).when(text != "") }

// unknownOr is the value of minutes that may not be known.
func unknownOr(n int) value { return saysN(n).when(n >= 0) }

// wanting are the registers that an act has to write, worked out from the table of fields in
// field.go and not by the code.
type wanting map[Key]value

// wantingLine is written out by hand: LineText must say just that.
func wantingLine(l plan.Line) wanting {
	text := strconv.Itoa(int(l.List))
	if l.Hospital {
		text += "h"
	}
	switch {
	case l.Day == plan.NoDay:
	case l.Day < 0:
		text += "-" + strconv.Itoa(-l.Day)
	default:
		text += "+" + strconv.Itoa(l.Day)
	}
	return wanting{{Field: Line, Sub: l.ID}: says(text + " " + l.Text), {Field: LineDone, Sub: l.ID}: onlyThere(l.Done)}
}

// act is something that a person does to a plan that they see. It gives what has to be
// written for it; nothing where the plan says so already.
type act struct {
	name string
	do   func(c chance, p *plan.Plan, me Actor) wanting
}

var acts = []act{
	{"surgery day", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Surgery = anySurgery(c)
		return wanting{{Field: Surgery}: saysN(int(p.Surgery))}
	}},
	{"arrival", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Arrival = wall.Clock(c(5)*30 - 1)
		return wanting{{Field: Arrival}: unknownOr(int(p.Arrival))}
	}},
	{"operation", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Joint, p.Operation, p.Stay = plan.Joint(c(2)), plan.Operation(c(3)), plan.Stay(c(3))
		return wanting{{Field: Joint}: saysN(int(p.Joint)), {Field: Operation}: saysN(int(p.Operation)), {Field: Stay}: saysN(int(p.Stay))}
	}},
	{"zone", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Zone = pick(c, someZones...)
		return wanting{{Field: Zone}: says(p.Zone)}
	}},
	{"the way", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Drive, p.Parking = c(3)-1, c(3)-1
		return wanting{{Field: Drive}: unknownOr(p.Drive), {Field: Parking}: unknownOr(p.Parking)}
	}},
	{"patient", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Patient = pick(c, "", "Rosa", "Otto")
		return wanting{{Field: Patient}: says(p.Patient)}
	}},
	{"fact", func(c chance, p *plan.Plan, _ Actor) wanting {
		bit := c(15)
		p.Facts ^= 1 << bit
		return wanting{{Field: Fact, Sub: uint32(bit)}: onlyThere(p.Facts&(1<<bit) != 0)}
	}},
	{"hospital", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Program.Hospital, p.Program.Phone = pick(c, someTexts...), pick(c, "", "555-0142", "555-0143")
		return wanting{{Field: Hospital}: given(p.Program.Hospital), {Field: Phone}: given(p.Program.Phone)}
	}},
	{"address", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Program.Address = pick(c, someTexts...)
		return wanting{{Field: Address}: given(p.Program.Address)}
	}},
	{"setting", func(c chance, p *plan.Plan, _ Actor) wanting {
		k := Key{Field: Setting, Sub: uint32(plan.WashDays)}
		if p.Program.Clear(plan.WashDays); c(3) == 0 {
			return wanting{k: {}}
		}
		n := 1 + c(3)
		p.Program.Set(plan.WashDays, n)
		return wanting{k: saysN(n)}
	}},
	{"cover", func(c chance, p *plan.Plan, _ Actor) wanting {
		i := c(len(p.Cover))
		p.Cover[i] = anyHelper(c, len(p.Helpers))
		return wanting{{Field: Cover, Sub: uint32(i)}: given(p.Helper(p.Cover[i]))}
	}},
	{"about", func(c chance, p *plan.Plan, _ Actor) wanting {
		who := anyHelper(c, len(p.Helpers))
		a := anyAbout(c)
		*p = p.WithAbout(who, a)
		if name := p.Helper(who); name != "" {
			told := ""
			if a.Told {
				told = AboutText(a)
			}
			return wanting{{Field: About, Name: name}: given(told), {Field: Out, Name: name}: onlyThere(a.Out)}
		}
		return nil
	}},
	{"shift", func(c chance, p *plan.Plan, _ Actor) wanting {
		slot, who := plan.Slot(c(12)), anyHelper(c, len(p.Helpers))
		*p = p.WithShift(slot, who)
		name := p.Helper(who)
		if name == "" && p.Cover[plan.StayWith] != 0 {
			name = "-"
		}
		return wanting{{Field: Shift, Sub: uint32(slot)}: given(name)}
	}},
	{"tick", func(c chance, p *plan.Plan, _ Actor) wanting {
		t := plan.Tick{Code: uint16(c(6)), N: uint8(c(2))}
		done := !p.Has(t)
		*p = p.WithTick(t, done)
		return wanting{{Field: Tick, Sub: uint32(t.Code)<<8 | uint32(t.N)}: onlyThere(done)}
	}},
	{"hospital's other texts", func(c chance, p *plan.Plan, _ Actor) wanting {
		text := plan.ProgramText(c(len(p.Program.Texts)))
		p.Program.Texts[text] = pick(c, "", "911", "112")
		if text.IsDay() {
			p.Program.Texts[text] = pick(c, "", "2026-11-20", "2026-11-21")
		}
		return wanting{{Field: HospitalText, Sub: uint32(text)}: given(p.Program.Texts[text])}
	}},
	{"fever", func(c chance, p *plan.Plan, _ Actor) wanting {
		k := Key{Field: Setting, Sub: uint32(plan.Fever)}
		if p.Program.Clear(plan.Fever); c.half() {
			return wanting{k: {}}
		}
		n := pick(c, 1010, 383)
		p.Program.Set(plan.Fever, n)
		return wanting{k: saysN(n)}
	}},
	{"one more line", func(c chance, p *plan.Plan, me Actor) wanting {
		me = min(me, LastActor-1) // the last one's numbers are those of programs
		l := anyLine(c, uint32(me)<<plan.NthBits|uint32(1+c(1<<plan.NthBits-1)))
		*p = p.WithLine(l)
		return wantingLine(l)
	}},
	{"change a line", func(c chance, p *plan.Plan, _ Actor) wanting {
		if len(p.Lines) == 0 {
			return nil
		}
		l := anyLine(c, pick(c, p.Lines...).ID)
		*p = p.WithLine(l)
		return wantingLine(l)
	}},
	{"tick a line", func(c chance, p *plan.Plan, _ Actor) wanting {
		if len(p.Lines) == 0 {
			return nil
		}
		l := pick(c, p.Lines...)
		l.Done = !l.Done
		*p = p.WithLine(l)
		return wanting{{Field: LineDone, Sub: l.ID}: onlyThere(l.Done)}
	}},
	{"take a line out", func(c chance, p *plan.Plan, _ Actor) wanting {
		if len(p.Lines) == 0 {
			return nil
		}
		l := pick(c, p.Lines...)
		*p = p.WithoutLine(l.ID)
		return wanting{{Field: Line, Sub: l.ID}: {}, {Field: LineDone, Sub: l.ID}: {}}
	}},
	{"one more helper", func(c chance, p *plan.Plan, _ Actor) wanting {
		if name := pick(c, someNames...); !slices.Contains(p.Helpers, name) {
			p.Helpers = append(p.Helpers, name)
		}
		return nil
	}},
	{"helpers in another order", func(c chance, p *plan.Plan, _ Actor) wanting {
		if n := len(p.Helpers); n > 1 {
			swap(p, c(n), c(n))
		}
		return nil
	}},
	{"times moved", func(c chance, p *plan.Plan, _ Actor) wanting {
		p.Revision++
		return nil // counts are held against a reference of their own
	}},
	{"one more duty", func(c chance, p *plan.Plan, me Actor) wanting {
		d := anyDuty(c, p.FreshDuty(uint32(me)), len(p.Helpers))
		d.Dropped = false
		*p = p.WithDuty(d)
		of := func(f Field) Key { return Key{Field: f, Of: d.ID} }
		return wanting{
			of(Kind): saysN(int(d.Kind)), of(Length): saysN(d.Length), of(Alive): says("1"), of(Pattern): says(RuleText(d.Rule)),
			of(Way): unknownOr(d.Ride.Drive), of(Title): given(d.Title), of(Who): given(p.Helper(d.Who)),
		}
	}},
	ofDuty("kind and length", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Kind, d.Length = plan.DutyKind(c(int(plan.DutyKindEnd))), 1+c(5)
		return wanting{of(Kind): saysN(int(d.Kind)), of(Length): saysN(d.Length)}
	}),
	ofDuty("texts", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Title, d.Place, d.Note = pick(c, someTexts...), pick(c, someTexts...), pick(c, someTexts...)
		return wanting{of(Title): says(d.Title), of(Place): says(d.Place), of(Note): says(d.Note)}
	}),
	ofDuty("ride", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Ride = plan.Ride{Own: c(3), Drive: c(3) - 1, Parking: c(3) - 1, Early: c(3), Leaves: c.half()}
		return wanting{
			of(Own): saysN(d.Ride.Own), of(Way): unknownOr(d.Ride.Drive), of(Walk): unknownOr(d.Ride.Parking),
			of(Early): saysN(d.Ride.Early), of(Leaves): onlyThere(d.Ride.Leaves),
		}
	}),
	ofDuty("who", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Who = anyHelper(c, len(p.Helpers))
		return wanting{of(Who): given(p.Helper(d.Who))}
	}),
	ofDuty("who on a weekday", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		on := c(7)
		d.On[on] = anyHelper(c, len(p.Helpers))
		return wanting{{Field: On, Of: d.ID, Sub: uint32(on)}: given(p.Helper(d.On[on]))}
	}),
	ofDuty("who on a date", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		at := d.Rule.First + wall.Date(c(10))
		i, found := slices.BinarySearchFunc(d.Takes, at, func(t plan.Take, day wall.Date) int { return int(t.Day - day) })
		k := Key{Field: Takes, Of: d.ID, Sub: uint32(at)}
		if found {
			d.Takes = slices.Delete(d.Takes, i, i+1)
			return wanting{k: {}}
		}
		who := anyHelper(c, len(p.Helpers))
		d.Takes = slices.Insert(d.Takes, i, plan.Take{Day: at, Who: who})
		if who == 0 {
			return wanting{k: says("-")}
		}
		return wanting{k: says(p.Helper(who))}
	}),
	ofDuty("leave a date out", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		days, _ := d.Rule.Pattern()
		out := pick(c, days...)
		rule := d.Rule
		rule.Skipped = append(slices.Clone(rule.Skipped), out)
		if rule = rule.Canonical(); rule.Check() != nil || !slices.Contains(rule.Skipped, out) {
			return nil
		}
		d.Rule = rule
		return wanting{{Field: Date, Of: d.ID, Sub: uint32(out)}: says("-")}
	}),
	ofDuty("put all dates back", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		want := wanting{}
		for _, out := range d.Rule.Skipped {
			want[Key{Field: Date, Of: d.ID, Sub: uint32(out)}] = value{}
		}
		d.Rule.Skipped = nil
		if d.Rule = d.Rule.Canonical(); d.Rule.Check() != nil {
			return nil
		}
		return want
	}),
	ofDuty("move a date", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		days, _ := d.Rule.Pattern()
		move := repeat.Move{From: pick(c, days...), To: anyMoment(c, d.Rule)}
		rule := d.Rule
		rule.Moved = append(slices.Clone(rule.Moved), move)
		if rule = rule.Canonical(); rule.Check() != nil || !slices.Contains(rule.Moved, move) {
			return nil
		}
		d.Rule = rule
		return wanting{{Field: Date, Of: d.ID, Sub: uint32(move.From)}: says(strconv.Itoa(int(move.To.Day)) + " " + strconv.Itoa(int(move.To.At)))}
	}),
	ofDuty("add a date", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		more := anyMoment(c, d.Rule)
		rule := d.Rule
		rule.Extra = append(slices.Clone(rule.Extra), more)
		if rule = rule.Canonical(); rule.Check() != nil || !slices.Contains(rule.Extra, more) {
			return nil
		}
		d.Rule = rule
		return wanting{{Field: Extra, Of: d.ID, Sub: uint32(more.Day)<<11 | uint32(more.At)}: says("1")}
	}),
	ofDuty("another pattern", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Rule = anyPattern(c)
		return wanting{of(Pattern): says(RuleText(d.Rule))}
	}),
	ofDuty("time of the pattern", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		rule := d.Rule
		rule.At = wall.Clock(c(3) * 60)
		if rule = rule.Canonical(); rule.Check() != nil {
			return nil
		}
		d.Rule = rule
		return wanting{of(Pattern): says(RuleText(d.Rule))}
	}),
	ofDuty("need", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Need, d.Steady = plan.Need(c(4)), c.half()
		return wanting{of(Need): saysN(int(d.Need)), of(Steady): onlyThere(d.Steady)}
	}),
	ofDuty("take out or put back", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Dropped = !d.Dropped
		return wanting{of(Alive): onlyThere(!d.Dropped), of(Gone): onlyThere(d.Dropped)}
	}),
	ofDuty("times of a duty moved", func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting {
		d.Revision++
		return wanting{of(Alive): onlyThere(!d.Dropped)} // somebody wants it, whoever takes it out meanwhile
	}),
}
