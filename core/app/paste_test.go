package app

import (
	"testing"

	"github.com/stretchr/testify/require"
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
