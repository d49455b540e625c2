package picture

import "strings"

// advances are the widths of the letters ' ' to '~' of the page's typeface at its regular
// weight, in hundredths of the letters' size. Source: the table hmtx of Atkinson Hyperlegible
// Next 5.3.0 (@fontsource-variable), rounded up.
var advances = [...]uint8{
	28, 29, 31, 66, 60, 92, 74, 16, 30, 30, 49, 61, 21, 37, 21, 39,
	65, 41, 55, 58, 62, 59, 60, 51, 62, 60, 21, 21, 56, 63, 56, 48,
	78, 63, 62, 65, 67, 57, 56, 70, 70, 40, 52, 64, 55, 83, 70, 72,
	60, 73, 62, 60, 56, 69, 60, 86, 63, 58, 61, 32, 39, 35, 56, 38,
	25, 53, 57, 49, 57, 54, 32, 56, 55, 26, 25, 50, 27, 85, 55, 55,
	57, 58, 35, 48, 33, 54, 47, 69, 49, 45, 46, 35, 24, 35, 56,
}

// Width estimates how wide a text is at a size, in the units of the size: for letters beyond
// ASCII it takes a wide one, so that it errs by leaving room. Bold letters are up to a tenth
// wider.
func Width(text string, size float64) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case r >= ' ' && int(r-' ') < len(advances):
			sum += float64(advances[r-' '])
		case r == 0x202F: // no wider than a space
			sum += float64(advances[0])
		case r >= 0x300 && r < 0x370: // accents that stand over the letter before
		case r >= 0x200b && r <= 0x200f, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069: // marks of direction
		case r < 0x250:
			sum += 60
		default:
			sum += 100
		}
	}
	return sum * size / 100
}

// breaks tells whether a line may end at a letter: not at the space between a number and its
// unit, U+202F, which Unicode counts among the spaces too.
func breaks(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }

// Wrapped breaks a text between words into lines of at most that width at a size. A word that
// is wider than a line stands on its own; nothing is cut.
func Wrapped(text string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, breaks) {
		longer := line + " " + word
		if line == "" {
			longer = word
		}
		if line != "" && Width(longer, size) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line == "" {
		return lines
	}
	return append(lines, line)
}
