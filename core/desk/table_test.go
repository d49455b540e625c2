package desk

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/link"
	"newel/core/plan"
	"newel/core/wall"
)

func TestColumnsInAnyOrderAndLanguage(t *testing.T) {
	for _, head := range []string{
		"Stay,Joint,Arrival,Surgery date,Label", "STAY,joint, Arrival time ,Date of surgery,ID", "Length-of-stay,Procedure,Check in,DOS,Initials",
		"Estancia,Articulación,Llegada,Fecha de cirugía,Etiqueta", "estadia,articulacion,hora de llegada,FECHA,iniciales", "Stay,Joint,Arrival,Date (month first),Ref.",
	} {
		table := readAll(t, head+"\nsame day,hip,5:30,11/30/2026,A1\n")
		require.Len(t, table.Rows, 1)
		row := &table.Rows[0]
		require.Empty(t, row.Faults, head)
		require.Equal(t, Patient{
			Label: "A1", Surgery: day("2026-11-30"), Arrival: 330, Joint: plan.Hip, Stay: plan.SameDay, Language: "en",
		}, row.Patient, head)
		require.Equal(t, 2, row.Number)
		require.Empty(t, table.Extra)
	}
}

// Every name of a column and every answer that the words have leads to its column or answer:
// none is hidden behind another's.
func TestEveryWordIsUnderstood(t *testing.T) {
	r := newReader(voices())
	for _, v := range voices() {
		for c, key := range ColumnKeys {
			for _, name := range strings.Split(v.Say("desk.column."+key), "|") {
				got, ok := r.columns.find(name)
				require.True(t, ok, name)
				require.Equal(t, Column(c), Column(got), "%s: %s", v.Language, name)
			}
		}
		for _, choice := range []struct {
			d    dictionary
			keys []string
		}{{r.joints, jointAnswers}, {r.kinds, operationAnswers}, {r.stays, stayAnswers}, {r.yes, yesAnswers}, {r.clocks.marks, clockKeys[:]}} {
			for i, key := range choice.keys {
				for _, name := range strings.Split(v.Say(key), "|") {
					got, ok := choice.d.find(name)
					require.True(t, ok, name)
					require.Equal(t, i, int(got), "%s: %s", v.Language, name)
				}
			}
		}
	}
}

// TKA and THA, TKR and THR, laterality by R and L: as the trade writes them (common practice,
// no published source).
func TestAnswersAsTheTradeWritesThem(t *testing.T) {
	for procedure, want := range map[string]struct {
		joint plan.Joint
		kind  plan.Operation
	}{
		"knee": {plan.Knee, plan.First}, "L knee": {plan.Knee, plan.First}, "R THA": {plan.Hip, plan.First}, "TKA, left": {plan.Knee, plan.First},
		"Right Total Hip Arthroplasty": {plan.Hip, plan.First}, "Revision TKA": {plan.Knee, plan.Revision}, "rev. R THA": {plan.Hip, plan.Revision},
		"bilateral TKA": {plan.Knee, plan.BothSides}, "Rodilla izquierda": {plan.Knee, plan.First}, "Reemplazo total de cadera derecha": {plan.Hip, plan.First},
		"Primary left knee": {plan.Knee, plan.First}, "both knees": {plan.Knee, plan.BothSides}, "revisión de cadera": {plan.Hip, plan.Revision},
	} {
		table := readAll(t, "Date\tProcedure\n11/30/2026\t"+procedure)
		require.Empty(t, table.Rows[0].Faults, procedure)
		require.Equal(t, want.joint, table.Rows[0].Patient.Joint, procedure)
		require.Equal(t, want.kind, table.Rows[0].Patient.Operation, procedure)
	}
	for _, yes := range []string{"yes", "Y", "x", "1", "sí", "SI", "✓", "true", "given"} {
		table := readAll(t, "Date\tSoap\tOwn times\n11/30/2026\t"+yes+"\t"+yes)
		require.Equal(t, plan.SoapGiven|plan.TeamTimes, table.Rows[0].Patient.Facts, yes)
	}
	for _, lang := range []string{"es", "Spanish", "español", "ESPANOL"} {
		require.Equal(t, "es", readAll(t, "Date\tLanguage\n11/30/2026\t"+lang).Rows[0].Patient.Language, lang)
	}
}

// What the settings hand to everybody holds until a row says no.
func TestWhatIsGivenToEverybody(t *testing.T) {
	s := own()
	table := Read("Date\tSoap\tPass\n11/30/2026\t\t\n11/30/2026\tno\tyes\n", s, today, voices())
	require.Equal(t, plan.SoapGiven|plan.DrinkGiven, table.Rows[0].Patient.Facts)
	require.Equal(t, plan.DrinkGiven|plan.ParkingPass, table.Rows[1].Patient.Facts)
}

