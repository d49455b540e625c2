package picture

import "math"

// Clock is a plain clock face, twelve at the top, with a ring around it that says what is
// allowed during twelve hours.
type Clock struct {
	ID, Name string
	Start    int // what the face shows at the beginning of its twelve hours, in minutes after twelve, below Turn
	Arcs     []Arc
	Post     int // a thing that has one time, in minutes from the start; below 0: none
	Now      int // the same, of now
}

// Turn is how many minutes a face shows.
const Turn = 12 * 60

// Arc is a stretch of the ring.
type Arc struct {
	From, To int // minutes from the start, 0 to Turn
	Pattern  ArcPattern
	Mark     string // a letter or figure, by which the words below tell which it is
}

// ArcPattern is how a stretch is filled; each is more closed than the one before.
type ArcPattern uint8

// The patterns.
const (
	Plain  ArcPattern = iota + 1
	Dotted            // with some gaps
	Closed            // crossed out
)

// The measures of the face, in units of the drawing.
const (
	faceMid   = Wide / 2
	ringOut   = 120.0
	ringIn    = 90.0
	numeralAt = 70.0
	markHigh  = 11.0 // half of a mark
	outMark   = ringOut + markHigh + 2
	postHigh  = 10.0 // half of a post, from corner to corner
)

// point is where a minute from the start stands at a distance from the middle.
func (c *Clock) point(minute int, away float64) (x, y float64) {
	return pointAt(float64(c.Start+minute), away)
}

func pointAt(minute, away float64) (x, y float64) {
	sin, cos := math.Sincos(minute * 2 * math.Pi / Turn)
	return faceMid + away*sin, faceMid - away*cos
}

// end is the end of an arc; a whole turn stops short of its beginning, since SVG draws no
// arc from a point to itself (SVG 2, 9.5.1).
func (a *Arc) end() float64 {
	if a.To-a.From >= Turn {
		return float64(a.To) - 0.5
	}
	return float64(a.To)
}

// wideFlag is SVG's flag for more than half a turn.
func wideFlag(minutes int) int {
	if minutes > Turn/2 {
		return 1
	}
	return 0
}

// letter is where the letter of an arc stands.
type letter struct {
	X, Y float64
	Text string
}

// marks places each letter in the middle of its arc; where the arc is too short for it,
// outside of the ring, and far enough from the post and the letter that follows.
func (c *Clock) marks() []letter {
	all := make([]letter, len(c.Arcs))
	most := Turn
	if c.Post >= 0 {
		most = c.Post - minutesFor(markHigh+postHigh)
	}
	for i := len(c.Arcs) - 1; i >= 0; i-- {
		a := &c.Arcs[i]
		at, away := (a.From+a.To)/2, (ringIn+ringOut)/2
		if long := float64(a.To-a.From) * 2 * math.Pi / Turn * away; long < 2*markHigh+2 {
			at, away = min(at, most), outMark
			most = at - minutesFor(2*markHigh)
		}
		x, y := c.point(at, away)
		all[i] = letter{x, y, a.Mark}
	}
	return all
}

// knobs are where one arc ends and the next begins, so far as there is room for a post.
func (c *Clock) knobs() []int {
	var all []int
	for i := range c.Arcs {
		a := &c.Arcs[i]
		if a.From > 0 && (len(all) == 0 || a.From-all[len(all)-1] >= knobApart) && (c.Post < 0 || c.Post-a.From >= knobApart) {
			all = append(all, a.From)
		}
	}
	return all
}

// knobApart is how many minutes two posts on the inner edge of the ring need.
const knobApart = 24

// minutesFor is how many minutes apart, outside of the ring, leave so much room and a little.
func minutesFor(room float64) int {
	return int(math.Ceil((room + 2) * Turn / (2 * math.Pi * (outMark - 4))))
}

// letterAt is a letter in the middle of a sign beside words.
func letterAt(text string) letter { return letter{22, 12, text} }
