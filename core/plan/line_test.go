package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The numbers of lists go into links; the order is written down by hand.
func TestTheNumbersOfListsAreFixed(t *testing.T) {
	require.Equal(t, []string{"ready", "home", "equipment", "wash", "eat", "pack", "day", "going", "first", "after", "therapy", "later", "limits", "call-now", "call-office"}, ListKeys[:len(ListKeys)])
	for list, key := range ListKeys {
		got, ok := ListByKey(key)
		require.True(t, ok)
		require.Equal(t, List(list), got)
	}
	_, ok := ListByKey("")
	require.False(t, ok)
	require.Equal(t, []string{"emergency", "reviewed-by", "reviewed-on", "translated-by", "translated-on",
		"phone-hours", "after-phone", "after-hours", "park-at", "check-in"}, ProgramTextKeys[:])
}

func TestLinesStayInOrder(t *testing.T) {
	line := func(id uint32, text string) Line { return Line{ID: id, List: Ready, Day: NoDay, Text: text} }
	p := Plan{}.WithLine(line(5, "five")).WithLine(line(1<<32-1, "last")).WithLine(line(2, "two"))
	require.Equal(t, []Line{line(2, "two"), line(5, "five"), line(1<<32-1, "last")}, p.Lines)
	q := p.WithLine(line(5, "changed")).WithoutLine(2).WithoutLine(99)
	require.Equal(t, []Line{line(5, "changed"), line(1<<32-1, "last")}, q.Lines)
	require.Equal(t, "five", p.Line(5).Text, "the plan it is called on keeps its own")
	require.Nil(t, p.Line(3))
	require.Nil(t, p.WithoutLine(2).WithoutLine(5).WithoutLine(1<<32-1).Lines)
	require.False(t, p.SameFacts(q))
	done := line(5, "five")
	done.Done = true
	r := p.WithLine(done)
	require.True(t, p.SameFacts(r), "ticks aside")
	require.False(t, p.SameTicks(&r))
}

func TestLinesOfAList(t *testing.T) {
	p := Plan{Lines: []Line{{ID: 1, List: Ready, Text: "a"}, {ID: 2, List: Packing, Text: "b"}, {ID: 3, List: Ready, Hospital: true, Text: "c"}}}
	require.Equal(t, []Line{p.Lines[2], p.Lines[0]}, LinesOf(&p, Ready), "the hospital's first")
	require.Empty(t, LinesOf(&p, Limits))
}

func TestWhatIsWrongWithALine(t *testing.T) {
	sound := Line{ID: 1, List: Ready, Day: NoDay, Text: "lamp"}
	require.Empty(t, CheckLine(&sound))
	for want, change := range map[string]func(*Line){
		"text line-empty":     func(l *Line) { l.Text = "" },
		"text text-long":      func(l *Line) { l.Text = strings.Repeat("x", MaxText+1) },
		"list choice-unknown": func(l *Line) { l.List = ListEnd },
		"day line-far":        func(l *Line) { l.Day = MaxLineDays + 1 },
	} {
		l := sound
		change(&l)
		found := CheckLine(&l)
		require.Len(t, found, 1)
		require.Equal(t, want, found[0].Field+" "+found[0].Code)
	}
	for _, l := range []Line{{List: Limits, Day: NoDay, Text: "x"}, {List: Limits, Day: 1, Hospital: true, Text: "x"}} {
		require.Len(t, CheckLine(&l), 1, "a limit is the hospital's, and has no day")
	}
	long := sound
	long.Text = strings.Repeat("🙂", MaxLineBytes/4+1)
	require.Equal(t, TextLong, CheckLine(&long)[0].Code)
	p := Plan{Lines: []Line{sound, sound}}
	require.Equal(t, []Problem{{Field: "line.1.id", Code: LineUnsound}}, checkLines(&p))
	p.Lines = make([]Line, MaxLines+1)
	require.Equal(t, []Problem{{Field: "lines", Code: LinesMany, High: MaxLines}}, checkLines(&p))
}

// RFC 3966 3 and 5.1.1: visual separators, and a plus sign before a global number.
func TestNumbersThatCanBeDialled(t *testing.T) {
	for _, s := range []string{"911", "112", "000", "+1 (206) 555-0187", "555.0187", "99"} {
		require.True(t, Dialable(s), s)
	}
	for _, s := range []string{"", "9", "nine", "911!", "9+11", "٩١١", "call 911", "+"} {
		require.False(t, Dialable(s), s)
	}
	for typed, dialled := range map[string]string{"15": "15", "+1 (206) 555-0187": "+12065550187", "555.0187": "5550187", "(": "", "1(": ""} {
		require.Equal(t, dialled, Dial(typed), typed)
	}
}

// The two scales do not meet: 35.0 °C is 95.0 °F and 42.0 °C is 107.6 °F (F = C·9/5 + 32). What
// is asked about, below 37.5 °C or 99.5 °F and above 38.6 °C or 101.5 °F, is common practice, no
// published source.
func TestTheScalesOfAFever(t *testing.T) {
	for tenths := Rules[Fever].Min; tenths <= Rules[Fever].Max; tenths++ {
		celsius, ok := Celsius(tenths)
		require.Equal(t, tenths <= 420 || tenths >= 950, ok, tenths)
		require.Equal(t, tenths <= 420, celsius)
		var p Program
		p.Set(Fever, tenths)
		found := checkFever(&p)
		switch {
		case !ok:
			require.Equal(t, FeverUnclear, found[0].Code)
		case tenths < 375 || !celsius && tenths < 995:
			require.Equal(t, []Problem{{Field: "rule.fever", Code: FeverLow, Ask: true}}, found)
		case tenths > 1015 || celsius && tenths > 386:
			require.Equal(t, []Problem{{Field: "rule.fever", Code: FeverHigh, Ask: true}}, found)
		default:
			require.Empty(t, found)
		}
	}
}
