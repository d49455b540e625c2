package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// wholeSession is the state of a request with every room.
func wholeSession(r Request) *session {
	s := newSession(r)
	s.rooms = &whole
	return s
}

// The quick answer agrees with the suggestion itself, whoever of the example is out; and it is
// asked anew when somebody can help after all.
func TestWhetherATapWouldFillAnything(t *testing.T) {
	p := demoPhone(t)
	yes, no := 0, 0
	for out := range 1 << 4 {
		q := p.plan()
		for i := range 4 {
			about := q.AboutOf(uint8(i + 1))
			about.Out = out&(1<<i) != 0
			q = q.WithAbout(uint8(i+1), about)
		}
		s := wholeSession(Request{Now: p.now.Unix(), Zone: p.zone, Kept: p.kept})
		s.doc = p.doc()
		in, ok := s.splitInput(q)
		require.True(t, ok)
		want := s.proposesAny(in)
		require.Equal(t, want, s.fills(in), "out: %04b", out)
		if want {
			yes++
			require.True(t, s.takesOne(in), "it is found without a suggestion")
		} else {
			no++
		}
	}
	require.Positive(t, yes)
	require.Positive(t, no)
}
