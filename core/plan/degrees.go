package plan

import (
	"strconv"
	"strings"
)

// ParseDegrees reads a temperature in tenths: "101", "38.3 °C", "38,3". The scale follows from
// the number (Celsius); one that is written beside it has to be that one. A number with more
// than one place after the point is none. code is "" where it could be read, else FeverUnclear
// or FeverScale.
func ParseDegrees(typed string) (tenths int, code string) {
	text := strings.ToUpper(strings.Map(func(r rune) rune {
		if r == '°' || r == 'º' || r == ' ' {
			return -1
		}
		return r
	}, typed))
	number := strings.TrimRight(text, "CF")
	scale := text[len(number):]
	tenths, ok := tenthsOf(number)
	celsius, sound := Celsius(tenths)
	switch {
	case !ok || !sound || len(scale) > 1:
		return 0, FeverUnclear
	case scale != "" && celsius != (scale == "C"):
		return 0, FeverScale
	}
	return tenths, ""
}

// tenthsOf reads a number with at most one place after the point or comma.
func tenthsOf(text string) (tenths int, ok bool) {
	whole, rest, _ := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if len(rest) == 0 {
		rest = "0"
	}
	n, err := strconv.ParseUint(whole, 10, 8)
	tenth, err2 := strconv.ParseUint(rest, 10, 8)
	if err != nil || err2 != nil || len(rest) > 1 {
		return 0, false
	}
	return int(n)*10 + int(tenth), true
}

// DegreesText writes a temperature as ParseDegrees reads it.
func DegreesText(tenths int) string {
	text := strconv.Itoa(tenths / 10)
	if tenths%10 != 0 {
		text += "." + strconv.Itoa(tenths%10)
	}
	if celsius, _ := Celsius(tenths); celsius {
		return text + " °C"
	}
	return text + " °F"
}
