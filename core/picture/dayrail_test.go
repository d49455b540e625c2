package picture

import (
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// wellFormed reads a drawing as XML 1.0 and gives its ids.
func wellFormed(t require.TestingT, text string) []string {
	var ids []string
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return ids
		}
		require.NoError(t, err, text)
		if start, ok := token.(xml.StartElement); ok {
			for _, a := range start.Attr {
				if a.Name.Local == "id" {
					require.NotContains(t, ids, a.Value)
					ids = append(ids, a.Value)
				}
			}
		}
	}
}

var someText = rapid.SampledFrom([]string{
	"", "3:30 AM", "Wed, Mar 10, 12:15 AM", "Stop drinking", "Sala de recuperación", "usually 7:30–11:00 AM",
	"por lo general mar, 9 mar, 11:00 p.m. – mié, 10 mar, 3:30 a.m.", "Si va a casa el mismo día: todo listo para ir a casa", "Krankenhausaufnahmestation",
})

func randomDay(t *rapid.T) Day {
	long := rapid.IntRange(1, 40*60).Draw(t, "long")
	minute := rapid.IntRange(0, long)
	d := Day{ID: "day-rail", Name: "<&\">", Long: long, Now: rapid.IntRange(-1, long+100).Draw(t, "now"), Word: "ahora"}
	for range rapid.IntRange(0, 5).Draw(t, "posts") {
		d.Posts = append(d.Posts, Post{minute.Draw(t, "at"), rapid.Bool().Draw(t, "duty"), someText.Draw(t, "time"), someText.Draw(t, "title")})
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "spans") {
		ends := []int{minute.Draw(t, "a"), minute.Draw(t, "b"), minute.Draw(t, "c"), minute.Draw(t, "d")}
		slices.Sort(ends)
		s := Span{Begins: [2]int{ends[0], ends[1]}, Ends: [2]int{ends[2], ends[3]}, Second: i%2 == 1, Open: i == 3, Title: someText.Draw(t, "title"), When: someText.Draw(t, "when")}
		if rapid.Bool().Draw(t, "unsure") { // it may end before it must have begun
			s.Begins[1], s.Ends[0] = ends[2], ends[1]
		}
		d.Spans = append(d.Spans, s)
	}
	for at := 0; at <= long; at += 120 {
		d.Hours = append(d.Hours, Hour{at, "medianoche"})
	}
	return d
}

// Every thing stands at the height that its minutes say, by a rule of three of our own, and
// inside the drawing.
func TestEveryThingStandsAtItsTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDay(t)
		l := d.layout()
		first, last := l.y(0), l.y(d.Long)
		at := func(minute int) float64 {
			return float64(first) + float64(minute)/float64(d.Long)*float64(last-first)
		}
		for i, p := range d.Posts {
			require.InDelta(t, at(p.At), l.Posts[i].Y, 1.5)
		}
		for _, s := range d.Spans {
			bars := l.bars(&s, d.Long)
			from, to := s.Begins[0], s.Ends[1]
			if s.Open {
				to = d.Long
			}
			if from >= to {
				require.Empty(t, bars)
				continue
			}
			require.InDelta(t, at(from), bars[0].Y, 1.5)
			end, sure := bars[0].Y, 0
			for _, b := range bars {
				require.InDelta(t, end, b.Y, 2.5, "the pieces of a span follow each other")
				if end = b.Y + b.High; b.Sure {
					sure++
					require.InDelta(t, at(s.Begins[1]), b.Y, 1.5)
					require.InDelta(t, at(s.Ends[0]), end, 3.5)
				}
				require.LessOrEqual(t, end, l.High)
			}
			require.InDelta(t, at(to), end, 3.5)
			require.Equal(t, !s.Open && s.Begins[1] < s.Ends[0], sure == 1)
		}
		if d.Now >= 0 {
			require.InDelta(t, at(min(d.Now, d.Long)), l.Filled, 1.5)
		}
	})
}

