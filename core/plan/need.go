package plan

// NeedOf is how much one of the family's duties is needed: as somebody said, else by its
// kind. Rides and nights must be, pets and meals should be, anything else is nice to have
// (common practice, no published source). It is never ByKind.
func (d *Duty) NeedOf() Need {
	switch {
	case d.Need != ByKind:
		return d.Need
	case d.Kind.IsRide(), d.Kind == Nights:
		return MustBe
	case d.Kind == PetCare, d.Kind == Meals:
		return ShouldBe
	}
	return NiceToHave
}
