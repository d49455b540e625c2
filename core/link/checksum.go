package link

// Checksums are the CRC-24 of RFC 9580 6.1 and CRC-16/IBM-3740, with every bit turned over
// at the end: as they are, a link that lost its last byte would pass one time in 256,
// since a remainder that is fed in again leaves zero. Both find every change within as
// many neighbouring bits as they are wide; one character is 6 bits, a swap of two
// neighbours 12. Of links that were cut off, at most one in 65,536 passes the shorter one,
// which guards only links of at most shortWhole bytes, and one in 16,777,216 the longer.
//
// The form of the head and the checksum are the same in every version to come, and in
// web/head.ts.
const shortWhole = 14

func crc(data []byte, width int, polynomial, start uint32) uint32 {
	sum := start
	for _, b := range data {
		sum ^= uint32(b) << (width - 8)
		for range 8 {
			sum <<= 1
			if sum>>width != 0 {
				sum ^= polynomial | 1<<width
			}
		}
	}
	return sum
}

func crc16(data []byte) uint32 { return crc(data, 16, 0x1021, 0xFFFF) ^ 0xFFFF }
func crc24(data []byte) uint32 { return crc(data, 24, 0x864CFB, 0xB704CE) ^ 0xFFFFFF }

// seal puts the checksum behind a link's bytes.
func seal(data []byte) []byte {
	if len(data)+2 <= shortWhole {
		sum := crc16(data)
		return append(data, byte(sum>>8), byte(sum))
	}
	sum := crc24(data)
	return append(data, byte(sum>>16), byte(sum>>8), byte(sum))
}

// unseal takes it off again; ok is false where it does not fit.
func unseal(whole []byte) (data []byte, ok bool) {
	n := len(whole) - 3
	if len(whole) <= shortWhole {
		n++
	}
	if n < 0 || len(whole) == shortWhole+1 {
		return nil, false
	}
	return whole[:n], string(seal(whole[:n:n])) == string(whole)
}
