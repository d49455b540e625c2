// Package press writes a WebAssembly module that Go's compiler made in a form that compresses
// better: brotli makes about a third less of it. web/unpress.ts undoes it in the browser, while
// the bytes arrive; Unpress does the same here, and the tests hold the two together.
//
// Two things are done. Trim takes out what the program does not need. Press then changes only how
// the rest is written:
//
//   - An instruction and its numbers are parted: tokens for the instructions in one stream, and
//     each sort of number (offsets, constants, functions called …) in a stream of its own.
//   - What follows from the code itself is not written: where the code goes on after a call, how
//     many blocks lie between an instruction and the end of its function.
//   - Instructions that often follow each other share a token.
//   - The runtime's table of functions is written number by number.
//
// The streams are cut into chunks of whole functions, so that a browser can compile the first
// functions while the last ones are still on the way.
//
// # Form
//
// Numbers are LEB128, unsigned if nothing else is said; a text is its length and its bytes.
//
//	mark      "newel-2\n"
//	before    text: the module up to the code section's number (10)
//	size      of the code section's contents, in bytes
//	functions how many
//	symbols   how many, then each: kind, depth + 1, and
//	            literal: text · number: text, stream · outward: text, blocks · wide: text, bytes
//	            table, back, jump: nothing more · phrase (kind 7): two symbols by their places
//	chunks    each: functions in it, the lengths of its ten streams, the streams; 0 ends them
//	after     text: the module from there to the table of functions, or to its end
//	table     functions in it, 0 for none; where the first record begins; what stands behind the
//	            index; then numbers of four bytes, see records.go
//	rest      the rest of the module
//
// A token is one byte for symbols 0 to 251; else 252 + (s-252)/256, (s-252)%256.
package press

import (
	"errors"
	"fmt"
)

const mark = "newel-2\n"

// chunk is how many bytes of streams a chunk has at least, before the next begins. Smaller ones
// compress worse; larger ones keep the compiler waiting.
const chunk = 120_000

// oneByte is how many symbols have a token of one byte.
const oneByte = 252

// most is how many symbols tokens can name.
const most = oneByte + 4*256

// mostFunctions is as many as web/functions.ts can count addresses of.
const mostFunctions = 1<<15 - firstFunction

const phraseKind = wide + 1

// Press writes a module in the form above. It fails where the module has something in it that
// Go's compiler does not write.
func Press(wasm []byte) ([]byte, error) {
	all, err := sections(wasm)
	if err != nil {
		return nil, err
	}
	for i, s := range all {
		if s.id != sectionCode {
			continue
		}
		m, err := readModule(s.body)
		if err != nil {
			return nil, err
		}
		if len(m.functions) > mostFunctions {
			return nil, fmt.Errorf("the module has %d functions: an address within one of more than %d has no place in 31 bits", len(m.functions), mostFunctions)
		}
		for n := range m.functions {
			m.resolve(n)
		}
		return m.write(join(all[:i]), all[i+1:])
	}
	return nil, errors.New("the module has no code section")
}

// write writes the whole form.
func (m *module) write(before []byte, after []section) ([]byte, error) {
	a := newAlphabet(m)
	if len(a.symbols) > most {
		return nil, errors.New("the module has more kinds of instructions than there are tokens for")
	}
	chunks, size := m.chunks(a)
	out := appendText([]byte(mark), string(before))
	out = appendU32(out, uint32(size))
	out = appendU32(out, uint32(len(m.functions)))
	out = appendU32(out, uint32(len(a.symbols)))
	for _, s := range a.symbols {
		out = s.append(out)
	}
	next, t, rest := parted(after)
	out = appendText(append(append(out, chunks...), 0), string(next))
	return append(t.append(out), rest...), nil
}

// chunks writes the functions, and says how long the section's contents are that come of it.
func (m *module) chunks(a *alphabet) (out []byte, size int) {
	size = len(appendU32(nil, uint32(len(m.functions))))
	for from := 0; from < len(m.functions); {
		first := from
		var c chunkOf
		for from < len(m.functions) && c.size() < chunk {
			c.add(m, from, a.texts[from])
			from++
		}
		size += len(c.unpress(nil, a.symbols, first))
		out = c.append(out)
	}
	return out, size
}

func appendText(out []byte, text string) []byte {
	return append(appendU32(out, uint32(len(text))), text...)
}

// append writes one symbol of the list.
func (s symbol) append(out []byte) []byte {
	if s.phrase() {
		out = append(out, byte(phraseKind), 1)
		return appendU32(appendU32(out, uint32(s.parts[0])), uint32(s.parts[1]))
	}
	out = append(out, byte(s.kind), byte(s.deep+1))
	switch s.kind {
	case literal:
		return appendText(out, s.bytes)
	case number, outward, wide:
		return appendU32(appendText(out, s.bytes), uint32(s.n))
	}
	return out
}

// chunkOf is a chunk that grows.
type chunkOf struct {
	functions int
	streams   [streams][]byte
}

func (c *chunkOf) size() int {
	n := 0
	for _, s := range c.streams {
		n += len(s)
	}
	return n
}

// add writes function i into the streams.
func (c *chunkOf) add(m *module, i int, text []int) {
	f := m.functions[i]
	c.functions++
	c.streams[locals] = append(c.streams[locals], f.locals...)
	c.streams[wides] = append(c.streams[wides], f.wides...)
	for _, list := range f.tables {
		c.streams[tables_] = appendTable(c.streams[tables_], list)
	}
	for _, s := range text {
		if s >= oneByte {
			c.streams[tokens] = append(c.streams[tokens], byte(oneByte+(s-oneByte)>>8))
			s -= oneByte
		}
		c.streams[tokens] = append(c.streams[tokens], byte(s))
	}
	for _, in := range f.code {
		switch s := m.symbols[in.symbol]; s.kind {
		case number:
			c.streams[s.n] = s.appendNumber(c.streams[s.n], in.value)
		case jump:
			c.streams[jumps] = appendSigned(c.streams[jumps], in.value)
		}
	}
}

// appendTable writes how many labels a br_table has, and by how much each is above the one before.
func appendTable(out []byte, list []uint32) []byte {
	out = appendU32(out, uint32(len(list)))
	var last uint32
	for _, label := range list {
		out = appendSigned(out, int64(label)-int64(last))
		last = label
	}
	return out
}

func (c *chunkOf) append(out []byte) []byte {
	out = appendU32(out, uint32(c.functions))
	for _, s := range c.streams {
		out = appendU32(out, uint32(len(s)))
	}
	for _, s := range c.streams {
		out = append(out, s...)
	}
	return out
}
