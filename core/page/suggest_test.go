package page_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/schedule"
	"newel/core/split"
)

// The wording of a proposal is ours: common practice, no published source. The first change
// is the example of the issue.

// therapyDates builds a plan with a series and gives the places of its dates.
func therapyDates(t *testing.T) (*schedule.Schedule, []int) {
	p := withFamily(ptr(harmless.plan(t)), "Luis")
	p.Duties = p.Duties[:1]
	p.Duties[0].Title = ""
	s, err := schedule.Build(p)
	require.NoError(t, err)
	return s, s.Series[0].Dates
}

func ptr[T any](v T) *T { return &v }

func suggested(t *testing.T, s *schedule.Schedule, p split.Proposal) page.SuggestView {
	in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: s.Arrival.Add(-48 * time.Hour)}
	return page.NewSuggestView(page.SuggestInput{Input: in, Proposal: &p})
}

func TestTheSmallestChangesInWords(t *testing.T) {
	s, dates := therapyDates(t)
	wednesday := s.Duties[dates[1]].Session.From
	for want, c := range map[string]split.Change{
		"If Luis were off work from 09:30 on Wednesdays, that would cover 6 rides.":            {Why: split.AtWork, Weekday: 3, Clock: 570, Starts: true, Covers: dates[:6]},
		"If Luis could start at 09:30 on Wednesdays, that would cover 6 rides.":                {Why: split.NotThen, Weekday: 3, Clock: 570, Starts: true, Covers: dates[:6]},
		"If Luis could stay until 13:05 on " + dayOf(wednesday) + ", that would cover 1 ride.": {Why: split.NotThen, Weekday: -1, Day: wednesday, Clock: 785, Covers: dates[:1]},
		"If Luis were there on " + dayOf(wednesday) + ", that would cover 2 rides.":            {Why: split.IsAway, Weekday: -1, Day: wednesday, Covers: dates[:2]},
		"If Luis were free from 19:40 to 08:20 on Fridays, that would cover 1 ride.":           {Why: split.NotThen, Weekday: 5, Clock: 19*60 + 40, Starts: true, End: 8*60 + 20, Covers: dates[:1]},
		"If Luis could stay the night, that would cover 2 dates.":                              {Why: split.NoNight, Weekday: -1, Covers: []int{0, dates[0]}},
		"If Luis could help after all, that would cover 1 ride.":                               {Why: split.IsOut, Weekday: -1, Covers: dates[:1]},
	} {
		c.Who = 1
		v := suggested(t, s, split.Proposal{Changes: []split.Change{c}})
		require.Equal(t, []string{want}, v.Changes)
	}
}

func dayOf(at time.Time) string { return at.Format("Mon, Jan 2") }

// Dates of one duty for one helper are one line of the form, and what they do not share is
// said at each.
func TestLinesAreGrouped(t *testing.T) {
	s, dates := therapyDates(t)
	work := split.Reason{Why: split.AtWork, From: s.Duties[dates[0]].Leave.Add(-time.Hour), Until: s.Duties[dates[0]].There.From.Add(time.Minute)}
	v := suggested(t, s, split.Proposal{
		Lines: []split.Line{
			{Duty: dates[0], To: 2, Because: []split.Because{split.HasSeries}, Others: []split.Other{{Who: 1, Why: []split.Reason{work}}}},
			{Duty: dates[1], To: 2, Because: []split.Because{split.OnlyOne}, Others: []split.Other{{Who: 1, Why: []split.Reason{{Why: split.NoCar}}}}},
			{Duty: dates[2], From: 2, To: 1, Because: []split.Because{split.Would}, Others: []split.Other{{Who: 2}}},
			{Duty: dates[3], From: 1},
		},
		Open: []int{dates[3]},
	})
	require.Len(t, v.Groups, 3)
	require.Equal(t, "xLuis, 2 dates", v.Groups[0].To)
	require.Equal(t, "then it stays with one person", v.Groups[0].Because)
	require.Equal(t, []string{"", "nobody else can"}, []string{v.Groups[0].Lines[0].Note, v.Groups[0].Lines[1].Note})
	require.Equal(t, []string{"Luis is at work until 10:21. (1 date)", "Luis: It needs someone who drives. (1 date)"}, v.Groups[0].Others)
	require.Equal(t, "Luis instead of xLuis", v.Groups[1].To)
	require.Equal(t, []string{"xLuis could do it, too."}, v.Groups[1].Others)
	require.Equal(t, "nobody yet", v.Groups[2].To)
	require.Equal(t, "Luis cannot do it, and nobody else can", v.Groups[2].Because)
	require.Equal(t, "2 dates that somebody has would change hands.", v.Moved)
	require.Equal(t, []int{1}, v.Groups[0].Ticked(map[string]string{"g0": "1", "l1": "1"}))
	require.Empty(t, v.Groups[0].Ticked(map[string]string{"l0": "1", "l1": "1"}), "the box of the group takes all its dates along")
	require.Equal(t, []int{2}, v.Groups[1].Ticked(map[string]string{"l2": "1"}))
}

