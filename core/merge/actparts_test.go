package merge

import "newel/core/plan"

// ofDuty is an act on one of the duties, where there are any.
func ofDuty(name string, do func(c chance, p *plan.Plan, d *plan.Duty, of func(Field) Key) wanting) act {
	return act{name, func(c chance, p *plan.Plan, me Actor) wanting {
		if len(p.Duties) == 0 {
			return nil
		}
		d := &p.Duties[c(len(p.Duties))]
		return do(c, p, d, func(f Field) Key { return Key{Field: f, Of: d.ID} })
	}}
}

// swap lets two helpers change places. Everybody keeps what they have.
func swap(p *plan.Plan, i, j int) {
	p.Helpers[i], p.Helpers[j] = p.Helpers[j], p.Helpers[i]
	seat := func(who *uint8) {
		switch int(*who) {
		case i + 1:
			*who = uint8(j + 1)
		case j + 1:
			*who = uint8(i + 1)
		}
	}
	for i := range p.Cover {
		seat(&p.Cover[i])
	}
	a, b := p.AboutOf(uint8(i+1)), p.AboutOf(uint8(j+1))
	*p = p.WithAbout(uint8(i+1), b).WithAbout(uint8(j+1), a)
	for i := range p.Shifts {
		seat(&p.Shifts[i].Who)
	}
	for i := range p.Duties {
		d := &p.Duties[i]
		seat(&d.Who)
		for day := range d.On {
			seat(&d.On[day])
		}
		for t := range d.Takes {
			seat(&d.Takes[t].Who)
		}
	}
}
