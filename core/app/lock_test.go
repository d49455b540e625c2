package app

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// lockedFile gives a line of testdata/link/locked/starter.txt, whose link the shell's tests
// lock and open with its passphrase.
func lockedFile(t *testing.T, key string) string {
	t.Helper()
	return fileLine(t, "../../testdata/link/locked/starter.txt", key)
}

// fileLine gives what stands behind a key in a file of lines "key: value".
func fileLine(t testing.TB, file, key string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	for line := range strings.Lines(string(text)) {
		if value, ok := strings.CutPrefix(line, key+": "); ok {
			return strings.TrimSpace(value)
		}
	}
	require.Fail(t, file+" has no line "+key)
	return ""
}

func TestALinkIsLocked(t *testing.T) {
	p := withTherapy(t)
	plain := p.fragment
	out := p.send("/link/lock")
	require.True(t, out.Push)
	require.Nil(t, out.Lock)
	require.Contains(t, p.last.HTML, `<input id="field-phrase" name="phrase" type="text" value=""`)
	require.NotContains(t, p.last.HTML, "data-draft", "a passphrase is kept nowhere")
	require.Contains(t, p.text(), "not even the name or the day")
	require.Contains(t, p.text(), "Links that were sent before stay open")

	out = p.send("/link/lock", "phrase", "  four warm  loaves\u200b of bread ")
	require.Equal(t, &Lock{Phrase: "four warm loaves of bread", Fragment: plain}, out.Lock)
	require.Equal(t, "notice-lock", out.Focus)
	require.NotContains(t, out.HTML, "loaves", "it is not shown once it was sent")
	for _, e := range out.Keep {
		require.NotContains(t, e.Value, "loaves")
	}

	locked := lockedFile(t, "fragment")
	out = p.send("/link", "locked", locked)
	require.Equal(t, []string{"/link/lock", "title", plain}, []string{out.Path, out.Focus, out.Fragment})
	require.Equal(t, "The link is locked", p.part("title"))
	require.Contains(t, p.text(), "Tell the passphrase by voice")
	require.Equal(t, "This link is locked. I will tell you the passphrase: "+pageAddress+"#"+locked, p.texted(), "the message gives nothing away")
	require.Equal(t, pageAddress+"#"+locked, p.attribute("address", "value"))
	require.Equal(t, locked, p.attribute("link-code", "data-qr"))
	require.Equal(t, []string{"locked", locked}, p.hidden("/link/lock"))
	require.Contains(t, p.text(), "the address above this page is not locked")
	require.Empty(t, p.part("phrase"))
	require.Contains(t, p.last.HTML, `href="#`+plain+`" data-path="/link">Send it without a lock`)

	out = p.send("/link/lock", "locked", locked, "act", "copy")
	require.Equal(t, &Send{Title: "Newel", Fragment: locked, Copy: true}, out.Send)
	require.Equal(t, "The link is locked", p.part("title"))
	out = p.send("/link/lock", "locked", locked, "act", "send")
	require.Equal(t, "This link is locked. I will tell you the passphrase:", out.Send.Text)
	p.send("/link")
	require.Equal(t, pageAddress+"#"+plain, p.attribute("address", "value"), "the lock is off")
}

// The phrase comes back from the shell with the locked link and is shown for reading out. It
// is in no field, so no later request has it, and it is stored nowhere.
func TestThePassphraseIsShownOnce(t *testing.T) {
	p := withTherapy(t)
	locked := lockedFile(t, "fragment")
	out := p.send("/link", "locked", locked, "phrase", "four warm loaves of bread")
	require.Equal(t, "Passphrase: four warm loaves of bread", p.part("phrase"))
	require.Equal(t, 1, strings.Count(out.HTML, "loaves"))
	require.Equal(t, []string{"locked", locked}, p.hidden("/link/lock"))
	require.NotContains(t, out.Fragment+out.Title+out.Say, "loaves")
	for _, value := range p.kept {
		require.NotContains(t, value, "loaves")
	}
	out = p.send("/link/lock", "locked", locked, "act", "send")
	require.NotContains(t, out.HTML+out.Send.Text+out.Send.Title, "loaves")
}

