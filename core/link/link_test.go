package link

import (
	"encoding/base64"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"

func TestEveryPlanComesBack(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for n := range 20_000 {
		p := anyPlan(r)
		fragment := Encode(p)
		q, err := Decode(fragment)
		require.NoError(t, err, "plan %d: %+v", n, p)
		require.Equal(t, p, q, "plan %d", n)
		require.Equal(t, fragment, Encode(q))
		require.Empty(t, strings.Trim(fragment, alphabet), "RFC 4648 section 5: only these letters need no escape in a fragment")
	}
}

// A CRC of 32 bits finds every burst of up to 32 changed bits (Peterson and Brown,
// Cyclic Codes for Error Detection, Proc. IRE 1961;49(1):228-235). A changed letter
// of base64 is a burst of 6 bits at most, two swapped neighbours one of 12.
func TestEveryChangedLetterIsRefused(t *testing.T) {
	for _, p := range []plan.Plan{family(t), starter(t), anyPlan(rand.New(rand.NewSource(5)))} {
		fragment := []byte(Encode(p))
		for i, was := range fragment {
			for _, letter := range []byte(alphabet + "=%#&?/+ \n\x00é") {
				if letter == was {
					continue
				}
				fragment[i] = letter
				_, err := Decode(string(fragment))
				require.ErrorIs(t, err, ErrDamaged, "letter %d became %q", i, letter)
			}
			fragment[i] = was
		}
	}
}

func TestSwappedNeighboursAreRefused(t *testing.T) {
	for _, p := range []plan.Plan{family(t), starter(t), anyPlan(rand.New(rand.NewSource(6)))} {
		fragment := []byte(Encode(p))
		for i := 1; i < len(fragment); i++ {
			if fragment[i] == fragment[i-1] {
				continue
			}
			fragment[i], fragment[i-1] = fragment[i-1], fragment[i]
			_, err := Decode(string(fragment))
			require.ErrorIs(t, err, ErrDamaged, "letters %d and %d", i-1, i)
			fragment[i], fragment[i-1] = fragment[i-1], fragment[i]
		}
	}
}

func TestALinkThatWasCutOffIsRefused(t *testing.T) {
	for _, p := range []plan.Plan{family(t), starter(t)} {
		fragment := Encode(p)
		for i := range fragment {
			_, err := Decode(fragment[:i])
			require.ErrorIs(t, err, ErrDamaged, "the first %d letters", i)
			_, err = Decode(fragment[i+1:])
			require.ErrorIs(t, err, ErrDamaged, "without the first %d letters", i+1)
		}
	}
}

// What mail programs and people put around a link.
func TestALinkWithSomethingAroundItIsRefused(t *testing.T) {
	fragment := Encode(family(t))
	for _, s := range []string{
		"#" + fragment, fragment + "=", fragment + "==", fragment + ".", fragment + " ", " " + fragment, fragment + "\n",
		fragment[:40] + "\r\n" + fragment[40:], fragment + "&utm_source=mail", fragment + "A", fragment + "AAAA", fragment + fragment,
		strings.ToLower(fragment), strings.ToUpper(fragment), "start", "demo",
	} {
		_, err := Decode(s)
		require.ErrorIs(t, err, ErrDamaged, "%q", s)
	}
}

// The last letter of a base64 text has bits that hold nothing; RFC 4648 section
// 3.5 lets a reader ignore them, which would give one plan several links.
func TestBitsThatHoldNothingMustBeZero(t *testing.T) {
	p := starter(t)
	for len(Encode(p))%4 == 0 {
		p.Patient += "x"
	}
	fragment := Encode(p)
	last := strings.IndexByte(alphabet, fragment[len(fragment)-1])
	_, err := Decode(fragment[:len(fragment)-1] + alphabet[last+1:last+2])
	require.ErrorIs(t, err, ErrDamaged)
}

func TestALongTextIsNotLookedAt(t *testing.T) {
	require.Less(t, len(Encode(fullest(t))), MaxLength, "a plan that the page can make must fit")
	body := opened(t, Encode(starter(t)))
	body = body[:len(body)-1] // without its count of ticks, which is 0
	_, err := Decode(seal(append(slices.Clone(body), ticks(plan.MaxTicks)...)))
	require.NoError(t, err)
	for _, count := range []int{plan.MaxTicks + 1, 9000, 13000} {
		_, err = Decode(seal(append(slices.Clone(body), ticks(count)...)))
		require.ErrorIs(t, err, ErrDamaged, "%d ticks", count)
	}
	_, err = Decode(strings.Repeat("A", 1<<20))
	require.ErrorIs(t, err, ErrDamaged)
}

// ticks writes a list of so many ticks that follow one another.
func ticks(count int) []byte {
	return append([]byte{byte(count&127 | 128), byte(count >> 7)}, make([]byte, count)...)
}

// fullest is the longest plan that a form and a list can make.
func fullest(t *testing.T) plan.Plan {
	p := family(t)
	p.Number, p.Edition, p.Facts = 1<<32-1, 1<<32-1, plan.AllFacts
	p.Patient, p.Program.Hospital = strings.Repeat("🙂", plan.MaxName), strings.Repeat("🙂", plan.MaxName)
	p.Program.Address, p.Program.Phone = strings.Repeat("🙂", plan.MaxText), strings.Repeat("🙂", plan.MaxName)
	p.Zone = "America/Argentina/ComodRivadavia"
	for r, info := range plan.Rules {
		p.Program.Set(plan.Rule(r), info.Max)
	}
	for code := range uint16(1000) {
		p = p.WithTick(plan.Tick{Code: code, N: 1}, true)
	}
	return p
}

func TestTheHeadIsWhereThePageLooksForIt(t *testing.T) {
	raw, err := base64.RawURLEncoding.DecodeString(Encode(family(t)))
	require.NoError(t, err)
	// 11259375 is 0x00abcdef; 9 March 2027 is day 9929 from 1 January 2000
	// (27 years of 365 days, 7 leap days, 67 days); 05:30 is minute 330.
	require.Equal(t, []byte{1, 0x00, 0xab, 0xcd, 0xef, 9929 >> 8, 9929 & 255, 330 >> 8, 330 & 255}, raw[:9])
	raw, err = base64.RawURLEncoding.DecodeString(Encode(starter(t)))
	require.NoError(t, err)
	require.Equal(t, []byte{0xff, 0xff}, raw[7:9])
}
