package plan

import "slices"

// Known tells whether anything is known of somebody.
func (a About) Known() bool { return a.Told || a.Out }

// Own is how many minutes a helper's own home is from the patient's, where somebody told
// it; ok is false where nobody did.
func (a About) Own() (minutes int, ok bool) { return max(a.Away, 0), a.Told && a.Away != Unknown }

// Equal tells whether the same is known of two people.
func (a About) Equal(b About) bool {
	return a.Told == b.Told && a.Can == b.Can && a.Out == b.Out && a.Away == b.Away && a.Offer == b.Offer &&
		a.Likes == b.Likes && a.Avoids == b.Avoids && slices.EqualFunc(a.Times, b.Times, Times.Equal)
}

// Equal tells whether two times are the same.
func (t Times) Equal(u Times) bool {
	return t.Use == u.Use && t.Length == u.Length && t.Rule.Equal(u.Rule)
}

// AboutOf is what is known of the helper under a place (1 + the place in Helpers); the zero
// About for nobody and for somebody of whom nothing is known.
func (p *Plan) AboutOf(who uint8) About {
	if who == 0 || int(who) > len(p.About) {
		return About{}
	}
	return p.About[who-1]
}

// WithAbout returns the plan with what is known of a helper. The plan it is called on keeps
// its own. Of somebody of whom nobody told anything only Out counts. A place without a
// helper changes nothing.
func (p Plan) WithAbout(who uint8, a About) Plan {
	if who == 0 || int(who) > len(p.Helpers) {
		return p
	}
	if !a.Told {
		a = About{Out: a.Out}
	}
	all := make([]About, len(p.Helpers))
	copy(all, p.About)
	all[who-1] = a
	p.About = onlyKnown(all)
	return p
}

// onlyKnown is nil where nothing is known of anybody, so that equal plans are equal in
// their fields.
func onlyKnown(all []About) []About {
	if slices.ContainsFunc(all, About.Known) {
		return all
	}
	return nil
}

// sameAbout tells whether the same is known of the helpers of two plans.
func (p *Plan) sameAbout(q *Plan) bool {
	for i := range max(len(p.Helpers), len(q.Helpers)) {
		if who := uint8(i + 1); !p.AboutOf(who).Equal(q.AboutOf(who)) {
			return false
		}
	}
	return true
}
