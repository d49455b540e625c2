package link

import (
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"math/rand"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
	"newel/core/zone"
)

// sealOld puts the right checksum of versions 1 and 2 behind any bytes, so that a test
// reaches what the checksum guards.
func sealOld(body []byte) string {
	b := binary.BigEndian.AppendUint32(append([]byte{}, body...), crc32.ChecksumIEEE(body))
	return base64.RawURLEncoding.EncodeToString(b)
}

// sealed does the same for this version.
func sealed(body []byte) string {
	return base64.RawURLEncoding.EncodeToString(seal(append([]byte{}, body...)))
}

// readOld reads a link of version 1 or 2 as a plan.
func readOld(fragment string) (plan.Plan, error) {
	p, err := decodeOld(fragment)
	return p.Plan, err
}

func day(t testing.TB, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

func family(t testing.TB) plan.Plan {
	p := plan.Plan{
		Number: 11259375, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 330,
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
		Number: r.Uint32(), Patient: anyText(r, plan.MaxName),
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
		p = anyTold(r, anyFamily(r, p))
	}
	return p
}

var anyLetters = []rune("abcdefghij ABC 0123 éñüßÅ Жש王🙂 <>&\"'{n}-.,/")

func anyText(r *rand.Rand, most int) string {
	text := make([]rune, r.Intn(most+1))
	for i := range text {
		text[i] = anyLetters[r.Intn(len(anyLetters))]
	}
	return plan.Clean(string(text))
}

// docOf is the document of a plan that was made on one device at once.
func docOf(p plan.Plan) *merge.Doc { return merge.New(p) }

// anyDoc is a document that several devices have changed, together and apart from each
// other, one act after the other.
func anyDoc(r *rand.Rand, times int) *merge.Doc {
	first := anyPlan(r)
	copies := []*merge.Doc{merge.New(first)}
	for range times {
		at := r.Intn(len(copies))
		switch actor := merge.FirstActor + merge.Actor(r.Intn(3)*70_000); r.Intn(6) {
		case 0:
			if len(copies) < 3 {
				copies = append(copies, copies[at])
			}
		case 1:
			joined, err := merge.Join(copies[at], copies[r.Intn(len(copies))])
			if err != nil {
				panic(err)
			}
			copies[at] = joined
		case 2:
			copies[at] = copies[at].WithHand(actor, anyName(r))
		default:
			next := anyPlan(r)
			next.Number = first.Number
			copies[at] = copies[at].Change(actor, mixed(r, copies[at].Plan(), next))
		}
	}
	all := copies[0]
	for _, one := range copies[1:] {
		all, _ = merge.Join(all, one)
	}
	return all
}

func anyName(r *rand.Rand) string {
	return []string{"Dana", "Luis", "Ann", "José", "Grandma"}[r.Intn(5)]
}

// mixed takes some fields of one plan and the others of another.
func mixed(r *rand.Rand, p, q plan.Plan) plan.Plan {
	if r.Intn(3) == 0 {
		p.Surgery, p.Arrival = q.Surgery, q.Arrival
	}
	if r.Intn(3) == 0 {
		p.Patient, p.Drive, p.Facts = q.Patient, q.Drive, q.Facts
	}
	if r.Intn(3) == 0 {
		p.Program = q.Program
	}
	if r.Intn(3) == 0 {
		p.Ticked = q.Ticked
	}
	if r.Intn(2) == 0 && len(p.Duties) > 0 {
		d := p.Duties[r.Intn(len(p.Duties))]
		d.Dropped = !d.Dropped
		if len(q.Duties) > 0 {
			d.Title, d.Rule = q.Duties[0].Title, q.Duties[0].Rule
		}
		p = p.WithDuty(d)
	}
	if r.Intn(2) == 0 && len(p.Helpers) > 0 {
		p.Cover[r.Intn(len(p.Cover))] = uint8(r.Intn(len(p.Helpers) + 1))
	}
	if r.Intn(2) == 0 {
		p = anyTold(r, p)
	}
	return p
}

// vector is the fragment in a file of testdata/link.
func vector(t testing.TB, file string) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/link/" + file)
	require.NoError(t, err)
	_, fragment, found := strings.Cut(string(data), "fragment: ")
	require.True(t, found, file)
	fragment, _, _ = strings.Cut(fragment, "\n")
	return fragment
}
