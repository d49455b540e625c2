package plan

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
)

func duty(t *testing.T) Duty {
	return Duty{
		ID: 3, Kind: TherapyRide, Length: 45, Ride: Ride{Drive: 20, Parking: 10, Early: 10},
		Rule: repeat.Rule{First: day(t, "2027-03-15"), At: 630, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(1), Week: 1, Count: 6},
	}
}

func TestASoundDutyHasNoProblem(t *testing.T) {
	d := duty(t)
	require.Empty(t, CheckDuty(&d))
	d.Ride.Drive, d.Ride.Parking = Unknown, Unknown
	require.Empty(t, CheckDuty(&d))
}

func TestEachProblemOfADutyNamesItsField(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Duty)
		want  Problem
	}{
		"title too long": {func(d *Duty) { d.Title = strings.Repeat("x", 41) }, Problem{Field: "title", Code: TextLong, High: 40}},
		"place too long": {func(d *Duty) { d.Place = strings.Repeat("x", 121) }, Problem{Field: "place", Code: TextLong, High: 120}},
		"note too long":  {func(d *Duty) { d.Note = strings.Repeat("x", 121) }, Problem{Field: "note", Code: TextLong, High: 120}},
		"kind":           {func(d *Duty) { d.Kind = DutyKindEnd }, Problem{Field: "kind", Code: ChoiceUnknown}},
		"no length":      {func(d *Duty) { d.Length = 0 }, Problem{Field: "length", Code: LengthLong, Low: 1, High: 1440}},
		"length":         {func(d *Duty) { d.Length = 1441 }, Problem{Field: "length", Code: LengthLong, Low: 1, High: 1440}},
		"length below 0": {func(d *Duty) { d.Length = -1 }, Problem{Field: "length", Code: NumberNegative}},
		"own way":        {func(d *Duty) { d.Ride.Own = -1 }, Problem{Field: "own", Code: NumberNegative}},
		"drive":          {func(d *Duty) { d.Ride.Drive = 721 }, Problem{Field: "drive", Code: DriveLong, High: 720}},
		"parking":        {func(d *Duty) { d.Ride.Parking = 181 }, Problem{Field: "parking", Code: ParkingLong, High: 180}},
		"early":          {func(d *Duty) { d.Ride.Early = 181 }, Problem{Field: "early", Code: EarlyLong, High: 180}},
		"no first day":   {func(d *Duty) { d.Rule.First = 0 }, Problem{Field: "first", Code: DateMissing}},
		"count":          {func(d *Duty) { d.Rule.Count = 1001 }, Problem{Field: "times", Code: RuleFault + repeat.CountFault}},
		"too long":       {func(d *Duty) { d.Rule.Every, d.Rule.Count = 99, 6 }, Problem{Field: "ends", Code: RuleFault + repeat.TooLong}},
		"every":          {func(d *Duty) { d.Rule.Every = 100 }, Problem{Field: "every", Code: RuleFault + repeat.EveryFault}},
		"last":           {func(d *Duty) { d.Rule.Count, d.Rule.Last = 0, d.Rule.First-1 }, Problem{Field: "last", Code: RuleFault + repeat.LastFault}},
		"days":           {func(d *Duty) { d.Rule.Days = 0 }, Problem{Field: "days", Code: RuleFault + repeat.DayFault}},
		"time":           {func(d *Duty) { d.Rule.At = 1440 }, Problem{Field: "at", Code: RuleFault + repeat.TimeFault}},
	} {
		d := duty(t)
		c.spoil(&d)
		require.Equal(t, []Problem{c.want}, CheckDuty(&d), name)
	}
}

func TestProblemsOfAFamily(t *testing.T) {
	for name, spoil := range map[string]func(*Plan){
		"names twice":          func(p *Plan) { p.Helpers = []string{"Dana", "Dana"} },
		"an empty name":        func(p *Plan) { p.Helpers = []string{""} },
		"cover without helper": func(p *Plan) { p.Cover[0] = 1 },
		"who without helper":   func(p *Plan) { d := duty(t); d.Who = 1; p.Duties = []Duty{d} },
		"out of order":         func(p *Plan) { a, b := duty(t), duty(t); b.ID = 2; p.Duties = []Duty{a, b} },
		"number 0":             func(p *Plan) { d := duty(t); d.ID = 0; p.Duties = []Duty{d} },
		"too many helpers": func(p *Plan) {
			for i := range MostHelpers + 1 {
				p.Helpers = append(p.Helpers, "x"+strconv.Itoa(i))
			}
		},
		"too many duties": func(p *Plan) {
			for i := range MostDuties + 1 {
				d := duty(t)
				d.ID, d.Rule.Count = uint32(i+1), 1
				p.Duties = append(p.Duties, d)
			}
		},
		"too many dates": func(p *Plan) {
			for i := range 4 {
				d := duty(t)
				d.ID, d.Rule = uint32(i+1), repeat.Rule{First: d.Rule.First, At: 630, Freq: repeat.Daily, Every: 1, Count: 1000}
				p.Duties = append(p.Duties, d)
			}
		},
	} {
		p, today := sound(t)
		spoil(&p)
		require.NotEmpty(t, Check(&p, today), name)
		require.False(t, Usable(Check(&p, today)), name)
	}
}

