package app

import (
	"fmt"
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/plan"
)

// tableOf is a table of n patients that lacks nothing.
func tableOf(n int) string {
	var b strings.Builder
	b.WriteString("Label\tDate\tArrival\tJoint\tStay\n")
	for i := range n {
		fmt.Fprintf(&b, "P%d\t2026-12-%02d\t05:30\t%s\tone night\n", i, 1+i%28, []string{"knee", "hip"}[i%2])
	}
	return b.String()
}

// check has the desk check a table and make its links, as the shell does: it asks again until
// there is nothing more to ask for. It gives the sentences of the steps.
func (p *phone) check(text string, more ...string) (steps []string) {
	p.t.Helper()
	fields := append([]string{"act", "check", "text", text}, more...)
	for {
		out := p.send("/desk/rows", fields...)
		if out.Again == nil {
			return steps
		}
		require.Equal(p.t, "/desk/rows", out.Again.Path)
		steps = append(steps, p.part("progress-text"))
		fields = nil
		for _, f := range out.Again.Fields {
			fields = append(fields, f.Name, f.Value)
		}
	}
}

// carried are the hidden fields of the screen that shows what came of a table.
func (p *phone) carried() []string {
	var fields []string
	for _, name := range []string{"text", "made"} {
		value, ok := cut(p.last.HTML, `name="`+name+`" value="`)
		require.True(p.t, ok)
		fields = append(fields, name, html.UnescapeString(value))
	}
	return fields
}

// Two rows of forty are wrong: they are named with row, column and value, the others have
// their links, and what is put right beside the sentence is right at once.
func TestFortyRows(t *testing.T) {
	p := atDesk(t)
	text := strings.Replace(tableOf(40), "P4\t2026-12-05", "P4\t2026-02-30", 1)
	text = strings.Replace(text, "P9\t2026-12-10\t05:30", "P9\t2026-12-10\thalf past", 1)
	require.Empty(t, p.check(text))
	require.Equal(t, "outcome", p.last.Focus)
	require.Contains(t, p.last.Say, "38 links are ready. 2 rows need you")
	repair := p.part("repair")
	for _, want := range []string{"Row 6", "2026-02-30", "Row 11", "half past"} {
		require.Contains(t, repair, want)
	}
	require.Contains(t, p.part("row-0"), "Tue, Dec 1")
	require.Contains(t, p.part("row-4"), "No link")
	require.Empty(t, p.onDevice())

	out := p.send("/desk/rows", append([]string{"act", "again", "cell-6-1", "2026-12-05", "cell-11-2", "5:45 am"}, p.carried()...)...)
	require.Contains(t, out.Say, "40 links are ready.")
	require.NotContains(t, out.HTML, `id="repair"`)
	require.Contains(t, p.part("row-9"), "05:45")
	require.Contains(t, p.carried()[1], "P4\t2026-12-05")

	out = p.send("/desk/rows", append([]string{"copy", "9"}, p.carried()...)...)
	require.True(t, out.Send.Copy && out.Send.Alone)
	family := newPhone(t)
	family.open(out.Send.Fragment)
	require.EqualValues(t, 5*60+45, family.plan().Arrival)
	require.Contains(t, out.Send.Text, pageAddress+"#"+out.Send.Fragment)
}

// What is copied back is what was pasted, with links; pasted again it makes no new ones, and a
// row whose date was changed since corrects its link.
func TestTableGoesBack(t *testing.T) {
	p := atDesk(t)
	p.check(tableOf(3))
	out := p.send("/desk/rows", append([]string{"act", "copy-all"}, p.carried()...)...)
	back := out.Send.Text
	require.True(t, out.Send.Alone)
	require.Equal(t, 3, strings.Count(back, pageAddress+"#")/2, "link and message of each row")
	file := p.send("/desk/rows", append([]string{"act", "save"}, p.carried()...)...).File
	require.Equal(t, &File{Name: "links.tsv", Type: "text/tab-separated-values", Text: back}, file)

	p.check(strings.Replace(back, "P1\t2026-12-02", "P1\t2026-12-09", 1))
	require.Contains(t, p.part("row-0"), "Same link")
	require.Contains(t, p.part("row-1"), "Corrected link")
	require.Contains(t, p.part("row-1"), "Wed, Dec 9")
	p.send("/desk/rows", append([]string{"act", "edit"}, p.carried()...)...)
	require.Equal(t, "field-text", p.last.Focus)
	require.Contains(t, p.last.HTML, "P1\t2026-12-09")
}