func TestFaultsOfTheTable(t *testing.T) {
	for code, text := range map[string]string{
		"table-empty": " \n\t\n", "table-head": "A1\t11/30/2026\tknee\n", "column-missing": "Label\tJoint\nA1\tknee\n",
		"column-twice": "Date\tJoint\tDate\n11/30/2026\tknee\t11/30/2026", "rows-none": "Date\tJoint\n\t\n",
		"columns-many": "Date" + strings.Repeat("\tx", MostCells) + "\n11/30/2026",
		"rows-many":    "Date\n" + strings.Repeat("11/30/2026\n", MostRows+1),
		"table-big":    "Date\n" + strings.Repeat("11/30/2026\n", MostBytes/10),
	} {
		table := Read(text, known(), today, voices())
		require.Equal(t, code, table.Faults[0].Code)
		require.Empty(t, table.Rows, code)
		require.Empty(t, table.Make(known(), page, chance))
		for _, v := range voices() {
			said := Sentence(v, nil, table.Faults[0])
			require.NotContains(t, said, "{", code)
			require.NotContains(t, said, "desk.", code)
		}
		if code != "table-big" {
			require.Equal(t, text, table.Text(nil, voices()[0]), code)
		}
	}
	require.Len(t, readAll(t, "Date\n"+strings.Repeat("11/30/2026\n", MostRows)).Rows, MostRows)
}

// rowFaults are rows with one fault each, by code. The row is number 3.
func rowFaults(t *testing.T) map[string][2]string {
	sealed := Starter(known(), Patient{Surgery: day("2026-12-01"), Arrival: 330}, 77)
	part := link.EncodePart(PlanOf(known(), Patient{Surgery: day("2026-12-01")}, 78), "Dana")
	require.NotEmpty(t, part)
	return map[string][2]string{ // head and row, behind Label and Date
		"date-missing": {"", "Z1\t"}, "date-unreal": {"", "\t2/30/2027"}, "date-outside": {"", "\t11/30/1999"}, "date-month": {"", "\t13/04/2027"}, "date-weekday": {"", "\tTue 11/30/2026"},
		"date-phantom": {"", "\t60"}, "date-number": {"", "\t7"}, "date-year": {"", "\t11/30"}, "date-past": {"", "\t11/15/2026"}, "date-far": {"", "\t11/30/2027"},
		"date-serial": {"", "\t46356"}, "date-serial-clock": {"", "\t46356.25"}, "date-clock": {"", "\t11/30/2026 7:30"},
		"time-unreal": {"\tArrival", "\t11/30/2026\t25:00"}, "time-half": {"\tArrival", "\t11/30/2026\t1:30"}, "time-serial": {"\tArrival", "\t11/30/2026\t0.25"},
		"time-odd": {"\tArrival", "\t11/30/2026\t7 PM"}, "time-skipped": {"\tArrival", "\t3/14/2027\t2:30 AM"}, // America/Chicago, second Sunday of March
		"time-old":       {"\tLink", "\t12/8/2026\t" + sealed},
		"answer-unknown": {"\tJoint", "\t11/30/2026\tnose"}, "operation-apart": {"\tJoint\tOperation", "\t11/30/2026\trevision hip\tfirst"},
		"link-damaged": {"\tLink", "\t11/30/2026\t" + sealed[:len(sealed)-1]}, "link-locked": {"\tLink", "\t11/30/2026\t" + locked},
		"link-part": {"\tLink", "\t11/30/2026\t" + part}, "link-newer": {"\tLink", "\t11/30/2026\t" + newer},
		"cells-many": {"", "\t11/30/2026\tknee"}, "quote-open": {"\tJoint", "\t11/30/2026\t\"knee"},
		"label-twice": {"", "A0\t12/1/2026"}, "row-twice": {"", "A0\t11/30/2026"},
	}
}

// golden is the fragment of one of the links that core/link's tests share (testdata/link/heads).
func golden(name string) string {
	text, err := os.ReadFile("../../testdata/link/heads/" + name + ".txt")
	if err != nil {
		panic(err)
	}
	for l := range strings.Lines(string(text)) {
		if fragment, found := strings.CutPrefix(l, "fragment: "); found {
			return strings.TrimSpace(fragment)
		}
	}
	panic(name + " has no fragment")
}

// A locked link and one of a later version.
var locked, newer = golden("locked"), golden("newer-last")

