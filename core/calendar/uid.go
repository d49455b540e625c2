package calendar

import (
	"encoding/binary"
	"hash/fnv"
)

// uid gives the lasting UID of one item of a plan. RFC 7986 5.3 forbids data that
// identify a user or a host and recommends a UUID; RFC 9562 5.8 leaves the bits of
// version 8 to the maker. They are a hash of the plan's random number and the item's
// key, so every phone of the family gives the same item the same UID, without one
// being stored, and two plans never share one.
func uid(number uint32, key string) string {
	h := fnv.New128a()
	h.Write(binary.BigEndian.AppendUint32([]byte("newel calendar 1 "), number))
	h.Write([]byte(key))
	sum := h.Sum(nil)
	a, b := binary.BigEndian.Uint64(sum), binary.BigEndian.Uint64(sum[8:])
	// FNV barely stirs the last bytes into the first: f1 and f2 would look alike. Four
	// rounds of a Feistel net lose nothing and mix all bits.
	for range 2 {
		a ^= stir(b)
		b ^= stir(a)
	}
	binary.BigEndian.PutUint64(sum, a)
	binary.BigEndian.PutUint64(sum[8:], b)
	sum[6] = sum[6]&0x0f | 0x80 // version 8
	sum[8] = sum[8]&0x3f | 0x80 // the variant of RFC 9562
	return dashed(sum)
}

// stir is the finishing step of SplitMix64 (Steele, Lea, Flood 2014).
func stir(x uint64) uint64 {
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

const hexDigits = "0123456789abcdef"

func dashed(sum []byte) string {
	text := make([]byte, 0, 36)
	for i, b := range sum {
		if i == 4 || i == 6 || i == 8 || i == 10 {
			text = append(text, '-')
		}
		text = append(text, hexDigits[b>>4], hexDigits[b&15])
	}
	return string(text)
}

// isUID tells whether a text has the form that uid writes.
func isUID(s string) bool {
	if len(s) != 36 {
		return false
	}
	for i := range len(s) {
		dash := i == 8 || i == 13 || i == 18 || i == 23
		hex := s[i] >= '0' && s[i] <= '9' || s[i] >= 'a' && s[i] <= 'f'
		if dash != (s[i] == '-') || !dash && !hex {
			return false
		}
	}
	return true
}

// hash is a short fingerprint of 16 hexadecimal digits, enough to see that a text
// changed.
func hash(text string) string {
	h := fnv.New64a()
	h.Write([]byte(text))
	sum := stir(h.Sum64())
	out := make([]byte, 0, 16)
	for range 16 {
		out = append(out, hexDigits[sum>>60])
		sum <<= 4
	}
	return string(out)
}
