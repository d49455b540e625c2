package picture

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Person is how one of several people is told apart in pictures: by letters, by a fill and
// by a pattern. It is drawn as a newel post: the letters on its plain cap, the pattern on
// the shaft below.
type Person struct {
	Letters string
	Fill    int // 1 to Fills: the token --who-N
	Pattern int // 0 to Patterns-1; 0 is plain
}

// Fills and Patterns are how many there are. They go round together, so that twelve people
// in a row all differ (the least number that both divide).
const (
	Fills    = 4
	Patterns = 6
)

// People gives the marks of people by their names, in order. The letters of no two are alike,
// whatever the names: the first letter; where several begin with it the first two, or that of the
// last word with it ("Aunt Rosa", "Aunt Mia"); and where those are shared too, the first with a number. Large and small letters count as the same.
func People(names []string) []Person {
	all := make([]Person, len(names))
	ones, twos := make([]string, len(names)), make([]string, len(names))
	had := map[string]int{} // by how many it is shared
	for i, name := range names {
		ones[i], twos[i] = heads(name)
		had["1"+strings.ToLower(ones[i])]++
		had["2"+strings.ToLower(twos[i])]++
		all[i].Fill, all[i].Pattern = i%Fills+1, i%Patterns
	}
	taken := map[string]bool{}
	give := func(i int, letters string) bool {
		if key := strings.ToLower(letters); !taken[key] {
			all[i].Letters, taken[key] = letters, true
			return true
		}
		return false
	}
	for i := range names {
		if had["1"+strings.ToLower(ones[i])] == 1 {
			give(i, ones[i])
		} else if had["2"+strings.ToLower(twos[i])] == 1 && twos[i] != ones[i] {
			give(i, twos[i])
		}
	}
	for i := range all {
		for n := 1; all[i].Letters == "" && !give(i, ones[i]+strconv.Itoa(n)); n++ {
		}
	}
	return all
}

// heads gives the first letter of a name, and two: with the second, or that of the last word. What stands before it, such as a
// bracket, is passed over where a letter or a figure follows.
func heads(name string) (one, two string) {
	start := strings.IndexFunc(name, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
	if start < 0 {
		start = strings.IndexFunc(name, func(r rune) bool { return r > ' ' && !joins(r) && r != utf8.RuneError })
	}
	if start < 0 {
		return "·", "·"
	}
	name = name[start:]
	end := letterEnd(name)
	one = upper(name[:end])
	if words := strings.Fields(name); len(words) > 1 {
		if last, _ := heads(words[len(words)-1]); last != "·" {
			return one, one + last
		}
	}
	if next := name[end:]; next != "" {
		if r, _ := utf8.DecodeRuneInString(next); unicode.IsLetter(r) || unicode.IsDigit(r) {
			return one, one + next[:letterEnd(next)]
		}
	}
	return one, one
}

// upper makes the first rune of a letter large; what belongs to it stays.
func upper(letter string) string {
	r, size := utf8.DecodeRuneInString(letter)
	return string(unicode.ToUpper(r)) + letter[size:]
}

// marksMost is how many accents of one letter are shown: one with thirty would cover its neighbors.
const marksMost = 3

// letterEnd is where the first letter of a text ends, with what belongs to it: accents, what is
// joined to an emoji, the second half of a flag. It is simpler than Unicode's UAX #29, whose
// tables are larger than all that is drawn here.
func letterEnd(text string) int {
	first, at := utf8.DecodeRuneInString(text)
	if flag(first) {
		if r, size := utf8.DecodeRuneInString(text[at:]); flag(r) {
			return at + size
		}
	}
	for n := 0; n < marksMost && at < len(text); n++ {
		r, size := utf8.DecodeRuneInString(text[at:])
		if !joins(r) {
			break
		}
		at += size
		if r == zeroWidthJoiner {
			_, size = utf8.DecodeRuneInString(text[at:])
			at += size
		}
	}
	return at
}

const zeroWidthJoiner = 0x200D

// joins tells whether a rune belongs to the one before it.
func joins(r rune) bool {
	return r == zeroWidthJoiner || r >= 0x1F3FB && r <= 0x1F3FF || unicode.Is(unicode.M, r)
}

func flag(r rune) bool { return r >= 0x1F1E6 && r <= 0x1F1FF }

// narrow tells whether the letters need the smaller size to stand on the cap.
func (p *Person) narrow() bool { return Width(p.Letters, 18) > 28 }

// Pattern is the lines of a pattern on an area from 0, 0, as the data of an SVG path. Plain
// has none. What reaches over the area is to be clipped.
func Pattern(n, width, height int) string {
	const step = 6
	var path []byte
	line := func(x1, y1, x2, y2 int) {
		for i, v := range [...]int{x1, y1, x2, y2} {
			path = append(path, "M L "[i])
			path = strconv.AppendInt(path, int64(v), 10)
		}
	}
	for x := 0; x < width+height && n > 0; x += step {
		switch n {
		case 1: // rising
			line(x-height, height, x, 0)
		case 2: // dots: lines of no length with round ends
			for y := 3; y < height && x < width; y += step {
				line(x+3, y, x+3, y)
			}
		case 3, 4: // upright; a grid has lines across too
			if x < width {
				line(x+3, 0, x+3, height)
			}
		case 5: // zigzag
			if x < width {
				line(x, height-2, x+step/2, 2)
				line(x+step/2, 2, x+step, height-2)
			}
		}
	}
	for y := 3; n == 3 && y < height; y += step {
		line(0, y, width, y)
	}
	return string(path)
}
