package desk

import (
	"encoding/json"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// openVector is one file of toml-test, see testdata/desk/toml-test.txt.
type openVector struct{ name, text, want string }

func openVectors(t *testing.T) []openVector {
	t.Helper()
	data, err := os.ReadFile("../../testdata/desk/toml-test.txt")
	require.NoError(t, err)
	var all []openVector
	for _, line := range strings.Split(string(data), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		v := openVector{}
		v.name, line, _ = strings.Cut(line, " ")
		quoted, err := strconv.QuotedPrefix(line)
		require.NoError(t, err)
		v.text, err = strconv.Unquote(quoted)
		require.NoError(t, err)
		if rest := strings.TrimSpace(line[len(quoted):]); rest != "" {
			v.want, err = strconv.Unquote(rest)
			require.NoError(t, err)
		}
		all = append(all, v)
	}
	return all
}

// asJSON writes a table as toml-test does: each value with its type.
func asJSON(d *tomlDoc) map[string]any {
	all := map[string]any{}
	for _, e := range d.Entries {
		types := map[tomlKind]string{tomlText: "string", tomlWhole: "integer", tomlDecimal: "float", tomlYesNo: "bool", tomlDay: "date-local", tomlClock: "time-local"}
		switch e.Value.Kind {
		case tomlTable:
			all[e.Key] = asJSON(e.Value.Table)
		case tomlTables:
			var list []any
			for _, in := range e.Value.Tables {
				list = append(list, asJSON(in))
			}
			all[e.Key] = list
		default:
			text := e.Value.Text
			if e.Value.Kind == tomlWhole {
				text = strconv.FormatInt(e.Value.Whole, 10)
			}
			all[e.Key] = map[string]any{"type": types[e.Value.Kind], "value": text}
		}
	}
	return all
}

// sameFloats makes floats alike that are written in another way.
func sameFloats(v any) any {
	switch v := v.(type) {
	case map[string]any:
		if text, ok := v["value"].(string); ok && v["type"] == "float" {
			f, err := strconv.ParseFloat(text, 64)
			if err == nil {
				return f
			}
		}
		for k := range v {
			v[k] = sameFloats(v[k])
		}
	case []any:
		for i := range v {
			v[i] = sameFloats(v[i])
		}
	}
	return v
}

// onlyUnused tells whether all that is wrong is that settings do not use it.
func onlyUnused(faults []Fault) bool {
	return !slices.ContainsFunc(faults, func(f Fault) bool { return f.Code != tomlUnused })
}

// The open vectors of toml-test for TOML 1.0.0: what is invalid is refused; what is valid is read
// as the vectors say, or refused as not used here.
func TestOpenVectorsOfTOML(t *testing.T) {
	read, unused, refused := 0, 0, 0
	for _, v := range openVectors(t) {
		doc, faults := readTOML(v.text)
		switch {
		case v.want == "":
			require.NotEmpty(t, faults, v.name)
			refused++
		case len(faults) > 0:
			require.True(t, onlyUnused(faults), "%s: %v", v.name, faults)
			unused++
		default:
			var want map[string]any
			require.NoError(t, json.Unmarshal([]byte(v.want), &want), v.name)
			require.Equal(t, sameFloats(want), sameFloats(asJSON(doc)), v.name)
			read++
		}
	}
	t.Logf("valid and read %d, valid and not used here %d, invalid and refused %d", read, unused, refused)
	require.GreaterOrEqual(t, read, 100, "most valid files are really read")
	require.Equal(t, 205, read+unused)
	require.GreaterOrEqual(t, refused, 400)
}

// Several faults are told at once, each with its line, and what is right beside them is read.
func TestFaultsNameTheirLines(t *testing.T) {
	doc, faults := readTOML("a = 1\nb = wrong words\nc = \"open\nd = 2 3\n= 5\n[x\ne = 1\n[y]\nf = 4\nf = 5\ng = [1,\n2]\nh = \"\\q\"\ni = 6\n")
	require.Equal(t, []Fault{
		{Line: 2, Key: "b", Code: tomlNotQuoted, Value: "wrong words"},
		{Line: 3, Key: "c", Code: tomlOpen, Value: `"open`},
		{Line: 4, Code: tomlBehind, Value: "3"},
		{Line: 5, Code: tomlKey, Value: "= 5"},
		{Line: 6, Key: "x", Code: tomlHead},
		{Line: 10, Key: "y.f", Code: tomlTwice},
		{Line: 11, Key: "y.g", Code: tomlUnused, Value: "[1,"},
		{Line: 13, Key: "y.h", Code: tomlEscape, Value: `\q"`},
	}, unnamed(faults))
	require.Equal(t, []string{"a", "d", "y"}, keysOf(doc))
	require.Equal(t, []string{"f", "i"}, keysOf(doc.entry("y").Value.Table))
}

// unnamed is there so that the table above can be read: keys of tables are told without it.
func unnamed(faults []Fault) []Fault {
	for i := range faults {
		if faults[i].Line > 8 {
			faults[i].Key = "y." + faults[i].Key
		}
	}
	return faults
}

func keysOf(d *tomlDoc) []string {
	var all []string
	for _, e := range d.Entries {
		all = append(all, e.Key)
	}
	return all
}

// Whatever is put in, reading ends, and a line that is named is one of the text.
func TestAnyTextIsReadToItsEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		piece := rapid.SampledFrom([]string{"a", "=", "\"", "\"\"\"", "'", "[", "]", "[[", "{", "}", ".", "\n", "\r\n", "\\", "#", " ", "1", "-", "é", "\xff", "2027-01-01", "\\u00e9"})
		text := strings.Join(rapid.SliceOfN(piece, 0, 60).Draw(t, "pieces"), "")
		_, faults := readTOML(text)
		for _, f := range faults {
			require.LessOrEqual(t, f.Line, strings.Count(text, "\n")+1)
			require.Positive(t, f.Line)
		}
	})
}

// A file of nothing but keys is read in time that grows with its length.
func TestManyKeys(t *testing.T) {
	var b strings.Builder
	for i := range 20_000 {
		b.WriteString("k" + strconv.Itoa(i) + "=1\n")
	}
	start := time.Now()
	doc, faults := readTOML(b.String())
	require.Less(t, time.Since(start), time.Second)
	require.Empty(t, faults)
	require.Len(t, doc.Entries, 20_000)
}
