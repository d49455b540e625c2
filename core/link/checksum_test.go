package link

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// The check values are the remainders of the nine bytes "123456789": of CRC-24 as RFC
// 9580 6.1 defines it 0x21CF02, of CRC-16/IBM-3740 0x29B1 (and 0xD64E with its bits turned
// over, CRC-16/GENIBUS). They stand in G. Cook, "Catalogue of parametrised CRC algorithms"
// (from memory).
func TestTheChecksumsAreThePublishedOnes(t *testing.T) {
	require.EqualValues(t, 0x21CF02^0xFFFFFF, crc24([]byte("123456789")))
	require.EqualValues(t, 0x29B1^0xFFFF, crc16([]byte("123456789")))
	require.EqualValues(t, 0xD64E, crc16([]byte("123456789")))
	require.EqualValues(t, 0xB704CE^0xFFFFFF, crc24(nil), "RFC 9580 6.1: CRC24_INIT")
}

// A CRC of n bits finds every burst of up to n changed bits (Peterson and Brown, "Cyclic
// Codes for Error Detection", Proc. IRE 1961;49(1):228-235). A changed letter of base64
// is a burst of 6 bits at most, two swapped neighbours one of 12. All bursts of up to 16
// bits, at every place of a short and of a long link.
func TestEveryShortBurstIsFound(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, size := range []int{12, 14, 16, 120} {
		whole := make([]byte, size-3)
		if size <= shortWhole {
			whole = make([]byte, size-2)
		}
		r.Read(whole)
		whole = seal(whole)
		require.Len(t, whole, size)
		_, ok := unseal(whole)
		require.True(t, ok)
		for bit := range 8*size - 16 {
			step := 2
			if size > shortWhole+2 {
				step = 514 // all of them at all places would take a minute
			}
			for burst := 1; burst < 1<<16; burst += step {
				flip(whole, bit, burst)
				_, ok := unseal(whole)
				flip(whole, bit, burst)
				if ok {
					t.Fatalf("burst %016b at bit %d of %d bytes is not found", burst, bit, size)
				}
			}
		}
	}
}

func flip(whole []byte, bit, burst int) {
	for i := range 16 {
		if burst>>i&1 == 1 {
			whole[(bit+i)/8] ^= 0x80 >> ((bit + i) % 8)
		}
	}
}

// Fewer than one in 60,000 links that were cut off may pass. Of three million, a checksum
// of 16 bits lets some 46 through by chance (3,000,000 / 65,536; three standard deviations
// make it 66), the bound would be 50 and one of 24 bits 0.2. What passes here still has to
// be the only way of writing its plan.
func TestLinksThatWereCutOff(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	short, long := 0, 0
	for range 3_000_000 {
		whole := make([]byte, 10+r.Intn(3))
		r.Read(whole)
		whole = seal(whole)
		if _, ok := unseal(whole[:len(whole)-1-r.Intn(2)]); ok {
			short++
		}
	}
	for range 300_000 {
		whole := make([]byte, 30)
		r.Read(whole)
		whole = seal(whole)
		if _, ok := unseal(whole[:len(whole)-1-r.Intn(10)]); ok {
			long++
		}
	}
	require.Less(t, short, 66)
	require.LessOrEqual(t, long, 1)
	for _, size := range []int{0, 1, 15} {
		_, ok := unseal(make([]byte, size))
		require.False(t, ok, size)
	}
}
