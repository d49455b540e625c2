package calendar

import (
	"fmt"
	"math/bits"
	"math/rand"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestFoldingOfRFC5545(t *testing.T) {
	// Source: RFC 5545 3.1, the folded DESCRIPTION and the line that it stands for.
	whole := "DESCRIPTION:This is a long description that exists on a long line."
	require.Equal(t, []string{whole}, unfold("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"))
	require.Equal(t, whole, fold(whole)) // it has 66 octets, so it need not be folded
	// Same section: a line is at most 75 octets without its line break.
	require.Equal(t, strings.Repeat("x", 75), fold(strings.Repeat("x", 75)))
	require.Equal(t, strings.Repeat("x", 75)+"\r\n x", fold(strings.Repeat("x", 76)))
	require.Equal(t, strings.Repeat("x", 75)+"\r\n "+strings.Repeat("x", 74)+"\r\n x", fold(strings.Repeat("x", 150)))
}

func TestNoLineIsOver75OctetsAndNoCharacterIsSplit(t *testing.T) {
	r := rand.New(rand.NewSource(75))
	letters := []rune("aé\u202f漢😀,;\\")
	for range repeats(500) {
		var b strings.Builder
		for range r.Intn(300) {
			b.WriteRune(letters[r.Intn(len(letters))])
		}
		line := "X" + b.String()
		folded := fold(line + "\r\n")
		for part := range strings.SplitSeq(folded, "\r\n") {
			require.LessOrEqual(t, len(part), 75)
			require.True(t, utf8.ValidString(part))
		}
		require.Equal(t, []string{line}, unfold(folded))
	}
}

func TestUnfoldTakesWhatArrives(t *testing.T) {
	want := []string{"BEGIN:VCALENDAR", "SUMMARY:a long one", "END:VCALENDAR"}
	for _, text := range []string{
		"BEGIN:VCALENDAR\r\nSUMMARY:a lo\r\n ng one\r\nEND:VCALENDAR\r\n",
		"BEGIN:VCALENDAR\nSUMMARY:a lo\n\tng one\n\nEND:VCALENDAR",
		"BEGIN:VCALENDAR\rSUMMARY:a lo\r ng one\rEND:VCALENDAR\r",
		"\ufeff lost\r\nBEGIN:VCALENDAR\r\nSUMMARY:a \r\n l\r\n o\r\n ng one\r\nEND:VCALENDAR",
	} {
		require.Equal(t, want, unfold(text))
	}
	// Older writers fold within a character; the halves come together again.
	require.Equal(t, []string{"X:é"}, unfold("X:\xc3\r\n \xa9"))
}

func TestTextOfRFC5545(t *testing.T) {
	for _, c := range [][2]string{
		{"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.", `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`}, // RFC 5545 3.3.11
		{`a\b;c,d:e`, `a\\b\;c\,d:e`}, // from the rule there; a colon is not escaped
	} {
		require.Equal(t, c[1], escape(c[0]))
		require.Equal(t, c[0], unescape(c[1]))
	}
	require.Equal(t, "a\nb", unescape(`a\Nb`)) // 3.3.11 allows both
	require.Equal(t, "a,b", unescape("a,b"))   // somebody forgot to escape it
	require.Equal(t, "a:b", unescape(`a\:b`))  // and somebody did where one need not
	require.Equal(t, "a", unescape(`a\`))
}

func TestNoControlCharacterPasses(t *testing.T) {
	require.Equal(t, "one two\nthree\nfour", tidy("one\ttwo\r\nth\x00r\x1bee\r\x7f\rfour\n\xff\u202e"))
}

func TestUIDsAreUUIDsThatLookRandom(t *testing.T) {
	seen := map[string]bool{}
	var last string
	flipped := 0
	for number := range uint32(20) {
		for key := range 50 {
			id := uid(number, fmt.Sprintf("f%d", key))
			// Source: RFC 9562 5.8 (version 8) and 4.1 (the variant's two bits, 10).
			require.Regexp(t, "^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$", id)
			require.True(t, isUID(id))
			require.False(t, seen[id])
			seen[id] = true
			if last != "" {
				flipped += differ(t, last, id)
			}
			last = id
		}
	}
	// Of 122 free bits half should differ between neighbours; 61 ± 1 over a thousand.
	require.InDelta(t, 61, float64(flipped)/999, 1)
	require.Equal(t, uid(7, "f1"), uid(7, "f1"))
	for _, not := range []string{"", "f1", strings.ToUpper(uid(7, "f1")), uid(7, "f1") + "0", strings.Repeat("0", 36)} {
		require.False(t, isUID(not))
	}
}

func differ(t *testing.T, a, b string) (n int) {
	a, b = strings.ReplaceAll(a, "-", ""), strings.ReplaceAll(b, "-", "")
	for i := 0; i < 32; i += 16 {
		var x, y uint64
		_, err := fmt.Sscanf(a[i:i+16]+" "+b[i:i+16], "%x %x", &x, &y)
		require.NoError(t, err)
		n += bits.OnesCount64(x ^ y)
	}
	return n
}

// RFC 7986 5.3: a UID must not hold data that identify a user, a host or a place.
func TestNoUIDNamesAnybody(t *testing.T) {
	file, _ := write(t, family(t), everything(), "")
	n := 0
	for _, line := range unfold(file) {
		if id, ok := strings.CutPrefix(line, "UID:"); ok {
			require.True(t, isUID(id), line)
			n++
		}
	}
	require.Greater(t, n, 20)
}

func TestDurationsOfRFC5545(t *testing.T) {
	// Source: RFC 5545 3.3.6 and, for the last, 3.6.6.
	for text, want := range map[string]time.Duration{
		"P15DT5H0M20S": 15*24*time.Hour + 5*time.Hour + 20*time.Second, "P7W": 7 * 7 * 24 * time.Hour, "-PT30M": -30 * time.Minute,
	} {
		d, ok := readDuration(text)
		require.True(t, ok)
		require.Equal(t, want, d)
	}
	for _, text := range []string{"", "P", "PT", "1H", "PT1X", "P1H", "PTH", "PT99999999999H", "P999999999W", "P500D", "PT-1H"} {
		_, ok := readDuration(text)
		require.False(t, ok, text)
	}
}

func TestValuesThatAreNoTime(t *testing.T) {
	for _, text := range []string{
		"", "T", "2027", "20270230", "20271301", "20270309T", "20270309T2500", "20270309T250000", "20270309T126000Z", "20270309T1200",
		"20270309T120000ZZ", "+0270309", "20270309T+20000", "15990101", "99990101T000000",
	} {
		_, ok := readValue(text)
		require.False(t, ok, text)
	}
	v, ok := readValue("20270309T053060Z")
	require.True(t, ok) // a leap second (RFC 5545 3.3.12)
	require.Equal(t, "2027-03-09T05:30:59Z", v.wall.Format(time.RFC3339))
}
