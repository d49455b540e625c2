package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/page"
	"newel/core/split"
)

// wholeSession is the state of a request with every room.
func wholeSession(r Request) *session {
	s := newSession(r)
	s.rooms = &whole
	return s
}

// proposesAny tells whether a suggestion for what is open gives any date to anybody.
func (s *session) proposesAny(in page.Input) bool {
	for _, line := range s.propose(in, split.FillOpen).Lines {
		if line.To != 0 {
			return true
		}
	}
	return false
}

// What the button promises agrees with the suggestion itself, whoever of the example is out; and it
// is asked anew when somebody can help after all.
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
		} else {
			no++
		}
	}
	require.Positive(t, yes)
	require.Positive(t, no)
}

// Nobody is free for the ride on Monday afternoon: Dana works, Luis does not drive, and Ann does
// the shopping then. A suggestion has Luis do the shopping; that is for whoever reads it, and the
// page of the plan, which has no button for it, is made by the near core too.
func TestWhatOnlyAChangeOfPeopleWouldFill(t *testing.T) {
	p := withHelpers(t)
	p.send("/helper/1", helper("of", "Dana", "when", "work", "a-day-1", "1", "a-from", "13:00", "a-to", "17:00")...)
	p.at("2026-12-12T08:00:00-06:00") // what every plan has is over
	p.send("/duty/new/visit", therapy("first", "2026-12-14", "often", "once", "at", "14:00", "who", "")...)
	p.send("/duty/new/other", therapy("what", "Shopping", "first", "2026-12-14", "often", "once", "at", "14:00", "who", "Ann")...)
	s := wholeSession(Request{Now: p.now.Unix(), Zone: p.zone, Kept: p.kept})
	s.doc = p.doc()
	in, ok := s.splitInput(p.plan())
	require.True(t, ok)
	require.Equal(t, 1, in.Report.Count[split.Open]+in.Report.Count[split.Cannot])
	require.True(t, s.proposesAny(in))
	require.False(t, s.fills(in))

	p.send("/")
	require.Contains(t, p.text(), "1 date needs somebody.")
	require.Contains(t, p.text(), "See what would help")
	require.NotContains(t, p.text(), "Let Newel fill it")
	r := Request{Fragment: p.fragment, Path: "/", Now: p.now.Unix(), Zone: p.zone, Kept: p.kept}
	near := Near(r)
	require.False(t, near.Elsewhere)
	require.Equal(t, Handle(r), near)
	p.send("/split/suggest")
	require.Contains(t, p.text(), "Mon, Dec 14, 14:00 Ann")
	require.Contains(t, p.text(), "Luis instead of Ann")
}

// Where a suggestion gives nobody anything, its page says so, and so does the tap of an older page.
func TestThatNothingCanBeFilledIsSaid(t *testing.T) {
	p := withHelpers(t)
	p.send("/helper/1/out", "of", "Dana")
	p.send("/helper/3/out", "of", "Ann")
	p.send("/helper/2", helper("of", "Luis", "can-drive", "", "can-night", "", "can-steady", "", "when", "work", "a-day-0", "1", "a-day-1", "1",
		"a-day-2", "1", "a-day-3", "1", "a-day-4", "1", "a-day-5", "1", "a-day-6", "1", "a-from", "00:00", "a-to", "23:59")...)
	p.send("/split/suggest")
	require.Equal(t, "Nobody on the list can take what is open, as things stand.", p.part("notice-none"))
	p.send("/split/fill", "from", "split")
	require.Contains(t, p.part("notice-filled"), "Nobody on the list can take any of these as things stand.")
	require.Contains(t, p.last.Say, "Nobody on the list can take any of these as things stand.")
}
