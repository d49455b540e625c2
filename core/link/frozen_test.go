package link

import (
	"crypto/sha256"
	"encoding/base64"
	"math/rand"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// oddLinks are links of documents with anything in them, made on the day of the file. They never change.
const (
	oddLinks    = "../../testdata/link/v3/odd.list"
	oddOldLinks = "../../testdata/link/v2/odd.list"
)

// frozen goes through a file of links: each is "link digest", where the digest is of the registers that it opens
// as. With -keep the file is made if there is none.
func frozen(t *testing.T, file string, make func(*rand.Rand) string, digest func(fragment string) (string, error)) {
	if _, err := os.Stat(file); err != nil && *keepGolden {
		var b strings.Builder
		for seed := range int64(120) {
			fragment := make(rand.New(rand.NewSource(seed)))
			sum, err := digest(fragment)
			require.NoError(t, err)
			b.WriteString(fragment + " " + sum + "\n")
		}
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	require.Len(t, lines, 120)
	for n, line := range lines {
		fragment, want, _ := strings.Cut(line, " ")
		got, err := digest(fragment)
		require.NoError(t, err, "line %d", n+1)
		require.Equal(t, want, got, "line %d", n+1)
	}
}

func short(text string) string {
	sum := sha256.Sum256([]byte(text))
	return base64.RawURLEncoding.EncodeToString(sum[:9])
}

// usual gives the duties of a plan times as most people have them, which have short ways of being written.
func usual(r *rand.Rand, p plan.Plan) plan.Plan {
	for _, d := range slices.Clone(p.Duties) {
		d.Length = lengths[r.Intn(len(lengths))]
		at := wall.Clock(60*r.Intn(24) + 15*r.Intn(4))
		d.Rule = repeat.Rule{First: p.Surgery + wall.Date(r.Intn(30)), At: at, Every: 1}.Canonical()
		if r.Intn(2) == 0 {
			d.Rule = repeat.Rule{
				First: p.Surgery + 3, At: at, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(time.Monday, time.Thursday),
				Week: time.Monday, Count: 2 + r.Intn(20),
			}.Canonical()
		}
		d.Ride.Drive, d.Ride.Parking, d.Ride.Early, d.Takes = 5*r.Intn(12), 5*r.Intn(4), 5*r.Intn(4), nil
		p = p.WithDuty(d)
	}
	return p
}

// A weight of the model that changes by one makes other links of the same plan, and opens the old ones as
// something else. The golden links are few; these come past more of them. The
// links are our own: no published source.
func TestOddLinksOfVersion3OpenForEver(t *testing.T) {
	seen := map[bool]int{}
	frozen(t, oddLinks, func(r *rand.Rand) string {
		for times := r.Intn(6); ; times++ {
			d := anyDoc(r, times)
			p := d.Plan()
			if r.Intn(2) == 0 {
				p = usual(r, p)
				d = d.Change(77, p)
			}
			fragment := Encode(d)
			if r.Intn(3) == 0 && len(p.Helpers) > 0 {
				fragment = EncodePart(p, p.Helpers[r.Intn(len(p.Helpers))])
			}
			if fragment != "" && len(fragment) < 2000 {
				return fragment
			}
		}
	}, func(fragment string) (string, error) {
		d, h, part, err := decode(fragment)
		if err != nil {
			return "", err
		}
		require.Equal(t, fragment, encode(d, part, h.Part))
		seen[h.Part]++
		return short(listed(d, part)), nil
	})
	require.Greater(t, seen[true], 10)
	require.Greater(t, seen[false], 10)
}

// Nobody writes versions 1 and 2 any more. What they had no place for makes no link here.
func TestOddLinksOfVersions1And2OpenForEver(t *testing.T) {
	frozen(t, oddOldLinks, func(r *rand.Rand) string {
		for {
			fragment := encodeOld(old{anyPlan(r), uint32(r.Intn(1 << 16))})
			if _, err := decodeOld(fragment); err == nil && len(fragment) < 2000 {
				return fragment
			}
		}
	}, func(fragment string) (string, error) {
		p, err := decodeOld(fragment)
		if err != nil {
			return "", err
		}
		require.Equal(t, fragment, encodeOld(p))
		d, err := Decode(fragment)
		if err != nil {
			return "", err
		}
		require.Equal(t, listed(d, ""), listed(merge.FromOld(p.Plan, p.edition), ""))
		return short(listed(d, "")), nil
	})
}
