package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The invisible characters are those of Unicode's general categories Cc and Cf and
// of Default_Ignorable_Code_Point; the direction overrides are those of UAX #9,
// section 2.
func TestCleanDropsWhatCannotBeSeen(t *testing.T) {
	for in, want := range map[string]string{
		"Ro\u202esa":                          "Rosa", // right-to-left override
		"\u202aRo\u202bs\u202ca\u202d":        "Rosa", // the other embeddings and overrides
		"\u2066Ro\u2067s\u2068a\u2069":        "Rosa", // isolates
		"R\u200eo\u200fs\u061ca":              "Rosa", // direction marks
		"Ro\u200bs\u200ca\u200d\u2060\ufeff":  "Rosa", // zero width space, joiners, byte order mark
		"Ro\u00adsa":                          "Rosa", // soft hyphen
		"Ro\x00s\x1ba\x7f":                    "Rosa", // NUL, escape, delete
		"Ro\u0085sa":                          "Ro sa",
		"Ro\u3164s\uffa0a":                    "Rosa",  // Hangul fillers look like nothing
		"Ro\U000e0041s\U000e007fa":            "Rosa",  // tag characters
		"Ro\ue000sa":                          "Rosa",  // private use: every device shows something else
		"Ro\xffsa\xc3":                        "Rosa",  // broken UTF-8
		"Ro\xed\xa0\x80sa":                    "Rosa",  // a surrogate is not UTF-8 (RFC 3629 section 3)
		"\t Ro\tsa \r\n":                      "Ro sa", // white space of any kind
		"Ro\u00a0\u2003\u202f\u3000\u2028 sa": "Ro sa",
		"\u200b \u202e":                       "",
	} {
		require.Equal(t, want, Clean(in), "%+q", in)
	}
}

func TestCleanKeepsNamesAsTheyAreWritten(t *testing.T) {
	for _, s := range []string{
		"", "Rosa", "José Núñez-Güell", "Zoë O’Brien", "Åsa", "Łukasz", "Nguyễn Thị Hạnh", "Мария", "王芳", "محمد", "שרה", "प्रिया",
		"¿Mamá?", "Jose\u0301", "Mom 🙂", "❤️", "👍🏽", "🇲🇽", "<b>Rosa</b> & \"Co\" {n}",
	} {
		require.Equal(t, s, Clean(s))
	}
}

// A joiner can hide a word in a word, so it goes even where it glues an emoji
// family together: the parts stay and can be read.
func TestAnEmojiFamilyFallsIntoItsMembers(t *testing.T) {
	require.Equal(t, "👩👧", Clean("👩\u200d👧"))
}

func TestCleanTwiceIsCleanOnce(t *testing.T) {
	for r := rune(0); r <= 0x10ffff; r++ {
		once := Clean("a" + string(r) + " " + string(r) + "b")
		if Clean(once) != once {
			t.Fatalf("%U is not clean after one go: %q", r, once)
		}
	}
}
