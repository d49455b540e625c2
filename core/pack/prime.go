package pack

import (
	_ "embed"
	"strings"
	"sync"
)

// corpus is what the model knows before the first text: lines such as ordinary
// families write, in English and Spanish, under a heading for each kind. Given names are
// common ones of the United States and of Spanish speakers (from memory); streets, places
// and notes are invented and say nothing that a page shows. It is frozen: links were made
// with it.
//
//go:embed corpus.txt
var corpus string

// line is a text of the corpus.
type line struct {
	kind Kind
	text string
}

const headings = "=other=name=place=note=title=phone" // in the order of the kinds

func readCorpus() []line {
	var lines []line
	var kind Kind
	for rest := corpus; rest != ""; {
		text, after, _ := strings.Cut(rest, "\n")
		rest = after
		if text[0] == '=' {
			kind = Kind(strings.Count(headings[:strings.Index(headings, text)], "="))
		} else {
			lines = append(lines, line{kind, text})
		}
	}
	return lines
}

// primed is the model that reads the corpus. That takes a while, so it is done once, in as many
// steps as there is time for, and each coder works on a copy.
var primed struct {
	sync.Mutex
	model *texts
	lines []line // what is left is from the next one on
	next  int
}

// ready is the model after it has read the corpus.
func ready() *texts {
	for !Prime(len(corpus)) {
	}
	return primed.model
}

// Prime reads so many lines of the corpus ahead of the first text, and tells whether that was the
// last of them. Nobody has to call it: what is not read by then the first text waits for.
func Prime(lines int) (done bool) {
	p := &primed
	p.Lock()
	defer p.Unlock()
	if p.model == nil {
		p.model, p.lines = newTexts(), readCorpus()
	}
	step := stride(len(p.lines))
	for ; lines > 0 && p.next < len(p.lines); lines-- {
		p.model.read(p.lines[p.next*step%len(p.lines)])
		p.next++
		if p.next == len(p.lines) {
			p.model.rate = textRate
		}
	}
	return p.next == len(p.lines)
}

// stride is a step that visits every line of a file, far from the one before, so that
// the kinds and languages come mixed: about the golden section, with no divisor in
// common.
func stride(lines int) int {
	step := lines * 650 / 1000
	for common(step, lines) != 1 {
		step++
	}
	return step
}

func common(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// read learns a text without coding it.
func (m *texts) read(l line) {
	m.begin(l.kind)
	for _, r := range l.text {
		s, capital := m.fold(r)
		if capital {
			m.readSymbol(capitalSign)
		}
		m.reading.capital = capital
		m.readSymbol(s)
		m.passed(s)
	}
	m.readSymbol(endSign)
}

func (m *texts) readSymbol(s symbol) {
	m.look()
	node, walked := m.start(m.reading.capital)
	for node >= 0 {
		bit, _ := m.code[s].turn(walked)
		m.chance(node, walked)
		m.learn(bit)
		node, walked = m.step(node, walked, bit)
	}
}
