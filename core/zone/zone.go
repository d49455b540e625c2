// Package zone holds the time-zone data that Newel ships and the rule that places a wall-clock
// time in a zone.
//
// Use it like this:
//
//	loc, err := zone.Load("America/New_York")
//	t, fit := zone.At(loc, 2027, time.March, 14, 2, 30) // 03:30 EDT, Skipped
//
// The data is the IANA time zone database cut down to what a surgery plan needs: clock changes
// from 2020 to 2045, and after that each zone's standing rule. A time before 2020 gets the
// zone's rule of 2020 and may be wrong. The package never looks at the zones of the machine, so
// the same request gives the same answer on every device. zones.bin is made by build/zonepack,
// which describes its form; it takes about 6 kB compressed, a tenth of Go's own time/tzdata.
package zone

import (
	_ "embed"
	"errors"
	"slices"
	"strings"
	"time"
)

//go:embed zones.bin
var packed string

// contents is zones.bin taken apart.
type contents struct {
	version string
	places  []string          // the names that a form offers, sorted
	records map[string]string // zone name → TZif file
}

var (
	unpacked *contents                     // nil until first needed
	loaded   = map[string]*time.Location{} // holds known names only, so it cannot outgrow them
)

func open() *contents {
	if unpacked == nil {
		unpacked = unpack(packed)
	}
	return unpacked
}

// unpack reads the form that build/zonepack/pack.go writes. The data is part of the program, so
// it is trusted: if it is damaged, this panics.
func unpack(packed string) *contents {
	text, records, _ := strings.Cut(packed, "\n\n")
	version, index, _ := strings.Cut(text, "\n")
	c := &contents{version: version, records: map[string]string{}}
	for line := range strings.SplitSeq(index, "\n") {
		size := int(records[0])<<8 | int(records[1])
		record := records[2 : 2+size]
		records = records[2+size:]

		places, others, _ := strings.Cut(line, "|")
		c.places = append(c.places, strings.Fields(places)...)
		for _, name := range strings.Fields(places + " " + others) {
			c.records[name] = record
		}
	}
	slices.Sort(c.places)
	return c
}

// Version returns the release of the IANA data, such as "2025c"; "unknown" if the Go
// installation that packed it did not say.
func Version() string { return open().version }

// Names returns the zones to offer in a form: one for each place in the IANA table zone.tab,
// sorted by byte order, about 420 names. Old names ("US/Eastern", "Asia/Calcutta"),
// abbreviations and "Etc/…" are left out, though Load knows them: devices and old links carry
// them. The slice is the caller's own.
func Names() []string { return slices.Clone(open().places) }

// Load returns the zone with an IANA name, spelled exactly ("America/New_York", "UTC"). An
// error is one sentence for the person who chose the zone. "" and "Local" are errors, unlike in
// time.LoadLocation: both would mean a different zone on each device.
func Load(name string) (*time.Location, error) {
	if loc := loaded[name]; loc != nil {
		return loc, nil
	}
	data, err := Data(name)
	if err != nil {
		return nil, err
	}
	loc, err := time.LoadLocationFromTZData(name, data)
	if err != nil {
		return nil, errors.New("the data for the time zone “" + name + "” is damaged (" + err.Error() +
			"): choose another zone with the same clock")
	}
	loaded[name] = loc
	return loc, nil
}

// Data returns the zone's TZif file (RFC 9636, version 2) with the same names and errors as
// Load. Its first type is the one in force on 1 January 2020; zones that follow a standing rule
// since before then list no changes and hold only the rule, in the footer.
func Data(name string) ([]byte, error) {
	if name == "" {
		return nil, errors.New("no time zone is given: choose the hospital’s, such as America/New_York")
	}
	record, known := open().records[name]
	if !known {
		return nil, errors.New("the time zone “" + clip(name) + "” is not known: choose one from the list, such as America/New_York")
	}
	return []byte(record), nil
}

// clip keeps a sentence readable when a damaged link holds a very long name.
func clip(name string) string {
	const most = 40 // characters; the longest real name has 32
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return name
}
