package press

import (
	"bytes"
	"errors"
	"fmt"
)

// Numbers of the sections that are looked into (WebAssembly Core Specification 2.0, 5.5.2).
const (
	sectionCode = 10
	sectionData = 11
)

// preamble is the magic and the version with which every module of version 1 begins (5.5.16).
const preamble = "\x00asm\x01\x00\x00\x00"

// section is one section of a module: its number and what it holds.
type section struct {
	id   byte
	body []byte
}

// sections splits a module.
func sections(wasm []byte) ([]section, error) {
	if !bytes.HasPrefix(wasm, []byte(preamble)) {
		return nil, errors.New("this is no WebAssembly module of version 1")
	}
	r := reader{b: wasm, at: len(preamble)}
	var all []section
	for r.at < len(wasm) && r.fault == nil {
		id := r.byte()
		all = append(all, section{id, r.bytes(int(r.u32()))})
	}
	return all, r.fault
}

// join is the inverse of sections.
func join(all []section) []byte {
	out := []byte(preamble)
	for _, s := range all {
		out = append(out, s.id)
		out = appendU32(out, uint32(len(s.body)))
		out = append(out, s.body...)
	}
	return out
}

// reader reads the numbers of 5.2.2. What goes beyond the end, or is too long, sets fault;
// from then on everything read is zero.
type reader struct {
	b     []byte
	at    int
	fault error
}

func (r *reader) fail(what string) {
	if r.fault == nil {
		r.fault = fmt.Errorf("WebAssembly module, byte %d: %s", r.at, what)
	}
	r.at = len(r.b)
}

func (r *reader) byte() byte {
	if r.at >= len(r.b) {
		r.fail("it ends too early")
		return 0
	}
	r.at++
	return r.b[r.at-1]
}

func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.b)-r.at {
		r.fail("it ends too early")
		return nil
	}
	r.at += n
	return r.b[r.at-n : r.at]
}

// u32 reads an unsigned number of at most 32 bits.
func (r *reader) u32() uint32 { return uint32(r.unsigned(5)) }

func (r *reader) unsigned(most int) uint64 {
	var v uint64
	for i := 0; i < most; i++ {
		b := r.byte()
		v |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			return v
		}
	}
	r.fail("a number is too long")
	return 0
}

// signed reads a signed number of at most 64 bits.
func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 70; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b >= 0x80 {
			continue
		}
		if b&0x40 != 0 && shift+7 < 64 {
			v |= -1 << (shift + 7)
		}
		return v
	}
	r.fail("a number is too long")
	return 0
}

func appendU32(out []byte, v uint32) []byte {
	for v >= 0x80 {
		out = append(out, byte(v)|0x80)
		v >>= 7
	}
	return append(out, byte(v))
}

func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}
