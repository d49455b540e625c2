package app

import (
	"html"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/plan"
	"newel/core/wall"
)

// atDesk is a computer with the desk open, with the example hospital's settings.
func atDesk(t *testing.T) *phone {
	t.Helper()
	p := newPhone(t)
	settings := plan.BaseOf(demoProgram)
	p.open(desk.Address(&settings))
	require.Equal(t, "/desk", p.path)
	return p
}

// one is the form for one patient, with some fields changed.
func one(more ...string) []string {
	fields := map[string]string{"surgery": "2026-12-03", "arrival": "05:30", "joint": "knee", "operation": "first", "stay": "one-night", "language": "en"}
	for i := 0; i < len(more); i += 2 {
		fields[more[i]] = more[i+1]
	}
	all := []string{"act", "make"}
	for _, name := range []string{"surgery", "arrival", "joint", "operation", "stay", "language", "label", "fact.soap-given", "rows", "link", "confirm", "made"} {
		if value, ok := fields[name]; ok {
			all = append(all, name, value)
		}
	}
	return all
}

// madeLink is the fragment of the link that the desk shows.
func (p *phone) madeLink() string {
	p.t.Helper()
	made, ok := cut(p.last.HTML, `name="made" value="`)
	require.True(p.t, ok, p.text())
	return made
}

// rows is the table of the patients that were put in so far.
func (p *phone) rows() string {
	p.t.Helper()
	rows, ok := cut(p.last.HTML, `name="rows" value="`)
	require.True(p.t, ok)
	return html.UnescapeString(rows)
}

func TestDeskNeedsNoSettings(t *testing.T) {
	p := newPhone(t)
	p.open("desk")
	require.Equal(t, "/desk", p.path)
	require.Equal(t, "title", p.last.Focus, "the notice stands in front of the form")
	require.Contains(t, p.part("notice-common"), "No hospital is put in yet")
	require.Contains(t, p.last.HTML, `data-path="/desk/settings"`)
	require.NotContains(t, p.part("signs"), "November", "the signs are about no day of surgery")
	require.Zero(t, p.last.Refresh, "nothing at the desk moves by the clock")
	p.send("/desk", one()...)
	made := p.planOf(p.madeLink())
	require.Equal(t, "America/Chicago", made.Zone, "the device's, where the settings name none")
	require.Empty(t, p.onDevice(), "nothing is stored")
}

// One patient: what was put in is read back, and the link says that and no more.
func TestOnePatient(t *testing.T) {
	p := atDesk(t)
	require.NotContains(t, p.last.HTML, "notice-common")
	address := p.fragment
	out := p.send("/desk", one("label", "Bed 4", "fact.soap-given", "1")...)
	require.Equal(t, "made", out.Focus)
	require.Equal(t, address, p.fragment, "the desk's address stays")
	require.False(t, out.Push)
	require.Contains(t, p.part("made-said"), "Knee replacement, Thursday, December 3: 9 days to go. Arrival at 05:30. One night in the hospital. Handed out: surgical soap.")
	got := p.planOf(p.madeLink())
	require.Equal(t, "2026-12-03", got.Surgery.String())
	require.EqualValues(t, 5*60+30, got.Arrival)
	require.EqualValues(t, demoProgram, got.Program.Number)
	require.Equal(t, plan.SoapGiven, got.Facts)
	require.NotContains(t, p.part("made-message"), "Bed 4")
	require.Contains(t, p.part("made-message"), pageAddress+"#"+p.madeLink())
	require.Contains(t, p.part("session"), "One link made on this page")
	require.Empty(t, p.onDevice())

	values := p.values()
	require.Empty(t, values["surgery"], "the form is ready for the next patient")
	require.Equal(t, "1", values["fact.soap-given"], "what hardly differs stands already")

	family := newPhone(t)
	family.open(p.madeLink())
	require.Contains(t, family.text(), "Alder Ferry Hospital")
}

// What the shell is to hand over: the message with its link in it, or the link alone.
func TestMadeIsHandedOver(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one()...)
	fields, message := p.hidden("/desk"), p.part("made-message")
	for _, c := range []struct {
		act         string
		text        string
		copy, alone bool
	}{{"copy-text", message, true, true}, {"send", message, false, true}, {"copy", "", true, false}} {
		out := p.send("/desk", append([]string{"act", c.act}, fields...)...)
		require.Equal(t, &Send{Title: "Link for Thursday, December 3", Text: c.text, Fragment: p.madeLink(), Copy: c.copy, Alone: c.alone}, out.Send)
	}
	out := p.send("/desk", append([]string{"sent", "copied"}, fields...)...)
	require.Contains(t, out.Say, "Copied")
	require.Contains(t, p.part("made-message"), message)
	p.send("/desk", append([]string{"act", "next"}, fields...)...)
	require.NotContains(t, p.last.HTML, `id="made"`)
	require.Contains(t, p.part("session"), "One link made on this page")
	require.Equal(t, "field-surgery", p.last.Focus)
}

