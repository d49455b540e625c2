package app

import (
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

// A cut link names whom to ask where that is known for sure: the plan's number stands at the
// beginning of the link, this device has that plan, and one person alone has written in it.
func TestACutLinkSaysWhomToAsk(t *testing.T) {
	nurse := withTherapy(t)
	dana := nurse.opened().is("Dana")
	luis := dana.opened()
	cut := dana.fragment[:len(dana.fragment)-5]
	const anybody = "Ask whoever sent it to send it again"
	luis.open(cut)
	require.Equal(t, "This link was cut off in sending", luis.part("title"))
	require.Contains(t, luis.last.HTML, `<a class="second" href="#start">`, "a whole link is what is needed, not another plan")
	require.Contains(t, luis.text(), anybody, "the nurse has made the plan and may have sent it")
	require.Contains(t, luis.part("here"), "Open \"Rosa: knee replacement\" as this device has it")

	alone := started(t).is("Dana")
	luis = alone.opened()
	luis.is("Luis")
	luis.open(alone.fragment[:20])
	require.Contains(t, luis.text(), "Ask Dana, or whoever else sent it, to send it again")
	luis.open("x" + alone.fragment[:20])
	require.Contains(t, luis.text(), anybody, "its beginning is lost")
	require.Empty(t, luis.part("here"))
	stranger := newPhone(t)
	stranger.open(alone.fragment[:20])
	require.Contains(t, stranger.text(), anybody)
	require.Empty(t, stranger.kept)
	alone.open(alone.fragment[:20])
	require.Contains(t, alone.text(), anybody, "nobody is told to ask themselves")

	// Names are no markup.
	odd := started(t).is(`<i>D&"'</i>`)
	reader := odd.opened()
	reader.open(odd.fragment[:20])
	require.Contains(t, reader.text(), `Ask <i>D&"'</i>, or whoever else sent it`)
	require.NotContains(t, reader.last.HTML, "<i>D")
}

// head gives the file of a link's head that Go and TypeScript share.
func head(t *testing.T, file string) map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata/link/heads", file))
	require.NoError(t, err)
	lines := map[string]string{}
	for line := range strings.Lines(string(text)) {
		key, value, _ := strings.Cut(strings.TrimSpace(line), ": ")
		lines[key] = value
	}
	return lines
}

// What a later page writes shows its day, which stands in the head of every version, and
// nothing else of a plan.
func TestANewerLinkShowsItsDay(t *testing.T) {
	v := head(t, "newer-next.txt")
	p := newPhone(t)
	out := p.open(v["fragment"])
	require.Equal(t, "Load the page again to open this link", p.part("title"))
	require.Equal(t, "Tuesday, March 9, 2027, be there at 05:30", p.part("newer-day"), v["surgery"]+" "+v["arrival"])
	require.Contains(t, p.text(), "Load the page again while you are online")
	require.Empty(t, p.part("here"))
	require.Empty(t, p.part("days"), "never half a plan")
	require.Empty(t, p.kept)
	require.Equal(t, v["fragment"], out.Fragment, "loading the page again opens it")
	p.clock12 = true
	p.send("/")
	require.Contains(t, p.part("newer-day"), "be there at 5:30 AM")
	p.at("2027-03-10T09:00:00-06:00").send("/")
	require.Equal(t, "Surgery was on Tuesday, March 9", p.part("newer-day"))

	// The plan with that number, as it is here, is offered.
	number, err := strconv.ParseUint(v["number"], 0, 32)
	require.NoError(t, err)
	mine := started(t)
	q := mine.plan()
	q.Number = uint32(number)
	mine.open(link.Encode(merge.New(q)))
	stands := mine.fragment
	mine.open(v["fragment"])
	require.Contains(t, mine.last.HTML, `<p id="here"><a class="main" href="#`+stands+`" data-path="/">`)

	p.open(head(t, "version-33.txt")["fragment"])
	require.Equal(t, "Load the page again to open this link", p.part("title"))
	require.Empty(t, p.part("newer-day"), "whether it has a head is not known")
	p.open(head(t, "newer-day-too-late.txt")["fragment"])
	require.Empty(t, p.part("newer-day"))
}

// Whatever stands in the address or is pasted, the page answers, shows no plan that is not
// there, and keeps what the device has.
func TestHostileFragments(t *testing.T) {
	whole, part := partLink(t)
	locked, r := lockedFile(t, "fragment"), rand.New(rand.NewSource(4))
	all := []string{"", "%", "%00", "\x00", strings.Repeat("A", 1<<15), strings.Repeat("%", 1000), `"><script>alert(1)</script>`, "javascript:alert(1)", "gAAA", "AAAA", "....", "start%00"}
	for _, good := range []string{whole.fragment, part, locked} {
		for range 20 {
			b := []byte(good)
			switch r.Intn(3) {
			case 0:
				b = b[:r.Intn(len(b))]
			case 1:
				b[r.Intn(len(b))] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"[r.Intn(64)]
			default:
				at := 1 + r.Intn(len(b)-1)
				b[at-1], b[at] = b[at], b[at-1]
			}
			all = append(all, string(b))
		}
	}
	key := keyPlan + planKey(whole.plan().Number)
	before := whole.kept[key]
	for _, bad := range all {
		for _, path := range []string{"/", "/link", "/unlock", "/calendar", "/open"} {
			whole.fragment = bad
			out := whole.send(path, "text", bad, "phrase", bad, "locked", bad, "part", bad)
			require.NotEmpty(t, out.HTML)
			require.NotContains(t, out.HTML, "<script")
		}
	}
	require.Equal(t, before, whole.kept[key])
	require.Equal(t, []string{key}, whole.plans())
}

// A sound link of this version with a value that this page does not allow yet, a name of 145
// letters, as core/link writes it: a later page made it, and its day is shown.
func TestALinkWithWhatOnlyALaterPageAllows(t *testing.T) {
	fragment, err := os.ReadFile("../../testdata/link/later/long-name.txt")
	require.NoError(t, err)
	p := newPhone(t)
	p.open(strings.TrimSpace(string(fragment)))
	require.Contains(t, p.part("title"), "Load the page again")
	require.Contains(t, p.part("newer-day"), "Tuesday, March 9")
	require.NotContains(t, p.text(), "cut off")
}
