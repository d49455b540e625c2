package merge

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// Values on both sides of their bounds, which are this package's own: what a stranger's
// link says beyond them is refused, and what a family may say is not.

func TestOwnLinesOnTheirBounds(t *testing.T) {
	for value, want := range map[string]bool{
		"5 Reading lamp": true, "0-3 Ask Mr. Ode": true, "0+0 Ask": true, "63 A list of later pages": true,
		"64 No list": false, "-1 No list": false, "0+x Ask": false, "0- Ask": false, "0+ Ask": false, "0+-3 Ask": false, "x Ask": false, "0": false, "+3 Ask": false,
	} {
		_, ok := ReadLine(value)
		require.Equal(t, want, ok, value)
	}
}

func TestMovedDatesOnTheirBounds(t *testing.T) {
	d := strconv.Itoa(int(day(t, "2027-03-16")))
	for at, want := range map[string]bool{"0": true, "1439": true, "1440": false, "-1": false, "": false, "x": false, "01": false} {
		_, moved := Moved(d + " " + at)
		require.Equal(t, want, moved, at)
	}
	for on, want := range map[int]bool{int(firstExtra): true, int(firstExtra) - 1: false, int(lastExtra): true, int(lastExtra) + 1: false} {
		_, moved := Moved(strconv.Itoa(on) + " 600")
		require.Equal(t, want, moved, on)
	}
}

// Each part of a pattern's text is a number of its own kind; one that is not spoils it all.
func TestPatternsOnTheirBounds(t *testing.T) {
	for text, want := range map[string]bool{
		"20521 630": true, "20521 0": true, "20521 1439": true, "20521 1440": false, "20521 -1": false, "20521 x": false, "20521": false,
		"20521 630 d2": true, "20521 630 d99": true, "20521 630 d100": false, "20521 630 d0": false, "20521 630 dx": false, "20521 630 2": false,
		"20521 630 d1 x1000": true, "20521 630 d1 x1001": false, "20521 630 d2 x0": false, "20521 630 d2 10": false,
		"20521 630 d2 x": false, "20521 630 w1 18 7": false, "20521 630 w1 128 1": false, "20521 630 d2 x10 u20600": false,
	} {
		_, ok := ReadRule(text)
		require.Equal(t, want, ok, text)
	}
}

func TestOtherValuesOnTheirBounds(t *testing.T) {
	zone := Key{Field: Zone}
	require.True(t, zone.allows(strings.Repeat("z", 64)))
	require.False(t, zone.allows(strings.Repeat("z", 65)))
	require.False(t, zone.allows(""), "a plan without a zone has no times")
	later := Key{Field: Setting, Sub: uint32(len(plan.Rules))}
	for value, want := range map[string]bool{"0": true, "999999": true, "1000000": false, "-1": false, "x": false, "": false} {
		require.Equal(t, want, later.allows(value), "a rule of later pages: %q", value)
	}
}

func TestDocumentsThatAreNotTheSame(t *testing.T) {
	k := Key{Field: Patient}
	doc := func(a Actor, n uint32, value string) *Doc {
		d := NewDoc(7)
		d.SetSeen(Stamp{a, n})
		d.Set(k, []Version{{Stamp{dana, 1}, value}})
		return d
	}
	require.True(t, doc(luis, 1, "Rosa").Equal(doc(luis, 1, "Rosa")))
	require.False(t, doc(luis, 1, "Rosa").Equal(doc(luis, 2, "Rosa")), "another act was seen")
	require.False(t, doc(luis, 1, "Rosa").Equal(doc(ann, 1, "Rosa")), "another device's")
	require.False(t, doc(luis, 1, "Rosa").Equal(doc(luis, 1, "Rose")))
	other := doc(luis, 1, "Rosa")
	other.Number = 8
	require.False(t, doc(luis, 1, "Rosa").Equal(other))
}

// An arrival is said for a day, and no last time for food or drink is counted from another
// day's (ASA 2017: hours before this operation). So a question about the arrival begins with what is
// shown: the day's own, even where another is earlier; where none is of that day, with one of those
// that were said.
func TestAQuestionAboutTheArrivalBeginsWithTheDaysOwn(t *testing.T) {
	start := New(rosa(t))
	says := func(a Actor, iso string, at wall.Clock) *Doc {
		return start.with(a, func(p *plan.Plan) {
			p.Surgery = day(t, iso)
			if at != wall.NoClock {
				p.Arrival = at
			}
		})
	}
	first := func(d *Doc) []Version {
		for _, q := range d.Questions() {
			if q.Field == Arrival {
				return q.Versions
			}
		}
		return nil
	}
	both := inAnyOrder(t, says(luis, "2027-03-10", 420), says(ann, "2027-03-11", 300))
	require.Equal(t, "420", first(both)[0].Value)
	p := both.Plan()
	require.EqualValues(t, 420, p.Arrival)

	none := inAnyOrder(t, both, says(otto, "2027-03-08", wall.NoClock))
	p = none.Plan()
	require.Equal(t, wall.NoClock, p.Arrival)
	versions := first(none)
	require.Len(t, versions, 2)
	require.Contains(t, []string{"300", "420"}, versions[0].Value)
}
