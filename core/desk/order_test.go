package desk

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// The order of day and month by Unicode CLDR 48, dateFormats short, as ICU 78.2 in Node 24 writes
// January 2, 2027 with Intl.DateTimeFormat(locale, {dateStyle: "short"}): the month first in en-US
// (1/2/27) and es-PR (01/02/27); the day first in es (2/1/27), es-MX (02/01/27), es-US (2/1/2027),
// en-GB (02/01/2027) and de (02.01.27).
func TestShortDatesOfLocales(t *testing.T) {
	for _, c := range []struct{ head, cell, code string }{
		{"Date", "1/2/27", ""},
		{"Fecha (mes/día/año)", "01/02/27", ""},
		{"Fecha (día/mes/año)", "2/1/27", "dates-day-first"},
		{"Fecha de cirugía (dd/mm/aaaa)", "02/01/27", "dates-day-first"},
		{"Date dd/mm/yyyy", "02/01/2027", "dates-day-first"},
		{"Date [day first]", "2/1/2027", "dates-day-first"},
		{"DOS (ddmmyy)", "02.01.27", "dates-day-first"},
		{"Date", "02.01.27", "date-day-first"},
		{"Date (mm.dd.yy)", "01.02.27", ""},
	} {
		table := Read(c.head+"\tJoint\n"+c.cell+"\tknee\n", known(), today, voices())
		require.Equal(t, day("2027-01-02"), table.Rows[0].Patient.Surgery, "%s %s", c.head, c.cell)
		require.Equal(t, c.code, strings.Join(codes(append(table.Faults, table.Rows[0].Faults...)), " "), c.head)
		require.True(t, table.Rows[0].Usable())
		if c.code == "date-day-first" {
			require.Equal(t, "2027-02-01", table.Rows[0].Faults[0].Or)
		}
	}
}

// What a column proves about its order holds for the rows that could be meant in both.
func TestOrderOfAColumn(t *testing.T) {
	for name, c := range map[string]struct{ table, want string }{
		"no word against it":                     {"Date\n02/01/2027\n12/12/2026", "2027-02-01, 2026-12-12"},
		"a row proves the day":                   {"Date\n02/01/2027\n13/02/2027\n5/5/2027", "2027-01-02 date-day-first, 2027-02-13 date-day-only, 2027-05-05"},
		"a row proves the month":                 {"Fecha\n02/01/2027\n02/13/2027", "2027-02-01, 2027-02-13"},
		"rows against each other":                {"Date\n02/01/2027\n13/02/2027\n02/13/2027", "? date-mixed, ? date-month, 2027-02-13"},
		"a head against a row":                   {"Date (dd/mm/yyyy)\n02/01/2027\n02/13/2027", "? date-mixed, 2027-02-13"},
		"a head and a row":                       {"Date (dd/mm/yyyy)\n02/01/2027\n13/02/2027", "2027-01-02, 2027-02-13"},
		"the other head":                         {"Date (month first)\n02/01/2027\n13/02/2027", "? date-mixed, ? date-month"},
		"ISO proves nothing":                     {"Date\n02/01/2027\n2027-02-13", "2027-02-01, 2027-02-13"},
		"a head of ISO":                          {"Date (yyyy-mm-dd)\n02/01/2027", "2027-02-01"},
		"nothing said, in Spanish":               {"Fecha\n03/02/2027\n05/05/2027", "2027-03-02 date-month-first, 2027-05-05"},
		"Spanish in the cells":                   {"Date\tJoint\n03/02/2027\trodilla", "2027-03-02 date-month-first"},
		"a Spanish month":                        {"Date\n03/02/2027\n5 de enero de 2027", "2027-03-02 date-month-first, 2027-01-05"},
		"points":                                 {"Date\n02.01.2027\n30.11.2026", "2027-01-02 date-day-first, 2026-11-30 date-day-only"},
		"points of one who puts the month first": {"Date\n02.01.2027\n11.30.2026", "2027-02-01, 2026-11-30"},
		"without a year":                         {"Date (day/month)\n02/01\n13/02", "2027-01-02 date-year, 2027-02-13 date-year"},
		"the weekday tells":                      {"Fecha\nlun 02/01/2027", "2027-02-01"}, // a Monday; January 2 is a Saturday
		"the weekday tells too":                  {"Fecha (dd/mm/aaaa)\nsáb 02/01/2027", "2027-01-02"},
		"the weekday is against it":              {"Date (dd/mm/yyyy)\nMon 02/01/2027", "? date-weekday"},
		"the weekday, in between":                {"Date\nSat 02/01/2027\n13/02/2027\n02/13/2027", "2027-01-02, ? date-month, 2027-02-13"},
		"with a time":                            {"Date (dd/mm/yyyy)\n02/01/2027 7:30", "2027-01-02 date-clock"},
	} {
		table := Read(strings.Replace(c.table, "Fecha\n", "Fecha\tx\n", 1), known(), today, voices())
		var got []string
		for i := range table.Rows {
			r := &table.Rows[i]
			said := []string{"?"}
			if r.Usable() {
				said[0] = r.Patient.Surgery.String()
			}
			got = append(got, strings.Join(append(said, codes(r.Faults)...), " "))
		}
		require.Equal(t, c.want, strings.Join(got, ", "), name)
	}
}

