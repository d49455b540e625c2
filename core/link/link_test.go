package link

import (
	"encoding/base64"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
)

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"

// rounds halves the number of random ones in a short run: the second time, as WebAssembly.
func rounds(n int) int {
	if testing.Short() {
		return n / 2
	}
	return n
}

func TestEveryPlanComesBack(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for n := range rounds(300) {
		p := anyPlan(r)
		fragment := Encode(merge.New(p))
		d, err := Decode(fragment)
		require.NoError(t, err, "plan %d: %+v", n, p)
		require.Equal(t, p, d.Plan(), "plan %d", n)
		require.Equal(t, fragment, Encode(d))
		require.Empty(t, strings.Trim(fragment, alphabet), "RFC 4648 section 5: only these letters need no escape in a fragment")
	}
}

func TestEveryDocumentComesBack(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for n := range rounds(200) {
		d := anyDoc(r, 1+r.Intn(12))
		require.NoError(t, d.Check(), n)
		fragment := Encode(d)
		e, err := Decode(fragment)
		require.NoError(t, err, n)
		require.True(t, d.Equal(e), n)
		require.Equal(t, fragment, Encode(e))
	}
}

// samples are a short link, a long one, one of a document with stamps, and any other.
func samples(t testing.TB) []string {
	return []string{
		Encode(docOf(starter(t))), Encode(docOf(withFamily(t))), Encode(anyDoc(rand.New(rand.NewSource(5)), 9)),
		Encode(merge.New(anyPlan(rand.New(rand.NewSource(6))))),
	}
}

func TestEveryChangedLetterIsRefused(t *testing.T) {
	for _, sample := range samples(t) {
		fragment := []byte(sample)
		for i, was := range fragment {
			for _, letter := range []byte(alphabet + "=%#&?/+ \n\x00é") {
				if letter == was {
					continue
				}
				fragment[i] = letter
				_, err := Decode(string(fragment))
				require.Error(t, err, "letter %d became %q", i, letter)
				if i > 0 {
					require.ErrorIs(t, err, ErrDamaged)
				}
				_, err = ReadHead(string(fragment))
				require.ErrorIs(t, err, ErrDamaged)
			}
			fragment[i] = was
		}
	}
}

