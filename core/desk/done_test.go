package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// linkAsks are the faults that TestLinksToLookAt makes happen.
var linkAsks = []string{askSettled, askUnsettled, askOther, askHospital, askUnknown}

// twoDays is a link in which two people moved the surgery apart from each other, one with a time.
func twoDays(t *testing.T) *merge.Doc {
	t.Helper()
	start := merge.New(PlanOf(known(), Patient{Surgery: day("2026-12-03"), Arrival: 330}, 77))
	moved := func(a merge.Actor, to string, arrival string) *merge.Doc {
		p := PatientOf(&plan.Plan{Surgery: day(to), Arrival: 375})
		if arrival == "" {
			p.Arrival = -1
		}
		return Corrected(start, p, a)
	}
	both, err := merge.Join(moved(500, "2026-12-10", ""), moved(501, "2026-12-17", "06:15"))
	require.NoError(t, err)
	return both
}

// What may be another patient's link, or holds two answers, is asked about, and the link is made
// all the same; common practice, no published source: nothing in a link says whose it is.
func TestLinksToLookAt(t *testing.T) {
	apart := link.Encode(twoDays(t))
	hip := Starter(known(), Patient{Surgery: day("2026-12-03"), Arrival: -1, Joint: plan.Hip, Operation: plan.Revision}, 78)
	other := own()
	other.Program.Hospital = "Millrace Clinic"
	elsewhere := Starter(other, Patient{Surgery: day("2026-12-03"), Arrival: -1}, 79)
	lacking := PlanOf(known(), Patient{Surgery: day("2026-12-03"), Arrival: -1}, 80)
	lacking.Program = plan.Program{Number: 900}
	unknown := link.Encode(merge.New(lacking))
	for _, c := range []struct {
		head, row, fragment string
		fault, says         string
		state               State
	}{
		{"Date\t", "12/10/2026\t", apart, askSettled, "Thursday, December 10 and Thursday, December 17. The row's own answer holds now", MovedLink},
		{"Date\t", "12/17/2026\t", apart, askSettled, "Thursday, December 10 and Thursday, December 17", MovedLink},
		{"Date\t", "\t", apart, askUnsettled, "Ask which one is right, and write it into the row", SameLink},
		{"Date\tJoint", "\tknee", hip, askOther, "another operation (hip, revision)", MovedLink},
		{"Date\tJoint", "\thip", hip, "", "", SameLink},
		{"Date\t", "\t", elsewhere, askHospital, "from Millrace Clinic", SameLink},
		{"Date\t", "\t", unknown, askUnknown, "a hospital that this page does not know", SameLink},
		{"Date\tJoint", "12/10/2026\thip", apart, askOther + " " + askSettled, "another operation (knee, first", MovedLink},
	} {
		table := readAll(t, c.head+"\tLink\n"+c.row+"\t"+page+"#"+c.fragment)
		done := table.Make(known(), page, chance)
		require.Equal(t, c.state, done[0].State, c.row)
		require.Equal(t, c.fault, done[0].Fault, c.row)
		require.NotEmpty(t, done[0].Fragment)
		require.Equal(t, done, UnpackDone(PackDone(done), page))
		for _, v := range voices() {
			require.Equal(t, c.fault == "", DoneSentence(v, &table.Rows[0], done[0]) == "")
		}
		require.Contains(t, DoneSentence(voices()[0], &table.Rows[0], done[0]), c.says)
		require.Contains(t, table.Text(done, voices()[0]), c.says)
	}
}

// What the desk answers ends the question on the family's phone, also where it is what was shown,
// and the time of the other day does not stay.
func TestTheDeskSettles(t *testing.T) {
	both := twoDays(t)
	require.Equal(t, []Column{ColumnDate}, Apart(both))
	for to, arrival := range map[string]string{"2026-12-10": "", "2026-12-17": "06:15"} {
		p := Patient{Surgery: day(to), Arrival: -1}
		if arrival != "" {
			p.Arrival = 375
		}
		answer := Corrected(both, p, 700, Apart(both)...)
		require.Empty(t, Apart(answer))
		family, err := merge.Join(both, answer)
		require.NoError(t, err)
		require.Empty(t, family.Questions())
		shown := family.Plan()
		require.Equal(t, p.Surgery, shown.Surgery)
		require.Equal(t, arrival, shown.Arrival.String())
	}
	p := both.Plan()
	require.Equal(t, both, Corrected(both, PatientOf(&p), 700), "without an answer nothing is settled")
}
