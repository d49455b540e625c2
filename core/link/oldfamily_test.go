package link

import (
	"math/rand"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// withFamily is the plan of testdata/link/v2/family.txt.
func withFamily(t testing.TB) plan.Plan {
	p := plan.Plan{
		Number: 11259375, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 330,
		Zone: "America/Chicago", Drive: 40, Parking: 15, Facts: plan.SoapGiven | plan.HomeAnswered | plan.Stairs,
		Program: plan.Program{Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road", Phone: "555-0142"},
		Ticked:  []plan.Tick{{Code: 1}},
		Helpers: []string{"Dana", "Luis"}, Revision: 3,
	}
	p.Cover = [len(p.Cover)]uint8{1, 1, 0, 2, 0}
	p.Duties = []plan.Duty{
		{
			ID: 1, Revision: 2, Kind: plan.TherapyRide, Place: "Millrace Therapy", Note: "loose trousers", Who: 1, Length: 45,
			Ride: plan.Ride{Own: 10, Drive: 20, Parking: 5, Early: 10, Leaves: true},
			Rule: repeat.Rule{
				First: day(t, "2027-03-15"), At: 630, Freq: repeat.Weekly, Every: 1,
				Days: repeat.DaysOf(time.Monday, time.Wednesday, time.Friday), Week: time.Monday, Count: 18,
				Skipped: []wall.Date{day(t, "2027-04-05")},
				Moved:   []repeat.Move{{From: day(t, "2027-03-24"), To: repeat.Moment{Day: day(t, "2027-03-24"), At: 840}}},
				Extra:   []repeat.Moment{{Day: day(t, "2027-04-10"), At: 540}},
			},
		},
		{
			ID: 3, Revision: 1, Kind: plan.VisitRide, Title: "Check-up", Length: 30, Dropped: true, Source: 305419896,
			Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown, Early: 15},
			Rule: repeat.Rule{
				First: day(t, "2027-03-26"), At: 555, Freq: repeat.Monthly, Every: 2,
				Nth: []repeat.Nth{{N: -1, Day: time.Friday}}, Last: day(t, "2027-09-30"),
			},
		},
		{
			ID: 4, Kind: plan.Meals, Title: "Soup", Who: 2, Length: 30,
			Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown},
			Rule: repeat.Rule{First: day(t, "2027-03-12"), At: 720, Every: 1},
		},
	}
	return p
}

func TestLinksOfVersion2OpenForEver(t *testing.T) {
	data, err := os.ReadFile("../../testdata/link/v2/family.txt")
	require.NoError(t, err)
	_, fragment, ok := strings.Cut(strings.TrimSpace(string(data)), "fragment: ")
	require.True(t, ok)
	p, err := decodeOld(fragment)
	require.NoError(t, err)
	require.Equal(t, old{withFamily(t), 7}, p)
	require.Equal(t, fragment, encodeOld(p))
	d, err := Decode(fragment)
	require.NoError(t, err)
	require.Equal(t, withFamily(t), d.Plan())
	require.Equal(t, []merge.Stamp{{Actor: merge.Maker, N: 7}}, d.Seen())
}

// anyFamily gives a plan helpers and duties with every field anywhere in its range.
func anyFamily(r *rand.Rand, p plan.Plan) plan.Plan {
	for range r.Intn(4) {
		if name := anyText(r, plan.MaxName); name != "-" {
			p, _ = p.WithHelper(name)
		}
	}
	who := func() uint8 { return uint8(r.Intn(len(p.Helpers) + 1)) }
	for i := range p.Cover {
		p.Cover[i] = who()
	}
	p.Revision = uint16(r.Intn(1 << 16))
	for range r.Intn(5) {
		d := plan.Duty{
			ID: p.FreshDuty(0) + uint32(r.Intn(20)), Revision: uint16(r.Intn(1 << 16)), Kind: plan.DutyKind(r.Intn(int(plan.DutyKindEnd))),
			Title: anyText(r, plan.MaxName), Place: anyText(r, plan.MaxText), Note: anyText(r, plan.MaxText), Who: who(),
			Source: r.Uint32() >> r.Intn(32), Length: 1 + r.Intn(plan.MaxLength), Dropped: r.Intn(4) == 0, Rule: anyRule(r),
			Ride: plan.Ride{
				Own: r.Intn(plan.MaxDrive + 1), Drive: r.Intn(plan.MaxDrive+2) - 1, Parking: r.Intn(plan.MaxParking+2) - 1,
				Early: r.Intn(plan.MaxEarly + 1), Leaves: r.Intn(2) == 0,
			},
		}
		p = p.WithDuty(d)
	}
	return p
}

// anyRule makes a rule that passes Check.
func anyRule(r *rand.Rand) repeat.Rule {
	for {
		rule := repeat.Rule{
			First: wall.FirstDate + wall.Date(r.Intn(30_000)), At: wall.Clock(r.Intn(1440)),
			Freq: repeat.Freq(r.Intn(4)), Every: 1 + r.Intn(4),
			Days: repeat.Days(1 + r.Intn(127)), Week: time.Weekday(r.Intn(7)),
		}
		if r.Intn(2) == 0 {
			rule.MonthDays = []int8{int8(1 + r.Intn(31)), int8(-1 - r.Intn(31))}
		} else {
			rule.Nth = []repeat.Nth{{N: int8(r.Intn(11) - 5), Day: time.Weekday(r.Intn(7))}}
		}
		switch r.Intn(3) {
		case 0:
			rule.Count = 1 + r.Intn(20)
		case 1:
			rule.Last = rule.First + 30 + wall.Date(r.Intn(300))
		}
		if rule = rule.Canonical(); rule.Check() != nil {
			continue
		}
		days, _ := rule.Pattern()
		for range r.Intn(3) {
			from := days[r.Intn(len(days))]
			moment := repeat.Moment{Day: from + wall.Date(r.Intn(9)-4), At: wall.Clock(r.Intn(1440))}
			switch r.Intn(3) {
			case 0:
				rule.Skipped = append(rule.Skipped, from)
			case 1:
				rule.Moved = append(rule.Moved, repeat.Move{From: from, To: moment})
			default:
				rule.Extra = append(rule.Extra, moment)
			}
		}
		if rule = rule.Canonical(); rule.Check() == nil {
			return rule
		}
	}
}

// The numbers of duties had 16 bits.
func TestTheLastNumberOfADutyInVersion2(t *testing.T) {
	p := withFamily(t)
	p.Duties = p.Duties[:2]
	p.Duties[0].ID, p.Duties[1].ID = 1<<16-2, 1<<16-1
	read, err := decodeOld(encodeOld(old{p, 1}))
	require.NoError(t, err)
	require.EqualValues(t, 1<<16-1, read.Duties[1].ID)
	p.Duties[0].ID, p.Duties[1].ID = 1<<16-1, 1<<16
	_, err = decodeOld(encodeOld(old{p, 1}))
	require.ErrorIs(t, err, ErrDamaged)
}