func TestSwappedNeighboursAreRefused(t *testing.T) {
	for _, sample := range samples(t) {
		fragment := []byte(sample)
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
	for _, fragment := range samples(t) {
		for i := range fragment {
			_, err := Decode(fragment[:i])
			require.ErrorIs(t, err, ErrDamaged, "the first %d letters", i)
			_, err = Decode(fragment[i+1:])
			require.Error(t, err, "without the first %d letters", i+1)
		}
	}
}

// Decode takes nothing off: that is for Trim.
func TestALinkWithSomethingAroundItIsRefused(t *testing.T) {
	for _, fragment := range samples(t) {
		for _, s := range []string{
			"#" + fragment, fragment + "=", fragment + "==", fragment + ".", fragment + " ", " " + fragment, fragment + "\n",
			fragment[:6] + "\r\n" + fragment[6:], fragment + "&utm_source=mail", fragment + "A", fragment + "AAAA", fragment + fragment,
			"start", "demo", "", "A", "D",
		} {
			_, err := Decode(s)
			require.ErrorIs(t, err, ErrDamaged, "%q", s)
		}
	}
}

// The last letter of a base64 text has bits that hold nothing; RFC 4648 section 3.5 lets
// a reader ignore them, which would give one plan several links.
func TestBitsThatHoldNothingMustBeZero(t *testing.T) {
	p := starter(t)
	for len(Encode(docOf(p)))%4 == 0 {
		p.Patient += "x"
	}
	fragment := Encode(docOf(p))
	last := strings.IndexByte(alphabet, fragment[len(fragment)-1])
	_, err := Decode(fragment[:len(fragment)-1] + alphabet[last+1:last+2])
	require.ErrorIs(t, err, ErrDamaged)
}

func TestTheHeadIsWhereThePageLooksForIt(t *testing.T) {
	raw, err := base64.RawURLEncoding.DecodeString(Encode(docOf(family(t))))
	require.NoError(t, err)
	// 11259375 is 0x00abcdef; 9 March 2027 is day 9929 from 1 January 2000 (27 years of 365
	// days, 7 leap days, 67 days): 0010011011001001; 05:30 is minute 330: 00101001010; one
	// night, knee, first; no stamps, no part.
	want := "000011" + "00000000101010111100110111101111" + "0010011011001001" + "00101001010" + "00" + "0" + "00" + "0" + "0"
	got := ""
	for _, b := range raw[:headBytes] {
		for bit := 7; bit >= 0; bit-- {
			got += string('0' + rune(b>>bit&1))
		}
	}
	require.Equal(t, want, got)
	h, err := ReadHead(Encode(docOf(starter(t))))
	require.NoError(t, err)
	require.False(t, h.Arrival.Known())
	require.Equal(t, starter(t).Surgery, h.Surgery)
}

// fullest is the longest plan that a form and a list can make.
func fullest(t *testing.T) plan.Plan {
	p := family(t)
	p.Number, p.Facts = 1<<32-1, plan.AllFacts
	p.Patient, p.Program.Hospital = strings.Repeat("🙂", plan.MaxName), strings.Repeat("🙂", plan.MaxName)
	p.Program.Address, p.Program.Phone = strings.Repeat("🙂", plan.MaxText), strings.Repeat("🙂", plan.MaxName)
	p.Zone = "America/Argentina/ComodRivadavia"
	for r, info := range plan.Rules {
		p.Program.Set(plan.Rule(r), info.Max)
	}
	for code := range uint16(plan.MaxTicks) {
		p = p.WithTick(plan.Tick{Code: code * 7, N: 1}, true)
	}
	return p
}

func TestALongTextIsNotLookedAt(t *testing.T) {
	require.Less(t, len(Encode(docOf(fullest(t)))), MaxLength, "a plan that the page can make must fit")
	_, err := Decode(strings.Repeat("A", 1<<20))
	require.ErrorIs(t, err, ErrDamaged)
	_, err = ReadHead(strings.Repeat("D", 1<<20))
	require.ErrorIs(t, err, ErrDamaged)
}

// Opens agrees with Decode on what Encode gives, and takes no other document's link for one's own.
func TestWhetherALinkOpens(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	last := merge.New(anyPlan(r))
	for n := range rounds(200) {
		d := anyDoc(r, 1+r.Intn(12))
		fragment := Encode(d)
		require.True(t, Opens(fragment, d), n)
		require.False(t, Opens(fragment, last), n)
		require.False(t, Opens(fragment[:len(fragment)-1], d), n)
		last = d
	}
	d := docOf(withFamily(t))
	require.False(t, Opens("", d))
	require.False(t, Opens(EncodePart(d.Plan(), d.Plan().Helpers[0]), d), "one helper's part is not the plan")
}

// A duty's number begins with the device that made it. A link may be without any act of that device.
func TestDutiesOfDevicesThatDidNothingElse(t *testing.T) {
	p := withFamily(t)
	duty := p.Duties[0]
	p.Duties = nil
	for _, id := range []uint32{3, 5000<<plan.NthBits | 1, 5000<<plan.NthBits | 2, 70_000<<plan.NthBits | 1} {
		duty.ID = id
		p = p.WithDuty(duty)
	}
	d := merge.New(p)
	got, err := Decode(Encode(d))
	require.NoError(t, err)
	require.True(t, d.Equal(got))
}

// A page of today says of a later version's link which one it is, whatever stands in its head.
func TestALaterVersionIsNamed(t *testing.T) {
	for name, want := range map[string]int{"newer-day-too-late": 4, "newer-next": 4} {
		fragment := vector(t, "heads/"+name+".txt")
		h, err := ReadHead(fragment)
		require.ErrorIs(t, err, ErrNewer)
		require.Equal(t, want, h.Version, name)
	}
}
