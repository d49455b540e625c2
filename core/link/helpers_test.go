package link

import (
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
	"newel/core/zone"
)

// seal puts the right checksum behind any bytes, so that a test reaches what the
// checksum guards.
func seal(body []byte) string {
	b := binary.BigEndian.AppendUint32(append([]byte{}, body...), crc32.ChecksumIEEE(body))
	return base64.RawURLEncoding.EncodeToString(b)
}

// opened gives a link's bytes without the checksum.
func opened(t testing.TB, fragment string) []byte {
	t.Helper()
	raw, err := base64.RawURLEncoding.DecodeString(fragment)
	require.NoError(t, err)
	return raw[:len(raw)-4]
}

func day(t testing.TB, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

func family(t testing.TB) plan.Plan {
	p := plan.Plan{
		Number: 11259375, Edition: 4, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 330,
		Zone: "America/Chicago", Drive: 40, Parking: 15, Facts: plan.SoapGiven | plan.HomeAnswered | plan.Stairs,
		Program: plan.Program{Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road", Phone: "555-0142"},
		Ticked:  []plan.Tick{{Code: 1}, {Code: 40, N: 1}, {Code: 40, N: 2}},
	}
	p.Program.Set(plan.WashDays, 3)
	p.Program.Set(plan.FoodStop, 24*60)
	return p
}

func starter(t testing.TB) plan.Plan {
	return plan.Plan{
		Surgery: day(t, "2027-03-09"), Arrival: wall.NoClock, Zone: "UTC", Drive: plan.Unknown, Parking: plan.Unknown,
	}
}

// anyPlan makes a plan that passes plan.Check, with every field anywhere in its range.
func anyPlan(r *rand.Rand) plan.Plan {
	zones := zone.Names()
	p := plan.Plan{
		Number: r.Uint32(), Edition: r.Uint32() >> r.Intn(32), Patient: anyText(r, plan.MaxName),
		Surgery: wall.FirstDate + wall.Date(r.Intn(int(wall.LastDate-wall.FirstDate)+1)),
		Arrival: wall.Clock(r.Intn(1441) - 1), Joint: plan.Joint(r.Intn(2)), Operation: plan.Operation(r.Intn(3)),
		Stay: plan.Stay(r.Intn(3)), Zone: zones[r.Intn(len(zones))],
		Drive: r.Intn(plan.MaxDrive+2) - 1, Parking: r.Intn(plan.MaxParking+2) - 1,
		Facts:   plan.Facts(r.Uint32()) & plan.AllFacts,
		Program: plan.Program{Hospital: anyText(r, plan.MaxName), Address: anyText(r, plan.MaxText), Phone: anyText(r, plan.MaxName)},
	}
	for i, info := range plan.Rules {
		if r.Intn(3) == 0 {
			p.Program.Set(plan.Rule(i), info.Min+r.Intn(info.Max-info.Min+1))
		}
	}
	for _, ends := range plan.Ranges {
		if p.Program.Get(ends.Min) > p.Program.Get(ends.Max) {
			p.Program.Clear(ends.Min)
			p.Program.Clear(ends.Max)
		}
	}
	for range r.Intn(30) {
		p = p.WithTick(plan.Tick{Code: uint16(r.Intn(1 << 16)), N: uint8(r.Intn(8))}, true)
	}
	if r.Intn(2) == 0 {
		p = anyFamily(r, p)
	}
	return p
}

var letters = []rune("abcdefghij ABC 0123 éñüßÅ Жש王🙂 <>&\"'{n}-.,/")

func anyText(r *rand.Rand, most int) string {
	text := make([]rune, r.Intn(most+1))
	for i := range text {
		text[i] = letters[r.Intn(len(letters))]
	}
	return plan.Clean(string(text))
}
