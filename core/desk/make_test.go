package desk

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// SplitMix64 from the seed 1234567, as the Rosetta Code task "Pseudo-random
// numbers/Splitmix64" prints its first five numbers (from memory).
func TestTheGeneratorIsSplitMix64(t *testing.T) {
	n := &numbers{state: 1234567}
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		require.Equal(t, want, n.draw())
	}
}

// All numbers are different, also from those of links in the table, in whatever steps and with
// whatever chance the rows are made.
func TestNoTwoPlansHaveOneNumber(t *testing.T) {
	table := readAll(t, bigTable(300, nil))
	at := 0
	var done []Done
	for at < 300 {
		done = table.MakeSome(known(), page, chance, at, at+70, done) // the same chance each time is the worst
		at += 70
	}
	require.Len(t, done, 300)
	seen := map[uint32]bool{}
	for _, d := range done {
		head, err := link.ReadHead(d.Fragment)
		require.NoError(t, err)
		require.False(t, seen[head.Number])
		seen[head.Number] = true
	}
	again := Read(bigTable(600, fragments(done)), known(), today, voices())
	for i, d := range again.Make(known(), page, chance) {
		head, err := link.ReadHead(d.Fragment)
		require.NoError(t, err)
		require.Equal(t, i < 300, d.State == SameLink)
		require.Equal(t, i < 300, seen[head.Number])
		seen[head.Number] = true
	}
	require.Len(t, seen, 600)
}

// In steps or at once the same is made, but for the numbers; and what goes from one request to
// the next comes back whole.
func TestMakingInSteps(t *testing.T) {
	table := readAll(t, bigTable(50, nil)+"bad\tsoon\n")
	whole := table.Make(known(), page, chance)
	var done []Done
	for at := 0; at < 51; at += 20 {
		done = UnpackDone(PackDone(table.MakeSome(known(), page, []byte(strconv.Itoa(at)), at, at+20, done)), page)
	}
	require.Len(t, done, 51)
	for i := range done {
		require.Equal(t, whole[i].State, done[i].State)
		if whole[i].Fragment != "" {
			require.Equal(t, strings.ReplaceAll(whole[i].Text, whole[i].Address, done[i].Address), done[i].Text)
		}
	}
	require.Equal(t, whole, UnpackDone(PackDone(whole), page))
	require.Equal(t, whole[:3], UnpackDone(PackDone(whole[:3])+"9\tx\t\t\n"+PackDone(whole[3:]), page), "what is not sound ends it")
	require.Empty(t, UnpackDone("1\tnot-a-link\t\ttext\n", page))
}

func TestALinkThatSaysItAllAlready(t *testing.T) {
	first := readAll(t, bigTable(6, nil))
	links := fragments(first.Make(known(), page, chance))
	table := readAll(t, bigTable(6, links))
	for i, d := range table.Make(known(), page, []byte("another")) {
		require.Equal(t, SameLink, d.State)
		require.Equal(t, links[i], d.Fragment)
	}
}

// planOf is the plan of a link.
func planOf(t *testing.T, fragment string) plan.Plan {
	d, err := link.Decode(fragment)
	require.NoError(t, err)
	return d.Plan()
}

// What a row's cells do not say stays as its link says it; what they say goes into the plan,
// and what the family has put in stays.
func TestARowCorrectsItsLink(t *testing.T) {
	patient := Patient{
		Surgery: day("2026-12-01"), Arrival: 330, Joint: plan.Hip, Operation: plan.Revision, Stay: plan.SameDay, Facts: plan.SoapGiven | plan.TeamTimes,
	}
	doc := merge.New(PlanOf(known(), patient, 77))
	family := doc.Plan()
	family.Helpers, family.Drive = []string{"Dana", "Luis"}, 40
	doc = doc.Change(500, family)
	fragment := link.Encode(doc)
	for _, c := range []struct {
		head, row string
		want      func(p *Patient)
		state     State
	}{
		{"", "", func(*Patient) {}, SameLink},
		{"Arrival\tJoint\tSoap", "\t\t", func(*Patient) {}, SameLink},
		{"Date", "12/8/2026", func(p *Patient) { p.Surgery = day("2026-12-08") }, MovedLink},
		{"Arrival", "6:15 AM", func(p *Patient) { p.Arrival = 375 }, MovedLink},
		{"Arrival", "pending", func(p *Patient) { p.Arrival = wall.NoClock }, MovedLink},
		{"Joint\tOperation\tStay", "knee\tfirst\tone night", func(p *Patient) { p.Joint, p.Operation, p.Stay = 0, 0, 0 }, MovedLink},
		{"Procedure", "L TKA", func(p *Patient) { p.Joint = plan.Knee }, MovedLink},
		{"Soap\tPass", "no\tyes", func(p *Patient) { p.Facts = plan.TeamTimes | plan.ParkingPass }, MovedLink},
		{"Stay", "same day", func(*Patient) {}, SameLink},
	} {
		head, row := "Link\t"+c.head, page+"#"+fragment+"\t"+c.row
		if !strings.Contains(c.head, "Date") {
			head, row = "Date\t"+head, "\t"+row
		}
		table := readAll(t, head+"\n"+row)
		done := table.Make(known(), page, chance)
		require.Equal(t, c.state, done[0].State, c.head)
		want := patient
		c.want(&want)
		got := planOf(t, done[0].Fragment)
		require.Equal(t, want, PatientOf(&got), c.head)
		require.Equal(t, uint32(77), got.Number)
		require.Equal(t, []string{"Dana", "Luis"}, got.Helpers)
		require.Equal(t, 40, got.Drive)
	}
}

