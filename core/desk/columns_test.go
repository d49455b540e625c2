package desk

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// columnFaults are the faults that columns make which are not read, or cells which are empty.
var columnFaults = []string{
	"columns-unread", "column-second", "joint-none", "joint-unread", "arrival-unread", "time-open", "joint-missing", "joint-twice", "given-unknown",
	"dates-day-first", "column-aside", "soap-apart",
}

// What a table lacks is named: nobody becomes a knee, or washes with a soap that must not be
// used, without a word.
func TestWhatWasNotRead(t *testing.T) {
	for text, want := range map[string]string{
		"Date\tJoint\n12/12/2026\tknee": "",
		"Date\tLabel\n12/12/2026\tA1":   "joint-none: ",
		"Date\tAllergy to soap\tJoint\tSurgeon\tSkin\n12/12/2026\tyes\thip\tR\teczema":                      `columns-unread: "Allergy to soap", "Skin", "Surgeon"`,
		"Date\tSurgeon\tJoint\n12/12/2026\t\thip":                                                           "", // nothing stands in it
		"Date\tOp type\n12/12/2026\tRevision hip":                                                           `joint-unread: Op type`,
		"Date\tArrive by\tJoint\n12/12/2026\t5:30\thip":                                                     `arrival-unread: Arrive by`,
		"Fecha\tPiel\tArticulación\n12/12/2026\tsí\tcadera":                                                 `columns-unread: "Piel"`,
		"Date\tName\tMRN\ta\tb\tc\td\te\tf\tJoint\n12/12/2026\tx\tx\tx\tx\tx\tx\tx\tx\thip":                 `columns-unread: "Name", "MRN", "a", "b", "c", "d", "e", "f"`,
		"Date\tName\tMRN\ta\tb\tc\td\te\tf\tg\tLatex\tJoint\n12/12/2026\tx\tx\tx\tx\tx\tx\tx\tx\tx\tx\thip": `columns-unread: "Latex", "Name", "MRN", "a", "b", "c", "d", "e", …`,
	} {
		table := readAll(t, text)
		var got []string
		for _, f := range table.Faults {
			got = append(got, f.Code+": "+f.Value)
			require.True(t, f.Ask)
		}
		require.Equal(t, want, strings.Join(got, "; "), text)
		require.NotEmpty(t, table.Make(known(), page, chance)[0].Fragment)
		allSaid(t, &table, text)
	}
	sent := Starter(known(), Patient{Surgery: day("2026-12-12"), Arrival: wall.NoClock, Joint: plan.Hip}, 77)
	require.Empty(t, readAll(t, "Date\tLink\n12/12/2026\t"+sent).Faults, "the link says which joint")
}

// An empty joint is asked about where no link says it.
func TestEmptyJoint(t *testing.T) {
	sent := Starter(known(), Patient{Surgery: day("2026-12-12"), Arrival: 330, Joint: plan.Hip}, 77)
	table := readAll(t, "Date\tJoint\tLink\n12/12/2026\t\t\n12/12/2026\t\t"+sent)
	require.Equal(t, []string{"joint-missing"}, codes(table.Rows[0].Faults))
	require.Empty(t, table.Rows[1].Faults)
	allSaid(t, &table, "")
}

// Both sides, as schedules write them (common practice, no published source). One side is not
// read, two are.
func TestSides(t *testing.T) {
	for cell, joint := range map[string]plan.Joint{
		"L & R TKA": plan.Knee, "L/R knee": plan.Knee, "R+L hip": plan.Hip, "rt/lt THA": plan.Hip, "left and right knee": plan.Knee, "knees": plan.Knee, "Hips": plan.Hip,
		"rodillas": plan.Knee, "caderas": plan.Hip, "rodilla izq. y der.": plan.Knee,
	} {
		row := readAll(t, "Date\tProcedure\n12/12/2026\t"+cell).Rows[0]
		require.Equal(t, []string{"joint-twice"}, codes(row.Faults), cell)
		require.True(t, row.Usable())
		require.Equal(t, joint, row.Patient.Joint, cell)
		require.Equal(t, plan.BothSides, row.Patient.Operation, cell)
	}
	for _, cell := range []string{"Revision L & R TKA", "rev knees", "L knee R hip"} {
		table := readAll(t, "Date\tProcedure\n12/12/2026\t"+cell)
		require.Equal(t, []string{"answer-unknown"}, codes(table.Rows[0].Faults), cell)
	}
	table := readAll(t, "Date\tProcedure\tOperation\n12/12/2026\tL/R knee\tfirst")
	require.Equal(t, []string{"joint-twice", "operation-apart"}, codes(table.Rows[0].Faults))
	allSaid(t, &table, "")
}

// What stands in brackets behind a name may say that another day is meant.
func TestBracketsInTheHead(t *testing.T) {
	for head, code := range map[string]string{
		"Date (required)": "", "Date (of surgery)": "", "Date (of birth)": "column-aside", "Date (referral)": "column-aside", "Date (mm/dd/yyyy)": "", "Arrival (hospital, if known)\tDOS": "",
		"Arrival (therapy)\tDOS": "column-aside",
	} {
		cells := "12/12/2026"
		if strings.Contains(head, "\t") {
			cells = "5:30\t" + cells
		}
		table := readAll(t, head+"\tJoint\n"+cells+"\thip")
		var got []RowFault
		if code != "" {
			got = table.Faults
			require.Len(t, got, 1, head)
			require.Equal(t, code, got[0].Code)
			allSaid(t, &table, head)
		} else {
			require.Empty(t, table.Faults, head)
		}
	}
	table := readAll(t, "Date (of birth)\tDate\tJoint\n1/2/1950\t12/12/2026\thip")
	require.Equal(t, day("2026-12-12"), table.Rows[0].Patient.Surgery)
	require.Equal(t, []int{0}, table.Extra)
}