// Only what is proven is called so; else the first aim for which it is not says how much.
func TestTheProofInWords(t *testing.T) {
	s, _ := therapyDates(t)
	var a assign.Answer
	for i := range a.Values {
		a.Values[i] = assign.Value{Got: assign.Ratio{Num: 10, Den: 1}, Bound: assign.Ratio{Num: 10, Den: 1}, Proven: true}
	}
	require.Equal(t, []string{"No other split is better by the rules below; that is proven. Whether it suits you is yours to say."}, suggested(t, s, split.Proposal{Answer: a}).Proof)
	for level, want := range map[assign.Level]string{
		assign.CoverMust: "It may be that something more could be covered.",
		assign.Peak:      "The busiest person could have 25 % less at most.",
		assign.Pairs:     "At most 3 fewer changes of person would be possible.",
		assign.Moves:     "At most 3 fewer dates would change hands.",
	} {
		b := a
		b.Values[level] = assign.Value{Got: assign.Ratio{Num: 10, Den: 1}, Bound: assign.Ratio{Num: 15, Den: 2}}
		require.Equal(t, []string{"It is a good split, but it is not proven that there is none better.", want}, suggested(t, s, split.Proposal{Answer: b}).Proof)
	}
	// A load that nobody is limited by need not be proven; a part of the plan is not all of it.
	a.Values[assign.Peak] = assign.Value{Got: assign.Ratio{Num: 10, Den: 11}, Bound: assign.Ratio{Num: 1, Den: 2}}
	require.Contains(t, suggested(t, s, split.Proposal{Answer: a}).Proof[0], "that is proven")
	a.Values[assign.Peak].Got = assign.Ratio{Num: 11, Den: 12}
	require.NotContains(t, suggested(t, s, split.Proposal{Answer: a}).Proof[0], "that is proven")
	require.Equal(t, []string{"There are more dates than can be shared out at once: the last 7 are left out."}, suggested(t, s, split.Proposal{Answer: a, Beyond: 7}).Proof)
}

// A load is said in hours to the nearest half, and drawn against what was offered.
func TestLoadsInWords(t *testing.T) {
	s, dates := therapyDates(t)
	v := suggested(t, s, split.Proposal{
		Lines: []split.Line{{Duty: dates[1], From: 2, To: 1, Because: []split.Because{split.IsFree}}},
		Loads: []split.Load{{Who: 1, Before: 100, After: 590, Offer: 720}, {Who: 2, Before: 10, After: 10, Offer: 5}},
	})
	require.Equal(t, "10 of 12 hours in 7 weeks (now 1½)", v.Loads[0].Hours)
	require.Equal(t, page.Bar{Now: 41, Was: 7, Offer: 50}, v.Loads[0].Bar, "half its length is the offer: the other has twice as much as offered")
	require.Equal(t, page.Bar{Now: 100, Was: -1, Offer: 50}, v.Loads[1].Bar)
	require.Equal(t, "½ of ½ hours in 7 weeks", v.Loads[1].Hours)
}
