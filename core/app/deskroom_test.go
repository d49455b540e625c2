package app

import (
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/wall"
)

// A thousand rows that were copied back into the spreadsheet, links and messages and all, fit
// when they are pasted again and their arrivals come in: each step is a request that the shell
// may send (RequestLimit), also where the whole of a hospital's settings stands in each link.
func TestThousandFinishedRowsFit(t *testing.T) {
	data, err := os.ReadFile("../../testdata/desk/alder-ferry.toml")
	require.NoError(t, err)
	today, err := wall.ParseDate("2026-11-26")
	require.NoError(t, err)
	settings, _ := desk.ReadFile(strings.Replace(string(data), "number = 2\n", "", 1), today)
	require.Zero(t, settings.Program.Number)
	p := newPhone(t)
	p.open(desk.Address(&settings))
	p.check(tableOf(1000))
	require.Contains(t, p.last.Say, "1000 links are ready")
	back := p.send("/desk/rows", append([]string{"act", "copy-all"}, p.carried()...)...).Send.Text
	require.Greater(t, len(back), 1<<20, "a link has the settings in it")
	require.Less(t, len(back), desk.MostBytes)

	p.check(strings.ReplaceAll(back, "\t05:30\t", "\t06:15\t"))
	require.Contains(t, p.last.Say, "1000 links are ready")
	require.Contains(t, p.part("row-0"), "Corrected link")
	fields := p.carried()
	size := len(writeRequest(Request{
		Path: "/desk/rows", Page: pageAddress, Fragment: p.fragment, Random: make([]byte, 16),
		Fields: []Field{{fields[0], fields[1]}, {fields[2], fields[3]}},
	}))
	require.Less(t, size, RequestLimit*9/10, "there is room for what is kept beside it")
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	t.Logf("table %d bytes, request %d bytes, page %d bytes; memory of the process %d MB", len(back), size, len(p.last.HTML), m.Sys>>20)
}
