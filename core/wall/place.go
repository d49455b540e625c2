package wall

import (
	"time"

	"newel/core/zone"
)

// At places a time of day of this date in a zone. A time that the clocks skip or
// repeat that night is read as RFC 5545 section 3.3.5 says, and the Fit tells so.
func (d Date) At(loc *time.Location, c Clock) (time.Time, zone.Fit) {
	year, month, day := d.YMD()
	hour, minute := c.HourMinute()
	return zone.At(loc, year, time.Month(month), day, hour, minute)
}
