package app

import (
	"bufio"
	"html"
	"net/url"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/message"
)

// attribute gives what an attribute of the element with an id says.
func (p *phone) attribute(id, name string) string {
	p.t.Helper()
	for _, tag := range splitTags(p.last.HTML) {
		if strings.Contains(tag, ` id="`+id+`"`) {
			value, _ := cut(tag, " "+name+`="`)
			return html.UnescapeString(value)
		}
	}
	require.Fail(p.t, "there is no element "+id)
	return ""
}

// texted is the message that the button for a text message opens with.
func (p *phone) texted() string {
	p.t.Helper()
	body, ok := strings.CutPrefix(p.attribute("link-sms", "href"), "sms:?body=")
	require.True(p.t, ok)
	text, err := url.PathUnescape(body) // net/url undoes the escaping of RFC 3986
	require.NoError(p.t, err)
	return text
}

// sevenBit is how many text messages a text of plain letters takes: 160 letters in one,
// 153 in each of several (3GPP TS 23.040 9.2.3.24.1 with 23.038 6.1.2.1.1).
func sevenBit(text string) int {
	if len(text) <= 160 {
		return 1
	}
	return (len(text) + 152) / 153
}

func TestTheWaysOfSending(t *testing.T) {
	p := withTherapy(t)
	p.send("/")
	require.Contains(t, p.last.HTML, `href="#`+p.fragment+`" data-path="/link"`)
	require.NotEmpty(t, p.key(keyOwn))
	out := p.send("/link")
	require.True(t, out.Push)
	require.Equal(t, []string{"/link", "title", p.fragment}, []string{out.Path, out.Focus, out.Fragment})
	address := pageAddress + "#" + p.fragment
	require.Equal(t, address, p.attribute("address", "value"))
	require.Equal(t, "Plan for Rosa, Thursday, December 3. Open it on your phone: "+address, p.texted())
	require.Equal(t, 1, sevenBit(p.texted()))
	require.Equal(t, "The text and the link make 1 text message.", p.part("link-parts"))
	require.Equal(t, p.fragment, p.attribute("link-code", "data-qr"))
	for _, said := range []string{"Whoever has the link can read the plan and change their copy", "No account and no server has it", "first names of the helpers"} {
		require.Contains(t, p.text(), said)
	}
	require.Nil(t, out.Send)

	out = p.send("/link", "act", "copy")
	require.Equal(t, &Send{Title: "Rosa: knee replacement", Fragment: p.fragment, Copy: true}, out.Send)
	require.False(t, out.Push)
	require.Empty(t, out.Focus, "the button keeps it")
	out = p.send("/link", "act", "send")
	require.Equal(t, &Send{Title: "Rosa: knee replacement", Text: "Plan for Rosa, Thursday, December 3. Open it on your phone:", Fragment: p.fragment}, out.Send)
	require.Nil(t, p.send("/link", "act", "x").Send)
}

// A short plan fits into one message; a wording that would make it two is not taken. í is
// not in the alphabet of text messages, é is (3GPP TS 23.038 6.2.1).
func TestTheWordsThatMakeFewerMessages(t *testing.T) {
	for patient, named := range map[string]bool{"Rosa": true, "José": true, "Rosalía": false, "Łucja": false, "": false, "Rosa’s": false} {
		p := newPhone(t)
		p.open("start")
		p.send("/start", facts("patient", patient)...)
		p.send("/link")
		require.Empty(t, message.NotGSM(p.texted()), patient)
		require.Equal(t, "The text and the link make 1 text message.", p.part("link-parts"), patient)
		require.Equal(t, named, patient != "" && strings.Contains(p.texted(), patient), patient)
		require.True(t, strings.HasPrefix(p.texted(), "Plan for "), patient)
		require.Contains(t, p.texted(), "Thursday, December 3")
	}
}

func TestAFamilysPlanTakesSeveralMessages(t *testing.T) {
	p := newPhone(t)
	p.open("demo")
	p.send("/link")
	parts := sevenBit(p.texted())
	require.Greater(t, parts, 1)
	require.Equal(t, "The text and the link make "+strconv.Itoa(parts)+" text messages.", p.part("link-parts"))
	require.NotContains(t, p.last.HTML, "/link/afresh", "an example is not started afresh")
	p.send("/link/afresh", "sure", "1")
	require.Contains(t, p.text(), "This is an example")
}

// Every word that can get into a message is in the alphabet of text messages (3GPP TS
// 23.038 6.2.1), apart from names.
func TestMessagesAreWrittenWithTheirOwnLetters(t *testing.T) {
	file, err := os.Open("../guide/text/en/words.txt")
	require.NoError(t, err)
	defer file.Close()
	texts := 0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		key, text, _ := strings.Cut(lines.Text(), " = ")
		first, _, _ := strings.Cut(key, ".")
		switch first {
		case "text":
			texts++
		case "weekday", "month", "day":
		default:
			continue
		}
		require.Empty(t, message.NotGSM(text), key)
	}
	require.GreaterOrEqual(t, texts, 5)
}

// A plan that is too large for a code says so; ISO/IEC 18004 table 7 has 2,953 bytes.
func TestALargePlanHasNoCode(t *testing.T) {
	p := started(t)
	full := filled(p.plan(), 4000)
	p.open(link.Encode(merge.New(full)))
	require.Greater(t, len(p.fragment), 2953)
	p.send("/link")
	require.NotContains(t, p.last.HTML, "data-qr")
	require.Contains(t, p.part("hand-over"), "too large for a QR code")
}