// No two labels overlap, none leaves the drawing, and their lines do not cross: they are in
// the order of what they lead to. A single word that is wider than the room may run on.
func TestLabelsDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := randomDay(t)
		l := d.layout()
		require.Len(t, l.Labels, len(d.Posts)+len(d.Spans))
		end, from := 0, 0
		for _, one := range l.Labels {
			require.GreaterOrEqual(t, one.Top, end)
			require.GreaterOrEqual(t, one.FromY, from)
			end, from = one.Top+len(one.Lines)*lineHigh, one.FromY
			for _, w := range one.Lines {
				require.Greater(t, w.Y, one.Top)
				require.Less(t, w.Y, end)
				wide := Width(w.Strong, Letter)*bolder + Width(w.Plain, Letter)
				if strings.ContainsRune(w.Strong+w.Plain, ' ') {
					require.LessOrEqual(t, float64(l.Text)+wide, float64(Wide))
				}
			}
		}
		require.LessOrEqual(t, end, l.High)
		for i, m := range l.Scale {
			require.Positive(t, float64(l.Rail-13)-Width(m.Text, Letter))
			require.False(t, l.Now > 0 && m.At > l.Now-lineHigh && m.At < l.Now+lineHigh, "under the marker of now")
			require.True(t, i == 0 || m.At-l.Scale[i-1].At >= lineHigh)
		}
		wellFormed(t, DayRail(&d))
	})
}

// What is drawn is what was laid out: a sure piece is filled and one that may be is striped, a
// thing that may overlap with others stands beside them, and an hour is 60 minutes of the scale.
func TestThePiecesAreDrawnAsTheyAre(t *testing.T) {
	d := Day{ID: "r", Long: 180, Now: -1, Spans: []Span{
		{Begins: [2]int{0, 30}, Ends: [2]int{90, 120}, Title: "a"},
		{Begins: [2]int{90, 120}, Ends: [2]int{150, 180}, Second: true, Title: "b"},
	}}
	l := d.layout()
	require.Len(t, l.Bars, 6)
	require.NotEqual(t, l.Bars[0].X, l.Bars[3].X, "beside each other")
	hour := l.y(60) - l.y(0)
	require.Equal(t, []int{hour, 2 * hour, 3 * hour}, []int{l.y(60) - l.y(0), l.y(120) - l.y(0), l.y(180) - l.y(0)})
	for i, b := range l.Bars {
		require.Equal(t, i%3 == 1, b.Sure)
		piece := dayPiece(&d, &b)
		require.Equal(t, b.Sure, strings.Contains(piece, `class="sure"`))
		require.Equal(t, !b.Sure, strings.Contains(piece, `class="maybe"`))
	}
}

// A time is not torn from its AM (U+202F joins them, as CLDR writes it).
func TestATimeIsNotTorn(t *testing.T) {
	require.Equal(t, []string{"Be", "5:30\u202fAM"}, Wrapped("Be 5:30\u202fAM", 10, 20))
	require.InDelta(t, Width(" ", 100), Width("\u202f", 100), 1)
}

// What has room stays where it wishes to be; two that wish for the same place share it.
func TestApart(t *testing.T) {
	require.Equal(t, []int{10, 40, 100}, apart([]int{10, 40, 100}, []int{20, 20, 20}, 0))
	require.Equal(t, []int{40, 60}, apart([]int{50, 50}, []int{20, 20}, 0))
	require.Equal(t, []int{2, 22, 42}, apart([]int{0, 0, 0}, []int{20, 20, 20}, 2))
	require.Empty(t, apart(nil, nil, 2))
}

// The least squares are as small as those of any other order-keeping places (all of a small
// grid tried), but for the rounding of an average.
func TestApartMovesAsLittleAsItCan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.IntRange(4, 12), 3, 3).Draw(t, "want")
		slices.Sort(want)
		high := rapid.SliceOfN(rapid.IntRange(1, 4), 3, 3).Draw(t, "high")
		cost := func(tops []int) int {
			sum := 0
			for i := range tops {
				sum += (tops[i] - want[i]) * (tops[i] - want[i])
			}
			return sum
		}
		got := apart(want, high, 0)
		best := cost(got)
		for a := 0; a < 20; a++ {
			for b := a + high[0]; b < 24; b++ {
				for c := b + high[1]; c < 28; c++ {
					best = min(best, cost([]int{a, b, c}))
				}
			}
		}
		require.True(t, got[1] >= got[0]+high[0] && got[2] >= got[1]+high[1])
		require.LessOrEqual(t, cost(got), best+3) // a third of a unit, for each of three
	})
}
