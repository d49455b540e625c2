package picture

// Bar is how much somebody has beside what they offered. Lengths are in hundredths of its
// whole length. What it says has to stand beside it in words.
type Bar struct {
	Person Person
	Now    int    // filled
	Was    int    // a line where it was; -1: it is as it was
	Offer  int    // a post where the offer ends
	Label  string // of that post
	Mirror bool   // it grows from the right: the language is written that way
}

// The heights of a bar: the rail, and the letters under it.
const (
	barTop  = 5
	barRail = 14
	barHigh = 44
)

// at is a length in units of the drawing.
func at(hundredths int) int { return hundredths * (Wide - 4) / 100 }

// span is where something from a length to another one begins, and how wide it is.
func (b *Bar) span(from, to int) (x, width int) {
	x, width = 2+at(from), at(to)-at(from)
	if b.Mirror {
		x = Wide - x - width
	}
	return x, width
}

// within is the part of the load that was offered, and over what was not.
func (b *Bar) within() int { return min(b.Now, b.Offer) }

// labelAt is the middle of the post's label, within the drawing, with room for a reader who has
// set their letters wider apart (WCAG 2.2, 1.4.12: by an eighth of their size).
func (b *Bar) labelAt() int {
	half := int(Width(b.Label, Letter))*5/8 + 2
	x, _ := b.span(b.Offer, b.Offer)
	return max(min(x, Wide-half), half)
}
