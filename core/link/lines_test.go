package link

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
)

// withLines is a family's plan with lines of its own and with what a hospital says.
func withLines(t *testing.T) plan.Plan {
	p := withFamily(t)
	p.Program.Set(plan.Fever, 383)
	p.Program.Set(plan.BowelDays, 3)
	p.Program.Texts = [len(p.Program.Texts)]string{"112", "Orthopedic nurses", "2026-11-02", "", ""}
	p.Lines = []plan.Line{
		{ID: 1, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Do not kneel on the new knee until the surgeon says so."},
		{ID: 2, List: plan.Packing, Day: plan.NoDay, Done: true, Text: "Bring Rosa's reading lamp"},
		{ID: 3, List: plan.Ready, Day: -3, Text: "Ask Mr. Ode next door to take in the mail"},
	}
	return p
}

// What goes into a link comes out of it. The form is ours; no published source.
func TestLinesInALink(t *testing.T) {
	p := withLines(t)
	got, err := Decode(Encode(merge.New(p)))
	require.NoError(t, err)
	require.Equal(t, p.Lines, got.Plan().Lines)
	require.Equal(t, p.Program, got.Plan().Program)
}

// The bound is counted from the form (core/link/doc.go), which is ours; no published source.
// The rest of the form takes 72 bits for a register and a byte for a byte, some dozen
// characters and four for every three letters: what a line costs is known, and may not grow.
func TestWhatALineCosts(t *testing.T) {
	p := withFamily(t)
	before := len(Encode(merge.New(p)))
	for _, text := range []string{"lamp", "Bring Rosa's reading lamp", "Ask Mr. Ode next door to take in the mail"} {
		after := len(Encode(merge.New(p.WithLine(plan.Line{ID: 1, List: plan.Packing, Day: plan.NoDay, Text: text}))))
		t.Logf("%d characters of text: %d characters of link", len(text), after-before)
		require.LessOrEqual(t, after-before, 19+len(text)*3/2)
	}
	p.Program.Texts[plan.EmergencyNumber] = "112"
	t.Logf("an emergency number: %d characters", len(Encode(merge.New(p)))-before)
}

// A link that is full of lines is read or refused, and opens no more than it may. What is
// refused is ours to say (plan.CheckLine, merge.Key.allows), but for 30 February, which no
// calendar has, and U+202E, which turns text around (Unicode UAX #9; TR36 2.10 on its misuse).
func TestALinkFullOfLines(t *testing.T) {
	p := withFamily(t)
	for id := range uint32(plan.MaxLines) {
		p = p.WithLine(plan.Line{ID: id + 1, List: plan.Ready, Day: plan.NoDay, Text: "again"})
	}
	got, err := Decode(Encode(merge.New(p)))
	require.NoError(t, err)
	require.Len(t, got.Plan().Lines, plan.MaxLines)
	part, _, err := DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Empty(t, part.Lines)

	for name, value := range map[string]string{
		"a limit of the family": "12 Kneel", "a day too far": "0+401 x", "no words": "0 ", "two spaces": "0  x", "a list that cannot be": "64 x", "hidden": "0 a\u202eb",
	} {
		d := merge.New(withFamily(t))
		d.Set(merge.Key{Field: merge.Line, Sub: 1}, []merge.Version{{Stamp: d.Seen()[0], Value: value}})
		_, err := Decode(Encode(d))
		require.ErrorIs(t, err, ErrDamaged, name)
	}
	for _, k := range []merge.Key{{Field: merge.Line}, {Field: merge.Line, Sub: 40 << plan.NthBits}, {Field: merge.Line, Of: 3, Sub: 1}, {Field: merge.LineDone}, {Field: merge.HospitalText, Sub: 64}} {
		d := merge.New(withFamily(t))
		value := "1"
		if k.Field == merge.Line {
			value = "0 x"
		}
		d.Set(k, []merge.Version{{Stamp: d.Seen()[0], Value: value}})
		_, err := Decode(Encode(d))
		require.ErrorIs(t, err, ErrDamaged, k.String())
	}
	for sub, value := range map[uint32]string{2: "2026-02-30", 4: "soon", 0: "0123456789012345678901234567890123456789-", 1: "a\u202eb"} {
		d := merge.New(withFamily(t))
		d.Set(merge.Key{Field: merge.HospitalText, Sub: sub}, []merge.Version{{Stamp: d.Seen()[0], Value: value}})
		_, err := Decode(Encode(d))
		require.ErrorIs(t, err, ErrDamaged, value)
	}
}
