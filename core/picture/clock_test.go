package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// On a clock twelve is at the top, three at the right, six at the bottom.
func TestTheFaceIsAClock(t *testing.T) {
	for _, at := range []struct {
		hour int
		x, y float64
	}{{12, 144, 44}, {3, 244, 144}, {6, 144, 244}, {9, 44, 144}, {1, 144 + 50, 144 - 50*math.Sqrt(3)}} {
		c := Clock{Start: 18 * 60 % Turn}
		x, y := c.point((at.hour+6)%12*60, 100)
		require.InDelta(t, at.x, x, 1e-9, at.hour)
		require.InDelta(t, at.y, y, 1e-9, at.hour)
	}
}

// Letters overlap neither each other nor the post, and stay in the drawing.
func TestLettersOfTheRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.IntRange(60, Turn).Draw(t, "first")
		second := rapid.IntRange(first, Turn).Draw(t, "second")
		third := rapid.IntRange(second, Turn).Draw(t, "third")
		if rapid.Bool().Draw(t, "near") {
			second, third = min(Turn, first+second%30), min(Turn, first+second%30+third%30)
		}
		c := Clock{ID: "fast-1", Name: "\"<", Start: rapid.IntRange(0, 11).Draw(t, "start") * 60, Post: third, Now: rapid.IntRange(-1, Turn-1).Draw(t, "now")}
		for _, a := range []Arc{{0, first, Plain, "1"}, {first, second, Dotted, "2"}, {second, third, Closed, "3"}} {
			if a.From < a.To {
				c.Arcs = append(c.Arcs, a)
			}
		}
		marks := c.marks()
		px, py := c.point(c.Post, ringOut+6)
		for i, m := range marks {
			require.LessOrEqual(t, math.Hypot(m.X-faceMid, m.Y-faceMid), faceMid-markHigh+1e-6)
			require.GreaterOrEqual(t, math.Hypot(m.X-px, m.Y-py), markHigh+7, "the post")
			for _, other := range marks[:i] {
				require.GreaterOrEqual(t, math.Hypot(m.X-other.X, m.Y-other.Y), 2*markHigh)
			}
		}
		knobs := c.knobs()
		for i, k := range knobs {
			require.True(t, k == first || k == second)
			require.True(t, i == 0 || k-knobs[i-1] >= knobApart)
		}
		wellFormed(t, ClockFace(&c))
		wellFormed(t, "<p>"+ClockKey("fast-1", Dotted, "2")+ClockPostKey()+"</p>")
	})
}

// An arc of a whole turn is drawn: SVG 2, 9.5.1 leaves out one that ends where it began.
func TestAWholeTurnIsDrawn(t *testing.T) {
	a := Arc{From: 0, To: Turn}
	c := Clock{Post: -1, Now: -1, Arcs: []Arc{a}}
	x1, y1 := c.point(a.From, ringOut)
	x2, y2 := pointAt(a.end(), ringOut)
	require.Greater(t, math.Hypot(x1-x2, y1-y2), 0.2)
	require.Less(t, math.Hypot(x1-x2, y1-y2), 1.0)
}
