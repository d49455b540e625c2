package link

import "strings"

// letterOrder has the letters of base64url (RFC 4648 section 5) in the order of their values.
const letterOrder = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"

// valueOf gives each letter's value plus one; 0 is no letter.
var valueOf = func() (values [256]byte) {
	for i := range len(letterOrder) {
		values[letterOrder[i]] = byte(i + 1)
	}
	return values
}()

// lettersOf writes bytes as base64url without padding.
func lettersOf(data []byte) string {
	var b strings.Builder
	b.Grow((len(data)*8 + 5) / 6)
	bits, have := 0, 0
	for _, octet := range data {
		bits, have = bits<<8|int(octet), have+8
		for ; have >= 6; have -= 6 {
			b.WriteByte(letterOrder[bits>>(have-6)&63])
		}
		bits &= 1<<have - 1
	}
	if have > 0 {
		b.WriteByte(letterOrder[bits<<(6-have)&63])
	}
	return b.String()
}

// bytesOf reads base64url (RFC 4648 section 5), no padding, nothing else between the
// letters, and no bits that hold nothing. A text of no bytes or of more than MaxLength letters
// is none.
func bytesOf(fragment string) (whole []byte, ok bool) {
	if len(fragment) == 0 || len(fragment) > MaxLength || len(fragment)%4 == 1 {
		return nil, false
	}
	whole = make([]byte, 0, len(fragment)*6/8)
	bits, have := 0, 0
	for i := range len(fragment) {
		value := valueOf[fragment[i]]
		if value == 0 {
			return nil, false
		}
		bits, have = bits<<6|int(value-1), have+6
		if have >= 8 {
			have -= 8
			whole = append(whole, byte(bits>>have))
			bits &= 1<<have - 1
		}
	}
	return whole, bits == 0
}
