package message

import (
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// vectors is testdata/message/gsm7.json; its source stands in it.
type vectors struct {
	Source           string
	Basic, Extension []string
	Cost             map[string]*int // septets; null: the letter forces UCS-2
	Examples         []struct {
		Text, Alphabet string
		Units, Parts   int
	}
}

func readVectors(t *testing.T) vectors {
	text, err := os.ReadFile("../../testdata/message/gsm7.json")
	require.NoError(t, err)
	var v vectors
	require.NoError(t, json.Unmarshal(text, &v))
	return v
}

// 3GPP TS 23.038 6.2.1: 128 places, one of them the escape.
func TestEveryLetterOfTheAlphabet(t *testing.T) {
	v := readVectors(t)
	require.Len(t, v.Basic, 127)
	require.Equal(t, strings.Join(v.Basic, ""), basic)
	require.ElementsMatch(t, v.Extension, strings.Split(extension, ""))
	for _, letter := range v.Basic {
		require.Equal(t, Cost{GSM7, 1, 1, 160}, Parts(letter), letter)
	}
	for _, letter := range v.Extension {
		require.Equal(t, Cost{GSM7, 2, 1, 160}, Parts(letter), letter)
	}
	for letter, septets := range v.Cost {
		if septets == nil {
			require.Equal(t, letter, string(NotGSM("Rosa "+letter+letter)))
			require.Equal(t, UCS2, Parts(letter).Alphabet, letter)
		} else {
			require.Equal(t, Cost{GSM7, *septets, 1, 160}, Parts(letter), letter)
		}
	}
}

// Ç is at 0x09 of the table of 3GPP TS 23.038 6.2.1; ç is not in it.
func TestTheSmallCedillaIsNotInIt(t *testing.T) {
	require.Equal(t, []rune{'ç'}, NotGSM("Çç"))
}

func TestExamples(t *testing.T) {
	rooms := map[string][2]int{"GSM7": {160, 153}, "UCS2": {70, 67}} // 3GPP TS 23.040 9.2.3.24.1
	for _, e := range readVectors(t).Examples {
		got := Parts(e.Text)
		require.Equal(t, e.Units, got.Units, e.Text)
		require.Equal(t, e.Parts, got.Parts, e.Text)
		require.Equal(t, e.Alphabet == "UCS2", got.Alphabet == UCS2, e.Text)
		require.Equal(t, rooms[e.Alphabet][min(1, e.Parts-1)], got.Room, e.Text)
	}
}

// 3GPP TS 23.040 9.2.3.24.1: a part ends between letters, so an escape or the half of a
// surrogate pair never stands alone at its end.
func TestNoPartEndsInsideALetter(t *testing.T) {
	for _, c := range []struct {
		text  string
		parts int
	}{
		{strings.Repeat("a", 152) + "{" + strings.Repeat("a", 151), 2}, // 152 and an empty place, then 153
		{strings.Repeat("a", 152) + "{" + strings.Repeat("a", 152), 3},
		{strings.Repeat("a", 151) + "{" + strings.Repeat("a", 153), 2},
		{strings.Repeat("í", 66) + "😀" + strings.Repeat("í", 65), 2},
		{strings.Repeat("í", 66) + "😀" + strings.Repeat("í", 66), 3},
		{strings.Repeat("í", 65) + "😀" + strings.Repeat("í", 67), 2},
	} {
		require.Equal(t, c.parts, Parts(c.text).Parts, c.text)
	}
}

// The length in UTF-16 units is that of the standard library, RFC 2781.
func TestUnitsOfOtherLetters(t *testing.T) {
	for _, text := range []string{"í😀", "’…—", "日本", "e\u0301 é", "\xff"} {
		require.Equal(t, len(utf16.Encode([]rune(text))), Parts(text).Units, text)
	}
	require.Equal(t, Cost{GSM7, 0, 1, 160}, Parts(""))
}

// The addresses and their sources are in testdata/message/sms.txt.
func TestSMS(t *testing.T) {
	text, err := os.ReadFile("../../testdata/message/sms.txt")
	require.NoError(t, err)
	n := 0
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		parts := strings.Split(strings.TrimRight(line, "\n"), "\t")
		require.Len(t, parts, 3, line)
		body, err := strconv.Unquote(parts[2])
		require.NoError(t, err, line)
		require.Equal(t, parts[0], SMS(strings.Split(parts[1], ","), body))
		n++
	}
	require.Equal(t, 9, n)
}

// RFC 3986 2.2: none of the letters that divide an address can come from what was typed.
func TestNothingTypedGetsIntoTheAddress(t *testing.T) {
	address := SMS([]string{"555?body=x&y#z,javascript:alert(1)", ";ext=1", "\x00"}, "a\x00b\xff?body=&")
	require.Equal(t, "sms:555(1),1?body=a%00b%FF%3Fbody%3D%26", address)
}
