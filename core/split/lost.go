package split

// Lost compares two reports, of before and after something changed: the surgery moved,
// somebody cannot help any more, somebody said when they can. lost is what now has nobody
// who can do it and had before, or was not there before; kept is what the same person has
// and can do as before. Both are findings of the later report, in its order.
//
// A date of one of the family's duties is the same by its number and day, a part of the
// staying by its slot, so that it is counted from the day of surgery; people are by name.
func Lost(before, after *Report) (lost, kept []Finding) {
	type was struct {
		name  string
		state State
	}
	old := map[register]was{}
	for _, f := range before.Findings {
		reg := registerOf(&before.v.s.Duties[f.Duty])
		if known, twice := old[reg]; !twice || known.state < f.State {
			old[reg] = was{before.v.s.Plan.Helper(f.Who), f.State}
		}
	}
	for _, f := range after.Findings {
		then, known := old[registerOf(&after.v.s.Duties[f.Duty])]
		could := known && then.state <= Untold
		switch can := f.State <= Untold; {
		case !can && (could || !known):
			lost = append(lost, f)
		case can && could && then.name == after.v.s.Plan.Helper(f.Who):
			kept = append(kept, f)
		}
	}
	return lost, kept
}
