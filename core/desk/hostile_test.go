package desk

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What somebody may paste by mistake: a sentence comes of it and no panic, soon, and what is
// around it is not lost.
func TestPastedByMistake(t *testing.T) {
	const head, good = "Date\tLabel\tJoint\n", "11/30/2026\tA1\tknee\n"
	for name, c := range map[string]struct {
		text string
		rows int // that a link is made for
	}{
		"ten megabytes":         {strings.Repeat("x\t", 5<<20), 0},
		"one giant cell":        {head + good + strings.Repeat("a", 300<<10) + "\n" + good, 1}, // the last is the first once more
		"a giant label":         {head + "11/30/2026\t" + strings.Repeat("a", 300<<10) + "\thip\n" + good, 2},
		"100,000 columns":       {strings.Repeat("Date\t", 80_000) + "\n" + good, 0},
		"a row of 100,000":      {head + good + strings.Repeat("\t", 100_000) + "x\n12/1/2026\tB2\thip\n", 2},
		"many rows of 60 cells": {head + strings.Repeat(strings.Repeat("\t", 60)+"x\n", 1900), 0},
		"NULs":                  {head + good + "\x00\x00\t\x00\n12/1/2026\tB\x002\thip\n", 2},
		"overrides":             {head + good + "\u202e12/1/2026\t\u202eB2\t\u2066hip\n", 2},
		"open quotes":           {head + good + "\"12/1/2026\tB2\"\t\"hip\n12/2/2026\tC3\thip\n", 2},
		"only quotes":           {strings.Repeat(`"`, 300<<10), 0},
		"quotes and tabs":       {head + strings.Repeat("\"\"a\t", 60_000), 0},
		"doubled quotes":        {head + "\"" + strings.Repeat(`""`, 100_000) + "a\t" + strings.Repeat("\t\"\"\"", 1000), 0},
		"broken UTF-8":          {head + good + "\xff\xfe\t\xc3\t\x80\n", 1},
		"a picture":             {"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", 0},
		"no text":               {"", 0},
		"empty lines":           {head + strings.Repeat("\n", 1<<20), 0},
		"two megabytes":         {head + strings.Repeat("\"\"a\t", 500_000) + "\n" + good, 1},
		"digits":                {head + strings.Repeat("9", 100_000) + "\tA1\thip\n" + good, 1},
	} {
		start := time.Now()
		table := Read(c.text, known(), today, voices())
		done := table.Make(known(), page, chance)
		out := table.Text(done, voices()[0])
		require.Less(t, time.Since(start), 5*time.Second, name)
		made := 0
		for _, d := range done {
			if d.Fragment != "" {
				made++
			}
		}
		require.Equal(t, c.rows, made, name)
		require.True(t, len(table.Rows) > 0 || len(table.Faults) > 0, name)
		require.Less(t, len(out), 3*MostBytes, name)
		allSaid(t, &table, name)
	}
}

// allSaid asks of every fault that its sentence is short, whole, and holds nothing unseen.
func allSaid(t require.TestingT, table *Table, name string) {
	said := func(r *Row, f RowFault) {
		for _, v := range voices() {
			s := Sentence(v, r, f)
			require.Less(t, len(s), 600, name)
			require.False(t, strings.HasPrefix(s, "desk."), s)
			require.NotContains(t, s, "\u202e", name)
			require.NotContains(t, s, "\x00", name)
		}
	}
	for _, f := range table.Faults {
		said(nil, f)
	}
	for i := range table.Rows {
		if i > 50 {
			break
		}
		for _, f := range table.Rows[i].Faults {
			said(&table.Rows[i], f)
		}
	}
}

// Any text at all: what is read of it can be made, written and read again, and the lines that
// are no row stand where they stood.
func TestAnyText(t *testing.T) {
	pieces := []string{
		"Date", "Label", "Link", "Joint", "Arrival", "Message", "11/30/2026", "46356", "knee", "5:30", "0.25", "\t", "\t", "\n", "\n", ",", ";", `"`, `""`, "=1+1",
		"\r\n", "\x00", "\u202e", "é", "\xff", "13/13/2026", "Mon", "60", locked, newer,
	}
	v := voices()
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 40).Draw(t, "pieces"), "")
		if rapid.Bool().Draw(t, "head") {
			text = "Date\tLabel\tLink\n" + text
		}
		table := Read(text, known(), today, v)
		allSaid(t, &table, text)
		done := table.Make(known(), page, chance)
		require.Len(t, done, len(table.Rows))
		out := table.Text(done, v[0])
		if len(table.Rows) == 0 {
			require.Equal(t, text, out)
			return
		}
		again := Read(out, known(), today, v)
		require.Len(t, again.Rows, len(table.Rows), "%q became %q", text, out)
		for i := range done {
			require.Equal(t, table.Rows[i].Number, again.Rows[i].Number)
		}
	})
}

// Whatever stands in a cell with a date or a time, it is read or refused.
func TestAnyDateAndTime(t *testing.T) {
	calendar, clock := newCalendarWords(voices()), newClockWords(voices())
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("0123456789/-.: ,TZamp"))).Draw(t, "text")
		d := calendar.date(text, today)
		require.True(t, d.fault != "" && !d.ask || d.day.String() >= "2000-01-01" && d.day.String() <= "2100-12-31", text)
		c := clock.clock(text)
		require.True(t, c.clock >= -1 && c.clock < 1440, text)
		require.Equal(t, c.fault != "" && !c.ask, c.fault == "time-unreal", text)
	})
}
