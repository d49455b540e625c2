package households

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/wall"
)

// The families are what the rows say of them, on whatever day the benchmark runs: a Monday
// or a Sunday, and across the end of a year.
func TestTheFamiliesAreWhatTheRowsSay(t *testing.T) {
	for _, h := range All {
		for _, today := range []wall.Date{20886, 20887, 20892, 21180} {
			doc := h.Grown(today)
			require.NoError(t, doc.Check())
			p := doc.Plan()
			require.Len(t, p.Helpers, len(h.Helpers))
			dates, last := 0, wall.Date(0)
			for i := range p.Duties {
				all, faults := p.Duties[i].Rule.All()
				require.Empty(t, faults)
				dates += len(all)
				last = max(last, all[len(all)-1].Day)
			}
			require.Equal(t, h.Dates, dates, h.Name)
			weeks := (int(last-p.Surgery) + 6) / 7
			require.Equal(t, h.Weeks, weeks, h.Name)
		}
	}
}

func TestTheLinksOpenAndJoin(t *testing.T) {
	for _, h := range All {
		links := h.Links(20886)
		own := decode(t, links.Own)
		require.True(t, own.Equal(h.Grown(20886)))
		one, err := merge.Join(own, decode(t, links.Other))
		require.NoError(t, err)
		require.False(t, one.Equal(own), "the other changed something")
		both, err := merge.Join(one, decode(t, links.Later))
		require.NoError(t, err)
		require.False(t, both.Equal(one), "and so did the third")
		require.NotEmpty(t, both.Questions(), "two took the same dates")
	}
}

func decode(t *testing.T, fragment string) *merge.Doc {
	t.Helper()
	require.LessOrEqual(t, len(fragment), link.MaxLength)
	doc, err := link.Decode(fragment)
	require.NoError(t, err)
	return doc
}
