package pack

import (
	"math/rand"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// callsOf makes calls up from bytes: two a call, which say what is called and its bounds.
func callsOf(form []byte) []call {
	var calls []call
	for ; len(form) > 1; form = form[2:] {
		k := call{what: int(form[0]) % whats, model: int(form[0]) / whats}
		switch bound := int(form[1]); k.what {
		case someBits:
			k.bound = bound % 41
		case aUniform:
			k.bound = 1 + bound*bound*bound
		case aText:
			k.kind, k.bound = Kind(k.model%int(kinds)), bound
		}
		calls = append(calls, k)
	}
	return calls
}

// readable is what holds of any bytes, read as any form: values in range that come back
// from bytes that are no longer, or ErrBad.
func readable(t *testing.T, form, data []byte) {
	calls := callsOf(form)
	got, err := decoded(data, calls)
	if err != nil {
		require.ErrorIs(t, err, ErrBad)
		return
	}
	for _, k := range got {
		require.True(t, k.fits(), "%+v", k)
	}
	require.LessOrEqual(t, len(comesBack(t, got)), len(data))
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte{}, []byte{})
	f.Add([]byte{aText, 40, aText, 40}, []byte{0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF})
	f.Add([]byte{aFlag, 0, aNumber, 0, aSigned, 0, aChoice, 0, someBits, 40, aUniform, 255}, []byte("newel"))
	calls := callsOf([]byte{aText, 40, aText + whats, 40, aNumber, 0})
	calls[0].text, calls[1].text, calls[2].n = "ring the side door", "Жanna", 555
	f.Add([]byte{aText, 40, aText + whats, 40, aNumber, 0}, encoded(calls))
	f.Fuzz(func(t *testing.T, form, data []byte) {
		readable(t, form[:min(len(form), 400)], data[:min(len(data), 4000)])
	})
}

func TestHostileBytes(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 400 {
		form, data := make([]byte, r.Intn(100)), make([]byte, r.Intn(200))
		r.Read(form)
		r.Read(data)
		if r.Intn(3) == 0 {
			data = make([]byte, len(data))
			for i := range data {
				data[i] = []byte{0, 0xFF}[r.Intn(20)/19]
			}
		}
		readable(t, form, data)
	}
}

// A document that was cut off reads as other values or is refused; one with zeros behind
// it reads as the same values, and encoding them again takes the zeros off.
func TestCutOffAndLengthened(t *testing.T) {
	form := []byte{aText, 200, aText + whats, 200, aNumber, 0, aUniform, 200, aText + 2*whats, 200, aFlag, 0}
	calls := callsOf(form)
	calls[0].text, calls[1].text, calls[2].n, calls[4].text = "Call if anything changes", "Rosa", 1<<33, "12 Millrace Road"
	data := encoded(calls)
	for n := range len(data) {
		readable(t, form, data[:n])
		if got, err := decoded(data[:n], calls); err == nil {
			require.NotEqual(t, calls, got, "Close gives no byte too many")
		}
	}
	for _, more := range []string{"\x00", "\x01", "\xff\xff", "\x00\x00\x00\x00\x00\x00\x00\x00\x00"} {
		readable(t, form, append(data[:len(data):len(data)], more...))
	}
	got, err := decoded(append(data[:len(data):len(data)], make([]byte, 100)...), calls)
	require.NoError(t, err)
	require.Equal(t, calls, got)
	require.Equal(t, data, encoded(got))
}

// expected is a document that takes almost no bytes and has as much text as there may be.
func expected() (calls []call, data []byte) {
	const note = "ring the side door, ring the side door, "
	for range MostText / (len(note) + 1) {
		calls = append(calls, call{what: aText, kind: Note, text: note, bound: len(note)})
	}
	return calls, encoded(calls)
}

// Within 8 MB, the model and its copy included (issue 4 of the project): the worst are
// much text, and bytes that are read on and on.
func TestMemoryIsBounded(t *testing.T) {
	calls, data := expected()
	require.Less(t, len(data), 400)
	endless := append(calls, calls...)
	ready() // counted below by itself
	for _, bytes := range [][]byte{data, nil, make([]byte, 4000)} {
		before, after := runtime.MemStats{}, runtime.MemStats{}
		runtime.GC()
		runtime.ReadMemStats(&before)
		c := NewDecoder(bytes)
		for _, k := range endless {
			c.Text(k.kind, "", k.bound)
		}
		runtime.ReadMemStats(&after)
		taken := int(after.TotalAlloc - before.TotalAlloc) // with what was given back since
		t.Logf("%d bytes: %d kB, of it the texts themselves %d kB", len(bytes), taken>>10, 2*MostText>>10)
		require.Less(t, taken, 5<<20)
		if c.text != nil {
			require.LessOrEqual(t, c.letters, MostText+1)
		}
	}
	before, after := runtime.MemStats{}, runtime.MemStats{}
	runtime.GC()
	runtime.ReadMemStats(&before)
	m := newTexts()
	for _, l := range readCorpus() {
		m.read(l)
	}
	runtime.ReadMemStats(&after)
	t.Logf("the primed model: %d kB", (after.TotalAlloc-before.TotalAlloc)>>10)
	require.Less(t, int(after.TotalAlloc-before.TotalAlloc), 3<<20)
}

// What has no text costs its bytes only.
func TestNoTextNoModel(t *testing.T) {
	data := []byte{0x12, 0x34, 0x56}
	require.LessOrEqual(t, testing.AllocsPerRun(100, func() {
		c, b, n := NewDecoder(data), Bit{}, Number{}
		c.Flag(&b, false)
		c.Number(&n, 0)
	}), 3.0)
}
