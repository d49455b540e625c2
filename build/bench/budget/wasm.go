package budget

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// function is one function's code with its name, as the linker writes it.
type function struct {
	name string
	body []byte
}

// module is what the budget reads of a WebAssembly module (WebAssembly Core Specification 2.0,
// 5.5): the functions' bodies with the names of the name section (7.4.1), and the data.
type module struct {
	functions []function
	data      []byte // all segments, one after another, without their headers
	headers   []byte // where each segment goes and how long it is
}

// The sections' numbers (5.5.2).
const (
	customSection = 0
	importSection = 2
	codeSection   = 10
	dataSection   = 11
)

// reader reads a section; the first fault stays in err, and what is read after it is nothing.
type reader struct {
	b   []byte
	err error
}

func (r *reader) number() uint64 {
	v, n := binary.Uvarint(r.b) // LEB128, as WebAssembly writes it (5.2.2)
	if n <= 0 {
		r.fail("a number is cut off")
		return 0
	}
	r.b = r.b[n:]
	return v
}

func (r *reader) bytes(n uint64) []byte {
	if n > uint64(len(r.b)) {
		r.fail("a part is longer than what is left")
		return nil
	}
	b := r.b[:n]
	r.b = r.b[n:]
	return b
}

func (r *reader) fail(what string) {
	if r.err == nil {
		r.err = errors.New("the module cannot be read: " + what)
	}
	r.b = nil
}

// read reads a module that was linked with its names.
func read(wasm []byte) (*module, error) {
	if len(wasm) < 8 || string(wasm[:4]) != "\x00asm" {
		return nil, errors.New("the module cannot be read: it does not begin as WebAssembly does")
	}
	m, names := &module{}, map[uint64]string{}
	imported, bodies := uint64(0), [][]byte{}
	r := &reader{b: wasm[8:]}
	for len(r.b) > 0 {
		id := r.number()
		section := &reader{b: r.bytes(r.number())}
		switch id {
		case customSection:
			if string(section.bytes(section.number())) == "name" {
				readNames(section, names)
			}
		case importSection:
			imported = countFunctions(section)
		case codeSection:
			for range section.number() {
				bodies = append(bodies, section.bytes(section.number()))
			}
		case dataSection:
			m.data, m.headers = readData(section)
		}
		if err := errors.Join(r.err, section.err); err != nil {
			return nil, err
		}
	}
	for i, body := range bodies {
		m.functions = append(m.functions, function{names[imported+uint64(i)], body})
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("the module has no names: it was linked with -s")
	}
	return m, nil
}

// readNames reads the functions' names, subsection 1.
func readNames(r *reader, names map[uint64]string) {
	for len(r.b) > 0 {
		id := r.number()
		sub := &reader{b: r.bytes(r.number())}
		if id != 1 {
			continue
		}
		for range sub.number() {
			index := sub.number()
			names[index] = string(sub.bytes(sub.number()))
		}
		if sub.err != nil {
			r.err = sub.err
			return
		}
	}
}

// countFunctions counts the imported functions, which come before those of the code section.
// Go imports nothing else.
func countFunctions(r *reader) (count uint64) {
	for range r.number() {
		r.bytes(r.number()) // of which module
		r.bytes(r.number()) // its name
		if kind := r.number(); kind != 0 {
			r.fail("it imports something that is no function")
			return 0
		}
		r.number() // its type
		count++
	}
	return count
}

// readData joins the segments, and what stands before them. Each begins with where it goes: i32.const, a number, end (0x41 … 0x0b).
func readData(r *reader) (data, headers []byte) {
	for range r.number() {
		all := r.b
		if kind := r.number(); kind != 0 {
			r.fail("a data segment is of a kind that Go does not write")
			return nil, nil
		}
		if op := r.bytes(1); len(op) == 0 || op[0] != 0x41 {
			r.fail("a data segment's place is no constant")
			return nil, nil
		}
		r.number()
		r.bytes(1)
		length := r.number()
		headers = append(headers, all[:len(all)-len(r.b)]...)
		data = append(data, r.bytes(length)...)
	}
	return data, headers
}