// A corrected link joins with whatever the family wrote meanwhile: theirs stays, and the
// desk's change arrives.
func TestACorrectedLinkJoins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := Patient{Surgery: today + wall.Date(rapid.IntRange(0, 300).Draw(t, "day")), Arrival: wall.Clock(rapid.IntRange(-1, 1439).Draw(t, "at"))}
		after := before
		after.Surgery += wall.Date(rapid.IntRange(-3, 30).Draw(t, "moved"))
		after.Arrival = wall.Clock(rapid.IntRange(-1, 1439).Draw(t, "arrival"))
		after.Facts = rapid.SampledFrom([]plan.Facts{0, plan.SoapGiven, plan.ParkingPass | plan.TeamTimes}).Draw(t, "facts")
		starter := merge.New(PlanOf(own(), before, 99))
		family := starter.Plan()
		family.Helpers, family.Parking, family.Patient = []string{"Mina", "Tomás"}, 12, "Mom"
		theirs := starter.Change(4000, family)
		n := newNumbers([]byte{byte(rapid.Uint8().Draw(t, "chance"))})
		ours := Corrected(starter, after, n.actor(starter))
		joined, err := merge.Join(theirs, ours)
		require.NoError(t, err)
		p := joined.Plan()
		require.Equal(t, PatientOf(&plan.Plan{
			Surgery: after.Surgery, Arrival: after.Arrival, Facts: after.Facts,
		}), PatientOf(&p))
		require.Equal(t, family.Helpers, p.Helpers)
		require.Equal(t, family.Patient, p.Patient)
		require.Empty(t, joined.Questions())
	})
}

// The desk's number on a document is one that it has not seen.
func TestTheDeskIsANewDevice(t *testing.T) {
	first := newNumbers(chance).actor(merge.NewDoc(1))
	d := merge.NewDoc(1)
	d.SetSeen(merge.Stamp{Actor: first, N: 3})
	require.NotEqual(t, first, newNumbers(chance).actor(d))
	n := newNumbers(chance)
	for range 1000 {
		a := n.actor(d)
		require.True(t, a >= merge.FirstActor && a <= merge.LastActor)
	}
}

// Links of tables are those that one patient's form makes.
func TestTheSameLinkAsOnePatients(t *testing.T) {
	for _, s := range []*Settings{known(), own()} {
		table := Read(bigTable(40, nil), s, today, voices())
		for i, d := range table.Make(s, page, chance) {
			p := planOf(t, d.Fragment)
			require.Equal(t, Starter(s, table.Rows[i].Patient, p.Number), d.Fragment)
			require.Equal(t, page+"#"+d.Fragment, d.Address)
			got := PatientOf(&p)
			got.Label, got.Language = table.Rows[i].Patient.Label, table.Rows[i].Patient.Language
			require.Equal(t, table.Rows[i].Patient, got)
		}
	}
}

// Settings that no link has room for are a fault of the row, said in words.
func TestALinkThatIsFull(t *testing.T) {
	s := own()
	for i := range 400 {
		s.Lines = append(s.Lines, plan.Line{ID: uint32(i + 1), Text: strings.Repeat(string(rune('a'+i%26))+strconv.Itoa(i*7919), 8), Hospital: true})
	}
	table := Read("Date\n11/30/2026", s, today, voices())
	done := table.Make(s, page, chance)
	require.Equal(t, "link-full", done[0].Fault)
	require.Empty(t, done[0].Fragment)
	require.Contains(t, DoneSentence(voices()[0], &table.Rows[0], done[0]), "Row 2")
	require.Contains(t, table.Text(done, voices()[0]), "too long for a link")
}
