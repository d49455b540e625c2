package pack

import (
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// withoutTrails has what f does done by the model alone, as where nothing was coded before.
func withoutTrails(f func()) {
	trails.Lock()
	kept := trails.all
	trails.all = nil
	trails.Unlock()
	f()
	trails.Lock()
	trails.all = kept
	trails.Unlock()
}

// writtenOut and readIn are encoded and decoded, and leave their trail behind.
func writtenOut(calls []call) []byte {
	c, m := NewEncoder(), newModels()
	defer c.Release()
	for _, k := range calls {
		k.run(c, m)
	}
	return c.Close()
}

func readIn(data []byte, calls []call) ([]call, error) {
	c, m := NewDecoder(data), newModels()
	defer c.Release()
	got := make([]call, len(calls))
	for i, k := range calls {
		k.yes, k.n, k.text = false, 0, ""
		got[i] = k.run(c, m)
	}
	return got, c.Err()
}

// Whatever was coded before, a document's bytes are those of the model alone, and bytes read as
// the same: documents that begin alike and go apart between two texts, within one, or end early;
// and bytes that were damaged.
func TestATrailChangesNothing(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	rapid.Check(t, func(t *rapid.T) {
		calls := rapid.SliceOfN(rapid.Custom(anyCall), 1, 25).Draw(t, "calls")
		for range 4 {
			sameAlone(t, calls, r)
			calls = slices.Clone(calls)
			at := r.Intn(len(calls))
			switch k := calls[at]; {
			case k.what == aText && r.Intn(3) > 0: // another end of this text
				letters := []rune(k.text)
				k.text = string(letters[:r.Intn(len(letters)+1)]) + rapid.SampledFrom([]string{"", "é", "Q", "日", " and so on"}).Draw(t, "end")
				k.bound = len([]rune(k.text)) + r.Intn(2)
				calls[at] = k
			case r.Intn(2) == 0:
				calls = append(calls[:at], rapid.Custom(anyCall).Draw(t, "more"))
			default:
				calls[at] = rapid.Custom(anyCall).Draw(t, "other")
			}
		}
	})
}

func sameAlone(t *rapid.T, calls []call, r *rand.Rand) {
	var alone []byte
	withoutTrails(func() { alone = writtenOut(calls) })
	for range 2 { // the second time along its own trail
		require.Equal(t, alone, writtenOut(calls))
		got, err := readIn(alone, calls)
		require.NoError(t, err)
		require.Equal(t, calls, got)
	}
	damaged := slices.Clone(alone)
	if len(damaged) > 0 {
		damaged[r.Intn(len(damaged))] ^= byte(1 << r.Intn(8))
	}
	var want []call
	var wantErr error
	withoutTrails(func() { want, wantErr = readIn(damaged, calls) })
	got, err := readIn(damaged, calls)
	require.Equal(t, wantErr, err)
	if err == nil {
		require.Equal(t, want, got)
	}
}

// A document that was coded before needs no model, in neither direction; one that goes another
// way needs one, and says so here, so that the test above does test trails.
func TestATrailSparesTheModel(t *testing.T) {
	calls := []call{written("Ring the side door"), written("Rosa")}
	withoutTrails(func() {
		data := writtenOut(calls)
		c, d := NewEncoder(), NewDecoder(data)
		for _, k := range calls {
			k.run(c, newModels())
			require.Equal(t, k.text, d.Text(k.kind, "", k.bound))
		}
		require.Nil(t, c.text.model)
		require.Nil(t, d.text.model)
		c.Text(Note, "more", 9)
		require.NotNil(t, c.text.model)
	})
}

// A trail that was cut short because it is long still leads as far as it goes.
func TestATrailIsBounded(t *testing.T) {
	long := make([]rune, 60000)
	r := rand.New(rand.NewSource(3))
	for i := range long {
		long[i] = rune("abcdefghij klmnopqrst"[r.Intn(21)])
	}
	calls := []call{{what: aText, text: string(long), bound: len(long)}}
	var alone []byte
	withoutTrails(func() {
		alone = writtenOut(calls)
		require.Len(t, trails.all, 1)
		require.LessOrEqual(t, len(trails.all[0].chance), mostTrail)
		require.Equal(t, alone, writtenOut(calls))
		got, err := readIn(alone, calls)
		require.NoError(t, err)
		require.Equal(t, calls, got)
		for i := range 3 * mostTrails {
			writtenOut([]call{written(string(long[i : i+5]))})
		}
		require.LessOrEqual(t, len(trails.all), mostTrails)
	})
}
