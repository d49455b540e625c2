package app

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// The whole way: what a helper said on their phone is held up, and the desk's page says it. The
// code holds no plan, and nothing is stored at the desk.
func TestWhatWasSaidBackIsHeldUpAtTheDesk(t *testing.T) {
	p := started(t)
	p.send("/say-back")
	require.NotContains(t, p.last.HTML, "said-code", "there is nothing to hold up yet")
	for _, id := range []string{"wash", "food", "drink", "leave", "home"} {
		p.send("/say-back", "q", id, "said", "clear")
	}
	p.send("/say-back", "q", "emergency", "said", "again")
	held := regexp.MustCompile(`data-qr="([^"]*)"`).FindStringSubmatch(p.last.HTML)
	require.Equal(t, "said.abcdeF", held[1])

	desk := Handle(Request{Path: "/", Fragment: held[1], Page: "https://example.org/", Language: "en"})
	require.Equal(t, held[1], desk.Fragment)
	require.Empty(t, desk.Keep)
	require.Empty(t, desk.Drop)
	require.Contains(t, desk.HTML, "5 of 6 answers are clear.")
	require.Regexp(t, `(?s)Explain again</h2>.*when to call 911.*Clear</h2>.*the washing days`, desk.HTML)

	chapter := Handle(Request{Path: "/guide/signs", Fragment: held[1], Page: "https://example.org/", Language: "es"})
	require.Equal(t, "/guide/signs", chapter.Path)
	require.Equal(t, held[1], chapter.Fragment, "the way back is there")
}