// A thousand rows come in steps that say how far they are, and stand there in parts.
func TestThousandRows(t *testing.T) {
	p := atDesk(t)
	steps := p.check(tableOf(1000))
	require.Equal(t, []string{"200 of 1000", "400 of 1000", "600 of 1000", "800 of 1000"}, steps)
	require.Contains(t, p.last.Say, "1000 links are ready")
	require.Less(t, len(p.last.HTML), 500_000)
	require.Contains(t, p.last.HTML, `id="row-99"`)
	require.NotContains(t, p.last.HTML, `id="row-100"`)
	p.send("/desk/rows", append(p.carried(), "from", "900")...)
	require.Contains(t, p.last.HTML, `id="row-999"`)
	require.Equal(t, "row-900", p.last.Focus)
	_, done := desk.Table{}, desk.UnpackDone(p.carried()[3], pageAddress)
	numbers := map[uint32]bool{}
	for _, d := range done {
		numbers[p.planOf(d.Fragment).Number] = true
	}
	require.Len(t, numbers, 1000, "each patient has a plan of their own")
}

// What cannot be read at all is said above the box, in which it still stands.
func TestTableThatCannotBeRead(t *testing.T) {
	p := atDesk(t)
	for _, text := range []string{"", "x", "Label\tJoint\nA\tknee", "Date\tDate\n2026-12-03\t2026-12-03", "Date\n", strings.Repeat("Date\t", 100) + "\nx"} {
		out := p.send("/desk/rows", "act", "check", "text", text)
		require.Equal(t, "problems", out.Focus, text)
		require.NotEmpty(t, p.part("problems"))
		require.NotContains(t, p.text(), "desk.row.", "there is a sentence for it")
		if text != "" {
			require.Contains(t, html.UnescapeString(out.HTML), text)
		}
	}
	long := "Date\n" + strings.Repeat("2026-12-03 ", desk.MostBytes/11+1)
	out := p.send("/desk/rows", "act", "check", "text", long)
	require.Equal(t, "problems", out.Focus)
	require.Contains(t, out.HTML, long[:4000], "nothing of it is lost")
}

func TestTableExample(t *testing.T) {
	p := atDesk(t)
	p.send("/desk/rows")
	require.Equal(t, "field-text", p.last.Focus)
	require.Contains(t, p.text(), "Date of surgery. It has to be there.")
	p.send("/desk/rows", "act", "example", "text", "")
	_, text, _ := strings.Cut(p.last.HTML, `id="field-text"`)
	_, text, _ = strings.Cut(text, ">")
	text, _, _ = strings.Cut(text, "</textarea>")
	p.check(html.UnescapeString(strings.TrimPrefix(text, "\n")))
	require.Contains(t, p.last.Say, "links are ready")
	require.NotContains(t, p.last.HTML, `id="repair"`)
}

// The patients that were put in one by one are the same table.
func TestSessionBecomesATable(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "Bed 4", "arrival", "", "joint", "hip", "stay", "same-day", "language", "es")...)
	first := p.madeLink()
	p.send("/desk", append(one("operation", "revision"), "rows", p.rows())...)
	rows := p.rows()
	p.send("/desk/rows", "act", "check", "rows", rows)
	require.Contains(t, p.part("row-0"), "Bed 4")
	require.Contains(t, p.part("row-0"), "Hip replacement, Home the same day")
	require.Contains(t, p.part("row-0"), "Same link")
	require.Contains(t, p.last.HTML, first)
	settings := plan.BaseOf(demoProgram)
	s := wholeSession(Request{Fragment: p.fragment, Path: "/desk", Page: pageAddress, Zone: "America/Chicago", Language: "en", Now: p.now.Unix(), Random: make([]byte, 16), Fields: []Field{{"rows", rows}}})
	table, done := s.deskDone(&settings)
	require.Len(t, table.Rows, 2)
	require.Len(t, done, 2)
	require.Contains(t, done[0].Text, "diciembre", "in the patient's language")
}

func BenchmarkDeskRows(b *testing.B) {
	for _, n := range []int{40, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			first := []Field{{"text", tableOf(n)}}
			for range b.N {
				for fields := first; fields != nil; {
					out := Handle(Request{Path: "/desk/rows", Fragment: "desk", Page: pageAddress, Zone: "America/Chicago", Language: "en", Now: 1795000000, Random: make([]byte, 16), Fields: fields})
					if fields = nil; out.Again != nil {
						fields = out.Again.Fields
					}
				}
			}
		})
	}
}
