package main

import (
	_ "embed"
	"encoding/binary"
	"fmt"
	"maps"
	"slices"
	"strings"
)

//go:embed zone.tab
var placeTable string

// pack writes the container that core/zone reads. Text first:
//
//	2025c
//	America/Nassau America/New_York America/Toronto|EST5EDT US/Eastern
//	… one line for each different record …
//	(an empty line)
//
// then the records in the order of the lines, each a big-endian uint16 length and a TZif file.
// On a line, the names before the bar are places (in zone.tab) and those after it are the rest:
// old names, Etc/*, abbreviations. Lines go by their first name, names by byte order.
//
// Measured with brotli -q 11 on release 2025c, container and all: this form 5,688 bytes; one
// sorted table of names with a record number each 5,946; records without the header fields that
// never vary 5,480; rules and changes alone, from which to build the TZif files, 5,211, which the
// code to build them eats up.
func pack(version string, zones map[string][]byte) ([]byte, error) {
	names := map[string][]string{} // by record
	for _, name := range slices.Sorted(maps.Keys(zones)) {
		record, err := shorten(name, zones[name])
		if err != nil {
			return nil, fmt.Errorf("zone %s: %w", name, err)
		}
		names[string(record)] = append(names[string(record)], name)
	}
	records := slices.SortedFunc(maps.Keys(names), func(a, b string) int {
		return strings.Compare(names[a][0], names[b][0])
	})

	places := placeNames()
	out := []byte(version + "\n")
	for _, record := range records {
		out = append(out, indexLine(names[record], places)+"\n"...)
	}
	out = append(out, '\n')
	for _, record := range records {
		out = binary.BigEndian.AppendUint16(out, uint16(len(record)))
		out = append(out, record...)
	}
	return out, nil
}

// indexLine returns "place place|other other".
func indexLine(names []string, places map[string]bool) string {
	var offered, others []string
	for _, name := range names {
		if places[name] {
			offered = append(offered, name)
		} else {
			others = append(others, name)
		}
	}
	return strings.Join(offered, " ") + "|" + strings.Join(others, " ")
}

// placeNames returns the third column of zone.tab.
func placeNames() map[string]bool {
	places := map[string]bool{}
	for line := range strings.Lines(placeTable) {
		columns := strings.Split(strings.TrimSpace(line), "\t")
		if !strings.HasPrefix(line, "#") && len(columns) >= 3 {
			places[columns[2]] = true
		}
	}
	return places
}
