package link

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What messages, mail programs and services do to a link. RFC 3986 appendix C: angle
// brackets around it, line ends within it, a full stop behind it; the rest is common
// practice, no published source.
func TestALinkIsFoundInWhatSurroundsIt(t *testing.T) {
	for _, fragment := range []string{Encode(docOf(starter(t))), Encode(docOf(withFamily(t))), encodeOld(old{family(t), 4})} {
		middle := len(fragment) / 2
		address := "https://alder.example/newel/#" + fragment
		for _, text := range []string{
			fragment, "#" + fragment, address, " " + address + " ", "<" + address + ">", "<" + fragment + ">",
			fragment + ".", fragment + ",", fragment + ")", fragment + ").", fragment + "!", fragment + "…", "“" + address + "”", "«" + fragment + "»",
			fragment + "-", fragment + "_", "_" + fragment + "_", "*" + fragment + "*", fragment + "--",
			fragment + "?utm_source=mail&utm_medium=x", fragment + "&click=1", fragment + "%3Futm_source%3Dmail",
			address[:30+middle] + "\r\n" + address[30+middle:], fragment[:middle] + "\n" + fragment[middle:], fragment[:middle] + "%0A" + fragment[middle:],
			fragment[:middle] + "\u00ad" + fragment[middle:], fragment[:middle] + "\u200b" + fragment[middle:],
			"Rosa’s plan: " + address + " See you on Tuesday", fragment + " see you", "Two links: https://x.example/#top and " + address,
			strings.ReplaceAll(strings.ReplaceAll(fragment, "-", "%2D"), "_", "%5F"), "%23" + fragment, strings.ReplaceAll(address, "#", "%23"),
			strings.ReplaceAll(strings.ReplaceAll(address, "%", "%25"), "#", "%2523"),
		} {
			require.Equal(t, fragment, Trim(text), "%q", text)
		}
	}
}

func TestWhatIsNoLinkStaysShort(t *testing.T) {
	require.Equal(t, "start", Trim("start"))
	require.Equal(t, "demo", Trim("#demo"))
	require.Empty(t, Trim(""))
	require.Empty(t, Trim("<>"))
	require.Empty(t, Trim("日本"))
	require.Equal(t, "A", Trim("A%"))
	require.Equal(t, "A", Trim("A%zz"))
	require.LessOrEqual(t, len(Trim(strings.Repeat("A", 1<<20))), 2*MaxLength)
	require.LessOrEqual(t, len(Trim(strings.Repeat("#", 1<<15))), 0)
}

func TestWhatIsNoEscapeStays(t *testing.T) {
	fragment := Encode(docOf(starter(t)))
	for _, before := range []string{"50%#", "%#", "%4#", "%g4#", "100 %zz #", "%%23", "%25%23", "%"} {
		text := before + fragment
		if before == "%" {
			text = fragment + before
		}
		require.Equal(t, fragment, Trim(text), text)
	}
}
