package catalogue

import (
	"bytes"
	"encoding/gob"
	"maps"
	"os/exec"
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

// nearly has the near core, compiled as it is for the page, answer requests.
func nearly(t *testing.T, requests []app.Request) (answers [][]byte) {
	var in, out, said bytes.Buffer
	require.NoError(t, gob.NewEncoder(&in).Encode(requests))
	near := exec.Command("go", "run", "-tags=near", "./near")
	near.Stdin, near.Stdout, near.Stderr = &in, &out, &said
	require.NoError(t, near.Run(), &said)
	require.NoError(t, gob.NewDecoder(&out).Decode(&answers))
	require.Len(t, answers, len(requests))
	return answers
}

// TestNearAnswersAsWhole: the near core gives what the whole one gives, byte for byte, or that it has
// to be asked; the two are one page to the person.
func TestNearAnswersAsWhole(t *testing.T) {
	var requests []app.Request
	var names []string
	for _, language := range guide.Languages {
		for _, s := range states(t) {
			screen, err := s.Screen(language)
			require.NoError(t, err)
			for _, r := range screen.Sent {
				requests, names = append(requests, r), append(names, s.Name)
			}
		}
	}
	elsewhere := app.WriteResponse(app.Response{Elsewhere: true})
	itself, left := map[string]int{}, map[string]int{}
	for i, near := range nearly(t, requests) {
		r := requests[i]
		kind := askedFor(r)
		if bytes.Equal(elsewhere, near) {
			left[kind]++
			continue
		}
		require.Equal(t, string(app.WriteResponse(app.Handle(r))), string(near), "%s: %s", names[i], r.Path)
		itself[kind]++
	}
	for _, kind := range nearAnswers {
		assert.Positive(t, itself[kind], "%s is in no state", kind)
		assert.Zero(t, left[kind], "%s is left to the whole core", kind)
	}
	t.Log("answered:", slices.Sorted(maps.Keys(itself)))
	t.Log("left:", left)
}
