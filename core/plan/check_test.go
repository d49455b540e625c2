package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

func day(t *testing.T, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

// sound is a plan without a fault, seen nine days before surgery.
func sound(t *testing.T) (p Plan, today wall.Date) {
	t.Helper()
	return Plan{
		Number: 7, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 5*60 + 30,
		Zone: "America/Chicago", Drive: 40, Parking: 15,
	}, day(t, "2027-02-28")
}

func TestASoundPlanHasNoProblem(t *testing.T) {
	p, today := sound(t)
	require.Empty(t, Check(&p, today))
	p.Arrival, p.Drive, p.Parking = wall.NoClock, Unknown, Unknown
	require.Empty(t, Check(&p, today))
	p.Drive, p.Parking = MaxDrive, MaxParking
	require.Empty(t, Check(&p, today))
	p.Drive, p.Parking = 0, 0
	require.Empty(t, Check(&p, today))
	p.Surgery = today
	require.Empty(t, Check(&p, today), "surgery today is no reason to ask")
	p.Surgery = today + FarDays
	require.Empty(t, Check(&p, today))
}

// New York's clocks go from 02:00 to 03:00 on 14 March 2027 (second Sunday of
// March, Energy Policy Act of 2005).
func TestEachProblemNamesItsField(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Plan)
		want  Problem
	}{
		"no date":             {func(p *Plan) { p.Surgery = 0 }, Problem{Field: "surgery", Code: DateMissing}},
		"date out of range":   {func(p *Plan) { p.Surgery = wall.LastDate + 1 }, Problem{Field: "surgery", Code: DateMissing}},
		"past":                {func(p *Plan) { p.Surgery = 20_000 }, Problem{Field: "surgery", Code: DatePast, Ask: true}},
		"far":                 {func(p *Plan) { p.Surgery += 400 }, Problem{Field: "surgery", Code: DateFar, Ask: true}},
		"arrival at 24:00":    {func(p *Plan) { p.Arrival = 1440 }, Problem{Field: "arrival", Code: ClockUnreal}},
		"arrival not a time":  {func(p *Plan) { p.Arrival = 5000 }, Problem{Field: "arrival", Code: ClockUnreal}},
		"arrival below zero":  {func(p *Plan) { p.Arrival = -2 }, Problem{Field: "arrival", Code: ClockUnreal}},
		"skipped hour":        {func(p *Plan) { p.Zone, p.Surgery, p.Arrival = "America/New_York", 20891, 150 }, Problem{Field: "arrival", Code: ClockSkipped}},
		"zone":                {func(p *Plan) { p.Zone = "Atlantis/Lemuria" }, Problem{Field: "zone", Code: ZoneUnknown}},
		"no zone":             {func(p *Plan) { p.Zone = "" }, Problem{Field: "zone", Code: ZoneUnknown}},
		"joint":               {func(p *Plan) { p.Joint = 9 }, Problem{Field: "joint", Code: ChoiceUnknown}},
		"operation":           {func(p *Plan) { p.Operation = 9 }, Problem{Field: "operation", Code: ChoiceUnknown}},
		"stay":                {func(p *Plan) { p.Stay = 9 }, Problem{Field: "stay", Code: ChoiceUnknown}},
		"drive below zero":    {func(p *Plan) { p.Drive = -2 }, Problem{Field: "drive", Code: NumberNegative}},
		"drive over 12 h":     {func(p *Plan) { p.Drive = 721 }, Problem{Field: "drive", Code: DriveLong, High: 720}},
		"parking below zero":  {func(p *Plan) { p.Parking = -30 }, Problem{Field: "parking", Code: NumberNegative}},
		"parking over 3 h":    {func(p *Plan) { p.Parking = 181 }, Problem{Field: "parking", Code: ParkingLong, High: 180}},
		"rule outside":        {func(p *Plan) { p.Program.set, p.Program.values[WashDays] = 1<<WashDays, 15 }, Problem{Field: "rule.wash-days", Code: RuleOutside, Low: 1, High: 14}},
		"range turned around": {func(p *Plan) { p.Program.Set(RecoveryMin, 200) }, Problem{Field: "rule.recovery-min", Code: RangeTurned}},
		"patient too long":    {func(p *Plan) { p.Patient = strings.Repeat("é", MaxName+1) }, Problem{Field: "patient", Code: TextLong, High: 40}},
		"hospital too long":   {func(p *Plan) { p.Program.Hospital = strings.Repeat("W", MaxName+1) }, Problem{Field: "hospital", Code: TextLong, High: 40}},
		"address too long":    {func(p *Plan) { p.Program.Address = strings.Repeat("W", MaxText+1) }, Problem{Field: "address", Code: TextLong, High: 120}},
		"phone too long":      {func(p *Plan) { p.Program.Phone = strings.Repeat("5", MaxName+1) }, Problem{Field: "phone", Code: TextLong, High: 40}},
	} {
		p, today := sound(t)
		c.spoil(&p)
		found := Check(&p, today)
		require.Equal(t, []Problem{c.want}, found, name)
		require.Equal(t, c.want.Ask, Usable(found), name)
	}
}

// The codes of fields that cannot be put into a Plan at all come from the form
// that reads them (core/app): date-unreal and number-unreal.
func TestOnlyWhatMayBeSoIsAskedAbout(t *testing.T) {
	p, today := sound(t)
	for _, surgery := range []wall.Date{wall.FirstDate, today - 1, today, today + FarDays, today + FarDays + 1, wall.LastDate} {
		p.Surgery = surgery
		for _, problem := range Check(&p, today) {
			require.True(t, problem.Ask)
			require.Contains(t, []string{DatePast, DateFar}, problem.Code)
		}
	}
}

func TestTextsOfTheGreatestLengthPass(t *testing.T) {
	p, today := sound(t)
	p.Patient, p.Program.Hospital = strings.Repeat("ñ", MaxName), strings.Repeat("W", MaxName)
	p.Program.Address, p.Program.Phone = strings.Repeat("🙂", MaxText), strings.Repeat("5", MaxName)
	require.Empty(t, Check(&p, today))
}

func TestSeveralProblemsComeInTheOrderOfTheForm(t *testing.T) {
	p := Plan{
		Patient: strings.Repeat("W", 41), Surgery: 0, Arrival: 5000, Joint: 9, Operation: 9, Stay: 9,
		Zone: "nowhere", Drive: 999, Parking: 999,
		Program: Program{Hospital: strings.Repeat("W", 41)},
	}
	var fields []string
	for _, problem := range Check(&p, 20_500) {
		fields = append(fields, problem.Field)
	}
	// The zone decides whether an arrival is skipped, so it is looked at beside it.
	require.Equal(t, []string{"patient", "surgery", "arrival", "zone", "joint", "operation", "stay", "drive", "parking", "hospital"}, fields)
}