// A part of a table that is pasted back, without the row that proved the order: the link's own
// day tells which of the two is meant. A table that proves the order corrects a link.
func TestOrderOfARowWithALink(t *testing.T) {
	link := Starter(known(), Patient{Surgery: day("2027-01-02"), Arrival: wall.NoClock}, 77)
	table := Read("Date\tLink\n02/01/2027\t"+link, known(), today, voices())
	require.Equal(t, day("2027-01-02"), table.Rows[0].Patient.Surgery)
	require.Equal(t, []string{"date-day-first"}, codes(table.Rows[0].Faults))
	require.Equal(t, SameLink, table.Make(known(), page, chance)[0].State)

	table = Read("Date (mm/dd)\tLink\n02/01/2027\t"+link, known(), today, voices())
	require.Equal(t, day("2027-02-01"), table.Rows[0].Patient.Surgery)
	require.Equal(t, MovedLink, table.Make(known(), page, chance)[0].State)
}

// Each day of two years, written in both orders below a head that tells which, is read as itself.
func TestEveryDayInBothOrders(t *testing.T) {
	for d := today; d < today+365; d++ {
		y, m, n := d.YMD()
		for head, cell := range map[string]string{"Date (dd/mm/yyyy)": numbersOf(n, m, y), "Date (mm/dd/yyyy)": numbersOf(m, n, y)} {
			table := Read(head+"\n"+cell, known(), today, voices())
			require.True(t, table.Rows[0].Usable(), cell)
			require.Equal(t, d, table.Rows[0].Patient.Surgery, "%s %s", head, cell)
			said := slices.Contains(codes(table.Faults), "dates-day-first")
			require.Equal(t, head == "Date (dd/mm/yyyy)" && n <= 12 && n != m, said, "%s %s", head, cell)
			require.Empty(t, table.Rows[0].Faults)
		}
	}
}

func numbersOf(all ...int) string {
	var said []string
	for _, n := range all {
		said = append(said, strconv.Itoa(n))
	}
	return strings.Join(said, "/")
}

// orderFaults are the faults of dates that hang on the other rows.
var orderFaults = []string{"date-day-only", "date-day-first", "date-month-first", "date-mixed"}

func TestOrderSentences(t *testing.T) {
	for _, text := range []string{"Date\n13/02/2027\n02/03/2027", "Fecha\tx\n02/03/2027", "Date\n13/02/2027\n02/03/2027\n02/13/2027"} {
		table := Read(text, known(), today, voices())
		allSaid(t, &table, text)
	}
	table := Read("Fecha\tx\n02/03/2027\n", known(), today, voices())
	require.Equal(t, `Fila 2, Fecha de cirugía: "02/03/2027" se leyó como el miércoles, 3 de febrero de 2027, con el mes primero. Si quiere decir el martes, 2 de marzo de 2027, escriba 2027-03-02.`,
		Sentence(voices()[1], &table.Rows[0], table.Rows[0].Faults[0]))
}

// Names of columns that only begin with one of the words keep their meaning.
func TestNamesOfColumnsWithAnOrder(t *testing.T) {
	r := newReader(voices())
	for cell, want := range map[string]dateOrder{
		"Day of surgery": orderUnsaid, "Date": orderUnsaid, "Date (required)": orderUnsaid, "Date (day of week)": orderUnsaid, "Date d/m/y": dayThenMonth, "Date: m-d-yy": monthThenDay,
		"Date (DD-MMM-YYYY)": dayThenMonth, "Fecha mes primero": monthThenDay, "Date (yyyy/mm/dd)": orderUnsaid, "Date (yyyymmdd)": orderUnsaid, "Date (mmddyyyy)": monthThenDay,
		"Fecha (día primero)": dayThenMonth, "Date (day/month, please)": dayThenMonth,
	} {
		name, got, _ := r.columnName(cell)
		require.Equal(t, want, got, cell)
		column, ok := r.columns.find(name)
		require.True(t, ok && Column(column) == ColumnDate, "%s: %s", cell, name)
	}
}
