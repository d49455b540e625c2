package desk

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func values(text string, comma byte) [][]string {
	all := [][]string{}
	for _, l := range readLines(text, comma) {
		var row []string
		for _, c := range l.cells {
			row = append(row, c.value)
		}
		all = append(all, row)
	}
	return all
}

// RFC 4180 section 2, rules 1 to 7, with the examples as they stand there.
func TestTheExamplesOfRFC4180(t *testing.T) {
	for _, c := range []struct {
		rule, text string
		want       [][]string
	}{
		{"1", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"2", "aaa,bbb,ccc\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"3", "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
			[][]string{{"field_name", "field_name", "field_name"}, {"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"4", "aaa,bbb,ccc", [][]string{{"aaa", "bbb", "ccc"}}},
		{"4, spaces are part of a field", " aaa , bbb,ccc ", [][]string{{" aaa ", " bbb", "ccc "}}},
		{"5", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"7", `"aaa","b""bb","ccc"`, [][]string{{"aaa", `b"bb`, "ccc"}}},
	} {
		require.Equal(t, c.want, values(c.text, ','), c.rule)
	}
}

// What RFC 4180 leaves open, as spreadsheets are met with (common practice, no published source).
func TestWhatTheRFCLeavesOpen(t *testing.T) {
	for _, c := range []struct {
		text  string
		comma byte
		want  [][]string
	}{
		{"a;b\nc;d\n", ';', [][]string{{"a", "b"}, {"c", "d"}}},
		{"a\tb\rc\td", '\t', [][]string{{"a", "b"}, {"c", "d"}}},
		{"5\" screw\tb", '\t', [][]string{{`5" screw`, "b"}}},
		{"a,\n,b\n\nc", ',', [][]string{{"a", ""}, {"", "b"}, {""}, {"c"}}},
		{`"a"b,c`, ',', [][]string{{`"a"b`, "c"}}},
		{"\"open,b\nc,\"d, e\"\n", ',', [][]string{{`"open`, "b"}, {"c", "d, e"}}}, // takes no other row with it
		{"a,\"", ',', [][]string{{"a", `"`}}},
		{`"",""""`, ',', [][]string{{"", `"`}}},
	} {
		require.Equal(t, c.want, values(c.text, c.comma), "%q", c.text)
	}
}

func TestTheSeparatorIsFound(t *testing.T) {
	for text, want := range map[string]byte{
		"Date\tJoint\nx": '\t', "Date,Joint": ',', "Date;Joint,side;Stay": ';', "Date": '\t', "\r\n\"a,b\";c": ';', "": '\t',
		"Joint, side\tDate": '\t',
	} {
		require.Equal(t, want, separatorOf(text), "%q", text)
	}
}

// A cell of ours is read back as what it was, whatever stands in it.
func TestReadingWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]byte{',', ';', '\t'}).Draw(t, "comma")
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.StringOf(rapid.SampledFrom([]rune("ab\",;\t\r\n é=\x00"))), 2, 5), 1, 5).Draw(t, "rows")
		var b strings.Builder
		for _, row := range rows {
			for i, value := range row {
				if i > 0 {
					b.WriteByte(comma)
				}
				b.WriteString(written(value, comma))
			}
			b.WriteString("\r\n")
		}
		require.Equal(t, rows, values(b.String(), comma))
	})
}

// Go's encoding/csv reads the same out of what it writes itself. It turns CRLF within quotes
// into LF and leaves out empty lines, so the cells have neither.
func TestAgainstEncodingCSV(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.StringOf(rapid.SampledFrom([]rune("ab\",;\n é"))), 2, 5), 1, 5).Draw(t, "rows")
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.UseCRLF = false
		require.NoError(t, w.WriteAll(rows))
		require.Equal(t, rows, values(b.String(), ','))
		r := csv.NewReader(strings.NewReader(b.String()))
		r.FieldsPerRecord = -1
		theirs, err := r.ReadAll()
		require.NoError(t, err)
		require.Equal(t, theirs, values(b.String(), ','))
	})
}

// Every letter of a text is in its cells, separators and line ends: nothing is lost, and a text
// put together again is the text.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]byte{',', ';', '\t'}).Draw(t, "comma")
		text := rapid.StringOf(rapid.SampledFrom([]rune("a\",;\t\r\n\x00\u202e"))).Draw(t, "text")
		var b strings.Builder
		for _, l := range readLines(text, comma) {
			for i, c := range l.cells {
				if i > 0 {
					b.WriteByte(comma)
				}
				b.WriteString(c.raw)
			}
			b.WriteString(l.end)
		}
		require.Equal(t, text, b.String())
	})
}
