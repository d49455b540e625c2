package desk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A thousand rows, half of them with links that were sent before, a tenth of those corrected.
// build/bench holds the time against a peer; here it is only said.
func TestThousandRows(t *testing.T) {
	const rows = 1000
	v := voices()
	for _, s := range []*Settings{known(), own()} {
		plain := Read(bigTable(rows, nil), s, today, v)
		require.True(t, usable(plain.Faults))
		first := plain.Make(s, page, chance)
		links := fragments(first)[:rows/2]
		for i := range links {
			if i%10 == 0 && i > 0 {
				links[i-1] = first[rows/2+(i-1)].Fragment // another patient's, of another day
			}
		}
		text := bigTable(rows, links)
		for range 3 {
			start := time.Now()
			table := Read(text, s, today, v)
			read := time.Since(start)
			done := table.Make(s, page, chance)
			made := time.Since(start)
			out := table.Text(done, v[0])
			written := time.Since(start)
			count := [stateEnd]int{}
			for _, d := range done {
				count[d.State]++
			}
			require.Equal(t, [stateEnd]int{NewLink: 500, SameLink: 451, MovedLink: 49}, count)
			t.Logf("read %v, make %v, text %v, all %v; %d bytes; %v", read, made-read, written-made, written, len(out), count)
		}
	}
}
