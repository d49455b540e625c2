// Package markup is what the templates write with: HTML as text, with what people typed escaped.
// The templates are compiled to calls of its Writer (build/templates). It does what the runtime of
// the template language does in some 20 kB less of download, without fmt and reflect behind it,
// and one call for a literal with the value behind it, where that has two for each.
package markup

import (
	"math"
	"slices"
	"strconv"
	"sync"
)

// Writer gathers HTML. Its zero value is empty and ready.
type Writer struct{ b []byte }

// rooms are what writers have written into and given back: to make room for a page of 400 kB
// step by step, and to clear it, takes longer than to write it.
var rooms struct {
	sync.Mutex
	all [mostRooms][]byte
	n   int
}

const (
	mostRooms = 4
	smallRoom = 512
	largeRoom = 1 << 20 // larger ones are not kept
)

// room gives a writer room at its first word.
func (w *Writer) room() {
	rooms.Lock()
	defer rooms.Unlock()
	if rooms.n == 0 {
		w.b = make([]byte, 0, smallRoom)
		return
	}
	rooms.n--
	w.b, rooms.all[rooms.n] = rooms.all[rooms.n], nil
}

// String is all that was written. The writer is empty again then.
func (w *Writer) String() string {
	text, b := string(w.b), w.b[:0]
	w.b = nil
	if cap(b) == 0 || cap(b) > largeRoom {
		return text
	}
	rooms.Lock()
	defer rooms.Unlock()
	if rooms.n < mostRooms {
		rooms.all[rooms.n] = b
		rooms.n++
	}
	return text
}

// Room makes room for that many bytes, so that a long page is not copied each time it outgrows
// what there is. It has no effect where there is as much already.
func (w *Writer) Room(bytes int) {
	if w.b == nil {
		w.room()
	}
	w.b = slices.Grow(w.b, bytes)
}

// S writes markup as it is.
func (w *Writer) S(markup string) {
	if w.b == nil {
		w.room()
	}
	w.b = append(w.b, markup...)
}

// plain tells of every byte whether it may stand between tags and in attributes as it is.
var plain = func() (plain [256]bool) {
	for i := range plain {
		switch i {
		case '<', '>', '"', '\'', '&':
		default:
			plain[i] = true
		}
	}
	return plain
}()

// E writes a text, escaped: it is safe between tags and inside of quoted attributes.
func (w *Writer) E(text string) {
	from := 0
	for i := 0; i < len(text); i++ {
		if plain[text[i]] {
			continue
		}
		entity := ""
		switch text[i] {
		case '<':
			entity = "&lt;"
		case '>':
			entity = "&gt;"
		case '"':
			entity = "&quot;"
		case '\'':
			entity = "&#39;"
		case '&':
			entity = "&amp;"
		}
		w.S(text[from:i])
		w.S(entity)
		from = i + 1
	}
	w.S(text[from:])
}

// SE writes markup as it is and a text, escaped.
func (w *Writer) SE(markup, text string) {
	w.S(markup)
	w.E(text)
}

// D writes a whole number.
func (w *Writer) D(n int) { w.S(strconv.Itoa(n)) }

// SD writes markup as it is and a whole number.
func (w *Writer) SD(markup string, n int) {
	w.S(markup)
	w.D(n)
}

// F1 writes a number of a drawing with one decimal, rounded to the nearest, of two as near to the
// even one. Its size is below 2^49.
func (w *Writer) F1(f float64) {
	if math.Signbit(f) {
		w.S("-")
	}
	tenths := strconv.FormatUint(tenthsOf(math.Abs(f)), 10)
	if len(tenths) == 1 {
		tenths = "0" + tenths
	}
	w.S(tenths[:len(tenths)-1] + "." + tenths[len(tenths)-1:])
}

// tenthsOf is ten times a number, rounded as F1 says. It counts with the number's own bits, 53 of
// them: ten times that is 57, so nothing is lost before the rounding, as it would be in f*10.
func tenthsOf(f float64) uint64 {
	fraction, exponent := math.Frexp(f)
	bits := uint64(fraction*(1<<53)) * 10 // f*10 is bits * 2^(exponent-53)
	down := 53 - exponent
	if down > 63 {
		return 0
	}
	whole, rest, half := bits>>down, bits&(1<<down-1), uint64(1)<<(down-1)
	if rest > half || rest == half && whole%2 == 1 {
		whole++
	}
	return whole
}
