package families

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
)

// committed is where the families' files are.
const committed = "../../../../testdata/split"

// heading is the first line of a family's file.
func heading(f *Family) string {
	return fmt.Sprintf("An invented family, made by build/bench/split/families: %s, seed %d.", f.Row(), f.Seed)
}

var keepFiles = flag.Bool("keep", false, "write the families' files anew")

// The figures of the benchmark stay comparable only while the families stay the same. Where
// the generator was changed on purpose, -keep writes the files anew.
func TestTheFilesAreWhatTheGeneratorMakes(t *testing.T) {
	var names []string
	for _, f := range All() {
		text := Write(Make(f.Size, f.Kind, f.Seed), heading(&f))
		name := filepath.Join(committed, f.File())
		if *keepFiles {
			require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
		}
		file, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, text, string(file), f.File())
		names = append(names, f.File())
	}
	files, err := filepath.Glob(filepath.Join(committed, "*.txt"))
	require.NoError(t, err)
	require.Len(t, files, len(names), "there is a file that no family has")
}

func TestReadingGivesWhatWasWritten(t *testing.T) {
	for _, f := range All() {
		p := Make(f.Size, f.Kind, f.Seed)
		again, err := Read(Write(p, heading(&f)))
		require.NoError(t, err)
		require.Equal(t, p, again, f.File())
	}
}

func TestReadingSaysWhichLineIsWrong(t *testing.T) {
	good := Write(Make(Size{20, 3}, Ordinary, 1), "a family")
	for _, bad := range []string{
		"helper", "helper Zed offer=much", "person Zed offer=60", "item a tier=some", "item a able=11",
		"item a now=Zed", "item a takes=5", "item a rather=+", "item a colour=red", "item a load=x",
	} {
		_, err := Read(good + bad + "\n")
		require.ErrorContains(t, err, "line 25 of the family is wrong", bad)
	}
}

func TestTheFamiliesAreSound(t *testing.T) {
	for _, f := range All() {
		p := Make(f.Size, f.Kind, f.Seed)
		require.NoError(t, p.Check(), f.File())
		require.Equal(t, f.Size.Duties, len(p.Items), f.File())
		require.Equal(t, f.Size.Helpers, len(p.Helpers), f.File())
	}
	for seed := range uint64(500) {
		require.NoError(t, Small(seed, 1+int(seed%9), 1+int(seed/9%4)).Check(), "seed %d", seed)
	}
}

// What the kinds promise: somewhere nobody can, or everybody can; and that nothing that the
// programme knows is missing from the families.
func TestTheKindsAreWhatTheirNamesSay(t *testing.T) {
	for _, f := range All() {
		p := Make(f.Size, f.Kind, f.Seed)
		able, held, rather, apart, ofBoth := 0, 0, 0, 0, 0
		for j := range p.Items {
			it := &p.Items[j]
			able += count(it.Able)
			held += count([]bool{it.Held})
			rather += count([]bool{it.Rather != nil})
			apart += count([]bool{len(it.Takes) > 1})
			ofBoth += count([]bool{it.Takes[0].Uses == both})
		}
		share := float64(able) / float64(len(p.Items)*len(p.Helpers))
		switch f.Kind {
		case Everybody:
			require.Equal(t, 1.0, share)
		case Tight:
			require.Less(t, share, 0.72, f.File())
		default:
			require.Less(t, share, 0.95, f.File())
			require.Greater(t, share, 0.3, f.File())
		}
		require.Positive(t, rather, f.File())
		require.Positive(t, ofBoth, f.File())
		require.True(t, held > 0 || f.Size.Duties <= 60, f.File())
	}
}

func count(all []bool) (n int) {
	for _, is := range all {
		if is {
			n++
		}
	}
	return n
}

// SplitMix64's first numbers for seed 1234567, from the reference implementation's published
// test values (from memory).
func TestTheRandomNumbers(t *testing.T) {
	r := NewRandom(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		require.Equal(t, want, r.next())
	}
	seen := map[int]bool{}
	for range 1000 {
		seen[r.Between(-2, 2)] = true
	}
	require.Len(t, seen, 5)
	require.Equal(t, assign.Nobody, -1)
}
