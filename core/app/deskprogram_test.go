package app

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
)

// withProgram has this page come with a program, for one test.
func withProgram(t *testing.T, number uint16, hospital string, home bool) plan.Known {
	t.Helper()
	programs, wasHome := maps.Clone(plan.Programs), plan.Home
	t.Cleanup(func() { plan.Programs, plan.Home = programs, wasHome })
	known := plan.Known{Zone: "America/Chicago", Program: plan.Program{Number: number, Hospital: hospital, Phone: "555-0143"}}
	known.Program.Set(plan.WashDays, 5)
	for i, text := range []string{"Bring the blue folder", "Ask for the side entrance"} {
		known.Lines = append(known.Lines, plan.Line{ID: plan.FirstKnownLine + uint32(i), List: plan.Packing, Day: plan.NoDay, Hospital: true, Text: text})
	}
	plan.Programs = maps.Clone(plan.Programs)
	plan.Programs[number] = known
	if home {
		plan.Home = number
	}
	return known
}

// settingsFields are the fields of the settings form as it stands on the screen; its lines are in
// the list for packing.
func (p *phone) settingsFields(more ...string) []string {
	lines, ok := cut(p.last.HTML, `name="lines" value="`)
	require.True(p.t, ok)
	fields := []string{"lines", lines, lineName(0, "list"), "pack", lineName(1, "list"), "pack"}
	for name, value := range p.values() {
		if value != "" && !strings.HasSuffix(name, ".list") && name != "lines" {
			fields = append(fields, name, value)
		}
	}
	return append(fields, more...)
}

// What a program's number says never changes: lines that the form changes travel in the links, in
// place of the program's, and not beside them. How is ours; no published source.
func TestLinesOfAProgramAreReplacedNotDoubled(t *testing.T) {
	known := withProgram(t, 7, "Alder Ferry Hospital", true)
	p := newPhone(t)
	p.open(desk.Address(&known))
	p.send("/desk/settings")
	p.send("/desk/settings", p.settingsFields("line.0.en", "Bring the red folder", "line.1.out", "1")...)
	require.Equal(t, "notice-saved", p.last.Focus, p.text())
	settings, err := desk.ReadAddress(p.fragment)
	require.NoError(t, err)
	require.Zero(t, settings.Program.Number)
	require.Equal(t, 5, settings.Program.Get(plan.WashDays))
	require.Equal(t, "555-0143", settings.Program.Phone)
	require.Len(t, settings.Lines, 1)
	require.Equal(t, "Bring the red folder", settings.Lines[0].Text)

	p.open(desk.Address(&known))
	file := desk.WriteFile(&known, guide.Voice{Book: guide.Open("en")})
	require.Contains(t, file, "number = 7")
	p.send("/desk/settings/use", "text", strings.Replace(file, "Bring the blue folder", "Bring the red folder", 1))
	settings, err = desk.ReadAddress(p.fragment)
	require.NoError(t, err)
	require.Zero(t, settings.Program.Number, "a file with the number, too")
	require.Len(t, settings.Lines, 2)
	require.Equal(t, "Bring the red folder", settings.Lines[0].Text)

	p.open(desk.Address(&known))
	p.send("/desk/settings")
	p.send("/desk/settings", p.settingsFields("rule.wash-days", "6")...)
	settings, err = desk.ReadAddress(p.fragment)
	require.NoError(t, err)
	require.EqualValues(t, 7, settings.Program.Number, "a rule alone goes beside the number")
	require.Equal(t, known.Lines, settings.Lines)
}

// An address with a program that this page lacks makes no links: they would say nothing of the
// hospital. The same page says how to go on.
func TestAnAddressOfAnotherCopy(t *testing.T) {
	known := withProgram(t, 9, "Quay Street Hospital", false)
	address := desk.Address(&known)
	delete(plan.Programs, 9)
	p := newPhone(t)
	p.open(address)
	require.Contains(t, p.text(), "another copy of this page")
	require.NotContains(t, p.last.HTML, `id="one-make"`)
	for _, path := range []string{"/desk/rows", "/desk/moved", "/desk/cards"} {
		p.fragment = address
		p.send(path)
		require.Contains(t, p.text(), "another copy of this page", path)
	}
	p.fragment = address
	p.send("/desk/settings")
	require.NotContains(t, p.last.HTML, "Quay Street", "the form begins with this page's own")
}

// What moves is not said where the page does not know the hospital's rules; the correction goes out.
func TestACorrectionOfAnUnknownProgramSaysSo(t *testing.T) {
	known := withProgram(t, 9, "Quay Street Hospital", false)
	patient := desk.Patient{Surgery: 20800, Arrival: 330}
	old := desk.Starter(&known, patient, 77)
	delete(plan.Programs, 9)
	p := atDesk(t)
	p.send("/desk/moved", "text", old)
	p.send("/desk/moved", append(one("surgery", "2026-12-17"), "link", old)...)
	require.Contains(t, p.text(), "cannot say which times move")
	require.NotContains(t, p.text(), "No time moves")
}

// Where the hospital has a later program, a bookmark with the earlier one says so and leads on.
func TestEarlierSettingsSaySo(t *testing.T) {
	earlier := withProgram(t, 7, "Alder Ferry Hospital", false)
	later := withProgram(t, 8, "Alder Ferry Hospital, new wing", true)
	p := newPhone(t)
	p.open(desk.Address(&earlier))
	require.Contains(t, p.part("notice-home"), "Use the settings of Alder Ferry Hospital, new wing")
	require.Contains(t, p.last.HTML, `href="#`+desk.Address(&later)+`"`)
	p.open(desk.Address(&later))
	require.NotContains(t, p.last.HTML, "notice-home")
	p.kept[keyDesk] = desk.Address(&earlier)
	p.open(desk.Word)
	require.Contains(t, p.last.HTML, "notice-home", "also where they are kept on the device")
}

// Settings that no address can hold are refused, with everything that was typed in its place.
func TestSettingsThatAreTooLongForAnAddress(t *testing.T) {
	p := newPhone(t)
	p.open(desk.Word)
	fields := []string{"hospital", "H", "phone", "555-0142", "zone", "America/Chicago", "lines", "40"}
	for n := range 40 {
		text := fmt.Sprintf("%02d", n) + strings.Repeat("漢", 110)
		fields = append(fields, lineName(n, "list"), "pack", lineName(n, "en"), text, lineName(n, "es"), text+"x")
	}
	p.send("/desk/settings", fields...)
	require.Equal(t, "problems", p.last.Focus)
	require.Contains(t, p.part("problems"), "more than a plan can hold in one link")
	require.Equal(t, desk.Word, p.fragment)
	require.Contains(t, p.last.HTML, "39漢漢")
}
