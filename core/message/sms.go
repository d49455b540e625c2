package message

import "strings"

// SMS writes the address that opens a new message with its text in it (RFC 5724 2.2).
//
// numbers are telephone numbers as RFC 3966 has them: a plus sign and digits, or digits
// only. A number without a plus would need the context that it holds in (RFC 3966 5.1.5);
// nobody here knows the country, and phones dial it as they would have by hand. What is
// no digit, plus or separator ("-.()") is left out. RFC 5724 asks for a number; phones
// take an address without one too, and let the person choose (from memory: "sms:?body=").
//
// In the body everything but the unreserved letters of RFC 3986 2.3 is percent-encoded as
// UTF-8: a space is %20, since a plus would stay a plus.
func SMS(numbers []string, body string) string {
	var to []string
	for _, n := range numbers {
		if n = number(n); n != "" {
			to = append(to, n)
		}
	}
	address := "sms:" + strings.Join(to, ",")
	if body != "" {
		address += "?body=" + escaped(body)
	}
	return address
}

// number keeps what a telephone number may be written with.
func number(typed string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("0123456789+-.()", r) {
			return r
		}
		return -1
	}, typed)
}

const hex = "0123456789ABCDEF"

func escaped(text string) string {
	var b strings.Builder
	for i := range len(text) {
		c := text[i]
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', strings.IndexByte("-._~", c) >= 0:
			b.WriteByte(c)
		default:
			b.WriteByte('%')
			b.WriteByte(hex[c>>4])
			b.WriteByte(hex[c&15])
		}
	}
	return b.String()
}
