package app

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
)

// settingsAt asks for a path of the desk on a device in Chicago.
func settingsAt(fragment, path string, kept map[string]string, fields ...Field) Response {
	return Handle(Request{
		Path: path, Fragment: fragment, Page: "https://example.org/newel/", Zone: "America/Chicago", Language: "en-US",
		Now: 1795705200, Random: make([]byte, 16), Kept: kept, Fields: fields,
	})
}

func exampleSettings(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/desk/alder-ferry.toml")
	require.NoError(t, err)
	return string(data)
}

var firstSettings = []Field{
	{"hospital", "Alder Ferry Hospital"}, {"phone", "555-0142"}, {"zone", "America/Chicago"}, {"act", "save"}, {"lines", "1"},
}

// Name and phone are all that is needed; the address then holds the settings.
func TestSettingsOfNameAndPhone(t *testing.T) {
	r := settingsAt("desk", "/desk/settings", nil)
	require.Contains(t, r.HTML, `value="America/Chicago"`, "the device's own zone stands there")
	r = settingsAt("desk", "/desk/settings", nil, Field{"act", "save"}, Field{"zone", "America/Chicago"})
	require.Equal(t, "problems", r.Focus)
	require.Equal(t, "desk", r.Fragment)
	require.Equal(t, 2, strings.Count(r.HTML, `aria-invalid="true"`))
	r = settingsAt("desk", "/desk/settings", nil, firstSettings...)
	require.Equal(t, "notice-saved", r.Focus)
	require.True(t, r.Push)
	s, err := desk.ReadAddress(r.Fragment)
	require.NoError(t, err)
	require.Equal(t, "Alder Ferry Hospital", s.Program.Hospital)
	require.Empty(t, r.Keep, "nothing is stored unless somebody asks for it")
}

// A line is added, changed and taken out, and what is typed beside it stays.
func TestLinesOfSettings(t *testing.T) {
	line := func(n, list, day, en, es string) []Field {
		return []Field{{"line." + n + ".list", list}, {"line." + n + ".day", day}, {"line." + n + ".en", en}, {"line." + n + ".es", es}}
	}
	fields := append([]Field{{"hospital", "Alder"}}, line("0", "pack", "-1", "Folder", "Carpeta")...)
	r := settingsAt("desk", "/desk/settings", nil, append(fields, Field{"lines", "1"}, Field{"act", "add"})...)
	require.Equal(t, "field-line.1.list", r.Focus)
	require.Contains(t, r.HTML, `value="Carpeta"`)
	require.Contains(t, r.HTML, `value="Alder"`)
	require.Contains(t, r.HTML, `name="lines" value="2"`)

	all := append(append([]Field{}, firstSettings[:4]...), Field{"lines", "3"})
	all = append(append(append(all, line("0", "pack", "-1", "Folder", "Carpeta")...), line("1", "call-now", "", "", "Llame")...), line("2", "limits", "3", "Knee", "")...)
	r = settingsAt("desk", "/desk/settings", nil, all...)
	require.Contains(t, r.HTML, `id="problem-line.2.day"`)
	require.Contains(t, r.HTML, "this list has no days")
	r = settingsAt("desk", "/desk/settings", nil, append(all, Field{"line.2.day", ""})...)
	s, err := desk.ReadAddress(r.Fragment)
	require.NoError(t, err)
	require.Len(t, s.Lines, 3)
	require.Equal(t, "Llame", s.Lines[1].In("en"), "what is only there in Spanish is shown to all")
	require.Equal(t, plan.CallNow, s.Lines[1].List)
	require.Contains(t, r.HTML, `name="line.2.out"`)

	r = settingsAt(r.Fragment, "/desk/settings", nil, append(all, Field{"line.2.day", ""}, Field{"line.0.out", "1"})...)
	s, err = desk.ReadAddress(r.Fragment)
	require.NoError(t, err)
	require.Len(t, s.Lines, 2)
}

// A rule that is laxer than guidance is kept, and told beside its field.
func TestLaxSettingsAreToldAndKept(t *testing.T) {
	r := settingsAt("desk", "/desk/settings", nil, append(append([]Field{}, firstSettings...), Field{"rule.liquids-before", "30"})...)
	s, err := desk.ReadAddress(r.Fragment)
	require.NoError(t, err)
	require.Equal(t, 30, s.Program.Get(plan.LiquidsBefore))
	require.Contains(t, r.HTML, "1 rule is laxer than published guidance")
	_, after, found := strings.Cut(r.HTML, `name="rule.liquids-before"`)
	require.True(t, found)
	require.Less(t, strings.Index(after, "Anesthesiology 2023"), strings.Index(after, "<input"), "before the next field")
}

