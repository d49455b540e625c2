package picture_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/picture"
)

func lettersOf(names ...string) []string {
	var all []string
	for _, p := range picture.People(names) {
		all = append(all, p.Letters)
	}
	return all
}

// What the marks of some families are, worked out by hand from the rule.
func TestLettersOfPeople(t *testing.T) {
	require.Equal(t, []string{"D", "L", "M", "T"}, lettersOf("Dana", "Luis", "Mina", "Tomas"))
	require.Equal(t, []string{"Da", "Di", "L"}, lettersOf("Dana", "diego", "luis"))
	require.Equal(t, []string{"D1", "D2", "Do"}, lettersOf("Dana", "Dan", "Dora"))
	require.Equal(t, []string{"A1", "A2"}, lettersOf("Ana", "ana"))
	require.Equal(t, []string{"D1", "Da"}, lettersOf("D", "Dana"), "the first is no shorter than its first letter")
	require.Equal(t, []string{"D2", "D3", "D1"}, lettersOf("Dana", "Dan", "D1x"), "a name may look like a number's mark")
	require.Equal(t, []string{"É", "Ñ", "ד", "王", "A"}, lettersOf("Élodie", "ñoño", "דנה", "王芳", "(Ann)"))
	require.Equal(t, []string{"E\u0301", "👩🏽", "🇲🇽"}, lettersOf("e\u0301lodie", "👩🏽", "🇲🇽"), "letters keep what belongs to them")
	require.Equal(t, []string{"A\u0301\u0301\u0301"}, lettersOf("A"+strings.Repeat("\u0301", 30)), "thirty accents would cover the neighbors")
	require.Equal(t, []string{"·1", "·2"}, lettersOf("", " "))
	require.Equal(t, []string{"AR", "AM", "An"}, lettersOf("Aunt Rosa", "Aunt Mia", "Ann"))
	require.Empty(t, picture.People(nil))
}

// Whatever twelve people are called, no two have the same letters, the same fill and pattern,
// or more than fits on a post; each begins with the first letter of its name.
func TestPeopleAreToldApart(t *testing.T) {
	name := rapid.OneOf(
		rapid.SampledFrom([]string{"Ana", "ana", "Anna", "An", "A", "A1", "A2", "a1", "Dana", "Dan", "D", "", "🇲🇽", "👩🏽‍🦱", "é", "e\u0301", "דנה", "ß", "ss", "İ", "i"}),
		rapid.StringN(0, 6, 24),
	)
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(name, 0, 12).Draw(t, "names")
		letters, looks := map[string]bool{}, map[[2]int]bool{}
		for i, p := range picture.People(names) {
			key := strings.ToLower(p.Letters)
			require.NotEmpty(t, p.Letters)
			require.False(t, letters[key], "%q stands twice: %q", p.Letters, names)
			look := [2]int{p.Fill, p.Pattern}
			require.False(t, looks[look], "the look of %d stands twice", i)
			require.True(t, p.Fill >= 1 && p.Fill <= picture.Fills && p.Pattern >= 0 && p.Pattern < picture.Patterns)
			require.LessOrEqual(t, utf8.RuneCountInString(p.Letters), 2*(2+3+1), "%q", names[i])
			letters[key], looks[look] = true, true
		}
	})
}

// Letters of the widest kind stand within the cap, which is 34 wide, at the size that the
// style sheet gives them. A bold letter is up to a tenth wider (text.go).
func TestLettersFitTheCap(t *testing.T) {
	for _, names := range [][]string{{"Mwamba", "MMwazi", "Mia"}, {"W", "W", "W", "W", "W", "W", "W", "W", "W", "W", "W", "W"}, {"Walter", "Wmbeke"}} {
		for _, p := range picture.People(names) {
			size := 18.0
			if strings.Contains(picture.Mark(&p, ""), "narrow") {
				size = picture.Letter
			}
			require.Less(t, picture.Width(p.Letters, size)*1.1, 34.0, p.Letters)
		}
	}
}

// A pattern of each kind differs from the others, and only plain has no lines.
func TestPatterns(t *testing.T) {
	seen := map[string]bool{}
	for n := range picture.Patterns {
		path := picture.Pattern(n, 24, 12)
		require.Equal(t, n == 0, path == "", n)
		require.False(t, seen[path], n)
		seen[path] = true
	}
}

// What a bar draws: hundredths of its length, from the side from which the language is written.
func TestBar(t *testing.T) {
	b := picture.Bar{Person: picture.Person{Letters: "D", Fill: 2, Pattern: 2}, Now: 75, Was: -1, Offer: 50, Label: "12 hours"}
	text := picture.Load(&b)
	require.Contains(t, text, `class="filled" x="2" y="5" width="142"`)
	require.Contains(t, text, `class="over" x="144" y="5" width="71"`)
	require.Contains(t, text, `class="offer" d="M144 1V24"`)
	require.NotContains(t, text, `class="was"`)
	b.Mirror, b.Was = true, 25
	text = picture.Load(&b)
	require.Contains(t, text, `class="filled" x="144" y="5" width="142"`)
	require.Contains(t, text, `class="over" x="73" y="5" width="71"`)
	require.Contains(t, text, `class="was" d="M215 `)
	b.Now, b.Offer = 50, 100
	require.NotContains(t, picture.Load(&b), `class="over"`)
}