func TestALinkForOneHelper(t *testing.T) {
	p := withTherapy(t) // Dana has it
	p.send("/who/drive-there", "who", "Luis")
	p.send("/me", "who", "other", "name", "Ann")
	p.send("/link")
	require.Contains(t, p.last.HTML, `data-path="/link/part"`)
	p.send("/link/part")
	require.Contains(t, p.last.HTML, `<button name="part" value="1">Dana</button>`)
	require.Contains(t, p.last.HTML, `<button name="part" value="2">Luis</button>`)
	require.NotContains(t, p.last.HTML, ">Ann<", "she has nothing to do")
	require.NotContains(t, p.last.HTML, "hand-over")

	p.send("/link/part", "part", "2")
	require.Equal(t, "Only Luis's duties, to read", p.part("title"))
	fragment := p.attribute("link-code", "data-qr")
	got, helper, err := link.DecodePart(fragment)
	require.NoError(t, err)
	require.Equal(t, "Luis", helper)
	require.NotContains(t, strings.Join(got.Helpers, " "), "Dana")
	require.Empty(t, got.Duties)
	require.Equal(t, "Luis, this is your part on and around Thursday, December 3. Open it on your phone: "+pageAddress+"#"+fragment, p.texted())
	require.Equal(t, []string{"part", "2"}, p.hidden("/link/part"))
	own := p.key(keyOwn)
	out := p.send("/link/part", "part", "2", "act", "send")
	require.Equal(t, fragment, out.Send.Fragment)
	require.NotContains(t, out.Send.Title, "Rosa")
	require.Equal(t, own, p.key(keyOwn), "the others do not get what was changed here by this")

	for _, none := range []string{"", "0", "9", "x", "258"} {
		require.Nil(t, p.send("/link/part", "part", none, "act", "send").Send, none)
		require.Equal(t, "Only one helper's duties, to read", p.part("title"))
	}
	nobody := started(t)
	nobody.send("/link")
	require.NotContains(t, nobody.last.HTML, `data-path="/link/part"`)
	nobody.send("/link/part")
	require.Contains(t, nobody.text(), "Nobody has a duty yet")
}

// What cannot be laid out here is not handed on.
func TestNoLinkOfAPlanThatCannotBeShown(t *testing.T) {
	p := started(t)
	odd := p.plan()
	odd.Number, odd.Zone = odd.Number+1, "Mars/Olympus"
	for _, path := range []string{"/link", "/link/part", "/link/lock", "/link/afresh"} {
		p.fragment = link.Encode(merge.New(odd))
		out := p.send(path, "act", "send", "sure", "1", "phrase", "four loaves of bread")
		require.Equal(t, "/facts", out.Path)
		require.Nil(t, out.Send)
		require.Nil(t, out.Lock)
	}
}

// Names are shown as they are, never taken for markup.
func TestNamesInLinkPages(t *testing.T) {
	const name = `<b>"Lu&is'</b>`
	p := started(t)
	p.send("/who/drive-there", "who", name)
	p.send("/link/part")
	require.Contains(t, p.text(), name)
	p.send("/link/part", "part", "1")
	require.Contains(t, p.part("title"), name)
	require.NotContains(t, p.last.HTML, name)
	reader := newPhone(t)
	reader.open(p.attribute("link-code", "data-qr"))
	require.Contains(t, reader.part("notice-part"), name)
	require.NotContains(t, reader.last.HTML, name)
}

// The line at the button is enough for ticks; what else was changed is said at the top. Both
// go once the shell says that the link was shared or copied.
func TestWhatTheOthersDoNotHaveYetIsSaid(t *testing.T) {
	p := withTherapy(t).opened()
	require.Empty(t, p.part("unsent")+p.part("notice-unsent"), "nothing was changed here")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	require.Contains(t, p.part("unsent"), "on this device only")
	require.Empty(t, p.part("notice-unsent"))
	p.send("/arrival", "arrival", "05:15")
	require.Contains(t, p.part("notice-unsent"), "on this device only")
	require.Empty(t, p.part("unsent"), "once is enough")
	out := p.send("/send")
	require.NotNil(t, out.Send)
	require.Empty(t, out.Say, "nothing was sent yet")
	require.NotEmpty(t, p.part("notice-unsent"), "the sheet may be closed again")
	p.send("/link/part", "part", "1", "sent", "shared")
	p.send("/", "sent", "closed")
	require.NotEmpty(t, p.part("notice-unsent"), "a helper’s part brings the others nothing, nor does a closed sheet")
	out = p.send("/", "sent", "shared")
	require.Equal(t, "Sent.", out.Say)
	require.Empty(t, p.part("unsent")+p.part("notice-unsent"))
}

func TestWhoHasNoOthersIsNotTold(t *testing.T) {
	q := started(t)
	q.send("/arrival", "arrival", "05:15")
	require.Empty(t, q.part("notice-unsent"), "there are no others")
	q.send("/link", "sent", "copied")
	require.Contains(t, q.last.Say, "Copied")
	q.send("/arrival", "arrival", "05:00")
	require.Contains(t, q.part("notice-unsent"), "on this device only", "somebody has the link now")
	q.open("demo")
	q.send("/arrival", "arrival", "05:15")
	require.Empty(t, q.part("notice-unsent"), "an example is sent to nobody")
}
