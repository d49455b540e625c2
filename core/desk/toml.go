package desk

import (
	"strings"
	"unicode/utf8"
)

// tomlKind is what a value of a settings file is.
type tomlKind uint8

// The kinds.
const (
	tomlText tomlKind = iota
	tomlWhole
	tomlDecimal
	tomlYesNo
	tomlDay
	tomlClock
	tomlTable  // Table has it
	tomlTables // Tables has them
)

// tomlValue is one value. Text is a string's content, and of all others how it is written.
type tomlValue struct {
	Kind   tomlKind
	Text   string
	Whole  int64
	Table  *tomlDoc
	Tables []*tomlDoc
}

// tomlEntry is one key of a table, with the line that it stands in, from 1.
type tomlEntry struct {
	Key   string
	Line  int
	Value tomlValue
}

// tomlDoc is a table: the file itself, or one in it. The entries are in the order of the file.
type tomlDoc struct {
	Line    int
	Entries []tomlEntry
	places  map[string]int // in Entries, by key
	said    bool           // by a head of its own, or by keys with points: neither may say it again
	closed  bool           // by a head or by keys of another table: keys with points add nothing to it
}

func (t *tomlDoc) entry(key string) *tomlEntry {
	if i, ok := t.places[key]; ok {
		return &t.Entries[i]
	}
	return nil
}

func (t *tomlDoc) add(e tomlEntry) {
	if t.places == nil {
		t.places = map[string]int{}
	}
	t.places[e.Key] = len(t.Entries)
	t.Entries = append(t.Entries, e)
}

// mostParts is how many parts a key with points may have, and so how deep tables go. Settings have keys of one
// part; whoever walks down a table calls itself, and in a page there is no room for that without end.
const mostParts = 16

// readTOML reads the part of TOML 1.0.0 (https://toml.io/en/v1.0.0) that settings need: comments,
// bare, quoted and dotted keys, tables and arrays of tables, strings of all four forms, decimal
// integers and floats, true and false, local dates and times. What else TOML has is refused as
// not used here (tomlUnused). A line with a fault is left out and the rest is read; all faults
// are listed, in the order of the file.
func readTOML(text string) (*tomlDoc, []Fault) {
	r := &tomlReader{text: text, line: 1, root: &tomlDoc{Line: 1, said: true}}
	r.table = r.root
	for r.at < len(r.text) && len(r.faults) <= mostFaults {
		r.statement()
	}
	return r.root, r.faults
}

// tomlReader goes through a file, a line or more at a time.
type tomlReader struct {
	text   string
	at     int // the next byte
	line   int
	root   *tomlDoc
	table  *tomlDoc // that keys belong to; nil below a head with a fault
	faults []Fault
}

// fault notes what is wrong in a line, and gives false so that callers can return it.
func (r *tomlReader) fault(line int, key, code, value string) bool {
	r.faults = append(r.faults, Fault{Line: line, Key: shortened(key), Code: code, Value: shortened(value)})
	return false
}

func (r *tomlReader) peek() byte {
	if r.at < len(r.text) {
		return r.text[r.at]
	}
	return 0
}

func (r *tomlReader) follows(s string) bool { return strings.HasPrefix(r.text[r.at:], s) }

func (r *tomlReader) spaces() {
	for r.at < len(r.text) && (r.text[r.at] == ' ' || r.text[r.at] == '\t') {
		r.at++
	}
}

// rest is what is left of the line, without its end: a carriage return alone is none.
func (r *tomlReader) rest() string {
	line, _, ended := strings.Cut(r.text[r.at:], "\n")
	if !ended {
		return line
	}
	return strings.TrimSuffix(line, "\r")
}

// nextLine leaves the rest of the line.
func (r *tomlReader) nextLine() {
	if end := strings.IndexByte(r.text[r.at:], '\n'); end >= 0 {
		r.at += end + 1
		r.line++
		return
	}
	r.at = len(r.text)
}

// statement reads one line, or the several of a long string.
func (r *tomlReader) statement() {
	r.spaces()
	ok := true
	switch {
	case r.lineEnds(), r.peek() == '#':
	case r.peek() == '[':
		ok = r.head()
	default:
		ok = r.keyValue()
	}
	if ok {
		r.lineEnd()
	}
	r.nextLine()
}

func (r *tomlReader) lineEnds() bool {
	return r.at == len(r.text) || r.follows("\n") || r.follows("\r\n")
}

// lineEnd asks that nothing but a comment is left of the line.
func (r *tomlReader) lineEnd() {
	r.spaces()
	if r.lineEnds() {
		return
	}
	rest := r.rest()
	if rest[0] != '#' {
		r.fault(r.line, "", tomlBehind, rest)
	} else if !tomlSound(rest) {
		r.fault(r.line, "", tomlControl, rest)
	}
}

// tomlSound tells whether a text has no character that TOML forbids in strings and comments.
func tomlSound(s string) bool {
	for _, c := range s {
		if c < ' ' && c != '\t' || c == 0x7f {
			return false
		}
	}
	return utf8.ValidString(s)
}

// keyValue reads key = value into the table.
func (r *tomlReader) keyValue() bool {
	line := r.line
	keys, ok := r.keys()
	if !ok {
		return false
	}
	r.spaces()
	name := strings.Join(keys, ".")
	if r.peek() != '=' {
		return r.fault(line, name, tomlNoEquals, r.rest())
	}
	r.at++
	r.spaces()
	value, ok := r.value(name)
	if !ok || r.table == nil {
		return ok
	}
	at, ok := r.reach(r.table, keys[:len(keys)-1], true)
	last := keys[len(keys)-1]
	if !ok || at.entry(last) != nil {
		return r.fault(line, name, tomlTwice, "")
	}
	at.add(tomlEntry{last, line, value})
	return true
}