// Labels are compared without case and accents, and with what stands between their parts.
func TestLabelsThatOnlyLookAlike(t *testing.T) {
	table := readAll(t, "Label\tDate\tJoint\n1-23\t12/12/2026\thip\n12-3\t12/12/2026\thip\nbed 4\t12/12/2026\thip\nBED  4\t12/12/2026\thip")
	require.Empty(t, table.Rows[1].Faults)
	require.Equal(t, []string{"row-twice"}, codes(table.Rows[3].Faults))
}

// A soap that was handed out to somebody who must not use it is asked about.
func TestSoapForSomebodyWhoMustNotUseIt(t *testing.T) {
	table := readAll(t, "Date\tJoint\tSoap\tSkin condition\n12/12/2026\thip\tyes\tyes\n12/12/2026\thip\t\tyes\n12/12/2026\thip\tyes\tno")
	require.Equal(t, []string{"soap-apart"}, codes(table.Rows[0].Faults))
	require.True(t, table.Rows[0].Usable())
	require.Empty(t, table.Rows[1].Faults)
	require.Empty(t, table.Rows[2].Faults)
	allSaid(t, &table, "")
}

// Two columns for one thing: the plainer name is read, the other one is named.
func TestTwoColumnsForOneThing(t *testing.T) {
	for text, left := range map[string]int{
		"Patient\tID\tDOS\tJoint\nRosa\t7\t12/12/2026\thip": 0, "Date\tDOS\tJoint\n1/1/2026\t12/12/2026\thip": 0, "DOS\tDate\tJoint\n12/12/2026\t1/1/2026\thip": 1,
		"DOS\tSurgery\tProcedure\n12/12/2026\thip clinic\tR THA": 1,
	} {
		table := readAll(t, text)
		require.Equal(t, []int{left}, table.Extra, text)
		require.Equal(t, []string{"column-second"}, codes(table.Faults), "its name is known")
		require.Equal(t, left+1, table.Faults[0].High)
		require.Equal(t, day("2026-12-12"), table.Rows[0].Patient.Surgery, text)
		require.Equal(t, plan.Hip, table.Rows[0].Patient.Joint, text)
		require.Empty(t, table.Rows[0].Faults, text)
		allSaid(t, &table, text)
	}
	require.Equal(t, "column-twice", Read("DOS\tLink\tPlan link\n12/12/2026\t\t", known(), today, voices()).Faults[0].Code)
	table := readAll(t, "DOS\tJoint\tSkin condition\tSoap allergy\n12/12/2026\thip\tno\tyes\n12/12/2026\thip\tyes\t\n12/12/2026\thip\t\tno\n12/12/2026\thip\t\teczema")
	require.Empty(t, table.Faults, "of cautions none is passed over")
	for i, want := range []bool{true, true, false} {
		require.Equal(t, want, table.Rows[i].Patient.Facts.Has(plan.NoSurgicalSoap), i)
	}
	require.Equal(t, []string{"answer-unknown"}, codes(table.Rows[3].Faults))
}

// What was handed out is asked about where it is not understood; a caution stands in the way.
func TestAnswersThatAreNotKnown(t *testing.T) {
	s := own()
	table := Read("Date\tParking\tSoap\tJoint\n12/12/2026\tLot B\tgave it\thip", s, today, voices())
	require.Equal(t, []string{"given-unknown", "given-unknown"}, codes(table.Rows[0].Faults))
	require.Equal(t, s.Given, table.Rows[0].Patient.Facts)
	allSaid(t, &table, "")
	table = readAll(t, "Date\tSkin condition\tJoint\n12/12/2026\teczema\thip")
	require.Equal(t, []string{"answer-unknown"}, codes(table.Rows[0].Faults))
	require.False(t, table.Rows[0].Usable())
}

// A dash is an empty cell; a word that takes an arrival out of a link is asked about.
func TestAnArrivalIsNotLost(t *testing.T) {
	sent := Starter(known(), Patient{Surgery: day("2026-12-12"), Arrival: 330}, 77)
	for _, cell := range []string{"", "-", "—", "?", " – "} {
		table := readAll(t, "Date\tArrival\tLink\n12/12/2026\t"+cell+"\t"+sent)
		require.Empty(t, table.Rows[0].Faults, cell)
		require.Equal(t, SameLink, table.Make(known(), page, chance)[0].State, cell)
	}
	for _, cell := range []string{"not known yet", "n/a", "no", "pendiente"} {
		table := readAll(t, "Date\tArrival\tLink\n12/12/2026\t"+cell+"\t"+sent)
		require.Equal(t, []string{"time-open"}, codes(table.Rows[0].Faults), cell)
		require.Equal(t, "05:30", table.Rows[0].Faults[0].Read)
		require.Equal(t, MovedLink, table.Make(known(), page, chance)[0].State, cell)
		allSaid(t, &table, cell)
	}
}

// A family's link in the desk's address gives nobody else its lines and ticks.
func TestAddressWithAFamilysLink(t *testing.T) {
	p := PlanOf(known(), Patient{Surgery: day("2026-12-12"), Arrival: 330}, 77)
	p.Program.Number = 0
	p.Lines = []plan.Line{
		{ID: 5, List: plan.Packing, Day: plan.NoDay, Text: "Our blanket", Done: true},
		{ID: 6, List: plan.Packing, Day: plan.NoDay, Text: "Blue folder", Hospital: true, Done: true},
	}
	s, err := ReadAddress(Word + "." + link.Encode(merge.New(p)))
	require.NoError(t, err)
	require.Len(t, s.Lines, 1)
	require.Equal(t, "Blue folder", s.Lines[0].Text)
	require.False(t, s.Lines[0].Done)
}
