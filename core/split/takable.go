package split

// Takable tells whether somebody could take a date that needs somebody just as things stand: they
// can do it, and have nothing else then. Where it is true, Suggest with FillOpen gives at least one
// date to somebody: whatever keeps to what people have could be made better by this one, and it
// gives the best. Where it is false, only a suggestion can tell, which may have people change with
// one another; that costs a hundred times as much.
//
// fixed tells of a date by its place in Schedule.Duties whether nothing is to be proposed for it.
func (r *Report) Takable(fixed func(duty int) bool) bool {
	v := *r.v
	pr := &programme{v: &v}
	pr.group(Ask{Fixed: fixed})
	for j, needs := range pr.items {
		if r.needsSomebody(needs) && !pr.againstItself(j) && v.takable(needs) {
			return true
		}
	}
	return false
}

// needsSomebody tells of needs, by place in the view, whether any has nobody who can.
func (r *Report) needsSomebody(needs []int) bool {
	for _, i := range needs {
		if state := r.Findings[i].State; state == Open || state == Cannot {
			return true
		}
	}
	return false
}

// takable tells whether anybody else could take these needs beside all that they have.
func (v *view) takable(needs []int) bool {
	now := v.needs[needs[0]].who
	for h := range v.people {
		if p := &v.people[h]; p.who != now && v.able(p, needs) && !v.hasBeside(p.who, needs) {
			return true
		}
	}
	return false
}

// hasBeside tells whether a helper has anything that overlaps some needs.
func (v *view) hasBeside(who uint8, needs []int) bool {
	for i := range v.needs {
		if v.needs[i].who != who {
			continue
		}
		for _, j := range needs {
			if overlap(v.needs[i].takes, v.needs[j].takes) {
				return true
			}
		}
	}
	return false
}
