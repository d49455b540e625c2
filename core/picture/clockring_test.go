package picture

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var arcPath = regexp.MustCompile(`<path class="arc" fill="([^"]*)" d="M([\d.]+) ([\d.]+)A(\d+) \d+ 0 (\d) 1 ([\d.]+) ([\d.]+)L`)

// Each stretch of the ring runs clockwise from its beginning to its end, the long way round where
// it is more than half of it (SVG 2, 9.3.8: large-arc-flag), with the pattern of what holds then.
func TestTheRingIsDrawnAsItIs(t *testing.T) {
	c := Clock{ID: "fast-1", Start: 18 * 60 % Turn, Post: -1, Now: -1, Arcs: []Arc{
		{From: 0, To: 120, Pattern: Plain, Mark: "1"}, {From: 120, To: 600, Pattern: Dotted, Mark: "2"}, {From: 600, To: 720, Pattern: Closed, Mark: "3"},
	}}
	drawn := ClockFace(&c)
	found := arcPath.FindAllStringSubmatch(drawn, -1)
	require.Len(t, found, len(c.Arcs))
	for i, m := range found {
		a := c.Arcs[i]
		number := func(n int) float64 {
			x, err := strconv.ParseFloat(m[n], 64)
			require.NoError(t, err)
			return x
		}
		require.Equal(t, []string{"none", "url(#fast-1-dotted)", "url(#fast-1-closed)"}[i], m[1])
		angle := func(x, y float64) float64 { // clockwise from the top, in minutes of a turn
			turns := math.Atan2(x-faceMid, faceMid-y) / (2 * math.Pi)
			return math.Mod(turns+1, 1) * Turn
		}
		from, to := angle(number(2), number(3)), angle(number(6), number(7))
		require.InDelta(t, float64((18*60+a.From)%Turn), from, 1)
		swept := math.Mod(to-from+Turn, Turn)
		require.InDelta(t, float64(a.To-a.From), swept, 1)
		require.Equal(t, swept > Turn/2, m[5] == "1", "minutes %d to %d", a.From, a.To)
	}
	// What is dotted has dots, and what is closed is crossed out.
	_, defs, _ := strings.Cut(drawn, `id="fast-1-dotted"`)
	dots, crossed, _ := strings.Cut(defs, `id="fast-1-closed"`)
	require.Contains(t, dots, "<circle")
	crossed, _, _ = strings.Cut(crossed, "</pattern>")
	require.NotContains(t, crossed, "<circle")
	require.Contains(t, crossed, `class="cross"`)
}

// A knob stands where the next stretch begins, and none so near to another or to the post that
// they would touch.
func TestAKnobStandsWhereAStretchBegins(t *testing.T) {
	c := Clock{Post: 690, Arcs: []Arc{{0, 300, Plain, "1"}, {300, 570, Dotted, "2"}, {570, 720, Closed, "3"}}}
	require.Equal(t, []int{300, 570}, c.knobs())
	c.Arcs[1].From, c.Arcs[2].From = 560, 570
	require.Equal(t, []int{560}, c.knobs())
	c.Arcs[1].From, c.Arcs[2].From, c.Post = 300, 570, 580
	require.Equal(t, []int{300}, c.knobs())
}
