package catalogue

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
)

// nearAnswers are the requests that a helper makes with a link on a phone in the first minutes. The
// near core answers every one of them in the catalogue itself.
var nearAnswers = []string{
	"/", "/clock", "/duty/N", "/duty/N/date", "/duty/N/days", "/duty/N/drop", "/duty/N/put-back", "/forget", "/guide", "/guide/…", "/join", "/language", "/link", "/me",
	"/put-back", "/read", "/send", "/settle", "/tick", "/undo", "/unlock", "/who/…",
}

// askedFor is the kind of a request's path. The desk's screens and what comes back of a lock have a
// path of the plan's, and are named by what is beside it.
func askedFor(r app.Request) string {
	word, _, _ := strings.Cut(r.Fragment, ".")
	switch kind := kindOf(r.Path); {
	case word == "start", word == "desk", word == "said":
		return "#" + word + kind
	case kind == "/link" && slices.ContainsFunc(r.Fields, func(f app.Field) bool { return f.Name == "locked" || f.Name == "unable" }):
		return "/link, locked"
	case strings.HasPrefix(kind, "/guide/"):
		return "/guide/…"
	default:
		return kind
	}
}

// TestNearAnswersAsWhole: the near core gives what the whole one gives, byte for byte, or that it has
// to be asked; the two are one page to the person.
func TestNearAnswersAsWhole(t *testing.T) {
	itself, left := map[string]int{}, map[string]int{}
	for _, language := range guide.Languages {
		for _, s := range states(t) {
			screen, err := s.Screen(language)
			require.NoError(t, err)
			for _, r := range screen.Sent {
				kind := askedFor(r)
				near := app.Near(r)
				if near.Elsewhere {
					require.Equal(t, app.Response{Elsewhere: true}, near, "%s: %s", s.Name, r.Path)
					left[kind]++
					continue
				}
				require.Equal(t, app.Handle(r), near, "%s: %s", s.Name, r.Path)
				itself[kind]++
			}
		}
	}
	for _, kind := range nearAnswers {
		assert.Positive(t, itself[kind], "%s is in no state", kind)
		assert.Zero(t, left[kind], "%s is left to the whole core", kind)
	}
	t.Log("answered:", slices.Sorted(maps.Keys(itself)))
	t.Log("left:", left)
}
