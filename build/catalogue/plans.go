package catalogue

import (
	"strconv"
	"strings"

	"newel/core/app"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// number is that of every plan here.
const number = 0xabc

// key is what something of the plan is stored under (core/app/device.go).
func key(what string) string { return what + "." + strconv.FormatUint(number, 16) }

// family is the example's plan: four helpers, six duties, lines of their own.
func family() plan.Plan { return app.DemoPlan(surgery-9, number) }

// starter is what a navigator's link holds: facts and nobody's help.
func starter() plan.Plan {
	p := family()
	p.Helpers, p.About, p.Cover, p.Duties, p.Lines, p.Shifts = nil, nil, [len(p.Cover)]uint8{}, nil, nil, nil
	return p
}

// unknown is a starter whose arrival, way and stay nobody knows yet.
func unknown() plan.Plan {
	p := starter()
	p.Arrival, p.Drive, p.Parking, p.Stay = wall.NoClock, plan.Unknown, plan.Unknown, plan.Undecided
	return p
}

// uncovered is the family's plan in which nobody has taken anything.
func uncovered() plan.Plan {
	p := family()
	p.Cover = [len(p.Cover)]uint8{}
	for i := range p.Duties {
		p.Duties[i].Who, p.Duties[i].On, p.Duties[i].Takes = 0, [7]uint8{}, nil
	}
	return p
}

// alone is a plan with one helper, who has everything.
func alone() plan.Plan {
	p := family()
	p.Helpers, p.About = p.Helpers[:1], p.About[:1]
	p.About[0] = plan.About{Told: true, Can: plan.AllAbilities, Offer: plan.ALot}
	return allTo(p, func(int) uint8 { return 1 })
}

// covered is a plan in which four helpers, who can always, have everything between them.
func covered() plan.Plan {
	p := family()
	for i := range p.About {
		p.About[i] = plan.About{Told: true, Can: plan.AllAbilities, Offer: plan.ALot}
	}
	return allTo(p, func(i int) uint8 { return uint8(i%4) + 1 })
}

// allTo gives every duty to somebody, every night and watch too.
func allTo(p plan.Plan, who func(i int) uint8) plan.Plan {
	for i := range p.Cover {
		p.Cover[i] = who(i)
	}
	for i := range p.Duties {
		p.Duties[i].Who, p.Duties[i].On, p.Duties[i].Takes = who(i), [7]uint8{}, nil
	}
	for slot := plan.Slot(0); slot <= plan.MaxSlot; slot++ {
		p = p.WithShift(slot, who(int(slot)))
	}
	return p
}

// twelve is a plan with as many helpers as one can have, and each has something.
func twelve() plan.Plan {
	p := covered()
	for _, name := range strings.Fields("Ada Bo Chidi Dmitri Emiko Farah Gus Hana") {
		p, _ = p.WithHelper(name)
	}
	for i := range p.Helpers {
		p = p.WithAbout(uint8(i+1), plan.About{Told: true, Can: plan.AllAbilities, Offer: plan.Usual})
	}
	return allTo(p, func(i int) uint8 { return uint8(i%len(p.Helpers)) + 1 })
}

// sayings are the texts that people can put into a plan.
type sayings struct {
	name string // of people and of duties
	text string // of places, notes and lines
}

// saying puts texts wherever one can stand, each cut to what a link holds.
func saying(s sayings) plan.Plan {
	p := family()
	name, text := fitting(s.name, plan.MaxName), fitting(s.text, plan.MaxText)
	p.Patient = name
	p.Program.Hospital, p.Program.Address = name, text
	for _, t := range []plan.ProgramText{plan.ReviewedBy, plan.TranslatedBy, plan.PhoneHours, plan.AfterHours, plan.ParkAt, plan.CheckIn} {
		p.Program.Texts[t] = name
	}
	for i := range p.Helpers {
		p.Helpers[i] = fitting(strconv.Itoa(i+1)+s.name, plan.MaxName)
	}
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Title, d.Place, d.Note = name, text, text
	}
	for i := range p.Lines {
		p.Lines[i].Text = fitting(s.text, plan.MaxLineBytes/4)
	}
	return p
}

// fitting is a text as a link can hold it: clean, and no longer than allowed.
func fitting(text string, most int) string {
	letters := []rune(plan.Clean(text))
	return plan.Clean(string(letters[:min(len(letters), most)]))
}

// moved is the family's plan and the same a week later, as the desk moves it.
func moved() (before, after string) {
	p := family()
	next := p
	next.Surgery, next.Arrival = p.Surgery+7, p.Arrival+90
	d := merge.New(p)
	return link.Encode(d), link.Encode(d.Change(merge.FirstActor, next))
}

// apart is the plan before, the one on Dana's phone, and Luis's, who changed the same things
// without having heard of each other.
func apart() (before, hers, his string) {
	p := family()
	first := merge.New(p)
	one, other := p, p
	one.Arrival, other.Arrival = p.Arrival-30, p.Arrival+30
	one.Cover[2], other.Cover[2] = 1, 2
	one.Duties, other.Duties = append([]plan.Duty{}, p.Duties...), append([]plan.Duty{}, p.Duties...)
	take := p.Duties[1].Rule.First
	one.Duties[1].Takes = []plan.Take{{Day: take, Who: 1}}
	other.Duties[1].Takes = []plan.Take{{Day: take, Who: 3}}
	return link.Encode(first), link.Encode(first.Change(merge.FirstActor, one)), link.Encode(first.Change(merge.FirstActor+1, other))
}

// withDropped is the family's plan without one of its duties, and with a helper who is out.
func withDropped() plan.Plan {
	p := family()
	p.Duties[2].Dropped = true
	about := p.About[3]
	about.Out = true
	return p.WithAbout(4, about)
}