// A slip is seen when it is read back: the patient is put in again, and is not there twice.
func TestMadeIsCorrected(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "A1")...)
	p.send("/desk", append(one("label", `B "2"`, "arrival", "", "joint", "hip"), "rows", p.rows())...)
	require.Contains(t, p.part("session"), "2 links made")
	p.send("/desk", append([]string{"act", "mend"}, p.hidden("/desk")...)...)
	values := p.values()
	require.Equal(t, `B "2"`, values["label"])
	require.Equal(t, "2026-12-03", values["surgery"])
	require.Contains(t, p.part("session"), "2 links made", "it is in the list until it is put right")
	old, _ := cut(p.last.HTML, `name="old" value="`)
	family := newPhone(t)
	family.open(old)

	p.send("/desk", append(one("label", `B "2"`, "surgery", "2026-12-04", "joint", "hip"), "rows", p.rows(), "old", old)...)
	require.Contains(t, p.part("session"), "2 links made")
	require.Equal(t, family.plan().Number, p.planOf(p.madeLink()).Number, "the first may have been sent")
	require.Contains(t, p.part("made-message"), "Friday, December 4")
	family.open(p.madeLink())
	require.Equal(t, "2026-12-04", family.plan().Surgery.String())
	require.Contains(t, family.text(), "Friday, December 4")
}

// Each problem of the form stands beside its field, and nothing is lost.
func TestDeskFormProblems(t *testing.T) {
	for _, c := range []struct{ field, typed, want string }{
		{"surgery", "", "please put in a date"},
		{"surgery", "2027-02-30", "is not a day of the calendar"},
		{"surgery", "2026-01-05", "is in the past. Is that right?"},
		{"arrival", "25:00", "is not a time of day"},
		{"arrival", "02:10", "is an unusual time"},
		{"label", strings.Repeat("x", 41), "too long"},
		{"joint", "elbow", "choose one of the answers"},
	} {
		p := atDesk(t)
		out := p.send("/desk", one(c.field, c.typed)...)
		require.Equal(t, "problems", out.Focus, c)
		require.Contains(t, p.part("problems"), c.want)
		require.NotContains(t, p.last.HTML, `id="made"`)
		if c.field != "joint" {
			require.Equal(t, c.typed, p.values()[c.field])
		}
	}
	p := atDesk(t)
	p.send("/desk", one("surgery", "2026-01-05", "confirm", "2026-01-05")...)
	require.Contains(t, p.last.HTML, `id="made"`, "yes, it is right")
}

// The desk's address can be typed, kept, reloaded and pasted; in another language and from any
// screen of it nothing of a device's plans is touched.
func TestDeskAddress(t *testing.T) {
	p := started(t)
	before := len(p.onDevice())
	mine := p.fragment
	settings := plan.BaseOf(demoProgram)
	address := desk.Address(&settings)
	for _, path := range []string{"/", "/desk", "/desk/rows", "/desk/moved", "/facts", "/tick", "/forget/x", "/link", "/clock"} {
		p.fragment = address
		p.send(path)
		require.Equal(t, address, p.fragment, path)
		require.True(t, strings.HasPrefix(p.path, "/desk"), path)
		require.Zero(t, p.last.Refresh)
	}
	p.fragment = ""
	p.send("/open", "text", "Here it is: "+pageAddress+"#"+address+". Keep it.")
	require.Equal(t, address, p.fragment)
	require.Equal(t, "/desk", p.path)
	p.send("/desk/rows")
	p.send("/language", "language", "es", "at", "/desk/rows")
	require.Equal(t, "/desk/rows", p.path)
	require.Contains(t, p.text(), "Varios pacientes")
	p.send("/sources")
	require.Equal(t, "/sources", p.path)
	require.Equal(t, address, p.fragment)
	require.Len(t, p.onDevice(), before+1, "only the language")
	p.open(mine)
	require.Equal(t, "/", p.path)
}

func TestDamagedDeskAddress(t *testing.T) {
	settings := plan.BaseOf(demoProgram)
	good := desk.Address(&settings)
	for _, bad := range []string{good[:len(good)-2], good + "A", "desk.", "desk.x", "desk.<b>"} {
		p := newPhone(t)
		p.open(bad)
		require.Contains(t, p.text(), "The settings in this address cannot be read", bad)
		require.Contains(t, p.last.HTML, `data-path="/desk/settings"`)
		require.Contains(t, p.text(), "Open the settings file")
		require.Empty(t, p.onDevice())
	}
}

// A patient can be put in within twenty seconds by keyboard alone: Card, Moran and Newell, "The
// keystroke-level model for user performance time with interactive systems", CACM 23(7), 1980,
// from memory: 0.28 s a key for an average typist who is no secretary, 1.35 s to make ready for
// each thing that is put in. The browser test presses just these keys.
func TestKeystrokesOfOnePatient(t *testing.T) {
	keys := len("12032026") + len("\t") + len("0530AM") + len("\n")
	things := 3 // the date, the arrival, sending it
	seconds := float64(keys)*0.28 + float64(things)*1.35
	require.Less(t, seconds, 20.0, strconv.FormatFloat(seconds, 'f', 1, 64))
	p := atDesk(t)
	require.Equal(t, "field-surgery", p.last.Focus, "the first key goes into the date")
	_, form, _ := strings.Cut(p.last.HTML, `id="one"`)
	require.Less(t, strings.Index(form, `id="field-surgery"`), strings.Index(form, `id="field-arrival"`))
	between := form[strings.Index(form, `id="field-surgery"`):strings.Index(form, `id="field-arrival"`)]
	require.NotContains(t, between, "<button", "one Tab from the one to the other")
	require.NotContains(t, between, "<a ")
}

func dateOf(t *testing.T, iso string) wall.Date {
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}
