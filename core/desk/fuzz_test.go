package desk

import (
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"newel/build/hostile"
)

// FuzzTable: whatever is pasted as a table, every fault has its sentence, as many rows come out as went in, they
// are found again in what is written, and no cell of that is a formula.
func FuzzTable(f *testing.F) {
	for _, text := range []string{"", "Date\tLabel\tJoint\n11/30/2026\tA1\tknee\n", "\ufeffFecha;Nota;Link\r\n30 nov 2026;\"a;\"\"b\"\r\n", "Date,Arrival,Label\n46356,0.25,=1+1\n",
		"Label,Date\n\"open,11/30/2026\n", "Date\tLink\tMessage\n11/30/2026\t" + page + "#" + locked + "\tx\n", bigTable(3, nil)} {
		f.Add(text)
	}
	v := voices()
	f.Fuzz(func(t *testing.T, text string) {
		text = text[:min(len(text), 20_000)]
		defer hostile.Watch("reading a table")()
		table := Read(text, known(), today, v)
		allSaid(t, &table, text)
		done := table.Make(known(), page, chance)
		require.Len(t, done, len(table.Rows))
		out := table.Text(done, v[0])
		if len(table.Rows) == 0 {
			return
		}
		for _, l := range readLines(out, byte(table.Comma)) {
			for _, c := range l.cells {
				require.False(t, computed(c.value), "%q in %q", c.value, out)
			}
		}
		again := Read(out, known(), today, v)
		require.Len(t, again.Rows, len(table.Rows), "%q became %q", text, out)
		for i := range again.Rows {
			require.Equal(t, table.Rows[i].Number, again.Rows[i].Number)
		}
		require.Equal(t, done, UnpackDone(PackDone(done), page)[:len(done)])
	})
}

// FuzzSettings: whatever is in a settings file, each fault has a sentence; what we take for TOML is TOML to another
// reader (BurntSushi/toml) too; and what was read is written and read again as it was.
func FuzzSettings(f *testing.F) {
	for _, text := range []string{"", "hospital = \"Alder Ferry\"\nwash-days = 4\n", "[[line]]\nlist = \"pack\"\nen = \"x\"\nday = -1\n", "a.b = 1\n[a]\nc = [1, {d = 2}]\n",
		"hospital = '''a\nb'''\n", "x = \"\\u0041\\U0001F600\"\n", "reviewed-on = 2026-11-01\nfever = \"38.5 °C\"\n", strings.Repeat("[", 100), "x = " + strings.Repeat("[", 100)} {
		f.Add(text)
	}
	f.Add(WriteFile(own(), voices()[0]))
	v := voices()
	f.Fuzz(func(t *testing.T, text string) {
		defer hostile.Watch("reading settings")()
		s, faults := ReadFile(text, today)
		for _, fault := range faults {
			said := FaultText(v[0], fault)
			require.NotEmpty(t, said)
			require.NotRegexp(t, hostile.Unseen, said)
		}
		if _, form := readTOML(text); len(form) == 0 && len(text) < MostFileBytes {
			var any map[string]any
			_, err := toml.Decode(text, &any)
			require.NoError(t, err, "%q", text)
		}
		if Stops(faults) || s.Zone == "" {
			return
		}
		again, faults := ReadFile(WriteFile(&s, v[0]), today)
		require.False(t, Stops(faults), "%v", faults)
		require.Equal(t, s, again)
	})
}
