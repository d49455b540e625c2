package desk

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A name of a column in any letters is read, or kept and not read, and the reader comes to an end.
// The letters are of Unicode's blocks, from memory.
func TestNamesOfColumnsInAnyLetters(t *testing.T) {
	for _, name := range []string{"漢字", "Straße", "Дата", "تاريخ", "日付 (年月日)", "ñ", "🦵🦵", "ÅÅ", strings.Repeat("é", 3000), "\xff\xfe"} {
		done := make(chan Table, 1)
		go func() { done <- Read("Date\t"+name+"\n2026-12-03\tx\n", known(), today, voices()) }()
		select {
		case table := <-done:
			require.Len(t, table.Rows, 1, name)
		case <-time.After(20 * time.Second):
			t.Fatalf("the name %q is read for ever", name)
		}
	}
}
