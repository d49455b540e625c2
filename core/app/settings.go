package app

import (
	"strconv"
	"strings"

	"newel/core/plan"
)

// degrees reads a temperature in tenths: "101", "38.3 °C", "38,3". The scale follows from the
// number (plan.Celsius); one that is written beside it has to be that one. A number with more
// than one place after the point is none.
func (e *entry) degrees(name, typed string) (tenths int, ok bool) {
	text := strings.ToUpper(strings.Map(func(r rune) rune {
		if r == '°' || r == 'º' || r == ' ' {
			return -1
		}
		return r
	}, typed))
	number := strings.TrimRight(text, "CF")
	scale := text[len(number):]
	tenths, ok = decimal(number)
	celsius, sound := plan.Celsius(tenths)
	switch {
	case !ok || !sound || len(scale) > 1:
		e.wrong(name, plan.FeverUnclear)
		return 0, false
	case scale != "" && celsius != (scale == "C"):
		e.wrong(name, plan.FeverScale)
		return 0, false
	}
	return tenths, true
}

// decimal reads a number with at most one place after the point or comma, in tenths.
func decimal(text string) (tenths int, ok bool) {
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

// degreesText writes a temperature as degrees reads it.
func degreesText(tenths int) string {
	text := strconv.Itoa(tenths / 10)
	if tenths%10 != 0 {
		text += "." + strconv.Itoa(tenths%10)
	}
	if celsius, _ := plan.Celsius(tenths); celsius {
		return text + " °C"
	}
	return text + " °F"
}
