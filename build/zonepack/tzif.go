package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"time"
)

// The years that a plan can fall in, as Unix seconds. Morocco and Gaza list a pair of changes
// round each Ramadan until 2086; all other zones list their last irregular change and then give
// a rule (the footer) that holds for ever, so the end cuts only those.
var (
	keepFrom  = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	keepUntil = time.Date(2046, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
)

// A zoneType is what a clock shows between two changes.
type zoneType struct {
	offset int // seconds east of UTC
	isDST  bool
	abbr   string // such as "EST"
}

// shorten returns the TZif file data, of the zone called name, without the changes outside
// keepFrom to keepUntil. It refuses to return a file that reads differently in between.
func shorten(name string, data []byte) ([]byte, error) {
	whole, err := time.LoadLocationFromTZData(name, data)
	if err != nil {
		return nil, err
	}
	changes, footer, err := parse(data)
	if err != nil {
		return nil, err
	}
	kept := changes[:0]
	for _, at := range changes {
		if at > keepFrom && at < keepUntil {
			kept = append(kept, at)
		}
	}
	short := encode(whole, kept, footer)
	return short, sameClock(whole, short, kept)
}

// parse returns the times of the changes in a TZif file, as Unix seconds, and its footer: the
// rule, in the manner of POSIX TZ, for all times after the last change. RFC 9636, section 3.
func parse(data []byte) (changes []int64, footer string, err error) {
	start := bytes.LastIndex(data, []byte("TZif")) // the second header, of the 64-bit block
	if start <= 0 || len(data) < start+44 {
		return nil, "", errors.New("not a TZif file of version 2 or later")
	}
	var count [6]int // UTC flags, standard flags, leap seconds, changes, types, letters
	for i := range count {
		count[i] = int(binary.BigEndian.Uint32(data[start+20+4*i:]))
	}
	body := data[start+44:]
	size := count[0] + count[1] + count[2]*12 + count[3]*9 + count[4]*6 + count[5]
	if size > len(body) {
		return nil, "", errors.New("the TZif file ends early")
	}
	for i := range count[3] {
		changes = append(changes, int64(binary.BigEndian.Uint64(body[8*i:])))
	}
	footer = strings.Trim(string(body[size:]), "\n")
	if footer == "" {
		return nil, "", errors.New("the TZif file has no rule for later years")
	}
	return changes, footer, nil
}

// encode writes a TZif file of version 2 with the changes given, what the clock shows after each
// being read off the zone. The 32-bit block is as empty as RFC 9636 allows, as in the input.
func encode(zone *time.Location, changes []int64, footer string) []byte {
	// Type 0 is for times before the first change. No change may share it: Go takes the first
	// type as the earliest one for certain only when nothing else refers to it.
	types := []zoneType{typeAt(zone, keepFrom)}
	var index []byte
	for _, at := range changes {
		var i int
		types, i = add(types, typeAt(zone, at))
		index = append(index, byte(i))
	}
	var described []byte
	var letters string
	for _, t := range types {
		if !strings.Contains(letters, t.abbr+"\x00") {
			letters += t.abbr + "\x00"
		}
		described = binary.BigEndian.AppendUint32(described, uint32(int32(t.offset)))
		described = append(described, flag(t.isDST), byte(strings.Index(letters, t.abbr+"\x00")))
	}

	out := append(header(0, 1, 1), make([]byte, 6+1)...)
	out = append(out, header(len(changes), len(types), len(letters))...)
	for _, at := range changes {
		out = binary.BigEndian.AppendUint64(out, uint64(at))
	}
	out = append(out, index...)
	out = append(out, described...)
	return append(out, letters+"\n"+footer+"\n"...)
}

// header returns the 44 bytes before each block: RFC 9636, section 3.1.
func header(changes, types, letters int) []byte {
	out := append([]byte("TZif2"), make([]byte, 15+3*4)...)
	for _, n := range []int{changes, types, letters} {
		out = binary.BigEndian.AppendUint32(out, uint32(n))
	}
	return out
}

// add returns the place of t among the types after the first, appending it if it is new.
func add(types []zoneType, t zoneType) ([]zoneType, int) {
	for i := 1; i < len(types); i++ {
		if types[i] == t {
			return types, i
		}
	}
	return append(types, t), len(types)
}

func typeAt(zone *time.Location, at int64) zoneType {
	t := time.Unix(at, 0).In(zone)
	abbr, offset := t.Zone()
	return zoneType{offset, t.IsDST(), abbr}
}

func flag(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// sameClock returns an error if the short file reads differently from the whole zone round any
// of the changes, at either end, or once a week between.
func sameClock(whole *time.Location, short []byte, changes []int64) error {
	zone, err := time.LoadLocationFromTZData(whole.String(), short)
	if err != nil {
		return err
	}
	times := []int64{keepFrom, keepUntil - 1}
	for _, at := range changes {
		times = append(times, at-1, at)
	}
	for at := keepFrom; at < keepUntil; at += 7 * 24 * 60 * 60 {
		times = append(times, at)
	}
	for _, at := range times {
		if want, got := typeAt(whole, at), typeAt(zone, at); want != got {
			return fmt.Errorf("the shortened record shows %v at %s, the whole one %v",
				got, time.Unix(at, 0).UTC().Format(time.RFC3339), want)
		}
	}
	return nil
}
