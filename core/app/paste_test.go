package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

func TestAPastedMessageOpensItsPlan(t *testing.T) {
	dana := withTherapy(t)
	dana.send("/link")
	message := dana.texted()
	fragment := dana.fragment
	for _, text := range []string{
		fragment, "#" + fragment, pageAddress + "#" + fragment, message, message + "\n\nSee you on Tuesday. x", "<" + pageAddress + "#" + fragment + ">.",
		"Dana, 24 Nov, 9:12:\r\n" + message, pageAddress + "?utm_source=x#" + fragment + "&y=1",
	} {
		p := newPhone(t)
		p.open("")
		require.Contains(t, p.part("paste"), "Paste a link here")
		out := p.send("/open", "text", text)
		require.Equal(t, []string{"/", fragment, "title"}, []string{out.Path, out.Fragment, out.Focus}, text)
		require.True(t, out.Push, "back leads to the front")
		require.Contains(t, p.part("title"), "Rosa")
		require.Equal(t, fragment, p.kept[keyPlan+planKey(p.plan().Number)])
	}
	// It joins what is here.
	luis := dana.opened()
	luis.send("/tick", "code", "3", "n", "0", "done", "1")
	dana.send("/tick", "code", "11", "n", "0", "done", "1")
	dana.send("/link")
	pasted := dana.texted()
	luis.open("")
	luis.send("/open", "text", pasted)
	require.Len(t, luis.plan().Ticked, 2)
	require.Contains(t, luis.news(), "throw rugs")
}

func TestPastedLinksThatAreNoPlan(t *testing.T) {
	whole, part := partLink(t)
	p := newPhone(t)
	p.send("/open", "text", "Luis: "+pageAddress+"#"+part)
	require.Contains(t, p.part("notice-part"), "Only Luis's duties")
	require.Equal(t, part, p.fragment)
	p.fragment = ""
	p.send("/open", "text", "This link is locked. "+pageAddress+"#"+lockedFile(t, "fragment"))
	require.Equal(t, "This link is locked", p.part("title"))
	p.fragment = ""
	p.send("/open", "text", pageAddress+"#"+head(t, "newer-next.txt")["fragment"])
	require.Contains(t, p.part("newer-day"), "March 9")
	p.fragment = ""
	p.send("/open", "text", pageAddress+"#demo")
	require.Contains(t, p.text(), "This is an example")

	cut := "Rosa: " + pageAddress + "#" + whole.fragment[:30] + " <b>x</b>"
	for _, text := range []string{cut, "", " \n ", "start", "hello", "https://alder.example/", pageAddress + "#", "日本"} {
		whole.fragment = ""
		out := whole.send("/open", "text", text)
		require.Equal(t, []string{"/", "field-paste", ""}, []string{out.Path, out.Focus, out.Fragment}, text)
		require.Equal(t, whole.part("problem-paste"), out.Say)
		require.NotContains(t, out.HTML, "<b>")
		require.False(t, out.Push)
	}
	whole.send("/open", "text", cut)
	require.Contains(t, whole.part("problem-paste"), "No whole link was found in this text. Some of it was lost")
	require.Contains(t, whole.part("field-paste"), "<b>x</b>", "what was pasted stays, to be looked at")
	require.NotEmpty(t, whole.part("here"))
	whole.send("/open", "text", "")
	require.Equal(t, "Paste the link first, then tap again.", whole.part("problem-paste"))
}

// In a chat a plan goes back and forth. All its links are opened at once; those of other
// plans are mentioned.
func TestAPastedChatOpensAllLinksOfOnePlan(t *testing.T) {
	dana, luis := danaAndLuis(t)
	ann := dana.opened()
	dana.send("/tick", "code", "3", "n", "0", "done", "1")
	luis.send("/tick", "code", "11", "n", "0", "done", "1")
	chat := "Dana: Plan for Rosa " + pageAddress + "#" + dana.fragment + "\nGran: #thanks!\n" +
		"Luis: I did the rugs " + pageAddress + "#" + luis.fragment + " " + pageAddress + "#" + dana.fragment
	one := ann.plan().Number
	ann.open("")
	ann.send("/open", "text", chat)
	require.Equal(t, one, ann.plan().Number)
	require.Len(t, ann.plan().Ticked, 2)
	require.Contains(t, ann.news(), "Dana ticked")
	require.Contains(t, ann.news(), "Luis ticked")
	require.NotContains(t, ann.text(), "other plans")

	fresh := newPhone(t)
	fresh.send("/open", "text", chat)
	require.Len(t, fresh.plan().Ticked, 2)
	require.Empty(t, fresh.news(), "all of it is new to this phone")

	other := dana.plan()
	other.Number++
	for text, mentioned := range map[string]bool{
		chat + " " + pageAddress + "#" + link.Encode(merge.New(other)):                                true,
		chat + " " + pageAddress + "#" + link.EncodePart(other, "Dana"):                               true,
		chat + " " + pageAddress + "#" + lockedFile(t, "fragment"):                                    true,
		pageAddress + "#" + lockedFile(t, "fragment") + " " + chat:                                    true,
		pageAddress + "#" + link.EncodePart(dana.plan(), "Dana") + " " + chat:                         false,
		chat + " " + pageAddress + "#" + dana.fragment[:20] + " " + pageAddress + "#" + luis.fragment: false,
	} {
		p := newPhone(t)
		p.send("/open", "text", text)
		require.Equal(t, one, p.plan().Number, text)
		require.Len(t, p.plan().Ticked, 2)
		if mentioned {
			require.Equal(t, "There are links to other plans in this text; paste them by themselves.", p.part("notice-others"))
		} else {
			require.Empty(t, p.part("notice-others"))
		}
	}
}

// What was pasted without any link is another mistake than a link that was cut off.
func TestPastedTextWithoutALink(t *testing.T) {
	const none = "There is no link in this text. Copy the whole message and paste it again."
	p := withTherapy(t)
	whole := p.fragment
	for _, text := range []string{"hello", "Rosa’s plan, see you on Tuesday", "https://alder.example/", pageAddress, pageAddress + "#", "Well done! #thanks"} {
		p.fragment = ""
		p.send("/open", "text", text)
		require.Equal(t, none, p.part("problem-paste"), text)
	}
	for _, text := range []string{whole[:12], whole[:40], "Rosa: " + pageAddress + "#" + whole[:40] + " see you"} {
		p.fragment = ""
		p.send("/open", "text", text)
		require.Contains(t, p.part("problem-paste"), "No whole link was found in this text.", text)
	}
}

// A hostile text takes no longer than its length allows.
func TestPastedTextWithTooManyLinks(t *testing.T) {
	p := started(t)
	whole := p.fragment
	p.fragment = ""
	p.send("/open", "text", strings.Repeat("#", 20000)+"#"+whole+strings.Repeat("#"+whole, 300))
	require.Equal(t, "Rosa: knee replacement", p.part("title"))
}
