package press

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// Trim takes out of a module that Go's linker wrote what only a printed trace of calls needs:
// the names of functions and files, the line of each instruction, and which calls were copied
// into others. What the running program needs stays: how large each function's frame is, where
// pointers are (for the collector), what recover counts (runtime/panic.go, gorecover). It also
// writes the memory as a few long segments. The program does the same as before; a trace that the
// runtime prints when it dies has no names.
//
// The layout is that of Go's runtime, symtab.go and runtime2.go, for the magic number of Go 1.20
// to 1.26. A module of another layout is an error, and no byte of it is changed.
func Trim(wasm []byte) ([]byte, error) {
	all, err := sections(wasm)
	if err != nil {
		return nil, err
	}
	for i, s := range all {
		if s.id != sectionData {
			continue
		}
		m, err := readMemory(s.body)
		if err != nil {
			return nil, err
		}
		t, err := findTables(m.bytes)
		if err != nil {
			return nil, err
		}
		if err := t.trim(); err != nil {
			return nil, err
		}
		all[i].body = m.section()
		return join(all), nil
	}
	return nil, errors.New("the module has no data section")
}

// tables are the tables of functions that the runtime reads, in the module's memory. Offsets
// within each are as the runtime counts them.
type tables struct {
	names, units, files []byte // function names; files of each compilation unit; file names
	steps               []byte // "pctab": how a value changes along a function
	functions           []byte // "pclntab" in the narrow sense: index, then a record for each function
	count               int
}

var order = binary.LittleEndian

// headMark is the beginning of the runtime's pcHeader: magic, two zeros, the size of the smallest
// instruction and of a pointer.
var headMark = [8]byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

const headSize = 8 * 9

// findTables finds the one place that looks like the tables, and the runtime's pointers to it.
func findTables(mem []byte) (tables, error) {
	found := -1
	for at := 0; at+headSize <= len(mem); at += 8 {
		if [8]byte(mem[at:at+8]) != headMark || order.Uint64(mem[at+32:]) != headSize {
			continue
		}
		if found >= 0 {
			return tables{}, errors.New("two places look like the table of functions")
		}
		found = at
	}
	if found < 0 {
		return tables{}, errors.New("no table of functions in the layout of Go 1.20 to 1.26")
	}
	return cut(mem, found)
}

// cut makes slices of the offsets in the head of the tables at address at.
func cut(mem []byte, at int) (tables, error) {
	word := func(n int) int { return int(order.Uint64(mem[at+8*n:])) }
	offsets := []int{word(4), word(5), word(6), word(7), word(8)}
	last := 0
	for _, o := range offsets {
		if o < last || o > len(mem)-at {
			return tables{}, errors.New("the table of functions has its parts in another order")
		}
		last = o
	}
	part := func(n int) []byte { return mem[at+offsets[n] : at+offsets[n+1]] }
	t := tables{names: part(0), units: part(1), files: part(2), steps: part(3), functions: mem[at+last:], count: word(1)}
	if t.count <= 0 || t.count > len(t.functions)/recordSize {
		return tables{}, fmt.Errorf("the table of functions says that it has %d", t.count)
	}
	return t, nil
}

// A record of a function (runtime2.go, _func), in bytes from its beginning.
const (
	atName       = 4
	atFrame      = 16 // steps of the frame's size
	atFile       = 20 // steps of the file
	atLine       = 24 // steps of the line
	atStepLists  = 28 // how many lists of steps follow the record
	atUnit       = 32
	atStart      = 36 // the line of "func"
	atID         = 40
	atDataCount  = 43 // how many offsets of other data follow the lists
	recordSize   = 44
	noData       = ^uint32(0)
	normal       = 0 // internal/abi, FuncIDNormal
	argsAreKnown = 8 // int32: the size of arguments and results
	argsUnknown  = -0x80000000
)

// Lists of steps and other data that only traces read (internal/abi, symtab.go). Points that are
// unsafe for stopping a program matter only where it is stopped from outside, which nobody does
// in WebAssembly (runtime, preemptMSupported).
const (
	unsafePoints, inlineIndex, liveArguments = 0, 2, 3
	inlineTree, argumentInfo, liveInfo       = 3, 5, 6
)

// record gives the bytes of one function from its record on.
func (t tables) record(i int) ([]byte, error) {
	at := int(order.Uint32(t.functions[8*i+4:]))
	if at < 8*t.count || at > len(t.functions)-recordSize {
		return nil, fmt.Errorf("function %d of %d lies outside of its table", i, t.count)
	}
	return t.functions[at:], nil
}

// trim empties what is not needed, and packs the lists of steps that stay close together.
func (t tables) trim() error {
	kept := stepLists{from: t.steps, at: map[uint32]uint32{}, out: []byte{0}} // 0 is "no list"
	names := nameList{from: t.names, at: map[uint32]uint32{}, out: []byte{0}}
	for i := range t.count {
		r, err := t.record(i)
		if err != nil {
			return err
		}
		if err := trimRecord(r, &kept, &names); err != nil {
			return fmt.Errorf("function %d of %d: %w", i, t.count, err)
		}
	}
	if len(kept.out) > len(t.steps) || len(names.out) > len(t.names) {
		return errors.New("the tables of functions would grow")
	}
	for _, part := range [][]byte{t.names, t.units, t.files, t.steps} {
		clear(part)
	}
	copy(t.steps, kept.out)
	copy(t.names, names.out)
	return nil
}

// trimRecord changes one function's record.
func trimRecord(r []byte, kept *stepLists, names *nameList) error {
	lists, data := int(order.Uint32(r[atStepLists:])), int(r[atDataCount])
	if lists > 16 || data > 16 || recordSize+4*(lists+data) > len(r) {
		return fmt.Errorf("a record with %d lists of steps and %d other data", lists, data)
	}
	put := func(at int, v uint32) { order.PutUint32(r[at:], v) }
	wrapper := r[atID] != normal
	for _, at := range []int{atFile, atLine, atUnit, atStart} {
		put(at, 0)
	}
	// The runtime asks for the names of wrappers (error.go, panicwrap) and of two functions whose
	// arguments it does not know (stkframe.go).
	if wrapper || int32(order.Uint32(r[argsAreKnown:])) == argsUnknown {
		put(atName, names.keep(order.Uint32(r[atName:])))
	} else {
		put(atName, 0)
	}
	if err := kept.move(r[atFrame:]); err != nil {
		return err
	}
	for n := range lists {
		field := r[recordSize+4*n:]
		// recover tells a wrapper from what was copied into it.
		if n == unsafePoints || n == liveArguments || n == inlineIndex && !wrapper {
			order.PutUint32(field, 0)
		} else if err := kept.move(field); err != nil {
			return err
		}
	}
	for n := range data {
		if n == argumentInfo || n == liveInfo || n == inlineTree && !wrapper {
			put(recordSize+4*(lists+n), noData)
		}
	}
	return nil
}