// Each fault stands in its own row only, is said in words in both languages with the row's
// number, and the other rows are as they were.
func TestFaultsOfRows(t *testing.T) {
	for code, c := range rowFaults(t) {
		text := "Label\tDate" + c[0] + "\nA0\t11/30/2026\n" + c[1] + "\nB9\t12/12/2026\n"
		table := Read(text, known(), today, voices())
		require.True(t, usable(table.Faults), code)
		require.Len(t, table.Rows, 3, code)
		for _, i := range []int{0, 2} {
			require.Subset(t, []string{"joint-missing"}, codes(table.Rows[i].Faults), code)
		}
		row := &table.Rows[1]
		require.Contains(t, codes(row.Faults), code)
		for _, v := range voices() {
			for _, f := range row.Faults {
				said := Sentence(v, row, f)
				require.Contains(t, said, " 3", said)
				require.NotRegexp(t, `[{}]|desk\.`, said)
				if code != "label-twice" && code != "row-twice" && code != "cells-many" {
					require.Contains(t, said, ColumnName(v, f.Column))
				}
			}
		}
		done := table.Make(known(), page, chance)
		require.NotEmpty(t, done[0].Fragment, code)
		require.NotEmpty(t, done[2].Fragment, code)
		require.Equal(t, row.Usable(), done[1].Fragment != "", code)
	}
}

// The sentences as people get them, with the year, which may be what is wrong.
func TestSentences(t *testing.T) {
	table := readAll(t, "Date\tArrival\n46356\t2:30\n13/04/2027\t0.25\n11/30/2026\n")
	en := voices()[0]
	var said []string
	for i := range table.Rows {
		for _, f := range table.Rows[i].Faults {
			said = append(said, Sentence(en, &table.Rows[i], f))
		}
	}
	require.Equal(t, []string{
		"Row 2, Surgery date: 46356 is a spreadsheet's number for Monday, November 30, 2026. Is that right? A spreadsheet that counts from 1904 means Sunday, December 1, 2030.",
		"Row 2, Arrival: \"2:30\" was read as 2:30\u202fAM (02:30 on a clock of 24 hours). Is that right? If not, write AM or PM.",
		"Row 3, Surgery date: in \"13/04/2027\" the month comes first, and there is no month 13. Do you mean Tuesday, April 13, 2027? Then write 2027-04-13.",
		"Row 3, Arrival: 0.25 is a spreadsheet's number for 6:00\u202fAM. Is that right?",
	}, said)
}

func TestDuplicates(t *testing.T) {
	one := Starter(known(), Patient{Surgery: day("2026-12-01"), Arrival: wall.NoClock}, 77)
	d, err := link.Decode(one)
	require.NoError(t, err)
	moved := link.Encode(Corrected(d, Patient{Surgery: day("2026-12-09"), Arrival: wall.NoClock}, 100))
	table := readAll(t, "Label\tDate\tLink\nA1\t12/1/2026\t"+page+"#"+one+"\nB2\t\t"+moved+"\n\t12/1/2026\t\n\t12/1/2026\t\n")
	require.Equal(t, []string{"link-twice"}, codes(table.Rows[1].Faults), "a later state of one plan is the same plan")
	require.Equal(t, 2, table.Rows[1].Faults[0].Row)
	require.Empty(t, table.Rows[2].Faults)
	require.Empty(t, table.Rows[3].Faults, "without labels nobody can tell")
}

// Rows keep the numbers that they have in the spreadsheet, whatever is empty between.
func TestRowsKeepTheirNumbers(t *testing.T) {
	table := readAll(t, "\n\nDate\tLabel\n11/30/2026\t\"two\nlines\"\n\t\n12/1/2026\n")
	require.Equal(t, 4, table.Rows[0].Number)
	require.Equal(t, "two\nlines", table.Rows[0].Patient.Label)
	require.Equal(t, 6, table.Rows[1].Number, "shorter rows are filled up")
	require.Empty(t, table.Rows[1].Faults)
}

// Columns that are not ours may hold names: nothing of them, and nothing of the label, gets
// into a link or a message.
func TestWhatIsNotOursGoesNowhere(t *testing.T) {
	with := readAll(t, "Label\tName\tDate\tMRN\n"+"Rosa M.\tRosa Delgado\t11/30/2026\t12345678\n")
	without := readAll(t, "Date\n11/30/2026\n")
	require.Equal(t, []int{1, 3}, with.Extra)
	require.Equal(t, without.Make(known(), page, chance), with.Make(known(), page, chance))
}

// The example that teaches is one that reads without a fault, in each language.
func TestTheExampleReads(t *testing.T) {
	for _, v := range voices() {
		table := Read(Example(v), known(), today, []guide.Voice{v})
		require.Empty(t, table.Faults)
		require.Len(t, table.Rows, 2)
		for i := range table.Rows {
			require.Empty(t, table.Rows[i].Faults, strconv.Itoa(i))
		}
		require.Equal(t, plan.Hip, table.Rows[1].Patient.Joint)
	}
}