// What the form shows is what was put in: sent again as it is, nothing changes.
func TestTheFormShowsTheSettings(t *testing.T) {
	s, faults := desk.ReadFile(exampleSettings(t), 0)
	require.False(t, desk.Stops(faults), faults)
	s.Program.Number = 0
	ses := wholeSession(Request{Zone: "America/Chicago", Language: "en"})
	values, lines := ses.settingsValues(&s)
	for name, value := range values {
		ses.in.Fields = append(ses.in.Fields, Field{name, value})
	}
	ses.in.Fields = append(ses.in.Fields, Field{"lines", "4"})
	require.Equal(t, 4, lines)
	again, _ := ses.enteredSettings(0)
	require.Equal(t, s, again)
}

// A file is saved, opened with a mistake in it, and what is right is used.
func TestTheFileOfSettings(t *testing.T) {
	r := settingsAt("desk", "/desk/settings/check", nil, Field{"text", exampleSettings(t)})
	require.Contains(t, r.HTML, "Nothing is wrong with the file.")
	require.Equal(t, "desk", r.Fragment, "nothing is taken over before somebody says so")
	r = settingsAt("desk", "/desk/settings/use", nil, Field{"text", exampleSettings(t)})
	full := r.Fragment
	s, err := desk.ReadAddress(full)
	require.NoError(t, err)
	require.Zero(t, s.Program.Number, "this page does not have that program")
	require.Len(t, s.Lines, 3)

	r = settingsAt(full, "/desk/settings/save", nil, Field{"act", "save"})
	require.NotNil(t, r.File)
	again, faults := desk.ReadFile(r.File.Text, 20783)
	require.False(t, desk.Stops(faults), faults)
	require.Equal(t, full, desk.Address(&again))
	r = settingsAt(full, "/desk/settings/save", nil, Field{"act", "copy"})
	require.True(t, r.Send.Copy && r.Send.Alone)

	wrong := strings.Replace(exampleSettings(t), "wash-days = 5", "wash-days = 55", 1)
	r = settingsAt("desk", "/desk/settings/check", nil, Field{"file", wrong})
	require.Equal(t, "found", r.Focus)
	require.Contains(t, r.HTML, "Line 18: wash-days: ")
	require.Contains(t, r.HTML, "Use what is right")
	r = settingsAt("desk", "/desk/settings/use", nil, Field{"text", wrong})
	s, err = desk.ReadAddress(r.Fragment)
	require.NoError(t, err)
	require.Equal(t, "Alder Ferry Hospital", s.Program.Hospital)
	require.False(t, s.Program.Own(plan.WashDays))

	for _, text := range []string{"", "\x00PNG", strings.Repeat("x", 300<<10)} {
		r = settingsAt(full, "/desk/settings/check", nil, Field{"text", text})
		require.Equal(t, full, r.Fragment)
		require.NotContains(t, r.HTML, "Use what is right")
		require.NotEmpty(t, r.Say)
		require.Less(t, len(r.HTML), 200<<10)
	}
}

// Settings are kept on the device only when asked, are used there, and are forgotten again.
func TestSettingsKeptOnTheDevice(t *testing.T) {
	full := settingsAt("desk", "/desk/settings", nil, firstSettings...).Fragment
	r := settingsAt(full, "/desk/settings/keep", nil)
	require.Empty(t, r.Keep)
	r = settingsAt(full, "/desk/settings/keep", nil, Field{"act", "keep"})
	require.Equal(t, []Entry{{keyDesk, full}}, r.Keep)
	kept := map[string]string{keyDesk: full}
	r = settingsAt("desk", "/desk", kept)
	require.Equal(t, full, r.Fragment)
	require.Contains(t, r.HTML, "Alder Ferry Hospital")
	r = settingsAt(full, "/desk/settings", kept, append(append([]Field{}, firstSettings...), Field{"rule.wash-days", "6"})...)
	require.Equal(t, []Entry{{keyDesk, r.Fragment}}, r.Keep, "what is kept follows")
	r = settingsAt(full, "/desk/settings/keep", kept, Field{"act", "forget"})
	require.Equal(t, []string{keyDesk}, r.Drop)
	r = settingsAt("desk", "/desk/settings/keep", nil, Field{"act", "keep"})
	require.Empty(t, r.Keep, "there is nothing to keep")
	require.Equal(t, "desk", settingsAt("desk", "/desk", map[string]string{keyDesk: "start"}).Fragment)
}

// All of it in Spanish, and no key of a word is shown.
func TestSettingsInEveryLanguage(t *testing.T) {
	for _, language := range guide.Languages {
		for _, path := range []string{"/desk/settings", "/desk/settings/file", "/desk/settings/keep"} {
			r := Handle(Request{Path: path, Fragment: "desk", Zone: "America/Chicago", Language: language, Now: 1795705200, Random: make([]byte, 16)})
			require.NotContains(t, r.HTML, "settings.")
			require.NotContains(t, r.HTML, ">form.")
			require.Equal(t, path, r.Path)
			require.True(t, shows(path))
		}
	}
}