func TestDutiesStayInOrder(t *testing.T) {
	p, _ := sound(t)
	d := duty(t)
	q := p.WithDuty(d)
	require.Empty(t, p.Duties, "the plan it is called on keeps its own")
	for _, id := range []uint32{1<<32 - 1, 1, 64<<NthBits | 1} {
		d.ID = id
		q = q.WithDuty(d)
	}
	var ids []uint32
	for i := range q.Duties {
		ids = append(ids, q.Duties[i].ID)
	}
	require.Equal(t, []uint32{1, 3, 64<<NthBits | 1, 1<<32 - 1}, ids)
	d.ID = 1
	d.Dropped = true
	q = q.WithDuty(d)
	require.Len(t, q.Duties, 4)
	require.True(t, q.Duty(1).Dropped)
	require.Nil(t, q.Duty(2))
}

func TestHelpersByName(t *testing.T) {
	p, _ := sound(t)
	p, who := p.WithHelper("")
	require.Zero(t, who)
	for i := range MaxHelpers {
		p, who = p.WithHelper("helper " + strconv.Itoa(i))
		require.EqualValues(t, i+1, who)
	}
	_, who = p.WithHelper("HELPER 3")
	require.EqualValues(t, 4, who, "a capital letter makes no other person")
	d := duty(t)
	d.Who, p.Cover[0] = 1, 2
	p = p.WithDuty(d)
	q, who := p.WithHelper("Dana")
	require.EqualValues(t, 3, who, "the first that has nothing gives its place")
	require.Equal(t, "Dana", q.Helper(3))
	require.Equal(t, "helper 2", p.Helper(3))
	for i := range MaxHelpers {
		e := d
		e.ID, e.Who = uint32(10+i), uint8(i+1)
		p = p.WithDuty(e)
	}
	_, who = p.WithHelper("Dana")
	require.Zero(t, who, "all have something")
	require.Empty(t, p.Helper(0))
	require.Empty(t, p.Helper(13))
}

// RFC 5546 2.1.4: the SEQUENCE rises with DTSTART, DTEND, RRULE, RDATE, EXDATE and STATUS.
func TestARevisionRisesWithTheTimesAndStopsAtTheGreatest(t *testing.T) {
	old := duty(t)
	old.Revision = 4
	for name, c := range map[string]struct {
		change func(*Duty)
		want   uint16
	}{
		"nothing":         {func(*Duty) {}, 4},
		"who":             {func(d *Duty) { d.Who = 1 }, 4},
		"a weekday's who": {func(d *Duty) { d.On[1] = 1 }, 4},
		"a date's who":    {func(d *Duty) { d.Takes = []Take{{Day: d.Rule.First, Who: 1}} }, 4},
		"words":           {func(d *Duty) { d.Title, d.Place, d.Note = "a", "b", "c" }, 4},
		"time":            {func(d *Duty) { d.Rule.At++ }, 5},
		"a skip":          {func(d *Duty) { d.Rule.Skipped = append(d.Rule.Skipped, d.Rule.First) }, 5},
		"length":          {func(d *Duty) { d.Length++ }, 5},
		"the way":         {func(d *Duty) { d.Ride.Own++ }, 5},
		"dropped":         {func(d *Duty) { d.Dropped = true }, 5},
		"a lower":         {func(d *Duty) { d.Revision = 1 }, 4},
		"a higher":        {func(d *Duty) { d.Revision, d.Rule.At = 9, d.Rule.At+1 }, 9},
	} {
		d := old
		c.change(&d)
		require.Equal(t, c.want, d.After(old).Revision, name)
	}
	old.Revision = 1<<16 - 1
	d := old
	d.Rule.At++
	require.EqualValues(t, 1<<16-1, d.After(old).Revision)
}
