package zone

import (
	"math"
	"time"
)

// steady is a stretch of a zone's wall clock, in seconds as if it were UTC, that lies
// further than reach from every change of the clocks: all its times are Exact.
type steady struct {
	loc      *time.Location
	from, to int64
	offset   time.Duration
}

// lately are the stretches that were needed last. The hundreds of dates of a plan lie
// in two or three, and four lookups of an offset for each cost more than all the rest
// of placing it. Like everything in core it is for one goroutine.
var lately []steady

// mostLately bounds them: the years that a plan can reach have a dozen.
const mostLately = 16

// stretch finds the one that a time on the wall lies in; nil close to a change.
func stretch(loc *time.Location, wall int64) *steady {
	for i := range lately {
		if s := &lately[i]; s.loc == loc && wall >= s.from && wall < s.to {
			return s
		}
	}
	s := stretchAround(loc, time.Unix(wall, 0))
	if wall < s.from || wall >= s.to {
		return nil
	}
	if len(lately) == mostLately {
		lately = lately[:0]
	}
	lately = append(lately, s)
	return &lately[len(lately)-1]
}

func stretchAround(loc *time.Location, wall time.Time) steady {
	s := steady{loc: loc, from: math.MinInt64, to: math.MaxInt64, offset: offset(loc, wall)}
	from, to := wall.In(loc).ZoneBounds()
	if !from.IsZero() {
		s.from = from.Add(reach).Unix()
	}
	if !to.IsZero() {
		s.to = to.Add(-reach).Unix()
	}
	return s
}
