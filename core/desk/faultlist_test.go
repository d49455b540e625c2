package desk

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The faults that the words have a sentence for are those that the tests make happen.
func TestEveryFaultHappens(t *testing.T) {
	happens := map[string]bool{
		"link-full": true, "link-twice": true, "table-empty": true, "table-head": true, "column-missing": true, "column-twice": true,
		"rows-none": true, "columns-many": true, "rows-many": true, "table-big": true, // TestALinkThatIsFull, TestDuplicates, TestFaultsOfTheTable
	}
	for _, code := range append(append(orderFaults, columnFaults...), linkAsks...) {
		happens[code] = true
	}
	for code := range rowFaults(t) {
		happens[code] = true
	}
	for _, v := range voices() {
		data, err := os.ReadFile("../guide/text/" + v.Language + "/table.txt")
		require.NoError(t, err)
		said := map[string]bool{}
		for l := range strings.Lines(string(data)) {
			if key, _, ok := strings.Cut(l, " = "); ok {
				if code, ok := strings.CutPrefix(key, "desk.row."); ok {
					said[code] = true
				}
			}
		}
		require.Equal(t, happens, said, v.Language)
	}
}
