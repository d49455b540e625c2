package calendar

import (
	"errors"
	"io"
	"strings"

	ical "github.com/emersion/go-ical"
)

// The bounds of a file that is read.
const (
	MaxBytes  = 256 << 10
	MaxEvents = 400 // components of any kind but time zones; a moved date is one too
)

// maxDepth is how far components may nest; an alarm is at 3. go-ical's reader calls
// itself for each level.
const maxDepth = 6

// maxHead bounds a line's name and parameters, in bytes. go-ical joins a parameter byte
// by byte, which for a long one takes the square of its length.
const maxHead = 1000

// readable are the properties that are looked at; all others are left out before
// go-ical sees them.
const readable = " BEGIN END METHOD UID DTSTAMP SEQUENCE STATUS SUMMARY DESCRIPTION LOCATION DTSTART DTEND DUE DURATION RRULE RDATE EXDATE EXRULE " +
	"RECURRENCE-ID TZID TZOFFSETFROM TZOFFSETTO " + propDuty + " " + propPlan + " "

// Fault is why a file cannot be read at all. Its sentence is core/guide's, under
// import.CODE.
type Fault struct{ Code string }

func (f Fault) Error() string { return "calendar: " + f.Code }

// The codes of faults.
const (
	TooBig      = "too-big"
	TooMany     = "too-many"
	NotCalendar = "not-a-calendar"
)

// decode gives the calendars of a text; some systems put several into one file.
//
// go-ical panics on a parameter that ends with its line, and on others takes very
// long; so it is given only lines that were looked at first. A line that is not well
// formed is left out: what it belongs to then lacks a property, and says so.
func decode(text string) ([]*ical.Calendar, error) {
	if len(text) > MaxBytes {
		return nil, Fault{TooBig}
	}
	var kept []string
	depth, components := 0, 0
	for _, line := range unfold(text) {
		name, value, ok := wellFormed(line)
		if !ok || !strings.Contains(readable, " "+name+" ") {
			continue
		}
		switch name {
		case "BEGIN":
			depth++
			if depth == 2 && !strings.EqualFold(value, ical.CompTimezone) {
				components++
			}
		case "END":
			depth--
		}
		if depth < 0 || depth > maxDepth {
			return nil, Fault{NotCalendar}
		}
		kept = append(kept, line)
	}
	if components > MaxEvents {
		return nil, Fault{TooMany}
	}
	if len(kept) == 0 {
		return nil, Fault{NotCalendar}
	}
	return decodeAll(strings.Join(kept, "\r\n") + "\r\n")
}

func decodeAll(text string) ([]*ical.Calendar, error) {
	d := ical.NewDecoder(strings.NewReader(text))
	var all []*ical.Calendar
	for {
		cal, err := d.Decode()
		switch {
		case errors.Is(err, io.EOF) && len(all) > 0:
			return all, nil
		case err != nil:
			return nil, Fault{NotCalendar}
		}
		all = append(all, cal)
	}
}

// wellFormed tells whether a line has the form of RFC 5545 3.1: NAME;PARAM=value:value.
func wellFormed(line string) (name, value string, ok bool) {
	rest := line[:min(len(line), maxHead)]
	end := nameEnd(rest)
	name, rest = strings.ToUpper(rest[:end]), rest[end:]
	if name == "" {
		return "", "", false
	}
	for strings.HasPrefix(rest, ";") {
		end := nameEnd(rest[1:])
		if rest = rest[1+end:]; end == 0 || !strings.HasPrefix(rest, "=") {
			return "", "", false
		}
		for strings.HasPrefix(rest, "=") || strings.HasPrefix(rest, ",") {
			if rest, ok = afterValue(rest[1:]); !ok {
				return "", "", false
			}
		}
	}
	if !strings.HasPrefix(rest, ":") {
		return "", "", false
	}
	head := min(len(line), maxHead) - len(rest)
	return name, line[head+1:], true
}

// nameEnd is how long the name at the start of a text is.
func nameEnd(s string) int {
	for i := range len(s) {
		c := s[i] | 0x20
		if (c < 'a' || c > 'z') && (s[i] < '0' || s[i] > '9') && s[i] != '-' {
			return i
		}
	}
	return len(s)
}

// afterValue passes over a parameter's value.
func afterValue(s string) (rest string, ok bool) {
	if quoted, is := strings.CutPrefix(s, `"`); is {
		end := strings.IndexByte(quoted, '"')
		return quoted[end+1:], end >= 0
	}
	end := strings.IndexAny(s, `";:,`)
	if end < 0 || s[end] == '"' {
		return "", false
	}
	return s[end:], true
}