// NIST SP 800-63B 5.1.1.1: at least eight letters for a secret that is remembered.
func TestPassphrasesThatAreTooShort(t *testing.T) {
	p := started(t)
	for _, short := range []string{"", "1234567", "  a b c d ", "<b>\u200b\u200b\u200b\u200b\u200b\u200b"} {
		out := p.send("/link/lock", "phrase", short)
		require.Nil(t, out.Lock, short)
		require.Equal(t, "field-phrase", out.Focus)
		require.Contains(t, p.part("problem-phrase"), "at least 8 letters")
		require.NotContains(t, p.last.HTML, "<b>")
	}
	require.NotNil(t, p.send("/link/lock", "phrase", "日本語の合言葉です").Lock, "letters are counted, not bytes")
	require.Nil(t, p.send("/link/lock", "phrase", "日本語").Lock)
}

func TestABrowserThatCannotLock(t *testing.T) {
	p := started(t)
	out := p.send("/link", "unable", "1")
	require.Equal(t, "/link/lock", out.Path)
	require.Contains(t, p.part("problem-phrase"), "This browser cannot lock links")
	for _, no := range []string{"x", p.fragment, "", strings.Repeat("A", 400), `"><b>`, lockedFile(t, "fragment")[1:]} {
		out = p.send("/link", "locked", no, "act", "send")
		require.NotContains(t, out.HTML, "hand-over", "this is no locked link: %s", no)
		require.Nil(t, out.Send)
	}
}

func TestALockedLinkIsOpened(t *testing.T) {
	locked := lockedFile(t, "fragment")
	p := started(t)
	kept := p.kept[keyPlan+planKey(p.plan().Number)]
	out := p.open("<" + locked + ">.")
	require.Equal(t, []string{"/", "title", locked}, []string{out.Path, out.Focus, out.Fragment})
	require.Equal(t, "This link is locked", p.part("title"))
	require.NotContains(t, p.text(), "Rosa", "of no plan anything is shown")
	require.NotContains(t, p.text(), "December")
	require.Contains(t, p.part("signs"), "911")
	require.Zero(t, out.Refresh)

	out = p.send("/unlock", "phrase", " four warm  loaves of bread")
	require.Equal(t, &Lock{Phrase: "four warm loaves of bread", Fragment: locked}, out.Unlock)
	require.Equal(t, "notice-unlock", out.Focus)
	require.NotContains(t, out.HTML, "loaves")
	for field, said := range map[string]string{
		"wrong": "That is not the passphrase of this link", "damaged": "cut off or changed in sending", "unable": "This browser cannot open locked links",
	} {
		out = p.send("/unlock", field, "1")
		require.Contains(t, p.part("problem-phrase"), said)
		require.Equal(t, "field-phrase", out.Focus)
		require.Equal(t, p.part("problem-phrase"), out.Say)
		require.Equal(t, locked, out.Fragment)
		require.Equal(t, "", p.attribute("field-phrase", "value"), "the field can be used again")
		require.Nil(t, out.Unlock)
	}
	p.send("/unlock", "wrong", "1", "phrase", "four warm loafs")
	require.Equal(t, "four warm loafs", p.attribute("field-phrase", "value"), "nobody types a long phrase twice for one letter")
	out = p.send("/unlock", "phrase", " \u200b ")
	require.Nil(t, out.Unlock)
	require.Contains(t, p.part("problem-phrase"), "Put in the passphrase first")
	for _, path := range []string{"/tick", "/facts", "/link", "/send", "/calendar", "/start"} {
		if out = p.send(path, "locked", locked, "act", "send"); path != "/start" {
			require.Equal(t, "This link is locked", p.part("title"), path)
			require.Nil(t, out.Send)
		}
		p.fragment = locked
	}
	require.Equal(t, kept, p.kept[keyPlan+planKey(p.planOf(kept).Number)])

	// What the shell asks for once it has opened the link.
	p.open(lockedFile(t, "plain"))
	require.Contains(t, p.text(), "days to go")
	p.send("/unlock")
	require.Contains(t, p.text(), "days to go", "the browser's way back to where the passphrase was asked for")
}
